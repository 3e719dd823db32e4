"""Advice as JSON."""

from tactics.engine.advise import Advice
from tactics.model.choice import Choice
from tactics.model.rule import Answer, Rule
from tactics.model.verdict import Verdict
from tactics.model.vocabulary import Vocabulary
from tactics.report.advice import open_by_fact, options_of
from tactics.report.aims import aims
from tactics.report.plain_json import (
    FORMAT,
    Json,
    choice_as_json,
    situation_as_json,
    values_as_json,
    verdict_as_json,
)
from tactics.report.rule_words import condition_words


def advice_as_json(advice: Advice, choice: Choice, verdict: Verdict | None) -> Json:
    """Return advice, and the verdict on a choice where one was given.

    Keys: format, rule_set, situation, standard (part -> allowed, aim, rules), rules (applying),
    beaten, conditional, options, open (fact -> rules), choice, verdict.
    """
    words, ready = advice.advisor.vocabulary, advice.advisor.program.ready
    return {
        "format": FORMAT,
        "rule_set": advice.advisor.rules.name,
        "situation": situation_as_json(advice.situation, words),
        "standard": _standards(advice),
        "rules": [_rule(ready[place].rule) for place in advice.applying],
        "beaten": [
            {"rule": ready[place].rule.id, "by": ready[beater].rule.id}
            for place, beater in advice.beaten
        ],
        "conditional": [_conditional(ready[p].rule, words) for p in advice.conditional],
        "options": [
            {"rule": ready[place].rule.id, "answer": _answer(answer, words)}
            for place in advice.applying
            for answer in options_of(ready[place].rule)
        ],
        "open": {
            fact: [ready[place].rule.id for place in places]
            for fact, places in open_by_fact(advice)
        },
        "choice": choice_as_json(choice, words) if choice.parts else None,
        "verdict": None if verdict is None else verdict_as_json(verdict, words),
    }


def _standards(advice: Advice) -> Json:
    words, ready = advice.advisor.vocabulary, advice.advisor.program.ready
    axes, aimed = advice.advisor.program.grid.axes, aims(advice)
    found: Json = {}
    for part in sorted({*advice.standards, *aimed}):
        standard = advice.standards.get(part)
        left = None
        if standard is not None and standard.allowed:
            left = values_as_json(axes[part].allowed_of(standard.allowed), part, words)
        found[part] = {
            "allowed": left,
            "aim": values_as_json(aimed[part], part, words) if part in aimed else None,
            **{
                key: [ready[place].rule.id for place in getattr(standard, name, ())]
                for key, name in (
                    ("musts", "musts"),
                    ("shoulds", "shoulds"),
                    ("yielded", "yielded"),
                    ("overruled", "overruled"),
                    ("clashing", "clashing"),
                )
            },
        }
    return found


def _rule(rule: Rule) -> Json:
    return {
        "id": rule.id,
        "title": rule.title,
        "concern": rule.concern,
        "strength": str(rule.strength),
        "because": rule.because,
        "cue": rule.cue,
    }


def _conditional(rule: Rule, words: Vocabulary) -> Json:
    choosing = "" if rule.choosing is None else condition_words(rule.choosing, words)
    return {**_rule(rule), "if_choosing": choosing, "advice": _answer(rule.advice, words)}


def _answer(answer: Answer, words: Vocabulary) -> Json:
    return {part: values_as_json(allowed, part, words) for part, allowed in answer}
