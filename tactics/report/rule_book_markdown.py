"""A rule book as Markdown; every text of the rule set is plain text there, whatever it holds."""

import re
from collections.abc import Iterator, Sequence

from tactics.report.court_text import DRAWN
from tactics.report.rule_book import Chapter, MixPage, RuleBook, RulePage
from tactics.report.rule_book_court import legend, side_names, small_court
from tactics.report.rule_book_text import mix_pairs, page_pairs
from tactics.report.visible import visible

_SPECIAL = re.compile(r"([\\`*_\[\]<>#|~&])")


def rule_book_markdown(book: RuleBook) -> str:
    """Return the book as one Markdown text."""
    lines = [f"# {plain(book.title)}", "", plain(book.summary), ""]
    lines += [plain(book.order), ""]
    lines += [plain(f"{book.pictures} {legend(DRAWN)}."), ""]
    for chapter in book.chapters:
        lines += _chapter(chapter)
    lines += _mixes(book.mixes)
    if book.terms:
        lines += ["## Situations with a name", ""]
        lines += [f"- **{plain(name)}**: {plain(means)}" for name, means in book.terms]
        lines.append("")
    lines.append(f"*{plain(book.caution)}*")
    return "\n".join(lines) + "\n"


def plain(text: str) -> str:
    """Return a text in which no character has a meaning in Markdown."""
    return _SPECIAL.sub(r"\\\1", visible(text))


def _chapter(chapter: Chapter) -> Iterator[str]:
    yield from (f"## {plain(chapter.title)}", "")
    for page in chapter.pages:
        yield from _page(page)
    if chapter.elsewhere:
        yield from ("These count here as well:", "")
        for pointer in chapter.elsewhere:
            yield f"- {plain(pointer.title)} (see {plain(pointer.chapter)})"
        yield ""


def _page(page: RulePage) -> Iterator[str]:
    yield from (f"### {plain(page.title)}", "")
    if page.picture is not None:
        top, bottom = side_names(page.picture)
        rows = small_court(page.picture, DRAWN)
        yield from ("```text", top, *rows, bottom, "```", "")
        yield from (f"Pictured: {plain(page.scene)}", "")
    yield from _list([*page_pairs(page), ("id", page.id)])


def _mixes(mixes: Sequence[MixPage]) -> Iterator[str]:
    if mixes:
        yield from ("## Shares over many balls", "")
    for mix in mixes:
        yield from (f"### {plain(mix.title)}", "")
        yield from _list([*mix_pairs(mix), ("id", mix.id)])


def _list(pairs: Sequence[tuple[str, str]]) -> Iterator[str]:
    yield from (f"- **{label}**: {plain(text)}" for label, text in pairs)
    yield ""
