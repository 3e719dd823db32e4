"""Rules, conditions and exceptions that could go without any change to the advice."""

from collections.abc import Iterator
from dataclasses import replace

from tactics.checks.always_overruled import hidden_by
from tactics.checks.clauses import ALWAYS, NEVER
from tactics.checks.conditions import place_in
from tactics.checks.difference import advice_differs, affected_by
from tactics.checks.finding import Finding, Kind, Progress, Step
from tactics.checks.pieces import Piece, pieces_of, reasons, shortest, turned
from tactics.checks.proof import Proof
from tactics.checks.voices import Voices
from tactics.model.rule import Rule, Strength
from tactics.problem import Severity


def find_idle(proof: Proof) -> Iterator[Step]:
    """Yield a finding for each rule, condition and exception that changes nothing.

    First what follows from the rest of the rule alone, then what the other rules make idle. A
    rule that never applies or never decides has its own finding and is left alone.
    """
    rules = proof.rules.rules
    for done, rule in enumerate(rules):
        yield Progress(check=Kind.IDLE_CONDITION, done=done, total=len(rules))
        if proof.can_hold(proof.voices.fired[rule.id]) and hidden_by(proof, rule) is None:
            yield from _idle_in(proof, rule)


def _idle_in(proof: Proof, rule: Rule) -> Iterator[Step]:
    pieces = pieces_of(proof, rule)
    for piece in sorted(pieces, key=lambda each: not each.is_exception):
        if not proof.can_hold(*turned(pieces, piece)):
            yield _implied(proof, rule, pieces, piece)
            pieces = tuple(each for each in pieces if each is not piece)
    if rule.strength is Strength.MAY or rule.alternatives:
        return  # options: whether they matter hangs on the choice
    trial = _Trial(proof, rule)
    if not trial.matters(tuple(each.literal for each in pieces)):
        yield _repeated(proof, rule, pieces)
        return
    for piece in pieces:
        if not trial.matters(turned(pieces, piece)):
            others = _deciders(proof, rule, turned(pieces, piece))
            yield _idle(rule, piece, severity=Severity.INFORMATION, others=others)


class _Trial:
    """The advice with a rule taken to apply, beside the advice without it.

    Written into a branch of the clauses: what one rule needs would only slow the next one down.
    silent: another rule that is taken not to apply in either.
    """

    def __init__(self, proof: Proof, rule: Rule, silent: str = "") -> None:
        """Write both versions."""
        self._legal = proof.legal
        shared = proof.voices
        others = {silent: NEVER} if silent else {}
        _ = shared.fired, shared.active  # what both versions share is written first, once
        self._clauses = proof.space.clauses.branch()
        space = replace(proof.space, clauses=self._clauses)
        with_it, without_it = (
            Voices(
                space=space, rules=proof.rules, forced={rule.id: forced, **others}, shared=shared
            )
            for forced in (ALWAYS, NEVER)
        )
        affected = affected_by(proof.rules, rule)
        self._differs = advice_differs(space, with_it, without_it, affected)

    def matters(self, literals: tuple[int, ...]) -> bool:
        """Say whether the rule changes the advice in some situation with these literals."""
        return self._clauses.can_hold((*self._legal, *literals, self._differs))


def _implied(proof: Proof, rule: Rule, pieces: tuple[Piece, ...], piece: Piece) -> Finding:
    """Return the finding that a condition follows from the others and what cannot happen."""
    others = tuple(each for each in pieces if each is not piece)
    culprits = shortest(proof, others, -piece.literal)
    because = tuple(each for each in others if each.literal in culprits)
    severity = Severity.WARNING if piece.is_exception else Severity.INFORMATION
    found = _idle(rule, piece, severity=severity)
    return replace(
        found,
        conditions=(*found.conditions, *(e.condition for e in because if not e.is_exception)),
        exceptions=(*found.exceptions, *(e.condition for e in because if e.is_exception)),
        reasons=reasons(proof, culprits),
    )


def _idle(rule: Rule, piece: Piece, *, severity: Severity, others: tuple[str, ...] = ()) -> Finding:
    return Finding(
        kind=Kind.IDLE_EXCEPTION if piece.is_exception else Kind.IDLE_CONDITION,
        severity=severity,
        span=place_in(piece.condition) or rule.place_of("unless" if piece.is_exception else "when"),
        opener=rule.span.line,
        rules=(rule.id,),
        conditions=() if piece.is_exception else (piece.condition,),
        exceptions=(piece.condition,) if piece.is_exception else (),
        others=others,
    )


def _repeated(proof: Proof, rule: Rule, pieces: tuple[Piece, ...]) -> Finding:
    literals = tuple(each.literal for each in pieces)
    witness = proof.witness(*literals)
    return Finding(
        kind=Kind.REPEATED_RULE,
        severity=Severity.INFORMATION,
        span=rule.span,
        rules=(rule.id,),
        others=_instead(proof, rule, literals),
        witnesses=() if witness is None else (witness,),
    )


def _instead(proof: Proof, rule: Rule, literals: tuple[int, ...]) -> tuple[str, ...]:
    """Return the rules without which this one would matter."""
    speakers = dict.fromkeys(
        other.id for part, _ in rule.advice for other in proof.voices.by_part[part]
    )
    return tuple(
        other
        for other in speakers
        if other != rule.id and _Trial(proof, rule, silent=other).matters(literals)
    )


def _deciders(proof: Proof, rule: Rule, literals: tuple[int, ...]) -> tuple[str, ...]:
    """Return the rules that decide in an ordinary situation where a condition would let go."""
    witness = proof.witness(*literals)
    if witness is None:
        return ()
    seen = proof.replay(witness)
    parts = {part for part, _ in rule.advice}
    found = {
        rule_id
        for part, standard in seen.standards.items()
        if part in parts
        for rule_id in seen.ids(standard.deciding)
    }
    return tuple(sorted(found - {rule.id}))
