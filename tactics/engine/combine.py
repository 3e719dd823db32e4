"""Rules that apply -> one standard for each part, and what a choice makes of it.

Here every rule either applies or does not; what is not known is settled before (see judge).
"""

from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass
from functools import reduce
from operator import and_

from tactics.engine.program import Program, ReadyRule
from tactics.model.rule import Strength
from tactics.model.verdict import Grade

MASK_OF_NONE = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Standard:
    """What the rules leave of one part. Rules are numbers of the program.

    allowed: the cells left (0: no common answer); must_allowed: what the musts alone leave.
    yielded: shoulds that no must-keeping answer can keep; overruled: rules of lower concerns.
    clashing: deciding rules that leave no common answer.
    """

    part: str
    rank: int
    allowed: int
    must_allowed: int
    musts: tuple[int, ...]
    shoulds: tuple[int, ...]
    yielded: tuple[int, ...]
    overruled: tuple[int, ...]
    clashing: tuple[int, ...]

    @property
    def deciding(self) -> tuple[int, ...]:
        """Return the rules that decide the part, musts first."""
        return (*self.musts, *self.shoulds)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartFinding:
    """Grade of one part: rules charged (or deciding), all that decided, whose option excused.

    allowed: the cells that the deciding rules leave (0: nothing in common, or nobody decided).
    """

    part: str
    grade: Grade
    rules: tuple[int, ...]
    deciding: tuple[int, ...] = ()
    allowed: int = 0
    option_of: int | None = None


def unbeaten(program: Program, applying: Iterable[int]) -> tuple[int, ...]:
    """Return the rules that apply and that no unbeaten rule sets aside, lowest number first."""
    waiting, kept, beaten = set(applying), [], set[int]()
    for place in program.beating_order:
        if place in waiting and place not in beaten:
            kept.append(place)
            beaten |= program.ready[place].beats
    return tuple(sorted(kept))


def standards(
    program: Program, active: Iterable[int], parts: Container[str] | None = None
) -> dict[str, Standard]:
    """Return the standard of every part (of `parts`) that an active must or should speaks about."""
    speaking: dict[str, list[tuple[int, int]]] = {}
    for place in active:
        rule = program.ready[place]
        if not rule.is_option_only:
            for part, mask in rule.advice:
                if parts is not None and part not in parts:
                    continue
                speaking.setdefault(part, []).append((place, mask))
    return {part: _standard(program, part, pairs) for part, pairs in speaking.items()}


def _standard(program: Program, part: str, pairs: list[tuple[int, int]]) -> Standard:
    ready = program.ready
    rank = min(ready[place].rank for place, _ in pairs)
    deciding = [(place, mask) for place, mask in pairs if ready[place].rank == rank]
    everything = program.grid.axes[part].everything
    musts = [(p, mask) for p, mask in deciding if ready[p].rule.strength is Strength.MUST]
    shoulds = [(p, mask) for p, mask in deciding if ready[p].rule.strength is Strength.SHOULD]
    must_allowed = _common(everything, musts)
    yielded = [p for p, mask in shoulds if must_allowed and not mask & must_allowed]
    narrowing = [(p, mask) for p, mask in shoulds if p not in yielded]
    allowed = _common(must_allowed, narrowing)
    at_odds = narrowing if must_allowed else musts
    return Standard(
        part=part,
        rank=rank,
        allowed=allowed,
        must_allowed=must_allowed,
        musts=tuple(p for p, _ in musts),
        shoulds=tuple(p for p, _ in narrowing),
        yielded=tuple(yielded),
        overruled=tuple(p for p, _ in pairs if ready[p].rank != rank),
        clashing=() if allowed else tuple(p for p, _ in at_odds),
    )


def _common(start: int, pairs: Iterable[tuple[int, int]]) -> int:
    return reduce(and_, (mask for _, mask in pairs), start)


def find(
    program: Program, active: tuple[int, ...], charted: Mapping[str, int]
) -> list[PartFinding]:
    """Return a finding for every charted part that a rule speaks about, in the order charted.

    charted: part -> cells. Where no must or should speaks about any charted part, a met option
    makes its parts acceptable; otherwise nothing is found.
    """
    ruling = standards(program, active, charted)
    options = _met_options(program, active, charted)
    findings = [
        _finding(program, ruling[part], mask, options)
        for part, mask in charted.items()
        if part in ruling
    ]
    if findings:
        return findings
    return [
        PartFinding(part=part, grade=Grade.ACCEPTABLE, rules=(place,), option_of=place)
        for part in charted
        for place in [next((p for p, parts in options if part in parts), None)]
        if place is not None
    ]


def _met_options(
    program: Program, active: Iterable[int], charted: Mapping[str, int]
) -> list[tuple[int, frozenset[str]]]:
    """Return (owner, parts) of every option none of whose charted parts is missed."""
    return [
        (place, frozenset(part for part, _ in option))
        for place in active
        for option in program.ready[place].options
        if all(charted.get(part, mask) & mask for part, mask in option)
    ]


def _finding(
    program: Program, ruling: Standard, mask: int, options: list[tuple[int, frozenset[str]]]
) -> PartFinding:
    broken_musts = _broken(program, ruling.part, ruling.musts, mask)
    if not broken_musts and not mask & ruling.must_allowed:
        broken_musts = ruling.musts  # each could be kept alone, all of them cannot
    broken_shoulds = _broken(program, ruling.part, ruling.shoulds, mask)
    if not broken_musts and not broken_shoulds and not mask & ruling.allowed:
        broken_shoulds = ruling.shoulds
    broken = (*broken_musts, *broken_shoulds)
    must_clash = not ruling.must_allowed
    if must_clash or (ruling.clashing and not broken_musts):
        return PartFinding(part=ruling.part, grade=Grade.UNDECIDED, rules=ruling.clashing)
    if not broken:
        return PartFinding(
            part=ruling.part,
            grade=Grade.SOUND,
            rules=ruling.deciding,
            deciding=ruling.deciding,
            allowed=ruling.allowed,
        )
    owner = _excusing(program, ruling, options, bool(broken_musts))
    if owner is not None:
        grade = Grade.ACCEPTABLE
    else:
        grade = Grade.UNSOUND if broken_musts else Grade.DOUBTFUL
    return PartFinding(
        part=ruling.part,
        grade=grade,
        rules=broken,
        deciding=ruling.deciding,
        allowed=ruling.allowed,
        option_of=owner,
    )


def _excusing(
    program: Program,
    ruling: Standard,
    options: list[tuple[int, frozenset[str]]],
    against_must: bool,
) -> int | None:
    """Return the owner of a met option for this part; none outranks a must above its concern."""
    for owner, parts in options:
        if ruling.part in parts and not (against_must and program.ready[owner].rank > ruling.rank):
            return owner
    return None


def _broken(program: Program, part: str, places: Iterable[int], mask: int) -> tuple[int, ...]:
    return tuple(p for p in places if not advice_on(program.ready[p], part) & mask)


def advice_on(rule: ReadyRule, part: str) -> int:
    """Return the cells a rule asks for in a part, 0 where it does not speak about it."""
    return dict(rule.advice).get(part, MASK_OF_NONE)


_WORST_FIRST = (Grade.UNSOUND, Grade.UNDECIDED, Grade.DOUBTFUL, Grade.ACCEPTABLE, Grade.SOUND)


def worst(findings: Iterable[PartFinding]) -> Grade:
    """Return the grade of the whole choice; undecided where nothing was found."""
    grades = {finding.grade for finding in findings}
    return next((grade for grade in _WORST_FIRST if grade in grades), Grade.UNDECIDED)
