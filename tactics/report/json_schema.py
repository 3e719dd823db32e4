"""A JSON Schema (draft 2020-12) of rule files, for completion and first checks in editors.

It is made from the vocabulary, so a rule set's own facts, terms and concerns can be in it too.
"""

from collections.abc import Iterable, Mapping, Sequence

from tactics.model.drill import Catalogue
from tactics.model.mix_rule import MixSays
from tactics.model.rule import RuleSet, Strength
from tactics.model.standard import STANDARD
from tactics.model.trait import Trait
from tactics.model.units import Unit
from tactics.model.verdict import Grade
from tactics.model.vocabulary import Vocabulary
from tactics.reading.keywords import DRILL_MUSTS, RULE_MUSTS
from tactics.reading.rule_body import EVIDENCE
from tactics.reading.shares import NUMBER_WORDS
from tactics.report.json_schema_values import (
    OFF,
    TEXT,
    Schema,
    aimed_at,
    any_of,
    asked_of,
    choice_of,
    described,
    names,
    noted_of,
    one_or_many,
    spelt,
    whole,
)
from tactics.report.verdicts import strength_word

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_ID = r"^[^\W\d_]+(-[^\W\d_]+)*$"
_TEXTS = one_or_many(TEXT)
_YES_OR_NO: Schema = {"enum": ["yes", "no", "Yes", "No", "YES", "NO", True, False]}
_MIX_MUSTS = ("title", "of", "share of", "because", "cue")
_OPEN = (
    "Facts and terms that a file declares itself are let through as they stand; "
    "`tactics schema --for FILE` knows them."
)


def rule_file_schema(rules: RuleSet | None = None, drills: Catalogue | None = None) -> Schema:
    """Return the schema of rule files; with a rule set, of files that use its own words too."""
    words = STANDARD if rules is None else rules.vocabulary
    return {
        "$schema": DIALECT,
        "title": "A rule set" if rules is None else f"A rule set with the words of {rules.name}",
        "description": _OPEN if rules is None else f"Knows the own words of {rules.name}.",
        **names(
            {
                "rule set": _said(TEXT, "the name of the set"),
                "author": _said(TEXT, "who wrote it"),
                "about": _said(TEXT, "what it is for, in free words"),
                "applies to": _ref("applies to"),
                "builds on": _said(_TEXTS, "rule sets whose rules are taken over, by name or path"),
                "precedence": _said(_TEXTS, "the concerns, from the one that decides first"),
                "facts": _said(_section_of(_ref("own fact")), "facts of your own"),
                "terms": _said(_section_of(_ref("term")), "situations with a name"),
                "rules": _said(_switchable(_ref("rule")), "the rules, by id"),
                "mixes": _said(_switchable(_ref("mix")), "shares over many balls, by id"),
                "always says": _said(
                    one_or_many(choice_of({trait.name: trait.says for trait in words.parts})),
                    "parts that some rule is to speak about in every situation",
                ),
                "cannot happen": _said(
                    one_or_many(_ref("impossible")), "what no proof has to count with, and why"
                ),
            },
            required=["rule set"],
        ),
        "$defs": {**_values(words), **_conditions(words, rules), **_parts_of_rules(rules, drills)},
    }


def drill_file_schema(rules: RuleSet | None = None) -> Schema:
    """Return the schema of drill files; with a rule set, its ids are offered."""
    ids = () if rules is None else tuple((rule.id, rule.title) for rule in rules.rules)
    minutes: Schema = {
        "anyOf": [
            {"type": "integer", "minimum": 1, "maximum": 999},
            whole(r"[1-9]\d{0,2}\s*(?:[mM][iI][nN](?:[uU][tT][eE][sS]?)?)?"),
        ]
    }
    texts = ("title", "set up", "scoring", "harder", "easier", "safety")
    drill = names(
        {
            **dict.fromkeys(texts, TEXT),
            "minutes": _said(minutes, "how long it usually takes"),
            "trains": _said(_offered(ids), "ids of the rules it trains"),
            "strains": _said(_TEXTS, "what a player with a restriction must not do in it"),
        },
        required=DRILL_MUSTS,
    )
    section = _section_of(drill)
    return {
        "$schema": DIALECT,
        "title": "A drill file",
        **names({"drills": section, "author": TEXT, "about": TEXT}, required=["drills"]),
    }


def _said(schema: Schema, description: str) -> Schema:
    return {**schema, "description": description}


def _ref(name: str) -> Schema:
    return {"$ref": f"#/$defs/{name.replace(' ', '-')}"}


def _section_of(schema: Schema) -> Schema:
    return {"type": "object", "additionalProperties": schema}


