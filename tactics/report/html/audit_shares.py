"""Shares over many balls and the roads of serves, as the template places them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tactics.model.vocabulary import Vocabulary
from tactics.report.html.dots import Dot, ShownRate, dot_at
from tactics.report.layout import wrapped
from tactics.report.mix import mix_lines
from tactics.report.serves import group_name, notes, place_words, verdict_words
from tactics.review.mix import MixReview
from tactics.review.rates import Standing
from tactics.review.serves import ServeGroup, ServePlace, Serves

_UNDER_TITLE = 4
"""Columns by which a text report sets in what belongs to a mix."""

_FURTHER = ("points won:", "the others:")


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareBlock:
    """What one mix rule found."""

    id: str
    title: str
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ServeBlock:
    """One kind of serve: each road with its share as a dot, and what may be said of them."""

    title: str
    roads: tuple[ShownRate, ...]
    says: tuple[str, ...]


def share_blocks(reviews: Sequence[MixReview], words: Vocabulary) -> tuple[ShareBlock, ...]:
    """Return the mix rules of a set that have any balls to count."""
    return tuple(
        ShareBlock(id=each.mix.id, title=each.mix.title, says=tuple(_said(each, words)))
        for each in reviews
        if each.groups
    )


def serve_blocks(found: Serves) -> tuple[ServeBlock, ...]:
    """Return the kinds of serve with enough balls."""
    return tuple(map(_serve_block, found.groups))


def serve_notes(found: Serves) -> tuple[str, ...]:
    """Return how the numbers of serves are to be read; nothing where there are none."""
    return tuple(notes(found)) if found.groups else ()


def _serve_block(group: ServeGroup) -> ServeBlock:
    return ServeBlock(
        title=f"{group_name(group)}: {group.n}",
        roads=tuple(ShownRate(says=place_words(place), dot=_dot(place)) for place in group.places),
        says=tuple(verdict_words(group)),
    )


def _dot(place: ServePlace) -> Dot | None:
    if place.used.standing is Standing.NOT_ENOUGH:
        return None
    return dot_at(place.used.share, place.used_interval)


def _said(review: MixReview, words: Vocabulary) -> Iterator[str]:
    """Yield the lines under the title of a mix, each thing said as one text."""
    title = wrapped(f"{review.mix.title} [{review.mix.id}]", "  ")
    said: list[str] = []
    for line in mix_lines(review, words)[len(title) :]:
        indent, text = len(line) - len(line.lstrip()), line.strip()
        if indent <= _UNDER_TITLE or text.startswith(_FURTHER):
            said.append(text.removeprefix("- "))
        else:
            said[-1] += f" {text}"
    yield from (f"{text[:1].upper()}{text[1:]}." for text in said)
