"""Words where lines belong: `when: low ball`, `aim: forehand`, and `not low ball: yes`."""

import re
from dataclasses import replace

from tactics.model.names import fold
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.missing_colons import glued_name
from tactics.reading.notes import Entry, Notes
from tactics.reading.scope import Scope
from tactics.reading.wording import either, quoted
from tactics.reading.yaml_text import Node, Scalar

_BETWEEN = re.compile(r"\s*[,;&]\s*|\s+and\s+", re.IGNORECASE)
_NOT = re.compile(r"not\s+(?P<name>.+)", re.IGNORECASE | re.DOTALL)
_MOST = 4

Line = tuple[str, str]
"""A name and its value, as texts."""


def lines_for(
    node: Node, what: str, scope: Scope, notes: Notes, *, is_item: bool = False
) -> Node | None:
    """Return the section that bare words stand for, with a problem; other nodes as they are.

    is_item: the node stands behind the hyphen of a list. None: the words could mean several.
    """
    words = _bare_words(node)
    meant = [_meanings(word, scope) for word in words]
    if not words or not all(meant):
        return node
    ways = [f"{name}: {value}" for each in meant for name, value in each]
    is_clear = all(len(each) == 1 for each in meant)
    written = ", ".join(ways)
    wanted = written if is_item and len(words) == 1 else "{" + written + "}"
    place = node if isinstance(node, Scalar) else node.span
    notes.add(
        Code.SECTION_WANTED,
        place,
        f"{what} is made of lines with a name and a value, and {quoted(', '.join(words))} stands "
        "there without the other half",
        f"write {wanted}" if is_clear else f"write a name before each word: {either(ways)}",
        replacement=wanted if is_clear and node.span.width > 1 else "",
    )
    return _section(ways, node) if is_clear else None


def _section(ways: list[str], node: Node) -> Node:
    pairs = [way.split(": ", maxsplit=1) for way in ways]
    return yaml_text.Mapping(
        pairs=tuple(
            (Scalar(text=name, span=node.span), Scalar(text=value, span=node.span))
            for name, value in pairs
        ),
        span=node.span,
    )


def _bare_words(node: Node) -> tuple[str, ...]:
    """Return the words that stand alone or in a list, or none where there is more than words."""
    if isinstance(node, Scalar):
        text = " ".join(node.text.split())
        return tuple(_BETWEEN.split(text)) if text and not glued_name(text) else ()
    if isinstance(node, yaml_text.Sequence) and 0 < len(node.items) <= _MOST:
        words = [each.text for each in node.items if isinstance(each, Scalar)]
        return tuple(words) if len(words) == len(node.items) and all(words) else ()
    return ()


def _meanings(word: str, scope: Scope) -> tuple[Line, ...]:
    """Return the lines that a word may stand for: a term, a mark, or a word of a few rows."""
    negated = _NOT.fullmatch(word)
    name = negated["name"] if negated else word
    value = "no" if negated else "yes"
    trait = scope.vocabulary.find(name)
    is_mark = trait is not None and trait in scope.traits and trait.word_named(value) is not None
    if fold(name) in scope.terms or is_mark:
        return ((name, value),)
    return tuple(
        (each.name, word if negated is None else f"not {name}")
        for each in scope.traits
        if each.word_named(name) is not None
    )[:3]


def without_not(entry: Entry, scope: Scope, notes: Notes) -> Entry:
    """Return `not low ball: yes` as `low ball: no`, with a problem; other lines as they are."""
    negated = _NOT.fullmatch(entry.key.text)
    if negated is None or not isinstance(entry.value, Scalar) or entry.is_empty:
        return entry
    name, said = negated["name"], entry.value.text.strip()
    is_term, trait = fold(name) in scope.terms, scope.vocabulary.find(name)
    if not is_term and (trait is None or trait not in scope.traits):
        return entry
    value = f"not {said}"
    if is_term or (trait is not None and trait.word_named("yes") and trait.word_named("no")):
        value = {"yes": "no", "no": "yes"}.get(fold(said), value)
    start, end = entry.key.span, entry.value.span
    wanted = f"{name}: {value}"
    is_one_line = start.line == end.line and entry.value.is_whole
    notes.add(
        Code.YES_OR_NO if is_term else Code.COMPARISON,
        replace(start, width=end.column + end.width - start.column) if is_one_line else start,
        f'in {notes.whose}, "not" stands in front of {quoted(name)}, and it belongs to the value',
        f"write {wanted}",
        replacement=wanted if is_one_line else "",
    )
    return Entry(
        name=fold(name),
        key=replace(entry.key, text=name),
        value=replace(entry.value, text=value),
    )