def _switchable(schema: Schema) -> Schema:
    """Return a section of ids, each with what it stands for, or turned off."""
    return {
        "type": "object",
        "propertyNames": {"pattern": _ID},
        "additionalProperties": {"if": {"type": "object"}, "then": schema, "else": OFF},
    }


def _offered(pairs: Iterable[tuple[str, str]]) -> Schema:
    """Return texts of which some are offered: nothing else is wrong because of that."""
    known: list[object] = [{"const": name, "description": says} for name, says in pairs]
    return one_or_many({"anyOf": [*known, TEXT]}) if known else _TEXTS


# --- values of facts and parts --------------------------------------------------------------


def _values(words: Vocabulary) -> Schema:
    """Return a definition for each fact and part, in each of the places where it may stand."""
    found: Schema = {}
    for trait in (*words.facts, *words.parts):
        asked = described(trait, one_or_many(asked_of(trait), least=1))
        found[_key("asked", trait)] = asked
        found[_key("noted", trait)] = described(trait, one_or_many(noted_of(trait), least=1))
    for trait in words.parts:
        advised = one_or_many(asked_of(trait, scatter=True), least=1)
        found[_key("advised", trait)] = described(trait, advised)
        found[_key("aim", trait)] = described(trait, one_or_many(aimed_at(trait), least=1))
    return found


def _key(place: str, trait: Trait) -> str:
    return f"{place} {trait.folded}".replace(" ", "-")


def _lines(place: str, traits: Sequence[Trait]) -> dict[str, Schema]:
    return {trait.name: _ref(_key(place, trait)) for trait in traits}


def _also(traits: Iterable[Trait]) -> Mapping[str, Iterable[str]]:
    return {trait.name: trait.also for trait in traits}


def _conditions(words: Vocabulary, rules: RuleSet | None) -> Schema:
    """Return the conditions and answers: which facts and parts may stand where."""
    facts, parts = words.facts, words.parts
    terms: dict[str, Schema] = {}
    if rules is not None:
        terms = {term.name: _said(_YES_OR_NO, term.means or "a term") for term in rules.terms}
    # without the rule set any other name may be a term or an own fact
    others: Schema | bool = rules is None
    return {
        "condition": _condition("condition", facts, terms, others),
        "choice": _condition("choice", parts, {}, False),
        "anything": _condition("anything", (*facts, *parts), terms, others),
        "applies-to": names(_lines("asked", facts), also=_also(facts), others=others),
        "answer": names(_lines("advised", parts), also=_also(parts)),
        "aim": names(_lines("aim", parts), also=_also(parts)),
        "given": names(_lines("noted", facts), also=_also(facts), others=others),
        "chosen": names(_lines("noted", parts), also=_also(parts)),
        "term": names(
            {"means": TEXT, **_lines("asked", facts), **terms, **_logic("condition")},
            also=_also(facts),
            others=others,
        ),
    }


def _condition(
    name: str, traits: Sequence[Trait], terms: Mapping[str, Schema], others: Schema | bool
) -> Schema:
    lines = {**_lines("asked", traits), **terms, **_logic(name)}
    return names(lines, also=_also(traits), others=others)


def _logic(name: str) -> dict[str, Schema]:
    return {
        "all": _said(one_or_many(_ref(name)), "every one of these holds"),
        "any": _said(one_or_many(_ref(name)), "at least one of these holds"),
        "not": _said(_ref(name), "this does not hold"),
    }


# --- rules and what belongs to them ---------------------------------------------------------


def _parts_of_rules(rules: RuleSet | None, drills: Catalogue | None) -> Schema:
    trained = () if drills is None else tuple((each.id, each.title) for each in drills.drills)
    return {
        "rule": _rule(rules, _offered(trained)),
        "mix": _mix(rules, _offered(trained)),
        "own-fact": _own_fact(),
        "impossible": names(
            {
                "when": _said(_ref("condition"), "the situation that cannot happen"),
                "if choosing": _said(_ref("choice"), "with a choice like this"),
                "because": _said(TEXT, "why it cannot"),
            },
            required=["when", "because"],
        ),
        "example": names(
            {
                "given": _ref("given"),
                "choose": _ref("chosen"),
                "grade": choice_of(dict.fromkeys(map(str, Grade), "")),
            },
            required=["choose", "grade"],
        ),
    }


