"""Examples that a mix rule does not keep."""

from tactics.checks.broken_example import CODE
from tactics.engine.advisor import Advisor
from tactics.model.mix_rule import MixExample, MixRule
from tactics.problem import Problem


def broken_mix_examples(advisor: Advisor) -> tuple[Problem, ...]:
    """Return a problem for each example about which its mix rule says something else."""
    return tuple(
        _problem(mix, example)
        for mix in advisor.rules.mixes
        for example in mix.examples
        if mix.says(example.seen.count, example.seen.of) is not example.says
    )


def _problem(mix: MixRule, example: MixExample) -> Problem:
    seen = example.seen
    return Problem(
        code=CODE,
        span=example.span,
        sentence=f'an example of mix "{mix.id}" says {example.says}, and of {seen.count} in '
        f"{seen.of} the mix says {mix.says(seen.count, seen.of)}",
        hint=f"nothing is said below {mix.over} {mix.balls}; change the example, or the limit",
        opener=mix.span.line,
    )
