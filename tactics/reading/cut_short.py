"""Texts that YAML cuts short: what follows ` #` is a note for it, as in `cue: Rule #1, up`."""

import re
from dataclasses import replace

from tactics.model.names import fold
from tactics.problem import Severity
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.keywords import TEXT_KEYS
from tactics.reading.notes import Notes
from tactics.reading.quoting import double_quoted
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Node, Scalar
from tactics.source import Source

_CUT = re.compile(r"\s+#(?=[^\s#]).*")


def note_cut_short(root: Node, source: Source, notes: Notes) -> None:
    """Note, as a warning, every title, cue and the like that goes on behind a ` #`."""
    waiting = [root]
    while waiting:
        node = waiting.pop()
        if isinstance(node, yaml_text.Sequence):
            waiting += node.items
        elif isinstance(node, yaml_text.Mapping):
            for key, value in node.pairs:
                waiting.append(value)
                if fold(key.text) in TEXT_KEYS and isinstance(value, Scalar):
                    _note(key, value, source, notes)


def _note(key: Scalar, value: Scalar, source: Source, notes: Notes) -> None:
    line = source.line(value.span.line)
    start, stop = value.span.column - 1, value.span.column - 1 + value.span.width
    found = _CUT.fullmatch(line.rstrip(), stop)
    if found is None or value.quoted or not value.is_whole:
        return
    whole = line[start:].rstrip()
    notes.add(
        Code.HASH_IN_TEXT,
        replace(value.span, width=len(whole)),
        f"{quoted(found.group().strip())} counts as a note here, and {quoted(key.text)} ends "
        "before it",
        f"write {key.text}: {double_quoted(whole)}, or a space behind the # if it is a note",
        replacement=double_quoted(whole),
        severity=Severity.WARNING,
    )
