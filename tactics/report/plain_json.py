"""Values as plain JSON data: strings, numbers, lists and dictionaries.

Names of keys are stable; new ones may be added. `format` at the top of a document counts up if
one ever changes its meaning. Sets of values are `{"text": ..., "words": [...]}` or
`{"text": ..., "unit": ..., "ranges": [{"from", "from_included", "to", "to_included"}]}` with
null for an open end.
"""

from math import inf

from tactics.model.choice import Choice
from tactics.model.known import Absent, Allowed, Interval, Known, OneOf, ScatterWithin, Within
from tactics.model.situation import Situation
from tactics.model.units import Unit
from tactics.model.verdict import Finding, Verdict
from tactics.model.vocabulary import Vocabulary
from tactics.report.sentences import situation_sentence
from tactics.report.words import say

FORMAT = 1

Json = dict[str, object]


def values_as_json(known: Known | Allowed, name: str, words: Vocabulary) -> Json:
    """Return a set of values of a fact or part."""
    trait = words.trait(name)
    text: Json = {"text": say(known, trait)}
    match known:
        case OneOf(some):
            return {**text, "words": [word.name for word in trait.words if word.name in some]}
        case Within(intervals):
            unit = trait.unit.value if trait.unit else ""
            return {**text, "unit": unit, "ranges": [_range(each) for each in intervals]}
        case ScatterWithin(intervals):
            return {**text, "unit": Unit.SCATTER.value, "ranges": [_range(e) for e in intervals]}
        case _:
            return text


def _range(interval: Interval) -> Json:
    (low, low_side), (high, high_side) = interval.low, interval.high
    return {
        "from": None if low == -inf else low,
        "from_included": not low_side,
        "to": None if high == inf else high,
        "to_included": bool(high_side),
    }


def situation_as_json(situation: Situation, words: Vocabulary) -> Json:
    """Return what is known of a situation, with its sentence."""
    return {
        "sentence": situation_sentence(situation, words),
        "facts": {
            name: values_as_json(known, name, words)
            for name, known in situation.facts
            if known is not Absent.NOT_SEEN
        },
    }


def choice_as_json(choice: Choice, words: Vocabulary) -> Json:
    """Return the charted parts of a choice."""
    return {
        name: values_as_json(known, name, words)
        for name, known in choice.parts
        if known is not Absent.NOT_SEEN
    }


def verdict_as_json(verdict: Verdict, words: Vocabulary) -> Json:
    """Return a verdict with one finding for each graded part."""
    return {
        "grade": str(verdict.grade),
        "possible": sorted(str(grade) for grade in verdict.possible),
        "kept": str(verdict.kept),
        "deciding_rule": verdict.deciding or None,
        "reason_undecided": str(verdict.reason) if verdict.reason else None,
        "missing_facts": list(verdict.missing),
        "clashing_rules": list(verdict.clashing),
        "findings": [_finding_as_json(finding, words) for finding in verdict.findings],
    }


def _finding_as_json(finding: Finding, words: Vocabulary) -> Json:
    wanted = finding.wanted
    return {
        "part": finding.part,
        "grade": str(finding.grade),
        "charted": values_as_json(finding.charted, finding.part, words),
        "wanted": None if wanted is None else values_as_json(wanted, finding.part, words),
        "rules": list(finding.rules),
        "option_of": finding.option_of or None,
    }
