"""Shares over many balls against the mix rules of a set."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from tactics.engine.coverage import is_covered
from tactics.model.ball import Ball
from tactics.model.mix_rule import MixRule, MixSays
from tactics.model.rule import RuleSet
from tactics.model.vocabulary import Vocabulary
from tactics.review.exact import exact_interval
from tactics.review.mix_sorting import REST, SHARE, SortedBall, sort_all
from tactics.review.rates import Rate, Standing
from tactics.review.tallies import session_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One share of a group of balls: a word of what is counted, the share, or the rest of them.

    won: points won among these balls, of those whose winner was noted. says: None for the rest,
    which no rule speaks about.
    """

    name: str
    seen: Rate
    won: Rate
    says: MixSays | None
    beyond_chance: bool = False

    @property
    def interval(self) -> tuple[float, float]:
        """Return the exact 95 % interval of the share, 0 to 1."""
        return exact_interval(self.seen.count, self.seen.n)

    @property
    def won_interval(self) -> tuple[float, float]:
        """Return the exact 95 % interval of the share of points won, 0 to 1."""
        return exact_interval(self.won.count, self.won.n)

    @property
    def standing(self) -> Standing:
        """Return what may be said; a limit that chance alone may have broken is no pattern."""
        found = self.seen.standing
        is_broken = self.says in (MixSays.TOO_OFTEN, MixSays.TOO_RARELY)
        if is_broken and not self.beyond_chance and found is Standing.PATTERN:
            return Standing.EARLY_SIGN
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class MixGroup:
    """The balls that agree in every fact a mix tells apart: (fact, word), places, how many."""

    split: tuple[tuple[str, str], ...]
    places: tuple[Place, ...]
    n: int


@dataclass(frozen=True, slots=True, kw_only=True)
class MixReview:
    """What one mix rule finds.

    left_out: balls that could not be counted; missing: fact not charted -> how many of those.
    """

    mix: MixRule
    groups: tuple[MixGroup, ...]
    left_out: int = 0
    missing: tuple[tuple[str, int], ...] = ()


def review_mixes(rules: RuleSet, balls: Sequence[Ball]) -> tuple[MixReview, ...]:
    """Return what each mix rule of a set finds in charted balls, outcomes left out of it.

    Balls the set does not apply to are not counted. Points won stand beside the shares, and no
    verdict looks at them.
    """
    covered = [ball for ball in balls if is_covered(rules, ball.situation)]
    sorted_balls = sort_all(rules, covered)
    return tuple(
        _review(mix, [each[place] for each in sorted_balls], covered, rules.vocabulary)
        for place, mix in enumerate(rules.mixes)
    )


def _review(
    mix: MixRule, found: Sequence[SortedBall | None], balls: Sequence[Ball], words: Vocabulary
) -> MixReview:
    groups: dict[tuple[str, ...], dict[str, list[Ball]]] = {}
    counted = [(each, ball) for each, ball in zip(found, balls, strict=True) if each is not None]
    for each, ball in counted:
        if not each.missing:
            groups.setdefault(each.group, {}).setdefault(each.place, []).append(ball)
    missing = Counter(fact for each, _ in counted for fact in each.missing)
    return MixReview(
        mix=mix,
        groups=tuple(_group(mix, group, groups[group]) for group in _in_order(groups, mix, words)),
        left_out=sum(bool(each.missing) for each, _ in counted),
        missing=tuple(sorted(missing.items(), key=lambda item: (-item[1], item[0]))),
    )


def _in_order(
    groups: Iterable[tuple[str, ...]], mix: MixRule, words: Vocabulary
) -> list[tuple[str, ...]]:
    """Return the groups in the order in which the vocabulary has their words."""
    names = [[word.name for word in words.trait(fact).words] for fact in mix.for_each]
    return sorted(
        groups,
        key=lambda group: [known.index(word) for known, word in zip(names, group, strict=True)],
    )


def _group(mix: MixRule, group: tuple[str, ...], places: dict[str, list[Ball]]) -> MixGroup:
    everything = [ball for balls in places.values() for ball in balls]
    lessons = len({session_of(ball) for ball in everything})
    found = tuple(
        _place(mix, name, balls, len(everything), lessons) for name, balls in _shown(mix, places)
    )
    return MixGroup(
        split=tuple(zip(mix.for_each, group, strict=True)), places=found, n=len(everything)
    )


def _shown(mix: MixRule, places: dict[str, list[Ball]]) -> Iterator[tuple[str, list[Ball]]]:
    """Yield the largest share first where each word is one; else the share and then the rest."""
    if mix.any_one:
        yield from sorted(places.items(), key=lambda item: (-len(item[1]), item[0]))
    else:
        yield SHARE, places.get(SHARE, [])
        yield REST, places.get(REST, [])


def _place(mix: MixRule, name: str, balls: Sequence[Ball], n: int, lessons: int) -> Place:
    says = None if name == REST else mix.says(len(balls), n)
    low, high = exact_interval(len(balls), n)
    beyond = (says is MixSays.TOO_OFTEN and mix.at_most is not None and low > mix.at_most.part) or (
        says is MixSays.TOO_RARELY and mix.at_least is not None and high < mix.at_least.part
    )
    return Place(
        name=name,
        seen=Rate(count=len(balls), n=n, lessons=lessons),
        won=_won(balls),
        says=says,
        beyond_chance=beyond,
    )


def _won(balls: Sequence[Ball]) -> Rate:
    """Return the points won, of the balls whose point has a winner on the chart."""
    noted = [ball for ball in balls if ball.outcome.point_won in ("yes", "no")]
    return Rate(
        count=sum(ball.outcome.point_won == "yes" for ball in noted),
        n=len(noted),
        lessons=len({session_of(ball) for ball in noted}),
    )
