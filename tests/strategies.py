"""Hypothesis strategies derived from the vocabulary: no row of the table is named here."""

from datetime import date
from functools import cache
from math import inf

from hypothesis import strategies as st

from tactics.model.ball import Ball, Chart
from tactics.model.choice import Cause, Choice, Outcome
from tactics.model.known import (
    NOT_APPLICABLE,
    NOT_SEEN,
    Absent,
    Known,
    OneOf,
    Within,
    at_least,
    at_most,
    between,
    less_than,
    merged,
    more_than,
    number,
    word,
)
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.model.trait import Kind, Role, Trait
from tactics.model.units import Unit
from tactics.model.verdict import Grade
from tactics.model.vocabulary import Vocabulary
from tactics.source import Span

WIDEST = 1000.0
"""Stands for a limit that a row does not have."""

SOME_UNITS = tuple(unit for unit in Unit if unit is not Unit.SCATTER)


def numbers(trait: Trait) -> st.SearchStrategy[float]:
    """Draw a number that can occur in this row, with three decimals at most, ends included."""
    low = trait.low if trait.low > -inf else -WIDEST
    high = trait.high if trait.high < inf else WIDEST
    limits = {low, high, *(limit for each in trait.words for limit in (each.low, each.high))}
    steps = st.integers(min_value=0, max_value=1000).map(
        lambda share: round(low + (high - low) * share / 1000, 3)
    )
    return st.sampled_from(sorted(limit for limit in limits if low <= limit <= high)) | steps


@cache
def exact_values(trait: Trait) -> st.SearchStrategy[Known]:
    """Draw one word, or one number, of a row of words or numbers."""
    if trait.kind is Kind.NUMBER:
        return numbers(trait).map(number)
    return st.sampled_from([word(each.name) for each in trait.words])


def _several_words(trait: Trait) -> st.SearchStrategy[Known]:
    names = st.sets(st.sampled_from([each.name for each in trait.words]), min_size=1)
    return names.map(lambda chosen: OneOf(frozenset(chosen)))


def _bands(trait: Trait) -> st.SearchStrategy[Known]:
    intervals = st.sampled_from([each.interval for each in trait.words])
    return st.lists(intervals, min_size=1, max_size=3).map(lambda some: Within(merged(some)))


def _ranges(trait: Trait) -> st.SearchStrategy[Known]:
    ends = st.tuples(numbers(trait), numbers(trait)).map(sorted)
    one_sided = st.builds(
        lambda make, limit: Within((make(limit),)),
        st.sampled_from([at_least, more_than, at_most, less_than]),
        numbers(trait),
    )
    return ends.map(lambda pair: Within((between(pair[0], pair[1]),))) | one_sided


def _mixed(trait: Trait) -> st.SearchStrategy[Known]:
    """Draw a band or a range: `waist or 0.5 to 0.6`."""
    return st.tuples(_bands(trait), _ranges(trait)).map(
        lambda pair: Within(merged(interval for each in pair for interval in each.intervals))
    )


def seen_values(trait: Trait) -> st.SearchStrategy[Known]:
    """Draw anything a coach can note in a row of words or numbers, sets of values included."""
    if trait.kind is not Kind.NUMBER:
        return exact_values(trait) | _several_words(trait)
    forms = [exact_values(trait), _ranges(trait)]
    return st.one_of([_bands(trait), *forms, _mixed(trait)] if trait.words else forms)


@cache
def known_values(trait: Trait) -> st.SearchStrategy[Known]:
    """Draw what `seen_values` draws, or that the fact does not apply here."""
    return st.one_of(seen_values(trait), seen_values(trait), st.just(NOT_APPLICABLE))


def _noted(draw: st.DrawFn, traits: tuple[Trait, ...]) -> dict[str, Known]:
    chosen = draw(st.sets(st.integers(0, len(traits) - 1), max_size=len(traits)))
    return {traits[at].folded: draw(known_values(traits[at])) for at in sorted(chosen)}


@st.composite
def situations(draw: st.DrawFn, words: Vocabulary = STANDARD) -> Situation:
    """Draw a partial situation: any facts, known exactly, roughly, or not applicable.

    Nothing keeps the facts from contradicting one another.
    """
    return Situation.of(_noted(draw, words.facts))


@st.composite
def coherent_situations(draw: st.DrawFn, words: Vocabulary = STANDARD) -> Situation:
    """Draw a partial situation with one game situation and no fact that is absent in it."""
    phase = draw(st.sampled_from([each.name for each in words.trait("game situation").words]))
    facts = tuple(trait for trait in words.facts if phase not in trait.absent_in)
    noted = {
        name: known for name, known in _noted(draw, facts).items() if known is not NOT_APPLICABLE
    }
    return Situation.of({**noted, "game situation": word(phase)})


@st.composite
def full_situations(draw: st.DrawFn, words: Vocabulary = STANDARD) -> Situation:
    """Draw a situation in which every fact that exists is known exactly.

    Derived facts are left for the program to derive.
    """
    phase = draw(st.sampled_from([each.name for each in words.trait("game situation").words]))
    facts = {
        trait.folded: draw(exact_values(trait))
        for trait in words.facts
        if not trait.derived and phase not in trait.absent_in
    }
    return Situation.of({**facts, "game situation": word(phase)})


