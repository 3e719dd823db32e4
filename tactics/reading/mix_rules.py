"""Mix rules: shares over many balls, as `mixes` of a rule file."""

import re
from collections.abc import Mapping
from dataclasses import replace

from tactics.model.condition import ALWAYS, Condition
from tactics.model.mix_rule import SMALLEST_MIX, MixExample, MixRule, MixSays, Share
from tactics.model.names import fold, slug
from tactics.model.trait import Kind, Role, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Also
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.conditions import read_condition
from tactics.reading.fields import items_of, one_text, one_word
from tactics.reading.keywords import MIX_EXAMPLE_KEYS, MIX_KEYS
from tactics.reading.notes import Entry, Notes
from tactics.reading.rule_body import (
    RuleKeys,
    Surroundings,
    check_id,
    concern_of,
    drills_of,
    evidence_of,
)
from tactics.reading.scope import Scope, find_trait
from tactics.reading.sections import known_keys, missing_keys, section
from tactics.reading.shares import read_share
from tactics.reading.suggest import did_you_mean, near
from tactics.reading.turned_off import is_off
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Node, Scalar
from tactics.source import Span

ANY_ONE = "any one"
_WANTED = {
    "title": "a few words that say it",
    "of": "{game situation: serving, serve number: first}",
    "share of": "{direction: any one}",
    "because": "why it is so",
    "cue": "a few words for the court",
}
_WANTED_IN_EXAMPLE = {"seen": "13 of 16", "says": "too often"}
_BALLS = re.compile(r"(?P<number>\d{1,6})(?:\s+(?P<balls>[^\d\s].*))?")


def read_mixes(
    entry: Entry,
    around: Surroundings,
    rule_ids: Mapping[str, Span],
    inherited: frozenset[str],
    notes: Notes,
) -> tuple[dict[str, MixRule], frozenset[str]]:
    """Return the mix rules of a file that can be read, and the ids it turns off or replaces.

    rule_ids: ids that are taken by rules, with their places. inherited: mixes of the files below.
    """
    inner = notes.inside(entry.key.span.line)
    found: dict[str, MixRule] = {}
    off = set()
    for line in section(entry.value, entry.key.span, '"mixes"', inner, Code.DUPLICATE_RULE):
        if is_off(line, slug(line.key.text) in inherited, inner):
            off.add(slug(line.key.text))
            _check_there(line.key, inherited, inner)
            continue
        before = notes.errors()
        off.add(slug(line.key.text))
        mix = _mix(line, around, notes)
        _check_not_a_rule(line, rule_ids, inner)
        if notes.errors() == before:
            found[mix.id] = mix
    return found, frozenset(off)


def _check_there(written: Scalar, inherited: frozenset[str], notes: Notes) -> None:
    if slug(written.text) in inherited:
        return
    spelt = near(written.text, inherited)
    notes.add(
        Code.UNKNOWN_RULE,
        written,
        f"{quoted(written.text)} is turned off, and it is not a mix of this set",
        did_you_mean(spelt) if spelt else "write the id of a mix as it stands under mixes",
        replacement=spelt[0] if len(spelt) == 1 else "",
    )


def with_parts(around: Surroundings) -> Scope:
    """Return what a mix may speak about: facts, terms and parts of the choice alike."""
    words = around.vocabulary
    alike = Vocabulary(
        traits=tuple(
            replace(trait, role=Role.FACT) if trait.role is Role.PART else trait
            for trait in words.traits
        )
    )
    return Scope(
        vocabulary=alike, role=Role.FACT, terms=around.terms, other="in a chart, beside the choice"
    )


def _check_not_a_rule(line: Entry, rule_ids: Mapping[str, Span], notes: Notes) -> None:
    taken = rule_ids.get(slug(line.key.text))
    if taken is not None:
        notes.add(
            Code.DUPLICATE_RULE,
            line.key.span,
            f"a rule and a mix are both called {quoted(line.key.text)}",
            "give one of the two another id",
            also=(Also(span=taken, text="the rule"),),
        )


def _mix(entry: Entry, around: Surroundings, notes: Notes) -> MixRule:
    whose = f"mix {quoted(entry.key.text)}"
    inner = notes.inside(entry.key.span.line, whose)
    check_id(entry, inner)
    lines = section(entry.value, entry.key.span, whose, inner)
    keys = known_keys(lines, MIX_KEYS, whose, inner, _WANTED)
    if isinstance(entry.value, yaml_text.Mapping):
        missing_keys(keys, _WANTED, whose, entry.key.span, inner)
        _check_limits(keys, entry, inner)
    if "strength" in keys:
        one_word(keys["strength"], ("should",), inner)
    return _built(entry, RuleKeys(keys=keys, notes=inner), around)


def _check_limits(keys: Mapping[str, Entry], entry: Entry, notes: Notes) -> None:
    if not {"at most", "at least"} & keys.keys():
        notes.add(
            Code.MISSING_KEY,
            entry.key.span,
            f'{notes.whose} has no "at most" and no "at least"',
            "add at most: 2 in 3",
        )


def _built(entry: Entry, keys: RuleKeys, around: Surroundings) -> MixRule:
    scope = with_parts(around)
    any_one, share = _share_of(keys, scope)
    over, balls = _over(keys)
    at_most, at_least = _limit(keys, "at most"), _limit(keys, "at least")
    _check_order(keys, at_most, at_least, any_one)
    return MixRule(
        id=slug(entry.key.text),
        title=keys.text("title"),
        concern=concern_of(keys, around),
        of=_condition(keys, "of", scope),
        share=share,
        any_one=any_one,
        at_most=at_most,
        at_least=at_least,
        for_each=_for_each(keys, scope),
        over=over,
        balls=balls,
        because=keys.text("because"),
        cue=keys.text("cue"),
        drills=drills_of(keys, around),
        evidence=evidence_of(keys),
        note=keys.text("note"),
        author=keys.text("author"),
        examples=_examples(keys),
        span=entry.key.span,
    )


