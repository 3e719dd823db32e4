"""Facts, options and parts of a choice that cannot all be true of one ball, as problems."""

from collections.abc import Callable, Iterator, Sequence

from tactics.charting.possible import surely
from tactics.model.choice import Choice
from tactics.model.condition import Test, tests_in
from tactics.model.known import Known, OneOf, Within
from tactics.model.legality import LEGALITY, Impossible
from tactics.model.names import fold
from tactics.model.situation import Situation
from tactics.problem import Problem, Severity
from tactics.reading.shot_codes import ShotCode
from tactics.reading.wording import both, quoted
from tactics.source import Source, Span

Place = Callable[[Sequence[str]], Span]
"""The names something may go by -> where it was given."""

_IN_FULL_METRES = frozenset({"court depth", "court width", "opponent depth", "incoming depth"})
_SMALL = frozenset({"red", "orange"})
_STATURE_M = (0.8, 2.3)
_NO_CHOICE = Choice()


def clashes(
    situation: Situation,
    place: Place,
    choice: Choice = _NO_CHOICE,
    severity: Severity = Severity.ERROR,
) -> tuple[Problem, ...]:
    """Return what never comes together: of the facts alone, or with a choice of what it adds."""
    known = {**situation.as_dict(), **choice.as_dict()}
    broken = [each for each in LEGALITY if _counts(each, known) and surely(each.when, known)]
    own = [each for each in broken if not choice.parts or _names(each) & set(choice.as_dict())]
    found = [_clash(sorted(_names(each) & set(known)), each.because, place) for each in own]
    if not choice.parts:
        found += _heights(known, place)
    return tuple(_with(problem, severity) for problem in found)


def place_in(sources: Sequence[Source]) -> Place:
    """Return a way to find where a name was given: the first line of all that starts with it."""

    def place(names: Sequence[str]) -> Span:
        for source in sources:
            for number, line in enumerate(source.lines, start=1):
                name = line.removeprefix("choose.").replace(":", "=", 1).partition("=")[0]
                if fold(name) in names:
                    return Span(file=source.name, line=number, width=max(1, len(line)))
        return sources[0].start()

    return place


def contact_clashes(told: Situation, as_met: Situation, place: Place) -> Iterator[Problem]:
    """Yield the facts that say something else than the contact given in numbers."""
    for fact in ("court depth", "court width", "contact height"):
        said, number = told.get(fact), as_met.get(fact)
        if isinstance(said, Within) and isinstance(number, Within) and not _meet(said, number):
            yield _clash([fact, "contact"], "both say where the ball is met", place)


def level_clash(fact: str, option: str, place: Place) -> Iterator[Problem]:
    """Yield the problem of a level that is told twice and not alike."""
    if fact and option and fact != option:
        yield Problem(
            code=ShotCode.CANNOT_BE,
            span=place(["level"]),
            sentence=f"the level is told twice: {fact} as a fact, and {option} as an option",
            hint="keep one of them",
        )


def _clash(names: list[str], because: str, place: Place) -> Problem:
    what = both(map(quoted, names))
    return Problem(
        code=ShotCode.CANNOT_BE,
        span=place([fold(name) for name in names]),
        sentence=f"{what} cannot come together like this: {because}",
        hint="change one of them, or take it out",
    )


def _with(problem: Problem, severity: Severity) -> Problem:
    return Problem(
        code=problem.code,
        span=problem.span,
        sentence=problem.sentence,
        hint=problem.hint,
        severity=severity,
    )


def _names(each: Impossible) -> set[str]:
    return {test.name for test in tests_in(each.when) if isinstance(test, Test)}


def _counts(each: Impossible, known: dict[str, Known]) -> bool:
    """Say whether a line is about this court: its metres are those of a full one."""
    stage = known.get("stage")
    is_small = isinstance(stage, OneOf) and stage.words <= _SMALL
    return not (is_small and _names(each) & _IN_FULL_METRES)


def _heights(known: dict[str, Known], place: Place) -> list[Problem]:
    """Return the problem of a ball whose two heights nobody has the stature for."""
    body, met, tall = (known.get(name) for name in ("body height", "contact height", "stature"))
    if not isinstance(body, Within) or not isinstance(met, Within):
        return []
    shortest, tallest = _ends(tall) if isinstance(tall, Within) else _STATURE_M
    low, high = _ends(body)
    if low * shortest <= _ends(met)[1] and high * tallest >= _ends(met)[0]:
        return []
    because = "nobody is so tall or so short that both heights fit"
    return [_clash(["body height", "contact height"], because, place)]


def _ends(known: Within) -> tuple[float, float]:
    return known.intervals[0].low[0], known.intervals[-1].high[0]


def _meet(said: Within, number: Within) -> bool:
    return any(a.meets(b) for a in said.intervals for b in number.intervals)
