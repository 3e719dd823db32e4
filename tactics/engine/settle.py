"""Completions -> one verdict: what all agree on, and the fact that would decide the rest."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from tactics.engine.combine import PartFinding
from tactics.engine.program import Program
from tactics.model.known import Known
from tactics.model.rule import Strength
from tactics.model.verdict import BROKEN, KEPT, Finding, Grade, Reason, Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Completion:
    """What is found when the facts that matter are `given` (fact -> cells).

    applying: the rules that apply then, beaten ones included.
    """

    given: Mapping[str, int]
    findings: tuple[PartFinding, ...]
    grade: Grade
    applying: tuple[int, ...]


_SEVERITY = {
    Grade.UNSOUND: 0,
    Grade.DOUBTFUL: 1,
    Grade.UNDECIDED: 2,
    Grade.ACCEPTABLE: 3,
    Grade.SOUND: 4,
}


def settle(
    program: Program,
    charted: Mapping[str, Known],
    completions: Sequence[Completion],
    unseen: Mapping[str, tuple[str, ...]],
) -> Verdict:
    """Return the verdict that every completion supports.

    charted: part -> what was charted, in the order of the vocabulary. unseen: what a derived
    fact is to be called when it is missing (the facts it rests on).
    """
    possible = frozenset(completion.grade for completion in completions)
    grade = overall(possible)
    worst = min(completions, key=lambda completion: _SEVERITY[completion.grade])
    open_grade = grade is Grade.UNDECIDED and len(possible) > 1
    return Verdict(
        grade=grade,
        possible=possible,
        findings=tuple(_findings(program, charted, completions)),
        deciding=_deciding(program, worst),
        reason=_reason(possible, grade, worst),
        missing=_missing(completions, unseen) if open_grade else (),
        clashing=_clashing(program, worst) if grade is Grade.UNDECIDED else (),
        spoke=_ids(program, completions, _spoke),
        charged=_ids(program, completions, _charged),
    )


def _spoke(completion: Completion) -> frozenset[int]:
    return frozenset(place for finding in completion.findings for place in finding.deciding)


def _charged(completion: Completion) -> frozenset[int]:
    return frozenset(
        place
        for finding in completion.findings
        if finding.grade in BROKEN
        for place in finding.rules
    )


def _ids(
    program: Program,
    completions: Sequence[Completion],
    places_of: Callable[[Completion], frozenset[int]],
) -> tuple[str, ...]:
    """Return the ids of the rules that are among `places_of` in every completion."""
    common = frozenset.intersection(*(places_of(completion) for completion in completions))
    return tuple(program.ready[place].rule.id for place in sorted(common))


def overall(possible: frozenset[Grade]) -> Grade:
    """Return the one grade that a set of possible grades supports."""
    if len(possible) == 1:
        return next(iter(possible))
    return Grade.ACCEPTABLE if possible <= KEPT else Grade.UNDECIDED


def _reason(possible: frozenset[Grade], grade: Grade, worst: Completion) -> Reason | None:
    if grade is not Grade.UNDECIDED:
        return None
    if len(possible) > 1:
        return Reason.FACT_NOT_SEEN
    return Reason.CONFLICT if worst.findings else Reason.NO_RULE


def _findings(
    program: Program, charted: Mapping[str, Known], completions: Sequence[Completion]
) -> Iterable[Finding]:
    for part, known in charted.items():
        found = [
            finding
            for completion in completions
            for finding in completion.findings
            if finding.part == part
        ]
        if found:
            yield _finding(program, known, found, len(completions))


def _finding(
    program: Program,
    known: Known,
    found: Sequence[PartFinding],
    count: int,
) -> Finding:
    grades = frozenset(finding.grade for finding in found)
    if len(found) < count and not grades <= KEPT:
        grades |= {Grade.SOUND}  # in some completions nobody speaks about the part
    finding = min(found, key=lambda each: _SEVERITY[each.grade])
    owner = finding.option_of
    return Finding(
        part=finding.part,
        grade=overall(grades),
        charted=known,
        wanted=program.grid.axes[finding.part].allowed_of(finding.allowed)
        if finding.allowed
        else None,
        rules=tuple(program.ready[place].rule.id for place in finding.rules),
        option_of="" if owner is None else program.ready[owner].rule.id,
    )


def _deciding(program: Program, worst: Completion) -> str:
    """Return the rule to explain first: of the worst finding, a must before a should."""
    if not worst.findings:
        return ""
    gravest = min(_SEVERITY[finding.grade] for finding in worst.findings)
    places = [
        place
        for finding in worst.findings
        if _SEVERITY[finding.grade] == gravest
        for place in finding.rules
    ]
    ready = program.ready
    ranked = (
        (ready[p].rule.strength is not Strength.MUST, ready[p].rank, ready[p].rule.id)
        for p in places
    )
    return min(ranked, default=(False, 0, ""))[2]


def _clashing(program: Program, worst: Completion) -> tuple[str, ...]:
    places = {
        place
        for finding in worst.findings
        if finding.grade is Grade.UNDECIDED
        for place in finding.rules
    }
    return tuple(program.ready[place].rule.id for place in sorted(places))


def _missing(
    completions: Sequence[Completion], unseen: Mapping[str, tuple[str, ...]]
) -> tuple[str, ...]:
    """Return the facts that matter, the one whose knowledge would settle most first."""
    facts = [fact for fact in completions[0].given if _changes_anything(completions, fact)]
    ranked = sorted(facts, key=lambda fact: (*_left_open(completions, fact), facts.index(fact)))
    names = (name for fact in ranked for name in unseen.get(fact, (fact,)))
    return tuple(dict.fromkeys(names))


def _changes_anything(completions: Sequence[Completion], fact: str) -> bool:
    """Say whether there is a way to know everything else in which this fact changes the grade."""
    grades: dict[tuple[int, ...], Grade] = {}
    for completion in completions:
        others = tuple(cells for name, cells in completion.given.items() if name != fact)
        if grades.setdefault(others, completion.grade) is not completion.grade:
            return True
    return False


def _left_open(completions: Sequence[Completion], fact: str) -> tuple[int, int]:
    """Return how many completions stay undecided once the fact is known, and among how many."""
    groups: dict[int, set[Grade]] = {}
    sizes: dict[int, int] = {}
    for completion in completions:
        cells = completion.given[fact]
        groups.setdefault(cells, set()).add(completion.grade)
        sizes[cells] = sizes.get(cells, 0) + 1
    unsettled = sum(
        sizes[cells] for cells, grades in groups.items() if len(grades) > 1 and not grades <= KEPT
    )
    return unsettled, sum(len(grades) for grades in groups.values())
