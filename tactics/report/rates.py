"""A share in words: always with n and its interval, never below ten balls."""

from tactics.review.rates import Rate, Standing


def rate_words(rate: Rate) -> str:
    """Return `69 % (60 to 76 %), n = 140, pattern`, or that there are not enough balls."""
    if rate.standing is Standing.NOT_ENOUGH:
        return f"{rate.standing} (n = {rate.n})"
    return f"{share_words(rate)}, n = {rate.n}, {rate.standing}"


def rate_cell(rate: Rate) -> str:
    """Return the same for a table that has n in a column of its own."""
    if rate.standing is Standing.NOT_ENOUGH:
        return f"{rate.standing} (n = {rate.n})"
    return f"{share_words(rate)}, {rate.standing}"


def share_words(rate: Rate) -> str:
    """Return `69 % (60 to 76 %)`; only from ten balls on."""
    low, high = rate.interval
    return f"{percent(rate.share)} % ({percent(low)} to {percent(high)} %)"


def counted_share(rate: Rate) -> str:
    """Return `11 % (9 to 14 %) of 515`; the count below ten balls, and `none` without any."""
    if not rate.n:
        return "none"
    if rate.standing is Standing.NOT_ENOUGH:
        return f"{rate.count} of {rate.n}"
    return f"{share_words(rate)} of {rate.n}"


def percent(share: float) -> int:
    """Return a share in whole per cent."""
    return round(100 * share)
