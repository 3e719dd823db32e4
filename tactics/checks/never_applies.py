"""Terms that never hold and rules whose conditions never come together."""

from collections.abc import Iterator, Sequence

from tactics.checks.conditions import conjuncts, place_in
from tactics.checks.finding import Finding, Kind, Step
from tactics.checks.pieces import Piece, pieces_of, reasons, shortest
from tactics.checks.proof import Proof
from tactics.checks.witness import Witness
from tactics.engine.match import NO
from tactics.model.condition import TermTest, tests_in
from tactics.model.names import fold
from tactics.model.rule import Rule, Term
from tactics.problem import Severity


def find_dead_terms(proof: Proof) -> Iterator[Step]:
    """Yield a finding for each term that holds in no situation that can happen."""
    for term in proof.rules.terms:
        if not proof.can_hold(proof.voices.terms[fold(term.name)]):
            yield _dead_term(proof, term)


def _dead_term(proof: Proof, term: Term) -> Finding:
    pieces = tuple(
        Piece(literal=proof.space.condition(each, proof.voices.terms), condition=each)
        for each in conjuncts(term.condition)
    )
    culprits = shortest(proof, pieces)
    return Finding(
        kind=Kind.TERM_NEVER_HOLDS,
        severity=Severity.WARNING,
        span=term.span,
        term=term.name,
        conditions=tuple(each.condition for each in pieces if each.literal in culprits),
        others=_users(proof, term),
        reasons=reasons(proof, culprits),
    )


def _users(proof: Proof, term: Term) -> tuple[str, ...]:
    return tuple(
        rule.id
        for rule in proof.rules.rules
        if any(
            isinstance(test, TermTest) and fold(test.term) == fold(term.name)
            for condition in (rule.when, *rule.unless)
            for test in tests_in(condition)
        )
    )


def find_dead_rules(proof: Proof) -> Iterator[Step]:
    """Yield a finding for each rule that applies in no situation that can happen."""
    for rule in proof.rules.rules:
        if not proof.can_hold(proof.voices.fired[rule.id]):
            yield _dead_rule(proof, rule)


def _dead_rule(proof: Proof, rule: Rule) -> Finding:
    pieces = pieces_of(proof, rule)
    culprits = shortest(proof, pieces)
    guilty = [each for each in pieces if each.literal in culprits]
    last, witnesses = _almost(proof, rule, pieces, guilty)
    guilty.sort(key=lambda each: each is last)
    place = place_in(guilty[-1].condition) if guilty else None
    return Finding(
        kind=Kind.NEVER_APPLIES,
        severity=Severity.WARNING,
        span=place or rule.place_of("when"),
        opener=rule.span.line,
        rules=(rule.id,),
        conditions=tuple(each.condition for each in guilty if not each.is_exception),
        exceptions=tuple(each.condition for each in guilty if each.is_exception),
        reasons=reasons(proof, culprits),
        witnesses=witnesses,
    )


def _almost(
    proof: Proof, rule: Rule, pieces: tuple[Piece, ...], guilty: Sequence[Piece]
) -> tuple[Piece | None, tuple[Witness, ...]]:
    """Return a piece without which the rule would apply, the latest one, and where."""
    latest_first = list(reversed(guilty))
    for piece in sorted(latest_first, key=lambda each: not each.is_exception):
        witness = proof.witness(*(each.literal for each in pieces if each is not piece))
        if witness is not None and proof.replay(witness).truths[rule.id] is NO:
            return piece, (witness,)
    return None, ()
