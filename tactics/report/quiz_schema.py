"""A JSON Schema (draft 2020-12) of quiz files, for completion and first checks in editors."""

from tactics.model.rule import RuleSet
from tactics.model.scenario import Ask
from tactics.reading.quizzes import HANDS, MOST_DRAWN
from tactics.report.json_schema import rule_file_schema
from tactics.report.json_schema_values import (
    TEXT,
    Schema,
    choice_of,
    names,
    one_or_many,
    whole,
)

_ABOUT = {
    Ask.SHOT: "intent, direction and more",
    Ask.NAME: "named situations of the rule set",
    Ask.AIM: "direction and inside line",
    Ask.HEIGHT: "height over net",
    Ask.AFTER: "afterwards and stance",
    Ask.SERVE: "direction and more, while serving",
    Ask.PLAY_ON: "response",
}


def quiz_file_schema(rules: RuleSet | None = None) -> Schema:
    """Return the schema of quiz files; with a rule set, of files that use its own words too."""
    whole_set = rule_file_schema(rules)
    scenarios: Schema = {"type": "object", "additionalProperties": {"$ref": "#/$defs/scenario"}}
    return {
        "$schema": whole_set["$schema"],
        "title": "A quiz file",
        "description": whole_set["description"],
        **names(
            {
                "quiz": _said(TEXT, "what the quiz is called"),
                "author": TEXT,
                "about": TEXT,
                "for": _said(one_or_many(TEXT), "rule sets that answer it, by name or path"),
                "hand": _said(choice_of(dict.fromkeys(HANDS, "")), "the player's hand"),
                "draw": _said(_count(), "how many fresh situations come to it"),
                "rules": _said(_ids(rules), "ids of rules to draw from"),
                "topics": _said(_topics(rules), "topics to draw from"),
                "scenarios": _said(scenarios, "situations written by hand, by name"),
            },
            required=["quiz"],
        ),
        "$defs": {**_defs(whole_set), "scenario": _scenario(rules)},
    }


def _defs(whole_set: Schema) -> Schema:
    defs = whole_set["$defs"]
    return dict(defs) if isinstance(defs, dict) else {}


def _said(schema: Schema, description: str) -> Schema:
    return {**schema, "description": description}


def _count() -> Schema:
    return {"anyOf": [{"type": "integer", "minimum": 1, "maximum": MOST_DRAWN}, whole(r"\d{1,2}")]}


def _ids(rules: RuleSet | None) -> Schema:
    known: list[object] = [] if rules is None else [
        {"const": rule.id, "description": rule.title} for rule in rules.rules
    ]  # fmt: skip
    return one_or_many({"anyOf": [*known, TEXT]})


def _topics(rules: RuleSet | None) -> Schema:
    named = [] if rules is None else [*rules.precedence, *(term.name for term in rules.terms)]
    known: list[object] = [{"const": name} for name in named]
    return one_or_many({"anyOf": [*known, TEXT]})


def _scenario(rules: RuleSet | None) -> Schema:
    chosen: Schema = {"$ref": "#/$defs/chosen"}
    term: Schema = TEXT if rules is None else choice_of({t.name: t.means for t in rules.terms})
    option: Schema = {"if": {"type": "object"}, "then": chosen, "else": term}
    answer: Schema = {"anyOf": [{"type": "integer", "minimum": 1, "maximum": 3}, option]}
    return names(
        {
            "given": _said({"$ref": "#/$defs/given"}, "the facts; others are everyday ones"),
            "question": _said(choice_of({ask.value: _ABOUT[ask] for ask in Ask}), "what is asked"),
            "rule": _said(TEXT, "id of the rule it is about"),
            "chosen": _said(chosen, "parts of the choice that are given with the question"),
            "options": _said(
                {"type": "array", "items": option, "minItems": 3, "maxItems": 3},
                "three answers; without them the program finds three",
            ),
            "answer": _said(answer, "the number of the answer you expect; the rules decide"),
            "because": _said(TEXT, "your reason"),
            "note": _said(TEXT, "shown after the answer, as from the coach"),
        },
        required=["given"],
    )
