"""One mistake in a rule file, as the corpus makes them."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tests.reading.spots import Good, Spoilt


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """A spoilt text, the lines at which the mistake stands, and the good text if it is the one."""

    kind: str
    spoilt: Spoilt
    lines: frozenset[int]
    meant: Good | Spoilt | None

    @property
    def file(self) -> str:
        return self.spoilt.good.name

    @property
    def text(self) -> str:
        return self.spoilt.text

    @property
    def name(self) -> str:
        return f"{self.kind}: {self.file}:{min(self.lines)}"


Maker = Callable[[Good], Iterator[Mistake]]


def at(kind: str, good: Good, spoilt: Spoilt, *lines: int, one_repair: bool = True) -> Mistake:
    meant = good if one_repair else None
    return Mistake(kind=kind, spoilt=spoilt, lines=frozenset(lines), meant=meant)
