"""Laws of mix rules: no ball is lost, no outcome counts, few balls say nothing."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from tactics.model.ball import Ball
from tactics.model.choice import Choice
from tactics.model.condition import ALWAYS, All, Condition
from tactics.model.condition import Test as Asks
from tactics.model.known import word
from tactics.model.mix_rule import SMALLEST_MIX, MixRule, MixSays, Share
from tactics.model.rule import RuleSet
from tactics.model.situation import in_words
from tactics.model.standard import STANDARD
from tactics.review.mix import MixReview, review_mixes
from tactics.review.mix_sorting import sort_all, sorter
from tactics.review.rates import Standing
from tactics.source import Span
from tests.strategies import balls, outcomes

HERE = Span(file="club.yaml", line=1)
SERVES = Asks(name="game situation", allowed=word("serving"))
TO_THE_T = Asks(name="direction", allowed=word("T"))


def set_of(*mixes: MixRule) -> RuleSet:
    return RuleSet(
        name="Mixes", precedence=("pattern",), mixes=mixes, vocabulary=STANDARD, span=HERE
    )


def mix(of: Condition = ALWAYS, *, any_one: str = "", for_each: tuple[str, ...] = ()) -> MixRule:
    return MixRule(
        id="every-road-open",
        title="Every road open",
        of=of,
        share=ALWAYS if any_one else TO_THE_T,
        any_one=any_one,
        at_most=Share(count=2, of=3),
        for_each=for_each,
        span=HERE,
    )


MIXES = st.builds(
    mix,
    st.sampled_from([ALWAYS, SERVES, All((SERVES, Asks(name="balance", allowed=word("set"))))]),
    any_one=st.sampled_from(["", "direction", "finds", "depth"]),
    for_each=st.lists(
        st.sampled_from(["serve side", "serve number", "hands", "court depth"]), unique=True
    ).map(tuple),
)
CHARTED = st.lists(balls(STANDARD), max_size=6)


def counted(review: MixReview) -> int:
    return sum(place.seen.count for group in review.groups for place in group.places)


@given(MIXES, CHARTED)
def test_every_ball_a_mix_is_about_is_counted_or_named_as_left_out(
    drawn: MixRule, charted: list[Ball]
) -> None:
    everything = replace(drawn, of=ALWAYS)

    (review,) = review_mixes(set_of(everything), charted)

    assert counted(review) + review.left_out == len(charted)
    assert bool(review.missing) == bool(review.left_out)
    assert all(sum(p.seen.count for p in group.places) == group.n for group in review.groups)


@given(MIXES, CHARTED, st.data())
def test_what_became_of_the_balls_changes_no_share(
    drawn: MixRule, charted: list[Ball], data: st.DataObject
) -> None:
    changed = [replace(ball, outcome=data.draw(outcomes(STANDARD))) for ball in charted]

    (before,) = review_mixes(set_of(drawn), charted)
    (after,) = review_mixes(set_of(drawn), changed)

    assert [
        (group.split, [(place.name, place.seen, place.says) for place in group.places])
        for group in before.groups
    ] == [
        (group.split, [(place.name, place.seen, place.says) for place in group.places])
        for group in after.groups
    ]


@given(CHARTED, st.randoms())
def test_the_order_of_the_balls_changes_nothing(charted: list[Ball], rng: object) -> None:
    shuffled = list(charted)
    rng.shuffle(shuffled)

    rules = set_of(mix(any_one="direction", for_each=("serve side",)))

    assert review_mixes(rules, charted) == review_mixes(rules, shuffled)


@given(st.integers(0, 60), st.integers(0, 60), st.integers(1, 9), st.integers(1, 9))
def test_a_limit_is_kept_or_broken_as_the_numbers_say(
    count: int, others: int, few: int, many: int
) -> None:
    n = count + others
    limit = Share(count=min(few, many), of=max(few, many))
    at_most, at_least = replace(mix(), at_most=limit), replace(mix(), at_most=None, at_least=limit)

    over = count * limit.of > limit.count * n
    under = count * limit.of < limit.count * n

    enough = n >= SMALLEST_MIX
    assert (at_most.says(count, n) is MixSays.TOO_OFTEN) == (enough and over)
    assert (at_least.says(count, n) is MixSays.TOO_RARELY) == (enough and under)
    assert (at_most.says(count, n) is MixSays.NOT_ENOUGH) == (not enough)


def serves(counts: dict[str, int], lessons: int = 1) -> list[Ball]:
    return [
        Ball(
            situation=in_words(game_situation="serving"),
            choice=Choice.of({"direction": word(road)}),
            lesson=str(number % lessons),
            span=HERE,
        )
        for road, count in counts.items()
        for number in range(count)
    ]


def test_a_share_that_chance_can_explain_is_never_called_a_pattern() -> None:
    charted = serves({"T": 28, "wide": 12}, lessons=4)

    (review,) = review_mixes(set_of(mix(any_one="direction")), charted)
    first = review.groups[0].places[0]

    assert (first.name, first.says, first.beyond_chance) == ("T", MixSays.TOO_OFTEN, False)
    assert first.standing is Standing.EARLY_SIGN


def test_a_share_beyond_chance_in_enough_balls_and_lessons_is_a_pattern() -> None:
    charted = serves({"T": 38, "wide": 2}, lessons=4)

    (review,) = review_mixes(set_of(mix(any_one="direction")), charted)
    first, second = review.groups[0].places

    assert (first.says, first.standing) == (MixSays.TOO_OFTEN, Standing.PATTERN)
    assert second.says is MixSays.KEPT


def test_balls_the_set_is_not_for_are_not_counted() -> None:
    rules = replace(set_of(mix(any_one="direction")), applies_to=(("format", word("singles")),))
    doubles = [
        replace(ball, situation=ball.situation.with_facts({"format": word("doubles")}))
        for ball in serves({"T": 4})
    ]

    (review,) = review_mixes(rules, [*serves({"wide": 3}), *doubles])

    assert [(place.name, place.seen.count) for place in review.groups[0].places] == [("wide", 3)]


@given(MIXES, CHARTED, st.data())
def test_many_balls_at_once_are_sorted_as_one_by_one(
    rule: MixRule, charted: list[Ball], data: st.DataObject
) -> None:
    other = replace(mix(any_one="finds", for_each=("hands",)), id="another")
    rules = set_of(rule, other)
    many = charted + [data.draw(st.sampled_from(charted)) for _ in charted]

    sort = sorter(rules)

    assert sort_all(rules, many) == [sort(ball) for ball in many]
