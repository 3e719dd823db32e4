"""What a rule means as one short word, so that a change of meaning is noticed.

A change of wording or of the order of lines keeps the word; a change of a condition, of advice,
of an aim, of strength or concern does not.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from hashlib import sha256
from types import NoneType
from typing import Any

from tactics.model.condition import All, AnyOf, Condition, TermTest, tests_in
from tactics.model.names import fold
from tactics.model.rule import Rule, RuleSet
from tactics.model.vocabulary import Vocabulary

_LETTERS = 12
_FORMS: dict[type[Any], Callable[[Any], str]] = {}
"""Type -> what writes its values, found out once: a rule set has thousands of them."""


def rule_revision(rules: RuleSet, rule: Rule) -> str:
    """Return twelve letters and digits for what a rule means, with the terms it uses."""
    terms = {fold(term.name): term.condition for term in rules.terms}
    used = sorted(_terms_of(_conditions(rule), terms))
    meaning = (
        rule.id, fold(rule.concern), rule.strength, rule.when, frozenset(rule.unless),
        rule.choosing, frozenset(rule.advice), frozenset(rule.aim),
        frozenset(map(frozenset, rule.alternatives)), frozenset(rule.beats),
        [(name, terms[name]) for name in used],
    )  # fmt: skip
    return _short(canonical(meaning))


def revisions(rules: RuleSet) -> dict[str, str]:
    """Return rule id -> revision."""
    return {rule.id: rule_revision(rules, rule) for rule in rules.rules}


def rules_hash(rules: RuleSet, known: Mapping[str, str] | None = None) -> str:
    """Return twelve letters and digits for what a whole rule set means; its order is no matter.

    known: the revisions of its rules, where they have been worked out already.
    """
    revision = revisions(rules) if known is None else known
    ordered = sorted(rules.rules, key=lambda rule: rule.id)
    terms = sorted(rules.terms, key=lambda term: fold(term.name))
    whole = (
        [revision[rule.id] for rule in ordered],
        [rule.usual_mistake for rule in ordered],
        [(fold(term.name), term.condition) for term in terms],
        sorted(canonical(pair) for pair in rules.applies_to),
        sorted(canonical(line.when) for line in rules.cannot_happen),
        rules.precedence,
        _own_facts(rules.vocabulary),
    )
    return _short(canonical(whole))


def _own_facts(words: Vocabulary) -> list[str]:
    return sorted(canonical(trait) for trait in words.traits if trait.own)


def _conditions(rule: Rule) -> Iterator[Condition]:
    yield from (rule.when, *rule.unless)
    if rule.choosing is not None:
        yield rule.choosing


def _terms_of(conditions: Iterable[Condition], terms: dict[str, Condition]) -> set[str]:
    found: set[str] = set()
    waiting = list(conditions)
    while waiting:
        for test in tests_in(waiting.pop()):
            if isinstance(test, TermTest) and fold(test.term) not in found:
                found.add(fold(test.term))
                waiting.append(terms[fold(test.term)])
    return found


def canonical(value: object) -> str:
    """Return one text for equal values, the same on every machine and in every run."""
    kind = type(value)
    if kind not in _FORMS:
        _FORMS[kind] = _form_of(kind)
    return _FORMS[kind](value)


def _form_of(kind: type[Any]) -> Callable[[Any], str]:
    """Return what writes the values of a type."""
    if issubclass(kind, Enum):
        return lambda value: repr(str(value.value))
    if is_dataclass(kind):
        return _form_of_fields(kind)
    if issubclass(kind, frozenset | set):
        return lambda value: f"{{{','.join(sorted(map(canonical, value)))}}}"
    if issubclass(kind, tuple | list):
        return lambda value: f"({','.join(map(canonical, value))})"
    if issubclass(kind, bool | NoneType | str):
        return repr
    if issubclass(kind, int | float):
        return lambda value: repr(float(value))
    raise TypeError(f"no canonical form for {kind.__name__}")


def _form_of_fields(kind: type[Any]) -> Callable[[Any], str]:
    names = tuple(each.name for each in fields(kind) if each.compare)
    # the order of conditions in `all` and `any` says nothing
    is_loose = issubclass(kind, All | AnyOf)

    def form(value: object) -> str:
        held = (getattr(value, name) for name in names)
        inside = (
            canonical(frozenset(each) if is_loose and isinstance(each, tuple) else each)
            for each in held
        )
        return f"{kind.__name__}({','.join(inside)})"

    return form


def _short(text: str) -> str:
    return sha256(text.encode()).hexdigest()[:_LETTERS]
