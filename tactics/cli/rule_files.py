"""Rule files on disk -> a rule set with every problem in it, and an advisor."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from tactics.cli import files
from tactics.model.drill import Catalogue
from tactics.model.rule import RuleSet
from tactics.model.standard import STANDARD
from tactics.problem import Problem, Reading, by_place
from tactics.reading.decoding import RULE_FILE_LIMIT, decode
from tactics.reading.drills import one_catalogue, read_drills
from tactics.reading.rules import combine
from tactics.source import Source, Span


@dataclass(slots=True)
class Shelf:
    """The texts opened so far, so that messages can show their lines."""

    sources: dict[str, Source] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    def open(self, path: Path) -> Source | None:
        """Return the text of a file, or None with a problem; OSError where it cannot be opened."""
        # one byte more than is taken: a file without an end is too large, and no more
        read = decode(files.shown(path), files.read_bytes(path, RULE_FILE_LIMIT + 1))
        self.problems += read.problems
        if read.value is not None:
            self.sources[read.value.name] = read.value
        return read.value

    def find(self, written: str) -> Source | None:
        """Return the text of a file another one builds on, or None where there is none."""
        path = files.find_rules(written)
        return self.open(path) if path.is_file() else None


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedRules:
    """What came out of one or more rule files, and their texts.

    named: the files that were asked for; the others are what these build on.
    """

    reading: Reading[RuleSet]
    sources: tuple[Source, ...]
    named: frozenset[str] = frozenset()


def load_rules(written: Sequence[str], *, with_drills: bool = True) -> LoadedRules:
    """Return the rule set of the files named (or shipped), each built on those before."""
    shelf = Shelf()
    catalogue = load_drills(shelf) if with_drills else None
    found = [shelf.open(files.find_rules(name)) for name in written or (files.DEFAULT_RULES,)]
    texts = [source for source in found if source is not None]
    reading: Reading[RuleSet] = Reading(value=None)
    if texts:
        reading = combine(texts, shelf.find, catalogue, files.shipped_rules())
    problems = by_place([*shelf.problems, *reading.problems])
    value = None if len(texts) < len(found) else reading.value
    return LoadedRules(
        reading=Reading(value=value, problems=problems),
        sources=tuple(shelf.sources.values()),
        named=frozenset(source.name for source in texts),
    )


def load_drills(shelf: Shelf | None = None) -> Catalogue:
    """Return the drills that ship with the package; their problems go to the shelf."""
    shelf = Shelf() if shelf is None else shelf
    catalogues = []
    for path in files.shipped(files.DRILLS, ".yaml"):
        source = shelf.open(path)
        read = Reading[Catalogue](value=None) if source is None else read_drills(source)
        shelf.problems += read.problems
        if read.value is not None:
            catalogues.append(read.value)
    return one_catalogue(catalogues)


def engine_name() -> str:
    """Return what the engine is called that answers on this machine."""
    from tactics.engine.compile import compile_rules

    nothing = RuleSet(name="", precedence=(), vocabulary=STANDARD, span=Span(file="", line=1))
    return compile_rules(nothing).engine.name
