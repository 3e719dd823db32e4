"""Every legal situation and choice of a small rule set, by the evaluator's own steps."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import product
from math import prod

from tactics.checks.proof import Proof
from tactics.checks.replay import law_of
from tactics.engine import match
from tactics.engine.advisor import Advisor, Matcher
from tactics.engine.combine import Standard, standards, unbeaten
from tactics.engine.match import NO, YES, holds, infer
from tactics.engine.program import Program, build
from tactics.model.condition import Condition
from tactics.model.known import NOT_APPLICABLE, Known
from tactics.model.rule import RuleSet, Term
from tactics.model.standard import STANDARD
from tests.engine.rule_sets import DRAWN


def advisor_of(rules: RuleSet) -> Advisor:
    program = build(rules)
    return Advisor(rules=rules, program=program, engine=Matcher(program))


@dataclass(frozen=True)
class Moment:
    """One situation and choice: facts and parts, and what a rule set makes of them."""

    known: dict[str, Known]
    fired: frozenset[str]
    active: frozenset[str]
    standards: dict[str, Standard]
    terms: frozenset[str]

    @property
    def phase(self) -> str:
        return next(iter(self.known["game situation"].words))

    @cached_property
    def answer(self) -> dict[str, tuple[int, int]]:
        return {part: (each.must_allowed, each.allowed) for part, each in self.standards.items()}


def size_of(proof: Proof) -> int:
    return prod(scale.size + 1 for scale in proof.space.scales.values())


def every_known(proof: Proof) -> Iterator[dict[str, Known]]:
    """Yield every combination of cells in which just the facts that must not exist do not."""
    scales = proof.space.scales
    names = [name for name in scales if name != "game situation"]
    phases = scales["game situation"]
    for place, phase in enumerate(phases.trait.words):
        rows = [
            [NOT_APPLICABLE]
            if phase.name in scales[name].trait.absent_in
            else [scales[name].values((cell,)) for cell in range(scales[name].size)]
            for name in names
        ]
        for values in product(*rows):
            yield {
                "game situation": phases.values((place,)),
                **dict(zip(names, values, strict=True)),
            }


def moment(program: Program, known: dict[str, Known]) -> Moment:
    masks = {name: program.grid.mask(name, value) for name, value in known.items()}
    leaves = match.test_leaves(program, masks)
    terms, truths = infer(program, leaves)
    fired = [
        place
        for place, (rule, truth) in enumerate(zip(program.ready, truths, strict=True))
        if truth is YES and holds(rule.choosing, leaves, terms) is YES
    ]
    active = unbeaten(program, fired)
    ids = [rule.rule.id for rule in program.ready]
    return Moment(
        known=known,
        fired=frozenset(ids[place] for place in fired),
        active=frozenset(ids[place] for place in active),
        standards=standards(program, active),
        terms=frozenset(n for n, t in zip(program.term_names, terms, strict=True) if t is YES),
    )


def every_moment(proof: Proof) -> list[Moment]:
    """Return every legal moment; relations between facts are told apart by plain rules of thumb."""
    law = law_of(proof.rules).program
    return [
        moment(proof.advisor.program, known) for known in every_known(proof) if is_legal(law, known)
    ]


def is_legal(law: Program, known: dict[str, Known]) -> bool:
    masks = {name: law.grid.mask(name, value) for name, value in known.items()}
    leaves = match.test_leaves(law, masks)
    truths, _ = infer(law, leaves)
    return all(truth is not YES for truth in truths) and _hands_agree(known)


def _hands_agree(known: dict[str, Known]) -> bool:
    if not {"own hand", "opponent hand", "hands"} <= known.keys():
        return True
    is_same = known["own hand"] == known["opponent hand"]
    return is_same == ("same" in known["hands"].words)


def truth_of(condition: Condition, known: dict[str, Known]) -> bool:
    """Return whether a condition about known facts holds; anything but yes or no is a fault."""
    rules = RuleSet(
        name="", precedence=(), vocabulary=STANDARD, span=DRAWN,
        terms=(Term(name="it", means="", condition=condition, span=DRAWN),),
    )  # fmt: skip
    program = build(rules)
    masks = {name: program.grid.mask(name, value) for name, value in known.items()}
    terms, _ = infer(program, match.test_leaves(program, masks))
    assert terms[0] in (NO, YES)
    return terms[0] is YES