def _inside(trait: Trait, known: Known) -> st.SearchStrategy[Known]:
    match known:
        case Absent():
            return exact_values(trait) if known is NOT_SEEN else st.just(known)
        case OneOf(some):
            return st.sampled_from([word(each) for each in sorted(some)])
        case Within(intervals):
            return numbers_inside(intervals).map(number)


def numbers_inside(intervals) -> st.SearchStrategy[float]:
    """Draw a number from one of the intervals; open ends reach `WIDEST` beyond the other end."""

    def _of(interval):
        low, high = interval.low[0], interval.high[0]
        low = low if low > -inf else min(high, 0.0) - WIDEST
        high = high if high < inf else max(low, 0.0) + WIDEST
        return st.floats(
            min_value=low,
            max_value=high,
            exclude_min=interval.low[1] == 1,
            exclude_max=interval.high[1] == 0,
        )

    return st.one_of([_of(interval) for interval in intervals])


@st.composite
def completions(draw: st.DrawFn, situation: Situation, words: Vocabulary = STANDARD) -> Situation:
    """Draw an exact situation that the given one leaves possible; derived facts stay as noted.

    A fact not seen that does not exist in the game situation is not applicable.
    """
    facts = {
        trait.folded: draw(_inside(trait, situation.get(trait.folded)))
        for trait in words.facts
        if not (trait.derived and situation.get(trait.folded) is NOT_SEEN)
    }
    phase = facts.get("game situation")
    for trait in words.facts:
        if (
            trait.folded in facts
            and situation.get(trait.folded) is NOT_SEEN
            and isinstance(phase, OneOf)
            and phase.words <= trait.absent_in
        ):
            facts[trait.folded] = NOT_APPLICABLE
    return Situation.of(facts)


@st.composite
def choices(draw: st.DrawFn, words: Vocabulary = STANDARD) -> Choice:
    """Draw a choice: any parts, known exactly, roughly, or not applicable."""
    return Choice.of(_noted(draw, words.parts))


@st.composite
def full_choices(draw: st.DrawFn, words: Vocabulary = STANDARD) -> Choice:
    """Draw a choice in which every part is charted exactly."""
    return Choice.of(
        {trait.folded: draw(exact_values(trait)) for trait in words.parts if not trait.derived}
    )


@st.composite
def outcomes(draw: st.DrawFn, words: Vocabulary = STANDARD) -> Outcome:
    """Draw an outcome, each of its words noted or not."""
    fields = {}
    for name, unset in (
        ("landed", ""), ("as intended", ""), ("ending", ""), ("quality", ""), ("point won", ""),
        ("disturbed", "no"),
    ):  # fmt: skip
        names = [each.name for each in words.trait(name).words]
        fields[name.replace(" ", "_")] = draw(st.sampled_from([unset, *names]))
    return Outcome(**fields)


def texts(max_size: int = 30) -> st.SearchStrategy[str]:
    """Draw a text a cell can hold: anything a coach may paste, without space at its ends."""
    letters = st.characters(exclude_categories=("Cs",), exclude_characters="\0")
    return st.text(letters, max_size=max_size).map(str.strip)


def dates() -> st.SearchStrategy[str]:
    """Draw an ISO date, or none."""
    days = st.dates(min_value=date(1990, 1, 1), max_value=date(2100, 12, 31))
    return st.just("") | days.map(date.isoformat)


@st.composite
def balls(draw: st.DrawFn, words: Vocabulary = STANDARD) -> Ball:
    """Draw a charted ball."""
    marks = [Grade(each.name) for each in words.trait("coach's mark").words]
    return Ball(
        situation=draw(situations(words)),
        choice=draw(choices(words)),
        outcome=draw(outcomes(words)),
        date=draw(dates()),
        player=draw(texts()),
        lesson=draw(texts()),
        point=draw(texts(4)),
        ball=draw(texts(4)),
        note=draw(texts()),
        cause=draw(st.none() | st.sampled_from(list(Cause))),
        mark=draw(st.none() | st.sampled_from(marks)),
        span=Span(file="drawn", line=1),
    )


def charts(
    words: Vocabulary = STANDARD, *, min_size: int = 0, max_size: int = 8
) -> st.SearchStrategy[Chart]:
    """Draw a chart of a few balls."""
    some = st.lists(balls(words), min_size=min_size, max_size=max_size)
    return some.map(lambda drawn: Chart(name="drawn", balls=tuple(drawn)))


@st.composite
def own_traits(draw: st.DrawFn) -> Trait:
    """Draw a fact a rule set may declare itself: words, or a number with a unit and bands."""
    name = "own " + draw(st.sampled_from(["reach", "shift", "noise", "gap"]))
    if draw(st.booleans()):
        names = draw(st.sets(st.sampled_from(["none", "left over", "some", "much"]), min_size=2))
        own = STANDARD.trait("balance").words[0]
        some = tuple(type(own)(name=each) for each in sorted(names))
        return Trait(name=name, role=Role.FACT, kind=Kind.WORDS, words=some, own=True)
    return Trait(
        name=name, role=Role.FACT, kind=Kind.NUMBER, unit=draw(st.sampled_from(SOME_UNITS)),
        low=0.0, high=draw(st.sampled_from([1.0, 12.0, 200.0])), own=True,
    )  # fmt: skip


def vocabularies() -> st.SearchStrategy[Vocabulary]:
    """Draw the standard vocabulary, or a copy with a rule set's own facts."""
    return st.just(STANDARD) | st.lists(own_traits(), max_size=2).map(STANDARD.with_own)
