"""A rule book as one HTML page."""

from dataclasses import dataclass

from tactics.report.html.court_svg import CourtDrawing, draw_court
from tactics.report.html.render import render
from tactics.report.rule_book import Chapter, MixPage, Pointer, RuleBook, RulePage
from tactics.report.rule_book_text import mix_pairs, page_pairs


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rule:
    """A rule as the template places it; drawing: None where nothing can be drawn."""

    id: str
    title: str
    strength: str
    cue: str
    scene: str
    drawing: CourtDrawing | None
    pairs: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Chapter:
    """A chapter as the template places it."""

    id: str
    title: str
    rules: tuple[_Rule, ...]
    elsewhere: tuple[Pointer, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Mix:
    """A mix as the template places it."""

    id: str
    title: str
    cue: str
    pairs: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """The one value the template gets."""

    book: RuleBook
    chapters: tuple[_Chapter, ...]
    mixes: tuple[_Mix, ...]


def rule_book_html(book: RuleBook) -> str:
    """Return the book as one page that stands alone: style and pictures inside, nothing fetched."""
    page = _Page(
        book=book,
        chapters=tuple(map(_chapter, book.chapters)),
        mixes=tuple(map(_mix, book.mixes)),
    )
    return render("rule_book", page)


def _chapter(chapter: Chapter) -> _Chapter:
    return _Chapter(
        id=chapter.id,
        title=chapter.title,
        rules=tuple(map(_rule, chapter.pages)),
        elsewhere=chapter.elsewhere,
    )


def _rule(page: RulePage) -> _Rule:
    drawing = None if page.picture is None else draw_court(page.picture, page.scene)
    return _Rule(
        id=page.id,
        title=page.title,
        strength=page.strength,
        cue=page.cue,
        scene=page.scene,
        drawing=drawing,
        pairs=_without_cue(page_pairs(page)),
    )


def _mix(mix: MixPage) -> _Mix:
    return _Mix(id=mix.id, title=mix.title, cue=mix.cue, pairs=_without_cue(mix_pairs(mix)))


def _without_cue(pairs: list[tuple[str, str]]) -> tuple[tuple[str, str], ...]:
    return tuple((label, text) for label, text in pairs if label != "cue")
