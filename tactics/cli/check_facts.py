"""`tactics check --quiz`: which facts the questions about a rule set really test."""

import json
import sys

from tactics.cli.main import Exit
from tactics.cli.terminal import announced
from tactics.model.rule import RuleSet

QUESTIONS = 200


def show_tested_facts(rules: RuleSet, style: str) -> int:
    """Print what a reader blind to each fact loses, as text or JSON."""
    from tactics.engine.compile import compile_rules
    from tactics.quiz.generate import Maker
    from tactics.quiz.tested_facts import sample, tested_facts
    from tactics.quiz.tested_facts_report import FactsReport, as_data, as_sections
    from tactics.report.layout import text_of

    with announced(f"asking {QUESTIONS} questions"):
        maker = Maker(compile_rules(rules, "matcher"))
        scenarios = sample(maker, QUESTIONS)
        asked = {scenario.rule for scenario in scenarios}
        found = FactsReport(
            questions=len(scenarios),
            rules=len(asked),
            not_asked=tuple(rule for rule in maker.places if rule not in asked),
            facts=tested_facts(maker, scenarios),
        )
    if style == "json":
        print(json.dumps(as_data(found, rules.vocabulary), ensure_ascii=False, indent=2))
    else:
        sys.stdout.write(text_of(as_sections(found, rules.vocabulary)))
    return Exit.FINE
