"""Lines set in one step too far or too little, where the layout alone looks right.

YAML takes `  cue: Low ball` among rule ids for a rule, and a rule id among the lines of a rule
for one of them. The names tell where such a line belongs; it is read there.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import TypeGuard

from tactics.model.names import fold
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.notes import Notes
from tactics.reading.stumble_levels import spaces
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Node, Scalar
from tactics.source import Span

Pair = tuple[Scalar, Node]
Fits = Callable[[Scalar, Pair], bool]
"""The name of a section, and a line -> whether that line belongs into it."""


def settled(node: Node, stays: Callable[[Pair], bool], inside: Fits, notes: Notes) -> Node:
    """Return a section with every line where it belongs, and a problem for each one moved.

    stays: whether a line belongs to the section itself. inside: whether it belongs into the
    section that a name of this one opens.
    """
    if not isinstance(node, yaml_text.Mapping) or node.in_braces:
        return node
    pairs: list[Pair] = []
    for pair in _without_inner(node.pairs, stays, inside, notes):
        name, section = pairs[-1] if pairs else (pair[0], pair[1])
        if not pairs or stays(pair) or not _is_open(section) or not inside(name, pair):
            pairs.append(pair)
        else:
            _note(pair[0], name, section.pairs[0][0].span.column - 1, notes)
            pairs[-1] = name, replace(section, pairs=(*section.pairs, pair))
    return replace(node, pairs=tuple(pairs))


def _is_open(section: Node) -> TypeGuard[yaml_text.Mapping]:
    """Say whether a section has its lines below it, so that one more could be one of them."""
    return isinstance(section, yaml_text.Mapping) and not section.in_braces and bool(section.pairs)


def _without_inner(
    pairs: tuple[Pair, ...], stays: Callable[[Pair], bool], inside: Fits, notes: Notes
) -> list[Pair]:
    """Return the lines with those drawn out that are set in too far."""
    found: list[Pair] = []
    for name, section in pairs:
        if not _is_open(section):
            found.append((name, section))
            continue
        stop = _first_stranger(name, section, stays, inside)
        found.append((name, replace(section, pairs=section.pairs[:stop])))
        if stop < len(section.pairs):
            found += _drawn_out(name, section.pairs[stop:], notes)
    return found


def _first_stranger(
    name: Scalar, section: yaml_text.Mapping, stays: Callable[[Pair], bool], inside: Fits
) -> int:
    """Return the index of the first line that belongs one step further out, or their number.

    It is one if its name says so, or if nothing stands behind it and the names start anew.
    """
    seen: set[str] = set()
    for index, pair in enumerate(section.pairs):
        starts_anew = any(fold(later.text) in seen for later, _ in section.pairs[index + 1 :])
        is_opener = isinstance(pair[1], Scalar) and not pair[1].text and starts_anew
        if index and not inside(name, pair) and (stays(pair) or is_opener):
            return index
        seen.add(fold(pair[0].text))
    return len(section.pairs)


def _drawn_out(name: Scalar, pairs: tuple[Pair, ...], notes: Notes) -> list[Pair]:
    """Return lines that were set in too far; those below an empty first one belong to it."""
    first, *others = pairs
    _note(first[0], None, name.span.column - 1, notes)
    if others and isinstance(first[1], Scalar) and not first[1].text:
        body = yaml_text.Mapping(pairs=tuple(others), span=others[0][0].span)
        return [(first[0], body)]
    return [first, *others]


def _note(key: Scalar, owner: Scalar | None, wanted: int, notes: Notes) -> None:
    indent = key.span.column - 1
    with_name = not (indent and wanted)
    way = "is not set in as far as" if wanted > indent else "is set in further than"
    where = f"it belongs to {quoted(owner.text)}" if owner else "it opens a section of its own"
    notes.add(
        Code.INDENTATION,
        Span(
            file=key.span.file,
            line=key.span.line,
            width=indent + (key.span.width if with_name else 0),
        ),
        f"{quoted(key.text)} {way} the lines it belongs to",
        f"start it {spaces(wanted)}: {where}",
        replacement=" " * wanted + (key.text if with_name else ""),
    )