def _rule(rules: RuleSet | None, drills: Schema) -> Schema:
    beaten = () if rules is None else tuple((rule.id, rule.title) for rule in rules.rules)
    strengths = {str(each): strength_word(each) for each in Strength}
    return names(
        {
            "title": _said(TEXT, "what the rule says, in a few words"),
            "concern": _said(_concern(rules), "what kind of reason it is"),
            "strength": _said(choice_of(strengths), "how firmly it speaks"),
            "when": _said(_ref("condition"), "the situation it is about"),
            "unless": _said(one_or_many(_ref("condition")), "exceptions: any of them silences it"),
            "if choosing": _said(_ref("choice"), "speaks only about choices like this"),
            "advise": _said(_ref("answer"), "what a choice is graded by"),
            "aim": _said(_ref("aim"), "what to try for; never graded"),
            "alternatives": _said(one_or_many(_ref("answer")), "whole other answers"),
            "beats": _said(_offered(beaten), "rules it sets aside where both apply"),
            "because": _said(TEXT, "the reason"),
            "cue": _said(TEXT, "a few words for the court"),
            "usual mistake": _said(_ref("answer"), "what players do instead"),
            "drills": _said(drills, "drills that train it"),
            "evidence": _said(_evidence(), "what it rests on"),
            "note": TEXT,
            "author": TEXT,
            "examples": _said(one_or_many(_ref("example")), "small tests of the whole set"),
        },
        required=RULE_MUSTS,
    )


def _concern(rules: RuleSet | None) -> Schema:
    return TEXT if rules is None else choice_of(dict.fromkeys(rules.precedence, ""))


def _evidence() -> Schema:
    return one_or_many(choice_of(dict.fromkeys(EVIDENCE, "")))


def _mix(rules: RuleSet | None, drills: Schema) -> Schema:
    counted = spelt("any one")
    one_line: Schema = {"additionalProperties": whole(counted), "maxProperties": 1}
    is_any_one: Schema = {"type": "object", "minProperties": 1, **one_line}
    example = names(
        {"seen": _share(), "says": choice_of(dict.fromkeys(map(str, MixSays), ""))},
        required=["seen", "says"],
    )
    limits = [names_one(limit) for limit in ("at most", "at least")]
    mix = names(
        {
            "title": _said(TEXT, "what the mix says, in a few words"),
            "concern": _said(_concern(rules), "what kind of reason it is"),
            "strength": choice_of({"should": "no single ball keeps or breaks a mix"}),
            "of": _said(_ref("anything"), "which balls count"),
            "share of": _said(
                {"if": is_any_one, "else": _ref("anything")},
                "which of them are the share; `direction: any one` looks at each by itself",
            ),
            "at most": _said(_share(), "the largest share, for example 2 in 3"),
            "at least": _said(_share(), "the smallest share, for example 1 in 8"),
            "for each": _said(_TEXTS, "facts whose words are counted apart"),
            "over at least": _said(_how_many(), "how many balls, and what they are called"),
            "because": _said(TEXT, "the reason"),
            "cue": _said(TEXT, "a few words for the court"),
            "drills": drills,
            "evidence": _evidence(),
            "note": TEXT,
            "author": TEXT,
            "examples": one_or_many(example),
        },
        required=_MIX_MUSTS,
    )
    return {**mix, "anyOf": limits}


def names_one(name: str) -> Schema:
    """Return that a name is there, in any spelling."""
    return {"not": {"propertyNames": {"not": {"pattern": rf"^\s*{spelt(name)}\s*$"}}}}


def _share() -> Schema:
    number = any_of([r"\d{1,9}", *(spelt(word) for word in NUMBER_WORDS)])
    between = r"\s*(?:/|\b[iI][nN]\b|\b(?:[oO][uU][tT] )?[oO][fF]\b)\s*"
    per_cent = r"\d{1,3}(?:\.\d)?\s*(?:%|[pP][eE][rR] ?[cC][eE][nN][tT])"
    half = r"(?:(?:[aA]|[tT][hH][eE]) )?[hH][aA][lL][fF]"
    return whole(any_of([f"{number}{between}{number}", per_cent, half]))


def _how_many() -> Schema:
    return {"anyOf": [{"type": "integer", "minimum": 10}, whole(r"[1-9]\d{1,5}(?:\s+[^\d\s].*)?")]}


def _own_fact() -> Schema:
    units = {unit.value: "" for unit in Unit if unit.value}
    marked: Schema = {"type": "object", "additionalProperties": {}}
    listed: Schema = {"type": "array", "items": TEXT}
    return names(
        {
            "words": {"if": {"type": "object"}, "then": marked, "else": listed},
            "unit": choice_of(units),
            "from": TEXT,
            "to": TEXT,
            "bands": _section_of(TEXT),
            "says": _said(TEXT, "what the fact is"),
            "question": _said(TEXT, "how the quiz asks for it"),
            "by eye": _said(TEXT, "how a coach judges it"),
            "ordinary": _said(TEXT, "its word on an everyday ball"),
        }
    )
