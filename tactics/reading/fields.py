"""The few ways in which a value of a file is read, so that every message about one reads alike."""

import re
from collections.abc import Sequence

from tactics.model.names import fold
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.keywords import TEXT_KEYS
from tactics.reading.notes import Entry, Notes, of
from tactics.reading.quoting import double_quoted
from tactics.reading.suggest import did_you_mean, meant_yes_or_no, near
from tactics.reading.wording import both, either, quoted
from tactics.reading.yaml_text import Node, Scalar


def one_text(entry: Entry, notes: Notes) -> Scalar | None:
    """Return the one text behind a name, or None with a problem."""
    node = entry.value
    if entry.is_empty:
        notes.add(
            Code.EMPTY_VALUE,
            entry.key.span,
            f"{of(notes, entry)} has no value",
            "write it behind the colon, or take the line out",
        )
        return None
    if isinstance(node, Scalar):
        return node
    found = "a list" if isinstance(node, yaml_text.Sequence) else "a section"
    only = _only_item(node)
    if entry.name in TEXT_KEYS and only is None:
        return _text_in_brackets(entry, node, notes)
    notes.add(
        Code.ONE_VALUE,
        node.span,
        f"{of(notes, entry)} takes one value, and {found} stands there",
        f"write {entry.key.text}: {only.text}" if only else _keep_one(node),
        replacement=only.text if only else "",
    )
    return None


def _text_in_brackets(entry: Entry, node: Node, notes: Notes) -> Scalar | None:
    """Note `title: [Low, and wide]`, a text that stands in brackets, and return the text."""
    items = node.items if isinstance(node, yaml_text.Sequence) else ()
    words = [item for item in items if isinstance(item, Scalar)]
    is_text = bool(words) and len(words) == len(items)
    is_one_line = is_text and all(word.span.line == node.span.line for word in words)
    text = ", ".join(word.text for word in words)
    wanted = text if _SAFE.fullmatch(text) else double_quoted(text)
    notes.add(
        Code.ONE_VALUE,
        node.span,
        f"{of(notes, entry)} is one text, and "
        f"{'a list' if isinstance(node, yaml_text.Sequence) else 'a section'} stands there",
        f"write {entry.key.text}: {wanted}" if is_text else "write one text behind the colon",
        replacement=wanted if is_one_line and node.span.width > 2 else "",
    )
    return None


def _keep_one(node: Node) -> str:
    """Return the hint to keep one item of a short list."""
    items = node.items if isinstance(node, yaml_text.Sequence) else ()
    words = [item.text for item in items if isinstance(item, Scalar)]
    short = 1 < len(words) == len(items) < 5
    return f"keep one of {both(words)}" if short else "write one word or one text"


_SAFE = re.compile(r"[^\W_][^:#\"'\[\]{}]*")
_BETWEEN = re.compile(r"\s*[,;]\s*")
_PLAIN = re.compile(r"[^\W\d_][\w -]*")


def _only_item(node: Node) -> Scalar | None:
    """Return the one word of a list in brackets, where pasting it would mend the line."""
    if not isinstance(node, yaml_text.Sequence) or len(node.items) != 1 or node.span.width < 3:
        return None
    item = node.items[0]
    is_inside = isinstance(item, Scalar) and item.span.line == node.span.line
    return item if is_inside and isinstance(item, Scalar) and _PLAIN.fullmatch(item.text) else None


def texts(entry: Entry, notes: Notes) -> tuple[Scalar, ...]:
    """Return the texts of a list, or the one text that stands there instead of a list."""
    node = entry.value
    if isinstance(node, yaml_text.Sequence):
        found = []
        for item in node.items:
            one = one_text(Entry(name=entry.name, key=entry.key, value=item), notes)
            if one is not None:
                found.append(one)
        return tuple(found)
    one = one_text(entry, notes)
    if one is not None and not one.quoted and _BETWEEN.search(one.text):
        return _list_without_brackets(entry, one, notes)
    return () if one is None else (one,)


def _list_without_brackets(entry: Entry, written: Scalar, notes: Notes) -> tuple[Scalar, ...]:
    """Note `beats: one, other`, several names without brackets, and return them."""
    names = [name for name in _BETWEEN.split(written.text.strip()) if name]
    wanted = f"[{', '.join(names)}]"
    notes.add(
        Code.COMPARISON,
        written,
        f"{of(notes, entry)} names several things, and a list stands in brackets",
        f"write {entry.key.text}: {wanted}",
        replacement=wanted,
    )
    return tuple(Scalar(text=name, span=written.span, is_whole=False) for name in names)


def items_of(entry: Entry) -> tuple[Node, ...]:
    """Return the members of a list, or the one thing that stands there instead of a list."""
    node = entry.value
    return node.items if isinstance(node, yaml_text.Sequence) else (node,)


def one_word(entry: Entry, words: Sequence[str], notes: Notes) -> str | None:
    """Return which of a few words stands behind a name, or None with a problem."""
    written = one_text(entry, notes)
    return None if written is None else word_among(written, words, of(notes, entry), notes)


def word_among(written: Scalar, words: Sequence[str], what: str, notes: Notes) -> str | None:
    """Return the word that was written, spelt as in `words`, or None with a problem."""
    for word in words:
        if fold(word) == fold(written.text):
            return word
    plain = meant_yes_or_no(written.text)
    spelt = (plain,) if plain in words else near(written.text, words)
    hint = f"{did_you_mean(spelt)} It" if spelt else "it"
    notes.add(
        Code.UNKNOWN_WORD,
        written,
        f"{what} is {quoted(written.text)}",
        f"{hint} can be {either(words)}",
        replacement=spelt[0] if len(spelt) == 1 else "",
    )
    return None
