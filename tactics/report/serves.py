"""Serves by road in words: shares, points won, and what would make the roads win equally."""

from collections.abc import Iterator

from tactics.report.layout import Section, bullet, counted, wrapped
from tactics.report.rates import percent
from tactics.review.rates import PATTERN_LESSONS, PATTERN_N, SMALLEST_N, Rate, Standing
from tactics.review.serves import LEANS, ServeGroup, ServePlace, Serves, ServeSays

TITLE = "Serves: where to, and points won"
NOTE = (
    "Intervals are 95 %, exact (Clopper and Pearson), and take serves as independent. Points won "
    "show no cause: the returner, the score and the day differ too."
)
_WHERE = {"wide": "wide", "at body": "at the body", "T": "to the T"}


def serve_section(found: Serves) -> Section:
    """Return the serves of a chart; empty where no road of ten serves is charted."""
    lines: list[str] = []
    for group in found.groups:
        lines += bullet(f"{group_name(group)}, {counted(group.n, 'serve')}:", "  ")
        for place in group.places:
            lines += wrapped(place_words(place), "    ", "      ")
        for text in verdict_words(group):
            lines += wrapped(text, "    ", "      ")
    if lines:
        lines += [line for text in notes(found) for line in wrapped(text, "  ")]
    return Section(title=TITLE, lines=tuple(lines))


def group_name(group: ServeGroup) -> str:
    """Return `first serve, deuce side, opposite hands`."""
    facts = dict(group.split)
    said = [f"{facts['serve number']} serve"]
    if "serve side" in facts:
        said += [f"{facts['serve side']} side", f"{facts['hands']} hands"]
    return ", ".join(said)


def place_words(place: ServePlace) -> str:
    """Return `wide 12 of 31, 39 % (22 to 58 %); won 7 of 12, 58 % (28 to 85 %)`."""
    used = f"{_WHERE[place.name]} {_share(place.used, place.used_interval)}"
    if not place.won.n:
        return f"{used}; points not noted" if place.used.count else used
    return f"{used}; won {_share(place.won, place.won_interval)}"


def _share(rate: Rate, interval: tuple[float, float]) -> str:
    if rate.standing is Standing.NOT_ENOUGH:
        return f"{rate.count} of {rate.n}"
    low, high = interval
    return (
        f"{rate.count} of {rate.n}, {percent(rate.share)} % ({percent(low)} to {percent(high)} %)"
    )


def verdict_words(group: ServeGroup) -> Iterator[str]:
    """Yield what may be said of the win rates, and the mix that would make them equal."""
    match group.says:
        case ServeSays.NOT_ENOUGH:
            yield f"Equal win rates: not enough serves yet; still needed: {_needed(group)}."
        case ServeSays.EVEN:
            yield "Win rates: no difference beyond chance, so there is no reason to move serves."
        case ServeSays.UNEVEN:
            yield "Win rates differ beyond chance, all groups allowed for."
            named = ", ".join(_even(p) for p in group.places if p.even_share)
            low, middle, high = (10 * lean for lean in LEANS)
            yield (
                f"Equal win rates, an estimate: {named}. It assumes that a road loses "
                f"{middle:g} points of its win rate for every 10 points more of the serves (the "
                f"range: {low:g} to {high:g}), as returners lean towards what they see often."
            )


def _needed(group: ServeGroup) -> str:
    """Return what is missing until the win rates of the roads used can be compared."""
    used = [place for place in group.places if place.used.count]
    if len(used) < 2:
        return "serves on a second road"
    said = [
        f"{counted(PATTERN_N - place.won.n, 'point')} {_WHERE[place.name]}"
        for place in used
        if place.won.n < PATTERN_N
    ]
    lessons = PATTERN_LESSONS - min(place.won.lessons for place in used)
    if lessons > 0:
        said.append(counted(lessons, "lesson or match", "lessons or matches"))
    return ", ".join(said)


def _even(place: ServePlace) -> str:
    low, middle, high = place.even_share
    ends = sorted((percent(low), percent(high)))
    return f"{_WHERE[place.name]} {percent(middle)} % ({ends[0]} to {ends[1]} %)"


def notes(found: Serves) -> Iterator[str]:
    """Yield how the numbers are to be read and what is not among them."""
    yield NOTE
    if found.small:
        kinds = counted(found.small, "kind")
        yield f"{kinds} of serve with fewer than {SMALLEST_N} balls not shown."
    if found.no_place:
        yield f"{counted(found.no_place, 'serve')} without a charted road."
