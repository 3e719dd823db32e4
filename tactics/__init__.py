"""Shot-selection rules for tennis coaches.

The handful of functions that everything else is made of; each can be imported from here:

    read_rules(source, find, catalogue) -> Reading[RuleSet]    a rule file, with every problem in it
    read_chart(source, words) -> Reading[Chart]                a chart of balls, the same way
    check_rules(advisor) -> tuple[Problem, ...]                what the checks find in a rule set
    compile_rules(rules) -> Advisor                            a rule set, ready to be asked
    advise(advisor, situation) -> Advice                       what the rules say here, and which
    judge(choice, advice) -> Verdict                           no outcome: a winner buys no grade
    audit(charts, advisor) -> Audit                            a verdict on every charted ball

Nothing is loaded before it is asked for: `import tactics` imports no engine, YAML or numpy.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tactics.checks import check_rules
    from tactics.engine.advise import advise
    from tactics.engine.audit import audit
    from tactics.engine.compile import compile_rules
    from tactics.engine.judge import judge
    from tactics.reading.charts import read_chart
    from tactics.reading.rules import read_rules

__all__ = [
    "advise",
    "audit",
    "check_rules",
    "compile_rules",
    "judge",
    "read_chart",
    "read_rules",
]

_WHERE = {
    "advise": "tactics.engine.advise",
    "audit": "tactics.engine.audit",
    "check_rules": "tactics.checks",
    "compile_rules": "tactics.engine.compile",
    "judge": "tactics.engine.judge",
    "read_chart": "tactics.reading.charts",
    "read_rules": "tactics.reading.rules",
}


def __getattr__(name: str) -> object:
    if name not in _WHERE:
        raise AttributeError(f"module 'tactics' has no attribute {name!r}")
    return getattr(import_module(_WHERE[name]), name)


def __dir__() -> list[str]:
    return [*__all__, *globals()]
