"""Situations no rule speaks to."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import chain, islice

from tactics.checks.conditions import conjuncts
from tactics.checks.finding import Finding, Kind, Near, Step, Unconfirmed
from tactics.checks.proof import Proof
from tactics.checks.space import GAME_SITUATION
from tactics.checks.witness import Witness, tell
from tactics.engine.match import YES
from tactics.model.condition import Condition, Test, tests_in
from tactics.model.known import word
from tactics.model.rule import Rule, Strength
from tactics.model.situation import Situation
from tactics.problem import Severity

PLAYED = "response"
MOST_WITNESSES = 3
MOST_NEAR = 2
_ANOTHER_PHASE = 3


def find_gaps(proof: Proof) -> Iterator[Step]:
    """Yield a finding for game situations with legal situations that get no advice.

    Advice is a must or a should about a part of a played ball; effort (what is done before and
    after the stroke) is not enough, and an option is no standard. Game situations that a set
    leaves alone altogether are named together: that is what it is about, and no hole in it. So
    is a set that says nothing about an ordinary ball anywhere, only about what is out of the
    ordinary: it is one to lay on top of another.
    Parts that the set says it always speaks about are looked at one by one.
    """
    speakers = {rule.id for part in spoken_parts(proof) for rule in proof.voices.by_part[part]}
    silent = tuple(-proof.voices.active[rule_id] for rule_id in sorted(speakers))
    left_alone: list[str] = []
    found: list[Step] = []
    for phase, literal in proof.space.phases.items():
        goal = (literal, *_played(proof))
        if not proof.can_hold(*goal, *silent):
            continue
        if proof.can_hold(*goal, -proof.space.clauses.every(silent)):
            found.append(_finding(proof, phase, goal, silent))
        else:
            left_alone.append(phase)
    if _is_for_laying_on_top(proof, found, left_alone):
        yield _without_ordinary_balls(proof, found)
        return
    yield from _gathered(found)
    if left_alone:
        yield _left_alone(proof, tuple(left_alone))
    for part in proof.rules.always_says:
        yield from _gathered(_promised(proof, part))


def _is_for_laying_on_top(proof: Proof, found: list[Step], left_alone: list[str]) -> bool:
    """Say whether an ordinary ball gets no advice in any game situation."""
    ordinary = [
        each
        for each in found
        if isinstance(each, Finding) and each.witnesses[0].telling == (GAME_SITUATION,)
    ]
    everywhere = len(ordinary) + len(left_alone) == len(proof.space.phases)
    return everywhere and bool(ordinary) and len(ordinary) == len(found)


def _without_ordinary_balls(proof: Proof, found: list[Step]) -> Step:
    first = next(each for each in found if isinstance(each, Finding))
    phases = tuple(proof.space.phases)
    return replace(first, severity=Severity.INFORMATION, phases=phases, common=None)


def _promised(proof: Proof, part: str) -> Iterator[Step]:
    """Yield the game situations in which a part the set always speaks about is left open."""
    silent = (-proof.voices.part(part).spoken,) if part in proof.space.scales else ()
    for phase, literal in proof.space.phases.items():
        goal = (literal, *_played(proof))
        if proof.can_hold(*goal, *silent):
            yield _finding(proof, phase, goal, silent, part)


def _gathered(found: Iterable[Step]) -> Iterator[Step]:
    """Yield gaps that differ in nothing but the game situation as one."""
    alike: dict[object, list[Step]] = {}
    for place, step in enumerate(found):
        alike.setdefault(_likeness(step) or place, []).append(step)
    for first, *others in alike.values():
        if isinstance(first, Finding) and first.common is not None and others:
            more = (each.phases for each in others if isinstance(each, Finding))
            shared = replace(first.common, facts=_but_the_phase(first.common.facts))
            yield replace(first, phases=tuple(chain(first.phases, *more)), common=shared)
        else:
            yield first


def _likeness(step: Step) -> object:
    if not isinstance(step, Finding) or step.common is None:
        return None
    shared = step.common
    return (
        _but_the_phase(shared.facts),
        shared.parts,
        shared.terms,
        step.edges,
        *((_but_the_phase(each.told), each.told_choice) for each in step.witnesses),
    )


def _but_the_phase(situation: Situation) -> Situation:
    return Situation.of((name, known) for name, known in situation.facts if name != GAME_SITUATION)


def spoken_parts(proof: Proof) -> tuple[str, ...]:
    """Return the parts of a played ball that some must or should speaks about."""
    words = proof.rules.vocabulary
    return tuple(part for part in proof.voices.by_part if not words.trait(part).effort)


def _played(proof: Proof) -> tuple[int, ...]:
    """Return the literal that the ball is played, where the rules can tell."""
    return (proof.space.test(PLAYED, word("played")),) if PLAYED in proof.space.scales else ()


def _left_alone(proof: Proof, phases: tuple[str, ...]) -> Finding:
    return Finding(
        kind=Kind.GAP, severity=Severity.INFORMATION, span=proof.rules.span, phases=phases
    )


def _finding(
    proof: Proof, phase: str, goal: tuple[int, ...], silent: tuple[int, ...], part: str = ""
) -> Step:
    whole = (*goal, *silent)
    edges = proof.edges(*whole)
    asked = whole if edges else (*whole, *proof.off_edges)
    witnesses = tuple(islice(_witnesses(proof, asked, silent), MOST_WITNESSES + 1))
    if not witnesses or not all(_is_gap(proof, each, part) for each in witnesses):
        return Unconfirmed(check=Kind.GAP)
    return Finding(
        kind=Kind.GAP,
        severity=Severity.INFORMATION if edges else Severity.WARNING,
        span=proof.rules.span,
        phases=(phase,),
        parts=(part,) if part else (),
        common=proof.common(whole),
        witnesses=witnesses[:MOST_WITNESSES],
        near=tuple(nearest(proof, witnesses[0], (part,) if part else spoken_parts(proof))),
        edges=edges,
        has_more=len(witnesses) > MOST_WITNESSES,
    )


def _witnesses(proof: Proof, goal: tuple[int, ...], silent: tuple[int, ...]) -> Iterator[Witness]:
    """Yield witnesses that differ in something worth telling."""
    asked = goal
    while (cells := proof.cells(*asked)) is not None:
        witness = tell(proof.space, cells, silent)
        yield witness
        told = proof.space.clauses.every(
            proof.space.cell(name, cells[name]) for name in witness.telling
        )
        asked = (*asked, -told)


def _is_gap(proof: Proof, witness: Witness, part: str) -> bool:
    standards = proof.replay(witness).standards
    wanted = (part,) if part else spoken_parts(proof)
    return proof.is_real(witness) and not set(standards) & set(wanted)


def nearest(proof: Proof, witness: Witness, parts: tuple[str, ...]) -> Iterator[Near]:
    """Yield the rules that almost speak in a witness, those that lack least first."""
    seen, fixed = proof.replay(witness), proof.fixed(witness)
    found = []
    for rule in proof.rules.rules:
        if not proof.can_hold(proof.voices.fired[rule.id]):
            continue
        if rule.strength is Strength.MAY or not any(part in parts for part, _ in rule.advice):
            continue
        near = _near(proof, rule, fixed)
        if seen.truths[rule.id] is YES:
            beaters = [each for each in proof.voices.beaters[rule.id] if each in seen.active]
            near = Near(rule=rule.id, beaten_by=next(iter(beaters), ""))
        lacks = len(near.unless) + len(near.choosing) + sum(map(_distance, near.asks))
        found.append((lacks, rule.id, near))
    yield from (near for _, _, near in sorted(found, key=lambda each: each[:2])[:MOST_NEAR])


def _distance(condition: Condition) -> int:
    """Return how far away a failing condition is: another game situation is further than most."""
    names = (test.name for test in tests_in(condition) if isinstance(test, Test))
    return 1 + _ANOTHER_PHASE * (GAME_SITUATION in names)


def _near(proof: Proof, rule: Rule, fixed: tuple[int, ...]) -> Near:
    def fails(condition: Condition) -> bool:
        return not proof.holds_in(condition, fixed)

    return Near(
        rule=rule.id,
        asks=tuple(each for each in conjuncts(rule.when) if fails(each)),
        unless=tuple(each for each in rule.unless if not fails(each)),
        choosing=tuple(each for each in conjuncts(rule.choosing) if fails(each)),
    )
