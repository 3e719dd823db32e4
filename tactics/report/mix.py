"""Mix rules and what was seen of them, in words; shares always with n and an exact interval."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from tactics.model.condition import All, Condition, Test
from tactics.model.known import OneOf
from tactics.model.mix_rule import SMALLEST_MIX, MixRule, MixSays, Share
from tactics.model.vocabulary import Vocabulary
from tactics.reading.shares import NUMBER_WORDS
from tactics.reading.wording import both, either
from tactics.report.layout import Section, bullet, counted, wrapped
from tactics.report.rates import percent
from tactics.report.rule_words import condition_words
from tactics.report.words import names_in
from tactics.review.mix import MixGroup, MixReview, Place
from tactics.review.mix_sorting import REST, SHARE
from tactics.review.rates import Rate, Standing

TITLE = "Shares over many balls"
CAUTION = (
    "Intervals are 95 %, exact (Clopper and Pearson), and take balls as independent, which balls "
    "of one lesson are not quite. Points won stand beside the shares and show no cause: the balls "
    "are few, and the returner, the score and the day differ too."
)
_WHERE: Mapping[tuple[str, str], str] = MappingProxyType(
    {
        ("direction", "T"): "to the T",
        ("direction", "at body"): "at the body",
        ("direction", "middle"): "through the middle",
        ("direction", "sharp angle"): "at a sharp angle",
        ("direction", "behind"): "behind them",
        ("finds", "forehand"): "to the forehand",
        ("finds", "backhand"): "to the backhand",
        ("finds", "body"): "at the body",
    }
)
_ROADS = frozenset({"direction", "finds"})
_FACTS_SHOWN = 3
_ALL_PER_CENT, _ALL_PER_MILLE = 100, 1000


def mix_section(reviews: Sequence[MixReview], words: Vocabulary) -> Section:
    """Return what every mix rule of a set found, those with something to say first."""
    ordered = sorted(reviews, key=lambda review: not _is_broken(review))
    lines = [line for review in ordered for line in mix_lines(review, words)]
    note = wrapped(CAUTION, "  ") if any(review.groups for review in reviews) else ()
    return Section(title=TITLE, lines=(*lines, *note))


def mix_lines(review: MixReview, words: Vocabulary) -> tuple[str, ...]:
    """Return what one mix rule found: a paragraph for each group of balls."""
    mix = review.mix
    lines = [*wrapped(f"{mix.title} [{mix.id}]", "  ")]
    if not review.groups:
        lines += wrapped(f"no {mix.balls} yet", "    ")
    for group in review.groups:
        lines += _group_lines(group, mix, words)
    if review.left_out:
        lines += wrapped(_left_out(review, words), "    ", "      ")
    if _is_broken(review) and mix.cue:
        lines += wrapped(f"Cue: {mix.cue}", "    ")
    return tuple(lines)


def _left_out(review: MixReview, words: Vocabulary) -> str:
    """Return how many balls could not be counted, and what was not charted on them."""
    facts = both(
        f"{words.trait(fact).name} on {count}" for fact, count in review.missing[:_FACTS_SHOWN]
    )
    further = len(review.missing) - _FACTS_SHOWN
    more = f" (and {counted(further, 'further fact')})" if further > 0 else ""
    balls = counted(review.left_out, "more ball")
    return f"{balls} could not be counted; not charted: {facts}{more}"


def _is_broken(review: MixReview) -> bool:
    return any(
        place.says in (MixSays.TOO_OFTEN, MixSays.TOO_RARELY)
        for group in review.groups
        for place in group.places
    )


def _group_lines(group: MixGroup, mix: MixRule, words: Vocabulary) -> tuple[str, ...]:
    name = both(f"{words.trait(fact).name} {word}" for fact, word in group.split)
    start = f"{name}: " if name else ""
    told = [place for place in group.places if place.says is not None]
    if told[0].says is MixSays.NOT_ENOUGH:
        return bullet(f"{start}{not_enough(mix, group.n)}", "    ")
    broken = [place for place in told if place.says is not MixSays.KEPT]
    lines = [
        line
        for place in broken or told[:1]
        for line in bullet(f"{start}{place_words(place, mix, words)}", "    ")
    ]
    return (*lines, *_others(group, broken or told[:1], mix, words), *_won(group, mix, words))


def not_enough(mix: MixRule, n: int) -> str:
    """Return `not enough first serves yet (n = 7)`, and how many are asked where it is more."""
    asked = f", asked over at least {mix.over}" if n >= SMALLEST_MIX else ""
    return f"not enough {mix.balls} yet (n = {n}{asked})"


def place_words(place: Place, mix: MixRule, words: Vocabulary) -> str:
    """Return `13 of 16 to the T (81 %, 54 to 96 %), asked for at most two in three: early sign`."""
    return (
        f"{place.seen.count} of {place.seen.n} {where(place.name, mix, words)} "
        f"({_per_cent(place.seen, place.interval)}), asked for {limit_words(mix)}: {_judged(place)}"
    )


def _per_cent(rate: Rate, interval: tuple[float, float]) -> str:
    low, high = interval
    return f"{percent(rate.share)} %, {percent(low)} to {percent(high)} %"


def _judged(place: Place) -> str:
    if place.says is MixSays.KEPT:
        return f"kept, {place.standing}" if place.standing is not Standing.PATTERN else "kept"
    if place.beyond_chance:
        return f"{place.standing}, beyond what chance would do"
    return f"{place.standing}; chance alone could still explain it"


def _others(
    group: MixGroup, told: Sequence[Place], mix: MixRule, words: Vocabulary
) -> tuple[str, ...]:
    """Return the other words in a line, where each word is a share of its own."""
    others = [place for place in group.places if place not in told and place.name != REST]
    said = [f"{place.seen.count} {where(place.name, mix, words)}" for place in others]
    return wrapped(f"the others: {', '.join(said)}", "      ") if said else ()


def _won(group: MixGroup, mix: MixRule, words: Vocabulary) -> tuple[str, ...]:
    said = [
        f"{_points(place)} {where(place.name, mix, words)}" for place in group.places if place.won.n
    ]
    return wrapped(f"points won: {', '.join(said)}", "      ") if said else ()


def _points(place: Place) -> str:
    """Return `21 of 38 (55 %, 38 to 71 %)`; below ten points the count only."""
    won = place.won
    if won.standing is Standing.NOT_ENOUGH:
        return f"{won.count} of {won.n}"
    return f"{won.count} of {won.n} ({_per_cent(won, place.won_interval)})"


def where(name: str, mix: MixRule, words: Vocabulary) -> str:
    """Return a place as the end of `13 of 16 ...`."""
    if name == REST:
        return "of the others"
    if name != SHARE:
        return word_where(mix.any_one, name, words)
    return share_words(mix.share, words)


def share_words(share: Condition, words: Vocabulary) -> str:
    """Return what a share is, as the end of `13 of 16 ...`."""
    tests = share.inside if isinstance(share, All) else (share,)
    return both(_test_words(each, words) for each in tests)


def _test_words(condition: Condition, words: Vocabulary) -> str:
    if isinstance(condition, Test) and isinstance(condition.allowed, OneOf):
        names = names_in(condition.allowed, words.trait(condition.name))
        if condition.name in _ROADS or len(names) == 1:
            return either(word_where(condition.name, name, words) for name in names)
    return f"with {condition_words(condition, words)}"


def word_where(fact: str, name: str, words: Vocabulary) -> str:
    """Return one word of a fact or part: `to the T`, `with intent drop`."""
    plain = name if fact in _ROADS else f"with {words.trait(fact).name} {name}"
    return _WHERE.get((fact, name), plain)


def limit_words(mix: MixRule) -> str:
    """Return `at most two in three`."""
    said = []
    if mix.at_least is not None:
        said.append(f"at least {fraction_words(mix.at_least)}")
    if mix.at_most is not None:
        said.append(f"at most {fraction_words(mix.at_most)}")
    return both(said)


def fraction_words(share: Share) -> str:
    """Return `two in three`, `13 in 40` or `66 %`."""
    if share.of == _ALL_PER_CENT:
        return f"{share.count} %"
    if share.of == _ALL_PER_MILLE:
        return f"{share.count / 10:g} %"
    if share.count > 0 and share.of <= len(NUMBER_WORDS):
        return f"{NUMBER_WORDS[share.count - 1]} in {NUMBER_WORDS[share.of - 1]}"
    return f"{share.count} in {share.of}"


def asked_words(mix: MixRule, words: Vocabulary) -> str:
    """Return what a mix rule asks, as one sentence without its end."""
    share = (
        f"to any one {words.trait(mix.any_one).name}"
        if mix.any_one
        else share_words(mix.share, words)
    )
    apart = both(words.trait(name).name for name in mix.for_each)
    each = f", for each {apart}" if apart else ""
    return f"{limit_words(mix)} {share}{each}, over at least {mix.over} {mix.balls}"
