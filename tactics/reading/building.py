"""Which files a rule set is made of, and in which order they lie on top of each other."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from posixpath import dirname, join, normpath

from tactics.reading import yaml_text
from tactics.reading.belonging import settled_file
from tactics.reading.codes import Code
from tactics.reading.fields import Entry, Notes, items_of, known_keys, missing_keys, section, texts
from tactics.reading.keywords import SET_KEYS
from tactics.reading.wording import quoted
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

    is_whole: no file was missing or unreadable.
    """

    find: Find
    notes: Notes
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
            self.notes.add(
                Code.MISSING_FILE,
                written.span,
                f"there is no rule set {quoted(written.text)} to build on",
                "write the path of a rule file, counted from the folder of this one, or the name "
                "of a rule set that comes with the program",
            )
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

    def _note_circle(self, written: Scalar, below: Source) -> None:
        road = [*self._open[self._open.index(below.name) :], below.name]
        self.notes.add(
            Code.BUILDS_IN_A_CIRCLE,
            written.span,
            f"the rule set builds on itself: {' -> '.join(road)}"
            if len(road) > 2
            else "the rule set builds on itself",
            "take one of these lines out",
        )


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
    root = settled_file(reading.value, notes)
    lines = section(root, source.start(), "a rule set", notes)
    if not isinstance(root, yaml_text.Mapping):
        return None
    keys = known_keys(lines, SET_KEYS, "the file", notes)
    wanted = {"rule set": "My singles rules"}
    if "builds on" not in keys or not items_of(keys["builds on"]):
        wanted |= {"precedence": "[safety, court position]", "rules": ""}
    missing_keys(keys, wanted, "the file", source.start(), notes)
    return Layer(source=source, keys=keys)


def pile_up(sources: Sequence[Source], find: Find, notes: Notes) -> Pile:
    """Return all files that these are made of, the lowest first."""
    pile = Pile(find=find, notes=notes)
    for source in sources:
        pile.put(source)
    return pile
