"""Examples inside a rule: a situation, a choice, and the grade the whole set has to give."""

from dataclasses import replace

from tactics.model.choice import Choice
from tactics.model.known import Known
from tactics.model.names import fold
from tactics.model.rule import Example
from tactics.model.situation import Situation
from tactics.model.trait import Kind, Role, Trait
from tactics.model.verdict import Grade
from tactics.model.vocabulary import Vocabulary
from tactics.reading import yaml_text
from tactics.reading.answers import read_values
from tactics.reading.belonging import settled_example
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.fields import items_of, one_word
from tactics.reading.keywords import EXAMPLE_KEYS
from tactics.reading.notes import Entry, Notes
from tactics.reading.scope import Scope, named_traits
from tactics.reading.sections import known_keys, missing_keys, section
from tactics.reading.suggest import did_you_mean, near
from tactics.reading.values import known
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Node, Scalar

_WANTED = {"choose": "{direction: crosscourt}", "grade": "sound"}


def read_examples(
    entry: Entry, vocabulary: Vocabulary, terms: frozenset[str], notes: Notes
) -> tuple[Example, ...]:
    """Return the examples of a rule that can be read."""
    inner = notes.inside(entry.key.span.line)
    nodes = _joined(items_of(entry), inner)
    found = [_example(node, vocabulary, terms, inner) for node in nodes]
    return tuple(example for example in found if example is not None)


def _joined(nodes: tuple[Node, ...], notes: Notes) -> list[Node]:
    """Return examples as they are meant: `- choose` below `- given` goes on with that example."""
    found: list[Node] = []
    for node in nodes:
        above = found[-1] if found else None
        if _goes_on(above, node):
            notes.add(
                Code.LAYOUT,
                replace(node.span, column=max(1, node.span.column - 2), width=2)
                if node.span.column > 2
                else node.span,
                f"this hyphen begins another example of {notes.whose}, and the line goes on with "
                "the one above",
                "put two spaces where the hyphen is",
                replacement="  ",
            )
            assert isinstance(above, yaml_text.Mapping) and isinstance(node, yaml_text.Mapping)
            found[-1] = replace(above, pairs=(*above.pairs, *node.pairs))
        else:
            found.append(node)
    return found


def _goes_on(above: Node | None, node: Node) -> bool:
    """Say whether a list item has just the lines that the example above it lacks."""
    if not isinstance(above, yaml_text.Mapping) or not isinstance(node, yaml_text.Mapping):
        return False
    there = {fold(key.text) for key, _ in above.pairs}
    here = {fold(key.text) for key, _ in node.pairs}
    later = {"choose", "grade"}
    return bool(here) and here <= later - there and "given" in there and not node.in_braces


def _example(
    node: Node, vocabulary: Vocabulary, terms: frozenset[str], notes: Notes
) -> Example | None:
    what = f"an example of {notes.whose}"
    before = notes.errors()
    body = settled_example(node, vocabulary, terms, notes)
    keys = known_keys(section(body, body.span, what, notes), EXAMPLE_KEYS, what, notes, _WANTED)
    if notes.errors() == before or keys:
        missing_keys(keys, _WANTED, what, node.span, notes)
    given = _values(keys.get("given"), Role.FACT, vocabulary, terms, notes)
    choose = _values(keys.get("choose"), Role.PART, vocabulary, frozenset(), notes)
    grade = one_word(keys["grade"], list(Grade), notes) if "grade" in keys else None
    if grade is None or notes.errors() > before:
        return None
    return Example(
        given=Situation.of(given), choose=Choice.of(choose), grade=Grade(grade), span=node.span
    )


_OTHER = {Role.FACT: 'under "choose"', Role.PART: 'under "given"'}


def _values(
    entry: Entry | None,
    role: Role,
    vocabulary: Vocabulary,
    terms: frozenset[str],
    notes: Notes,
) -> dict[str, Known]:
    if entry is None:
        return {}
    scope = Scope(vocabulary=vocabulary, role=role, other=_OTHER[role])
    what = f"{quoted(entry.key.text)} in an example of {notes.whose}"
    lines = []
    for line in section(entry.value, entry.key.span, what, notes):
        if line.name in terms:
            _term_given(line, notes)
        else:
            lines.append(line)
    found: dict[str, Known] = {}
    for line, trait in named_traits(tuple(lines), scope, notes):
        value = _known(line, trait, vocabulary, notes)
        if value is not None:
            found[trait.folded] = value
    return found


def _known(entry: Entry, trait: Trait, vocabulary: Vocabulary, notes: Notes) -> Known | None:
    """Return what a line says about a fact: one word may also be `not seen`."""
    if isinstance(entry.value, Scalar) and not entry.is_empty and trait.kind is not Kind.TEXT:
        value = known(entry.value.text, trait, vocabulary)
        if isinstance(value, Complaint):
            notes.complain(_or_not_seen(value, entry.value.text), entry.value)
            return None
        return value
    values = read_values(entry, trait, vocabulary, notes)
    return values if isinstance(values, Known) else None


def _or_not_seen(complaint: Complaint, written: str) -> Complaint:
    if complaint.replacement or not near(written, ("not seen",)):
        return complaint
    hint = f"{did_you_mean(('not seen',))} {complaint.hint}"
    return replace(complaint, hint=hint, replacement="not seen")


def _term_given(entry: Entry, notes: Notes) -> None:
    notes.add(
        Code.UNKNOWN_FACT,
        entry.key.span,
        f"an example of {notes.whose} gives {quoted(entry.key.text)}, which is a term",
        "give the facts that the term is made of",
    )
