"""Sections: lines with a name and a value, which of them may be there, and which have to."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from tactics.model.names import fold
from tactics.problem import Also
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.missing_colons import glued_name, missing_colon
from tactics.reading.notes import Entry, Notes
from tactics.reading.other_names import named_otherwise
from tactics.reading.suggest import did_you_mean, near
from tactics.reading.wording import both, quoted
from tactics.reading.yaml_text import Node, Scalar, words_of
from tactics.source import Span


def section(
    node: Node, span: Span, what: str, notes: Notes, twice: Code = Code.DUPLICATE_KEY
) -> tuple[Entry, ...]:
    """Return the names of a section in order; a name that stands there twice counts once.

    twice: the code for a name that is there two times.
    """
    if not isinstance(node, yaml_text.Mapping):
        _not_a_section(node, span, what, notes)
        return ()
    seen: dict[str, Entry] = {}
    before: Node | None = None
    for key, value in node.pairs:
        entry = Entry(name=fold(key.text), key=key, value=value)
        if not entry.name:
            notes.add(
                Code.NAME_WANTED,
                key.span,
                f"{what} has a line without a name",
                "write a name before the colon",
            )
        elif entry.name in seen:
            in_line = before if node.in_braces else None
            _named_twice(entry, seen[entry.name], in_line, what, twice, notes)
        else:
            seen[entry.name] = entry
        before = value
    return tuple(seen.values())


def _not_a_section(node: Node, span: Span, what: str, notes: Notes) -> None:
    if isinstance(node, Scalar) and not node.text.strip():
        notes.add(Code.EMPTY_VALUE, span, f"{what} is empty", "write what belongs to it below")
        return
    glued = glued_name(node.text) if isinstance(node, Scalar) else ""
    if isinstance(node, Scalar) and glued:
        missing_colon(node, glued, notes)
        return
    found = quoted(node.text) if isinstance(node, Scalar) else "a list"
    notes.add(
        Code.SECTION_WANTED,
        node.span,
        f"{what} is made of lines with a name and a value, and {found} stands there",
        "write name: value, each on a line of its own below",
    )


_TWICE = {
    Code.DUPLICATE_KEY: "keep one of the two; if both count, put the values in one list",
    Code.DUPLICATE_RULE: "give one of the two another id, or take it out",
    Code.DUPLICATE_DRILL: "give one of the two another id, or take it out",
}


def _named_twice(
    entry: Entry, first: Entry, before: Node | None, what: str, code: Code, notes: Notes
) -> None:
    is_copy = says_the_same(entry.value, first.value) and _is_on_line(entry.value, entry.key)
    notes.add(
        code,
        _with_value(entry, before) if is_copy else entry.key.span,
        f"{what} has {quoted(entry.key.text)} twice",
        "take out what is marked: it says the same as the first" if is_copy else _TWICE[code],
        also=(Also(span=first.key.span, text="the first one"),),
    )


def _with_value(entry: Entry, before: Node | None) -> Span:
    """Return the place of a name with its value, in braces from the end of the value before."""
    start, end = entry.key.span, entry.value.span
    if before is not None and before.span.line == start.line:
        start = replace(before.span, column=before.span.column + before.span.width)
    same_line = end.line == start.line
    stop = end.column + end.width if same_line else start.column + entry.key.span.width
    return replace(start, width=stop - start.column)


def _is_on_line(node: Node, key: Scalar) -> bool:
    """Say whether all words of a node stand on the line of a name."""
    words = list(words_of(node))
    return all(word.is_whole and word.span.line == key.span.line for word in words)


def says_the_same(one: Node, other: Node) -> bool:
    """Say whether two nodes hold the same words, wherever they stand."""
    match one, other:
        case Scalar(), Scalar():
            return one.text == other.text
        case yaml_text.Sequence(items=items), yaml_text.Sequence(items=others):
            pairs = zip(items, others, strict=False)
            return len(items) == len(others) and all(says_the_same(*pair) for pair in pairs)
        case yaml_text.Mapping(pairs=items), yaml_text.Mapping(pairs=others):
            lines = list(zip(items, others, strict=False))
            names = all(fold(a[0].text) == fold(b[0].text) for a, b in lines)
            values = all(says_the_same(a[1], b[1]) for a, b in lines)
            return len(items) == len(others) and names and values
        case _:
            return False


_NO_MORE = "take it out: everything that can stand here is there already"


def known_keys(
    entries: Sequence[Entry],
    names: Sequence[str],
    what: str,
    notes: Notes,
    musts: Iterable[str] = (),
) -> dict[str, Entry]:
    """Return name -> entry for the names this section may have; `musts`: those it needs.

    A misspelt name is a problem, and is then read as the name that was most likely meant.
    """
    found = {entry.name: entry for entry in entries if entry.name in names}
    left = []
    for entry in entries:
        if entry.name not in names:
            spelt = _meant(entry, [name for name in names if name not in found])
            if len(spelt) == 1:
                _unknown_key(entry, spelt, spelt, what, notes)
                found[spelt[0]] = entry
            else:
                left.append((entry, spelt))
    lacking = [name for name in musts if name not in found]
    free = [name for name in names if name not in found]
    for entry, spelt in left:
        is_clear = len(left) == len(lacking) == 1 and not spelt
        _unknown_key(entry, tuple(lacking) if is_clear else spelt, free, what, notes)
        if is_clear:
            found[lacking[0]] = entry
    return found


def _meant(entry: Entry, free: Sequence[str]) -> tuple[str, ...]:
    """Return which free names a name may stand for: another word for one, or nearly spelt so."""
    otherwise = named_otherwise(entry.key.text, free)
    return (otherwise,) if otherwise else near(entry.key.text, free)


def _unknown_key(
    entry: Entry, meant: Sequence[str], free: Sequence[str], what: str, notes: Notes
) -> None:
    """Note an unknown name; `meant`: what it may stand for, `free`: what else could stand there."""
    notes.add(
        Code.UNKNOWN_KEY,
        entry.key,
        f"{what} has the line {quoted(entry.key.text)}, which is not known here",
        did_you_mean(meant) if meant else f"it can have {both(free)}" if free else _NO_MORE,
        replacement=meant[0] if len(meant) == 1 else "",
    )


def missing_keys(
    found: Mapping[str, Entry], wanted: Mapping[str, str], what: str, span: Span, notes: Notes
) -> None:
    """Note the names a section lacks, all in one problem; `wanted` has an example for each."""
    missing = [name for name in wanted if name not in found]
    if missing:
        notes.add(
            Code.MISSING_KEY,
            span,
            f"{what} has no {both(quoted(name) for name in missing)}",
            f"add {'  '.join(f'{name}: {wanted[name]}' for name in missing[:1])}",
        )