def _condition(keys: RuleKeys, name: str, scope: Scope) -> Condition:
    if name not in keys.keys:
        return ALWAYS
    entry = keys.keys[name]
    return read_condition(entry.value, keys.what(name), entry.key.span, scope, keys.inner(name))


def _share_of(keys: RuleKeys, scope: Scope) -> tuple[str, Condition]:
    """Return the row each of whose words is a share of its own, else what the share is."""
    line = _any_one(keys.keys.get("share of"))
    if line is None:
        return "", _condition(keys, "share of", scope)
    trait = _with_words(line, scope, keys.inner("share of"))
    return ("" if trait is None else trait.folded), ALWAYS


def _any_one(entry: Entry | None) -> Entry | None:
    """Return the line `direction: any one`, where `share of` is made of it."""
    if entry is None or not isinstance(entry.value, yaml_text.Mapping):
        return None
    if len(entry.value.pairs) != 1:
        return None
    key, value = entry.value.pairs[0]
    if not isinstance(value, Scalar) or fold(value.text) != ANY_ONE:
        return None
    return Entry(name=fold(key.text), key=key, value=value)


def _with_words(line: Entry, scope: Scope, notes: Notes) -> Trait | None:
    """Return the fact or part a line names, if its balls can be told apart by words."""
    trait = find_trait(line, scope, notes)
    if trait is None or trait.words or trait.kind is Kind.TEXT:
        return trait  # a text stands for an own fact that could not be read and was told already
    notes.add(
        Code.NO_WORDS,
        line.key,
        f"{notes.whose} counts by {quoted(trait.name)}, which has a number and no words",
        "name a fact or a part that has words, for example direction",
    )
    return None


def _limit(keys: RuleKeys, name: str) -> Share | None:
    written = one_text(keys.keys[name], keys.notes) if name in keys.keys else None
    if written is None:
        return None
    share = read_share(written.text)
    if isinstance(share, Complaint):
        keys.notes.complain(share, written)
        return None
    return share


def _check_order(
    keys: RuleKeys, at_most: Share | None, at_least: Share | None, any_one: str
) -> None:
    """Check that two limits leave something between them, and suit what is counted."""
    if at_most and at_least and at_least.part > at_most.part:
        keys.notes.add(
            Code.REVERSED_RANGE,
            keys.keys["at least"].value.span,
            f"{keys.notes.whose} asks for more at least than at most",
            "write the smaller share behind at least",
        )
    if any_one and at_least:
        keys.notes.add(
            Code.ANY_ONE,
            keys.keys["at least"].key.span,
            f"{keys.notes.whose} asks for a share at least, and does not say of which word",
            f'{ANY_ONE} goes with "at most"; for a share at least, name the word',
        )


def _over(keys: RuleKeys) -> tuple[int, str]:
    """Return how many balls are needed, and what they are called."""
    name = "over at least"
    written = one_text(keys.keys[name], keys.notes) if name in keys.keys else None
    if written is None:
        return SMALLEST_MIX, "balls"
    found = _BALLS.fullmatch(" ".join(written.text.split()))
    if found is None:
        keys.notes.add(
            Code.WORD_FOR_NUMBER,
            written,
            f"{keys.what(name)} is {quoted(written.text)}, and not a number of balls",
            "write a whole number and what is counted, for example 20 first serves",
        )
        return SMALLEST_MIX, "balls"
    number, balls = int(found["number"]), found["balls"] or "balls"
    if number < SMALLEST_MIX:
        keys.notes.add(
            Code.OUT_OF_RANGE,
            written,
            f"{keys.what(name)} is {number}, and so few balls say nothing about a share",
            f"write {SMALLEST_MIX} {balls} or more",
            replacement=f"{SMALLEST_MIX} {balls}",
        )
    return number, balls


def _for_each(keys: RuleKeys, scope: Scope) -> tuple[str, ...]:
    found: list[str] = []
    for written in keys.texts("for each"):
        line = Entry(name=fold(written.text), key=written, value=Scalar(text="", span=written.span))
        trait = _with_words(line, scope, keys.inner("for each"))
        if trait is not None and trait.folded not in found:
            found.append(trait.folded)
    return tuple(found)


def _examples(keys: RuleKeys) -> tuple[MixExample, ...]:
    if "examples" not in keys.keys:
        return ()
    found = [_example(node, keys.inner("examples")) for node in items_of(keys.keys["examples"])]
    return tuple(example for example in found if example is not None)


def _example(node: Node, notes: Notes) -> MixExample | None:
    what = f"an example of {notes.whose}"
    before = notes.errors()
    lines = section(node, node.span, what, notes)
    keys = known_keys(lines, MIX_EXAMPLE_KEYS, what, notes, _WANTED_IN_EXAMPLE)
    if notes.errors() == before or keys:
        missing_keys(keys, _WANTED_IN_EXAMPLE, what, node.span, notes)
    seen = _limit(RuleKeys(keys=keys, notes=notes), "seen")
    says = one_word(keys["says"], list(MixSays), notes) if "says" in keys else None
    if seen is None or says is None or notes.errors() > before:
        return None
    return MixExample(seen=seen, says=MixSays(says), span=node.span)
