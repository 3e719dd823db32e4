"""One rule: its keys, one by one."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from tactics.model.condition import ALWAYS, Condition
from tactics.model.drill import Catalogue
from tactics.model.known import Allowed, OneOf
from tactics.model.names import fold, slug
from tactics.model.rule import Answer, Rule, Strength
from tactics.model.trait import Role, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Severity
from tactics.reading import yaml_text
from tactics.reading.answers import read_answer
from tactics.reading.belonging import settled_rule
from tactics.reading.codes import Code
from tactics.reading.conditions import empty_section, read_condition, read_conditions
from tactics.reading.examples import read_examples
from tactics.reading.fields import items_of, one_text, one_word, texts, word_among
from tactics.reading.keywords import RULE_KEYS
from tactics.reading.notes import Entry, Notes, of
from tactics.reading.scope import Scope
from tactics.reading.sections import known_keys, missing_keys, section
from tactics.reading.suggest import did_you_mean, near
from tactics.reading.wording import either, quoted
from tactics.reading.yaml_text import Node, Scalar, words_of
from tactics.source import Span

EVIDENCE = ("court", "flight", "study", "practice", "rules of play")
_ID = re.compile(r"[^\W\d_]+(?:-[^\W\d_]+)*")
_LETTERS = re.compile(r"[^\W\d_]+")
_WANTED = {
    "title": "a few words that say it",
    "concern": "one of the concerns in precedence",
    "strength": "should",
    "advise": "{direction: crosscourt}",
    "because": "why it is so",
    "cue": "a few words for the court",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    """What a rule can lean on. precedence: None where it is not known, so it is not checked."""

    vocabulary: Vocabulary
    terms: frozenset[str]
    precedence: tuple[str, ...] | None
    catalogue: Catalogue | None = None

    @property
    def facts(self) -> Scope:
        """Return what `when` and `unless` may speak about."""
        return Scope(
            vocabulary=self.vocabulary,
            role=Role.FACT,
            terms=self.terms,
            other='under "if choosing"',
        )

    @property
    def parts(self) -> Scope:
        """Return what `if choosing` and the answers may speak about."""
        return Scope(vocabulary=self.vocabulary, role=Role.PART, other='under "when" or "unless"')


def read_rule(entry: Entry, around: Surroundings, notes: Notes) -> Rule:
    """Return a rule with what could be read of it; what could not is noted."""
    rule_id = slug(entry.key.text)
    whose = f"rule {quoted(entry.key.text)}"
    inner = notes.inside(entry.key.span.line, whose)
    check_id(entry, inner)
    body = settled_rule(entry.value, around.vocabulary, around.terms, inner, RULE_KEYS)
    lines = section(body, entry.key.span, whose, inner)
    keys = known_keys(lines, RULE_KEYS, whose, inner, _WANTED)
    if isinstance(entry.value, yaml_text.Mapping):
        missing_keys(keys, _WANTED, whose, entry.key.span, inner)
    return _rule(rule_id, entry, RuleKeys(keys=keys, notes=inner), around)


def check_id(entry: Entry, notes: Notes) -> None:
    """Note an id that cannot be said aloud."""
    written = entry.key.text
    if _ID.fullmatch(written) and written == written.casefold():
        return
    words = _LETTERS.findall(written.casefold())
    wanted = "-".join(words)
    has_digits = any(letter.isdigit() for letter in written)
    notes.add(
        Code.RULE_ID,
        entry.key,
        f"{quoted(written)} is not an id that can be said aloud: small words joined by hyphens",
        f"write {wanted}"
        if wanted and not has_digits
        else "write words, for example low-ball-early",
        replacement=wanted if wanted and not has_digits else "",
    )


@dataclass(slots=True)
class RuleKeys:
    """The keys of one rule, and where its problems go."""

    keys: dict[str, Entry]
    notes: Notes

    def inner(self, name: str) -> Notes:
        """Return notes for what stands behind a key."""
        return self.notes.inside(self.keys[name].key.span.line)

    def text(self, name: str) -> str:
        """Return the text behind a key on one line, or nothing."""
        written = one_text(self.keys[name], self.notes) if name in self.keys else None
        return "" if written is None else " ".join(written.text.split())

    def texts(self, name: str) -> tuple[Scalar, ...]:
        """Return the texts of the list behind a key."""
        return texts(self.keys[name], self.notes) if name in self.keys else ()

    def what(self, name: str) -> str:
        """Return how a message names a key: `"advise" of rule "low-ball"`."""
        return of(self.notes, self.keys[name])


def _rule(rule_id: str, entry: Entry, keys: RuleKeys, around: Surroundings) -> Rule:
    return Rule(
        id=rule_id,
        title=keys.text("title"),
        concern=concern_of(keys, around),
        strength=_strength(keys),
        when=_condition(keys, "when", around.facts) or ALWAYS,
        unless=_unless(keys, around),
        choosing=_condition(keys, "if choosing", around.parts),
        advice=_answer(keys, "advise", around.parts),
        aim=_aim(keys, around.parts),
        alternatives=_alternatives(keys, around.parts),
        beats=tuple(slug(each.text) for each in keys.texts("beats")),
        because=keys.text("because"),
        cue=keys.text("cue"),
        usual_mistake=_answer(keys, "usual mistake", around.parts),
        drills=drills_of(keys, around),
        evidence=evidence_of(keys),
        note=keys.text("note"),
        author=keys.text("author"),
        examples=read_examples(keys.keys["examples"], around.vocabulary, around.terms, keys.notes)
        if "examples" in keys.keys
        else (),
        span=entry.key.span,
        spans=tuple(_spans(keys.keys)),
    )


def _spans(keys: dict[str, Entry]) -> list[tuple[str, Span]]:
    """Return the places of the keys, and of what stands inside `advise`, `beats` and so on."""
    spans = []
    for name, entry in keys.items():
        spans.append((name, entry.key.span))
        if isinstance(entry.value, yaml_text.Mapping):
            spans += [(f"{name}/{fold(key.text)}", key.span) for key, _ in entry.value.pairs]
        elif name in ("beats", "drills"):
            spans += [
                (f"{name}/{slug(each.text)}", each.span)
                for each in items_of(entry)
                if isinstance(each, Scalar)
            ]
    return spans


def concern_of(keys: RuleKeys, around: Surroundings) -> str:
    """Return the concern as the precedence spells it, or nothing with a problem."""
    if "concern" not in keys.keys:
        return ""
    written = one_text(keys.keys["concern"], keys.notes)
    if written is None:
        return ""
    if around.precedence is None:
        return written.text
    for concern in around.precedence:
        if fold(concern) == fold(written.text):
            return concern
    spelt = near(written.text, around.precedence)
    hint = f"{did_you_mean(spelt)} It" if spelt else "it"
    keys.notes.add(
        Code.UNKNOWN_CONCERN,
        written,
        f"{keys.what('concern')} is {quoted(written.text)}, which is not in the precedence",
        f"{hint} can be {either(around.precedence)}",
        replacement=spelt[0] if len(spelt) == 1 else "",
    )
    return ""


def _strength(keys: RuleKeys) -> Strength:
    if "strength" not in keys.keys:
        return Strength.SHOULD
    found = one_word(keys.keys["strength"], list(Strength), keys.notes)
    return Strength(found) if found else Strength.SHOULD


def _condition(keys: RuleKeys, name: str, scope: Scope) -> Condition | None:
    if name not in keys.keys:
        return None
    entry = keys.keys[name]
    return read_condition(entry.value, keys.what(name), entry.key.span, scope, keys.inner(name))


def _unless(keys: RuleKeys, around: Surroundings) -> tuple[Condition, ...]:
    if "unless" not in keys.keys:
        return ()
    entry = keys.keys["unless"]
    if entry.is_empty:
        empty_section(keys.what("unless"), entry.key.span, keys.notes)
        return ()
    return read_conditions(entry, keys.what("unless"), around.facts, keys.inner("unless"))


def _answer(keys: RuleKeys, name: str, scope: Scope) -> Answer:
    if name not in keys.keys:
        return ()
    entry = keys.keys[name]
    return read_answer(entry.value, keys.what(name), entry.key.span, scope, keys.inner(name))


def _aim(keys: RuleKeys, scope: Scope) -> Answer:
    """Return the aim; every part of it is one word or one number."""
    before = keys.notes.errors()
    aim = _answer(keys, "aim", scope)
    if aim and keys.notes.errors() == before:
        wanted = dict(aim)
        for trait, value in _lines_by_trait(keys.keys["aim"], scope):
            if not _is_one_value(value, trait, wanted[trait.folded]):
                _more_than_one_aim(trait, value, keys)
    return aim


def _lines_by_trait(entry: Entry, scope: Scope) -> Iterator[tuple[Trait, Node]]:
    if isinstance(entry.value, yaml_text.Mapping):
        for key, value in entry.value.pairs:
            trait = scope.vocabulary.find(key.text)
            if trait is not None:
                yield trait, value


def _is_one_value(node: Node, trait: Trait, value: Allowed) -> bool:
    """Say whether a value is one word (which may be a band) or one number."""
    written = next(iter(words_of(node)), None)
    if isinstance(node, yaml_text.Sequence) and len(node.items) != 1:
        return False
    if written is not None and trait.word_named(written.text) is not None:
        return True
    return not isinstance(value, OneOf) and all(
        interval.low[0] == interval.high[0] for interval in value.intervals
    )


def _more_than_one_aim(trait: Trait, value: Node, keys: RuleKeys) -> None:
    keys.inner("aim").add(
        Code.ONE_VALUE,
        value.span,
        f"{quoted(trait.name)} in {keys.what('aim')} is more than one value",
        'write one word or one number to aim for; limits belong under "advise"',
    )


def _alternatives(keys: RuleKeys, scope: Scope) -> tuple[Answer, ...]:
    if "alternatives" not in keys.keys:
        return ()
    entry = keys.keys["alternatives"]
    what, inner = keys.what("alternatives"), keys.inner("alternatives")
    in_list = isinstance(entry.value, yaml_text.Sequence)
    return tuple(
        read_answer(item, what, entry.key.span, scope, inner, is_item=in_list)
        for item in items_of(entry)
    )


def drills_of(keys: RuleKeys, around: Surroundings) -> tuple[str, ...]:
    """Return the ids of the drills; one that no drill file has is a warning."""
    written = keys.texts("drills")
    if around.catalogue is not None:
        for each in written:
            if around.catalogue.find(slug(each.text)) is None:
                _unknown_drill(each, around.catalogue, keys)
    return tuple(slug(each.text) for each in written)


def _unknown_drill(written: Scalar, catalogue: Catalogue, keys: RuleKeys) -> None:
    spelt = near(written.text, [drill.id for drill in catalogue.drills])
    keys.notes.add(
        Code.UNKNOWN_DRILL,
        written,
        f"{keys.notes.whose} names the drill {quoted(written.text)}, which no drill file has",
        did_you_mean(spelt) if spelt else "add it to a drill file, or take it out here",
        replacement=spelt[0] if len(spelt) == 1 else "",
        severity=Severity.WARNING,
    )


def evidence_of(keys: RuleKeys) -> str:
    """Return what a rule rests on, in words."""
    if "evidence" not in keys.keys:
        return ""
    what = keys.what("evidence")
    found = [word_among(each, EVIDENCE, what, keys.notes) for each in keys.texts("evidence")]
    return ", ".join(word for word in found if word)
