"""Rules of one concern and strength that leave no common answer."""

from collections.abc import Iterator, Sequence
from functools import reduce

from tactics.checks.clauses import is_in
from tactics.checks.finding import Finding, Kind, Progress, Step, Unconfirmed
from tactics.checks.proof import Proof
from tactics.checks.voices import PartVoices
from tactics.checks.witness import Witness, ordinary_cells, tell
from tactics.model.rule import Strength
from tactics.problem import Severity

MOST_A_PART = 40
"""A set that is still full of conflicts gets this many for each part at once."""

Clash = tuple[str, ...]


def find_conflicts(proof: Proof) -> Iterator[Step]:
    """Yield a finding for each smallest group of rules that can leave no common answer.

    Together they are complete: whenever rules clash, one of these groups is among them (unless
    there are too many to list). Parts on which the same group clashes are named together.
    """
    found: dict[Clash, list[str]] = {}
    parts = tuple(proof.voices.by_part)
    for done, part in enumerate(parts):
        yield Progress(check=Kind.CONFLICT, done=done, total=len(parts))
        for clash in _clashes(proof, part):
            found.setdefault(clash, []).append(part)
    for clash, where in found.items():
        yield _finding(proof, clash, tuple(where))


def _clashes(proof: Proof, part: str) -> Iterator[Clash]:
    voices = proof.voices.part(part)
    known: list[int] = []
    for _ in range(MOST_A_PART):
        if not proof.can_hold(voices.clash, *known):
            return
        found = proof.space.clauses.found()
        clash = _smallest(proof, voices, found)
        yield clash
        known.append(-_together(proof, voices, clash))


def _smallest(proof: Proof, voices: PartVoices, found: Sequence[int]) -> Clash:
    """Return a smallest group of the clashing rules whose answers have nothing in common."""

    def holds(literal: int) -> bool:
        return is_in(found, literal)

    musts = [each for each in voices.decides if _is_must(proof, each)]
    group = [each for each in musts if holds(voices.decides[each])]
    if _common(voices, group):
        group += [each for each, literal in voices.narrows.items() if holds(literal)]
    for each in sorted(group, key=lambda each: (_is_must(proof, each), each)):
        without = [other for other in group if other != each]
        if without and not _common(voices, without):
            group = without
    return tuple(sorted(group))


def _is_must(proof: Proof, rule_id: str) -> bool:
    return proof.rules.rule(rule_id).strength is Strength.MUST


def _common(voices: PartVoices, group: Sequence[str]) -> frozenset[int]:
    everything = frozenset(range(len(voices.allows)))
    return reduce(frozenset.__and__, (voices.asked[each] for each in group), everything)


def _together(proof: Proof, voices: PartVoices, clash: Clash) -> int:
    """Return the literal that all of a group decide the part."""
    return proof.space.clauses.every(
        voices.decides[each] if _is_must(proof, each) else voices.narrows[each] for each in clash
    )


def _finding(proof: Proof, clash: Clash, parts: tuple[str, ...]) -> Step:
    voices = proof.voices.part(parts[0])
    together = _together(proof, voices, clash)
    goal = (voices.clash, together)
    edges = proof.edges(*goal)
    asked = [*goal, *(() if edges else proof.off_edges)]
    for other, literal in sorted(voices.decides.items()):
        if other not in clash and proof.can_hold(*asked, -literal):
            asked.append(-literal)  # the example then shows just these rules
    cells = ordinary_cells(proof.space, (proof.voices.covered, *asked))
    if cells is None:
        return Unconfirmed(check=Kind.CONFLICT, rules=clash)
    witness = tell(proof.space, cells, goal)
    if not _is_clash(proof, clash, parts[0], witness):
        return Unconfirmed(check=Kind.CONFLICT, rules=clash)
    told = _own_first(proof, clash)
    rule = proof.rules.rule(told[0])
    return Finding(
        kind=Kind.CONFLICT,
        severity=Severity.INFORMATION if edges else Severity.WARNING,
        span=rule.place_of(f"advise/{parts[0]}"),
        opener=rule.span.line,
        rules=told,
        parts=parts,
        common=proof.common(goal),
        witnesses=(witness,),
        edges=edges,
    )


def _own_first(proof: Proof, clash: Clash) -> Clash:
    """Return the rules with those of the uppermost file in front: they are being written."""
    rules = proof.rules
    return tuple(sorted(clash, key=lambda each: rules.rule(each).span.file != rules.span.file))


def _is_clash(proof: Proof, clash: Clash, part: str, witness: Witness) -> bool:
    seen = proof.replay(witness)
    standard = seen.standards.get(part)
    return (
        proof.is_real(witness)
        and standard is not None
        and not standard.allowed
        and set(clash) <= seen.ids(standard.clashing) | seen.ids(standard.musts)
    )
