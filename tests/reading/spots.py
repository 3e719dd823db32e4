"""The places of a good rule file that can be spoilt, each with the road that leads to it."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from tactics.model.names import fold
from tactics.reading import yaml_text
from tactics.reading.yaml_text import Node, Scalar, read_yaml
from tactics.source import Source, Span

# names whose values are the author's own words
FREE = frozenset(
    {"rule set", "author", "about", "title", "because", "cue", "note", "says", "question",
     "by eye", "means"}
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A name or a word of a file, and the names on the road to it (its own the last)."""

    road: tuple[str, ...]
    text: str
    span: Span
    is_name: bool
    quoted: bool = False
    in_list: bool = False

    @property
    def line(self) -> int:
        return self.span.line

    @property
    def key(self) -> str:
        """Return the name that the spot is, or stands behind."""
        return self.road[-1]

    @property
    def is_free(self) -> bool:
        """Say whether the author may write here whatever they like."""
        own_words = self.road[0] == "facts" and self.key not in ("unit", "ordinary", "from", "to")
        return not self.is_name and (self.key in FREE or own_words)


@dataclass(frozen=True, kw_only=True)
class Good:
    """A file without a mistake."""

    name: str
    text: str

    @cached_property
    def lines(self) -> tuple[str, ...]:
        return tuple(self.text.splitlines())

    @cached_property
    def spots(self) -> tuple[Spot, ...]:
        reading = read_yaml(Source(name=self.name, text=self.text))
        assert reading.value is not None
        return tuple(_spots(reading.value, ()))

    @cached_property
    def names(self) -> tuple[Spot, ...]:
        return tuple(spot for spot in self.spots if spot.is_name)

    @cached_property
    def words(self) -> tuple[Spot, ...]:
        """Return the words that mean something to the program."""
        return tuple(
            spot for spot in self.spots if not spot.is_name and not spot.is_free and spot.text
        )

    def line(self, number: int) -> str:
        return self.lines[number - 1]

    @cached_property
    def in_brackets(self) -> frozenset[int]:
        """Return the lines that begin inside a bracket opened further up."""
        found, depth = set(), 0
        for number, line in enumerate(self.lines, start=1):
            found |= {number} if depth else set()
            depth += sum(line.count(one) - line.count(other) for one, other in ("[]", "{}"))
        return frozenset(found)

    def with_line(self, number: int, *instead: str) -> "Spoilt":
        """Return the text with other lines in place of one."""
        return Spoilt(good=self, number=number, instead=instead)

    def with_spot(self, spot: Spot, instead: str) -> "Spoilt":
        """Return the text with other words in place of a spot."""
        line, start = self.line(spot.line), spot.span.column - 1
        return self.with_line(spot.line, line[:start] + instead + line[start + spot.span.width :])


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoilt:
    """A good file with other lines in place of one; the text is only made when it is asked for."""

    good: Good
    number: int
    instead: tuple[str, ...]

    @property
    def text(self) -> str:
        lines = (
            *self.good.lines[: self.number - 1],
            *self.instead,
            *self.good.lines[self.number :],
        )
        return "\n".join(lines) + "\n"


def _spots(node: Node, road: tuple[str, ...], in_list: bool = False) -> Iterator[Spot]:
    match node:
        case Scalar():
            yield Spot(
                road=road or ("",), text=node.text, span=node.span, is_name=False,
                quoted=node.quoted, in_list=in_list,
            )  # fmt: skip
        case yaml_text.Sequence(items=items):
            for item in items:
                yield from _spots(item, road, in_list=True)
        case yaml_text.Mapping(pairs=pairs):
            for key, value in pairs:
                further = (*road, fold(key.text))
                yield Spot(road=further, text=key.text, span=key.span, is_name=True)
                yield from _spots(value, further)
