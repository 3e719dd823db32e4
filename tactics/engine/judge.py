"""Choice + advice -> verdict. The outcome of the ball is not among the parameters, on purpose."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

from tactics.engine.advise import Advice
from tactics.engine.cells import cells_of, is_open
from tactics.engine.combine import find, unbeaten, worst
from tactics.engine.derive import finds, unseen_behind
from tactics.engine.match import DEPENDS, YES, Truth, holds, infer, test
from tactics.engine.matter import FINDS, classes, contested_parts, mattering_rules
from tactics.engine.program import Program
from tactics.engine.settle import Completion, settle
from tactics.model.choice import Choice
from tactics.model.known import NOT_SEEN, Absent, OneOf
from tactics.model.rule import Strength
from tactics.model.verdict import Grade, Reason, Verdict

MOST_COMPLETIONS = 4096
"""Beyond this many completions of the facts that matter, only what Kleene's logic says is said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A choice in a situation, on cells.

    masks: fact or part -> possible cells, as conditions see them. charted: the parts that are
    graded, in the vocabulary's order. leaves, terms, truths: of tests, terms and rules.
    """

    program: Program
    masks: dict[str, int]
    charted: dict[str, int]
    leaves: tuple[Truth, ...]
    terms: tuple[Truth, ...]
    truths: tuple[Truth, ...]


def judge(choice: Choice, advice: Advice) -> Verdict:
    """Return the verdict on a choice, exact over the completions of the facts not seen."""
    case = case_of(choice, advice)
    found = completions(case)
    if found is None:
        return _beyond_counting(case)
    known = {**choice.as_dict(), FINDS: finds(choice, advice.situation)}
    charted = {part: known[part] for part in case.charted}
    return settle(case.program, charted, found, unseen_behind(choice, advice.situation))


def case_of(choice: Choice, advice: Advice) -> Case:
    """Return the choice in its situation, on cells."""
    program = advice.advisor.program
    parts = part_masks(choice, advice)
    masks = {**advice.masks, **parts}
    leaves = tuple(
        test(masks[leaf.name], leaf.mask) if leaf.name in parts else truth
        for leaf, truth in zip(program.leaves, advice.leaves, strict=True)
    )
    return Case(
        program=program,
        masks=masks,
        charted=graded_parts(choice, advice, parts),
        leaves=leaves,
        terms=advice.terms,
        truths=_with_choosing(program, advice.rules, leaves, advice.terms),
    )


def part_masks(choice: Choice, advice: Advice) -> dict[str, int]:
    """Return the possible cells of every part; what the ball finds is worked out."""
    axes, known = advice.advisor.program.grid.axes, choice.as_dict()
    known[FINDS] = finds(choice, advice.situation)
    return {
        trait.folded: axes[trait.folded].possible(known.get(trait.folded, NOT_SEEN))
        for trait in advice.advisor.vocabulary.parts
    }


def graded_parts(choice: Choice, advice: Advice, masks: Mapping[str, int]) -> dict[str, int]:
    """Return the parts that are graded: those charted, without effort under a restriction."""
    restricted = advice.situation.get("restricted today")
    spare_effort = isinstance(restricted, OneOf) and "yes" in restricted.words
    known = choice.as_dict()
    known[FINDS] = finds(choice, advice.situation)
    return {
        trait.folded: masks[trait.folded]
        for trait in advice.advisor.vocabulary.parts
        if not isinstance(known.get(trait.folded, NOT_SEEN), Absent)
        and not (trait.effort and spare_effort)
    }


def completions(case: Case) -> list[Completion] | None:
    """Return what each completion of the facts that matter finds; None where there are too many.

    Without a fact that matters there is one completion.
    """
    groups: dict[str, tuple[int, ...]] = {}
    if DEPENDS in case.truths:
        rules = mattering_rules(case.program, case.truths, case.charted)
        groups = classes(case.program, rules, case.masks, case.leaves, case.terms)
    if _asks_what_it_finds(case):
        groups[FINDS] = cells_of(case.charted[FINDS])
    if prod(len(group) for group in groups.values()) > MOST_COMPLETIONS:
        return None
    return [complete_with(case, given) for given in _assignments(groups)]


def _asks_what_it_finds(case: Case) -> bool:
    if not is_open(case.charted.get(FINDS, 0)):
        return False
    possible = frozenset(place for place, truth in enumerate(case.truths) if truth)
    return FINDS in contested_parts(case.program, possible, case.charted)


def _assignments(groups: Mapping[str, tuple[int, ...]]) -> Iterator[dict[str, int]]:
    for chosen in product(*groups.values()):
        yield dict(zip(groups, chosen, strict=True))


def complete_with(case: Case, given: dict[str, int]) -> Completion:
    """Return what is found when these facts are known; rules that still depend are idle."""
    program = case.program
    leaves = case.leaves
    if given:
        leaves = tuple(
            test(given[leaf.name], leaf.mask) if leaf.name in given else truth
            for leaf, truth in zip(program.leaves, case.leaves, strict=True)
        )
    truths = _truths(program, leaves) if given else case.truths
    applying = tuple(place for place, truth in enumerate(truths) if truth is YES)
    charted = case.charted
    if FINDS in given and FINDS in charted:
        charted = {**charted, FINDS: given[FINDS]}
    findings = tuple(find(program, unbeaten(program, applying), charted))
    return Completion(given=given, findings=findings, grade=worst(findings), applying=applying)


def _truths(program: Program, leaves: Sequence[Truth]) -> tuple[Truth, ...]:
    terms, rules = infer(program, leaves)
    return _with_choosing(program, rules, leaves, terms)


def _with_choosing(
    program: Program, rules: Sequence[Truth], leaves: Sequence[Truth], terms: Sequence[Truth]
) -> tuple[Truth, ...]:
    """Return the truth of every rule, now that the choice is known as well."""
    return tuple(
        min(truth, holds(rule.choosing, leaves, terms)) if truth else truth
        for rule, truth in zip(program.ready, rules, strict=True)
    )


def possible_beyond_counting(case: Case) -> frozenset[Grade]:
    """Return every grade that Kleene's logic cannot rule out, when completions are too many."""
    breakable = {
        rule.rule.strength
        for rule, truth in zip(case.program.ready, case.truths, strict=True)
        if truth
        for part, wanted in rule.advice
        if case.charted.get(part, wanted) & ~wanted
    }
    grades = {Grade.SOUND, Grade.ACCEPTABLE, Grade.UNDECIDED}
    if Strength.SHOULD in breakable:
        grades.add(Grade.DOUBTFUL)
    if Strength.MUST in breakable:
        grades.add(Grade.UNSOUND)
    return frozenset(grades)


def _beyond_counting(case: Case) -> Verdict:
    """Return the cautious verdict on a choice with too many open facts to go through."""
    rules = mattering_rules(case.program, case.truths, case.charted)
    groups = classes(case.program, rules, case.masks, case.leaves, case.terms)
    return Verdict(
        grade=Grade.UNDECIDED,
        possible=possible_beyond_counting(case),
        findings=(),
        reason=Reason.FACT_NOT_SEEN,
        missing=tuple(sorted(groups, key=lambda name: -len(groups[name]))),
    )
