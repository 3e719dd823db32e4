"""Which files a rule set is made of, and in which order they lie on top of each other."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import PurePosixPath
from posixpath import dirname, join, normpath

from tactics.model.names import slug
from tactics.reading import yaml_text
from tactics.reading.belonging import settled_file
from tactics.reading.codes import Code
from tactics.reading.cut_short import note_cut_short
from tactics.reading.fields import items_of, texts
from tactics.reading.keywords import SET_KEYS
from tactics.reading.notes import Entry, Notes
from tactics.reading.sections import known_keys, missing_keys, section
from tactics.reading.suggest import did_you_mean, near
from tactics.reading.wording import either, quoted
from tactics.reading.yaml_text import Scalar, read_yaml
from tactics.source import Source

MOST_FLOORS = 30
"""How many files may lie on top of each other: nobody builds higher, but a file could say so."""

Find = Callable[[str], Source | None]
"""A name or path, as written behind `builds on` -> the file it means, or None."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One file, with its top-level keys."""

    source: Source
    keys: dict[str, Entry]


@dataclass(slots=True)
class Pile:
    """The files so far, the lowest first; each lies there once.

    shipped: the names that come with the program. is_whole: no file was missing or unreadable.
    """

    find: Find
    notes: Notes
    shipped: Sequence[str] = ()
    layers: list[Layer] = field(default_factory=list)
    is_whole: bool = True
    _open: list[str] = field(default_factory=list)
    _done: set[str] = field(default_factory=set)

    def put(self, source: Source) -> None:
        """Put a file on the pile, below it the files it builds on."""
        if source.name in self._done:
            return
        self._done.add(source.name)
        layer = _read_layer(source, self.notes)
        if layer is None:
            self.is_whole = False
            return
        self._open.append(source.name)
        if "builds on" in layer.keys:
            entry = layer.keys["builds on"]
            self.is_whole = self.is_whole and not entry.is_empty
            for written in texts(entry, self.notes.inside(0, "the rule set")):
                self._put_below(written, source)
        self._open.pop()
        self.layers.append(layer)

    def _put_below(self, written: Scalar, above: Source) -> None:
        below = find_beside(written.text.strip(), above.name, self.find)
        if below is None:
            self.is_whole = False
            self._note_missing(written)
        elif below.name in self._open:
            self._note_circle(written, below)
        elif len(self._open) >= MOST_FLOORS:
            self.is_whole = False
            self.notes.add(
                Code.FILE_TOO_LARGE,
                written.span,
                f"{MOST_FLOORS} rule sets lie on top of each other here already, the most there "
                "may be",
                "put the rules of some of these files into one",
            )
        else:
            self.put(below)

    def _note_missing(self, written: Scalar) -> None:
        name = PurePosixPath(written.text.strip()).stem
        spelt = near(slug(name), self.shipped)
        start = f"{did_you_mean(spelt)} It" if spelt else "it"
        come = either(self.shipped)
        self.notes.add(
            Code.MISSING_FILE,
            written,
            f"there is no rule set {quoted(written.text)} to build on",
            f"{start} can be the path of a rule file, counted from the folder of this one"
            + (f", or {come}" if come else ""),
            replacement=spelt[0] if len(spelt) == 1 else "",
        )

    def _note_circle(self, written: Scalar, below: Source) -> None:
        self.is_whole = False
        road = [*self._open[self._open.index(below.name) :], below.name]
        self.notes.add(
            Code.BUILDS_IN_A_CIRCLE,
            written.span,
            f"the rule set builds on itself: {' -> '.join(road)}"
            if len(road) > 2
            else "the rule set builds on itself",
            "take one of these lines out",
        )


_START = "[safety, court position], or build on a set that has one with builds on: [singles-club]"


def find_beside(written: str, above: str, find: Find) -> Source | None:
    """Return the file meant by a name in another file: first beside that one, then as it stands."""
    folder = dirname(above)
    beside = find(normpath(join(folder, written))) if folder else None
    return beside if beside is not None else find(written)


def _read_layer(source: Source, notes: Notes) -> Layer | None:
    """Return the top-level keys of a file, or None where it cannot be read at all."""
    reading = read_yaml(source)
    notes.problems += reading.problems
    if reading.value is None:
        return None
    note_cut_short(reading.value, source, notes)
    root = settled_file(reading.value, notes)
    lines = section(root, source.start(), "a rule set", notes)
    if not isinstance(root, yaml_text.Mapping):
        return None
    keys = known_keys(lines, SET_KEYS, "the file", notes)
    wanted = {"rule set": "My singles rules"}
    if "builds on" not in keys or not items_of(keys["builds on"]):
        wanted |= {"precedence": _START, "rules": ""}
    missing_keys(keys, wanted, "the file", source.start(), notes)
    return Layer(source=source, keys=keys)


def pile_up(
    sources: Sequence[Source], find: Find, notes: Notes, shipped: Sequence[str] = ()
) -> Pile:
    """Return all files that these are made of, the lowest first."""
    pile = Pile(find=find, notes=notes, shipped=shipped)
    for source in sources:
        pile.put(source)
    return pile
