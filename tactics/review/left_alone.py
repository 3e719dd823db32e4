"""Rules that only warn: kept by leaving alone what they warn of.

A rule such as "if you go straight from here: do not" speaks only to those who break it, so that
its share of the balls it spoke on says nothing. It is counted over the balls of its situation.
"""

from tactics.engine.lane_judge import Frame
from tactics.engine.lanes import any_of, holds, stacked
from tactics.engine.program import Every, Leaf, LeafTest, Node, Program, ReadyRule, Some, leaves_in
from tactics.review.ledger import Marks


def only_warns(rule: ReadyRule, program: Program) -> bool:
    """Say whether whatever makes the rule speak already breaks it."""
    return not rule.is_option_only and _breaks(rule.choosing, dict(rule.advice), program.leaves)


def _breaks(choosing: Node, advice: dict[str, int], tests: tuple[LeafTest, ...]) -> bool:
    match choosing:
        case Leaf(index):
            asked = tests[index]
            return asked.name in advice and not advice[asked.name] & asked.mask
        case Every(inside):
            return any(_breaks(each, advice, tests) for each in inside)
        case Some(inside):
            return bool(inside) and all(_breaks(each, advice, tests) for each in inside)
        case _:
            return False


def left_alone(frame: Frame) -> Marks:
    """Return where a rule that only warns was kept by leaving it alone, shape (rules, N).

    Its situation surely holds, what it warns of was surely not chosen, and a part it speaks about
    was charted.
    """
    lanes = [
        _kept(rule, frame) if only_warns(rule, frame.program) else 0 for rule in frame.program.ready
    ]
    return stacked(lanes, frame.columns.count)


def _kept(rule: ReadyRule, frame: Frame) -> int:
    truths = frame.truths

    def possible(node: Node) -> int:
        return holds(node, truths.full, truths.leaves, list(truths.terms)).possible

    when = holds(rule.when, truths.full, truths.leaves, list(truths.terms)).sure
    parts = {frame.program.leaves[index].name for index in leaves_in(rule.choosing)}
    charted = any_of(frame.graded.get(part, 0) for part in parts)
    return when & charted & ~possible(rule.unless) & ~possible(rule.choosing)
