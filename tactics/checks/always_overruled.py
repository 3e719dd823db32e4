"""Rules that apply but never decide anything."""

from collections.abc import Iterator

from tactics.checks.finding import Finding, Kind, Step, Unconfirmed
from tactics.checks.proof import Proof
from tactics.checks.witness import Witness
from tactics.model.rule import Rule, Strength
from tactics.problem import Severity


def find_overruled(proof: Proof) -> Iterator[Step]:
    """Yield a finding for each rule that is set aside or overruled wherever it applies.

    A rule with alternatives that is overruled still offers them, and is left alone.
    """
    for rule in proof.rules.rules:
        if proof.can_hold(proof.voices.fired[rule.id]):  # else another finding: never applies
            hidden = hidden_by(proof, rule)
            if hidden is not None:
                yield _finding(proof, rule, hidden)


def hidden_by(proof: Proof, rule: Rule) -> tuple[str, ...] | None:
    """Return the rules on whose account a rule never decides anything, None where it does."""
    if not proof.can_hold(proof.voices.active[rule.id]):
        return _beating(proof, rule)
    if rule.strength is Strength.MAY or rule.alternatives:
        return None
    return _hiding(proof, rule)


def _beating(proof: Proof, rule: Rule) -> tuple[str, ...]:
    """Return the rules that together set a rule aside wherever it applies."""
    active, fired = proof.voices.active, proof.voices.fired[rule.id]
    beaters = {-active[each]: each for each in proof.voices.beaters[rule.id]}
    return _needed(proof, fired, beaters)


def _hiding(proof: Proof, rule: Rule) -> tuple[str, ...] | None:
    """Return the rules that together overrule a rule on all its parts, None where it decides."""
    hiding: dict[str, None] = {}
    for part, _ in rule.advice:
        voices = proof.voices.part(part)
        says = voices.narrows.get(rule.id, voices.decides[rule.id])
        if proof.can_hold(says):
            return None
        rank = proof.rules.rank(rule.concern)
        higher = {
            -proof.voices.active[other.id]: other.id
            for other in proof.voices.by_part[part]
            if proof.rules.rank(other.concern) < rank
        }
        musts = {
            -voices.decides[other.id]: other.id
            for other in proof.voices.by_part[part]
            if other.strength is Strength.MUST and proof.rules.rank(other.concern) == rank
        }
        active = proof.voices.active[rule.id]
        hiding |= dict.fromkeys(_needed(proof, active, {**higher, **musts}))
    return tuple(hiding)


def _needed(proof: Proof, applies: int, silent: dict[int, str]) -> tuple[str, ...]:
    """Return the rules of which one speaks wherever `applies` holds, as few as possible."""
    kept = list(silent)
    if proof.can_hold(applies, *kept):
        return ()
    for literal in silent:
        without = [each for each in kept if each != literal]
        if not proof.can_hold(applies, *without):
            kept = without
    return tuple(silent[each] for each in kept)


def _finding(proof: Proof, rule: Rule, others: tuple[str, ...]) -> Step:
    witness = proof.witness(proof.voices.fired[rule.id])
    if witness is None or not _is_overruled(proof, rule, witness):
        return Unconfirmed(check=Kind.ALWAYS_OVERRULED, rules=(rule.id,))
    return Finding(
        kind=Kind.ALWAYS_OVERRULED,
        severity=Severity.WARNING,
        span=rule.span,
        rules=(rule.id,),
        parts=tuple(part for part, _ in rule.advice),
        others=others,
        witnesses=(witness,),
    )


def _is_overruled(proof: Proof, rule: Rule, witness: Witness) -> bool:
    """Say whether the evaluator, too, has the rule apply in the witness and decide nothing."""
    seen = proof.replay(witness)
    decides = any(rule.id in seen.ids(standard.deciding) for standard in seen.standards.values())
    speaks = rule.id in seen.active and (decides or rule.strength is Strength.MAY)
    return proof.is_real(witness) and seen.applies(rule.id) and not speaks
