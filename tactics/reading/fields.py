"""The few ways in which a key of a file is read, so that every message about one reads alike."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from tactics.model.names import fold
from tactics.problem import Also, Problem, Severity
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.keywords import is_known_name, known_start
from tactics.reading.suggest import did_you_mean, meant_yes_or_no, near
from tactics.reading.wording import both, either, quoted
from tactics.reading.yaml_text import Node, Scalar, words_of
from tactics.source import Span

_SIGN = re.compile(r"\s*[:;=]|\s[-\u2013]\s")
_LEADING_SIGN = re.compile(r"^\s*(?:[:;=]|[-\u2013]\s)?\s*")
_NO_MORE = "take it out: everything that can stand here is there already"
_PLAIN = re.compile(r"[^\W\d_][\w -]*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A name of a section as it was meant (folded), as it was written, and what stands there."""

    name: str
    key: Scalar
    value: Node

    @property
    def is_empty(self) -> bool:
        """Say whether nothing stands behind the colon."""
        return isinstance(self.value, Scalar) and not self.value.text.strip()


@dataclass(slots=True)
class Notes:
    """The problems found so far, and whose section is being read.

    whose: how a message names it (`rule "low-ball"`). opener: the line of its name.
    """

    problems: list[Problem] = field(default_factory=list)
    whose: str = ""
    opener: int = 0

    def inside(self, opener: int, whose: str = "") -> "Notes":
        """Return notes for a section further in; what they collect is shared."""
        return Notes(problems=self.problems, whose=whose or self.whose, opener=opener)

    def add(
        self,
        code: Code,
        place: Span | Scalar,
        sentence: str,
        hint: str = "",
        *,
        replacement: str = "",
        also: tuple[Also, ...] = (),
        severity: Severity = Severity.ERROR,
    ) -> None:
        """Note a problem at a place, or at a word; only a word that is whole can be replaced."""
        if isinstance(place, Scalar):
            span, replacement = place.span, replacement if place.is_whole else ""
        else:
            span = place
        self.problems.append(
            Problem(
                code=code,
                span=span,
                sentence=sentence,
                hint=hint,
                replacement=replacement,
                also=also,
                severity=severity,
                opener=self.opener if self.opener != span.line else 0,
            )
        )

    def complain(self, complaint: Complaint, place: Span | Scalar) -> None:
        """Note what is wrong with a text, now that its place is known."""
        self.add(
            complaint.code,
            place,
            f"in {self.whose}, {complaint.sentence}" if self.whose else complaint.sentence,
            complaint.hint,
            replacement=complaint.replacement,
        )

    def errors(self) -> int:
        """Return the number of errors so far; more of them later means that something broke."""
        return sum(problem.severity is Severity.ERROR for problem in self.problems)


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
            spelt = near(entry.key.text, [name for name in names if name not in found])
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
    notes.add(
        Code.ONE_VALUE,
        node.span,
        f"{of(notes, entry)} takes one value, and {found} stands there",
        f"write {entry.key.text}: {only.text}" if only else _keep_one(node),
        replacement=only.text if only else "",
    )
    return None


def _keep_one(node: Node) -> str:
    """Return the hint to keep one item of a short list."""
    items = node.items if isinstance(node, yaml_text.Sequence) else ()
    words = [item.text for item in items if isinstance(item, Scalar)]
    short = 1 < len(words) == len(items) < 5
    return f"keep one of {both(words)}" if short else "write one word or one text"


def _only_item(node: Node) -> Scalar | None:
    """Return the one word of a list in brackets, where pasting it would mend the line."""
    if not isinstance(node, yaml_text.Sequence) or len(node.items) != 1 or node.span.width < 3:
        return None
    item = node.items[0]
    is_inside = isinstance(item, Scalar) and item.span.line == node.span.line
    return item if is_inside and isinstance(item, Scalar) and _PLAIN.fullmatch(item.text) else None


def glued_name(text: str) -> str:
    """Return the name that a text begins with, or nothing: `balance set`, `pace:78 %`."""
    tight = _SIGN.split(text, maxsplit=1)[0]
    if tight != text and is_known_name(tight):
        return tight
    name = known_start(text)
    return name if len(name) < len(text.rstrip()) else ""


def missing_colon(written: Scalar, name: str, notes: Notes) -> None:
    """Note a line that has its value in its name: `balance set`, `pace:78 %`."""
    rest = written.text[len(name) :]
    wanted = f"{name}: {_LEADING_SIGN.sub('', rest)}"
    notes.add(
        Code.MISSING_COLON,
        written,
        f"the colon behind {quoted(name)} needs a space behind it"
        if rest.startswith(":")
        else f"there is no colon behind {quoted(name)}",
        f"write {wanted}",
        replacement=wanted,
    )


def of(notes: Notes, entry: Entry) -> str:
    """Return `"title" of rule "low-ball"`."""
    name = quoted(entry.key.text)
    return f"{name} of {notes.whose}" if notes.whose else name


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
    return () if one is None else (one,)


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
