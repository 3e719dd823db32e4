"""A rule book for the terminal."""

from collections.abc import Iterator, Mapping, Sequence

from tactics.model.drill import Catalogue
from tactics.model.mix_rule import MixRule, MixSays
from tactics.model.rule import RuleSet
from tactics.report.court_text import DRAWN
from tactics.report.layout import Section, bullet, definitions, wrapped
from tactics.report.rule_book import Chapter, MixPage, RuleBook, RulePage, mix_page
from tactics.report.rule_book_court import legend, side_names, small_court

_INDENT = "    "


def rule_book_sections(book: RuleBook, marks: Mapping[str, str] = DRAWN) -> tuple[Section, ...]:
    """Return the book as sections of at most 80 columns, a small court with every rule."""
    return (
        Section(title=book.title, lines=tuple(_opening(book, marks))),
        *(
            Section(title=chapter.title, lines=tuple(_chapter_lines(chapter, marks)))
            for chapter in book.chapters
        ),
        Section(title="Shares over many balls", lines=tuple(_mix_lines(book.mixes))),
        Section(title="Situations with a name", lines=definitions(book.terms)),
        Section(title="", lines=wrapped(book.caution)),
    )


def _opening(book: RuleBook, marks: Mapping[str, str]) -> Iterator[str]:
    yield from wrapped(book.summary, "  ")
    yield from wrapped(book.order, "  ")
    yield from wrapped(f"{book.pictures} {legend(marks)}.", "  ")


def _chapter_lines(chapter: Chapter, marks: Mapping[str, str]) -> Iterator[str]:
    for page in chapter.pages:
        yield ""
        yield from _page_lines(page, marks)
    if chapter.elsewhere:
        yield ""
        yield from wrapped("These count here as well:", "  ")
        for pointer in chapter.elsewhere:
            yield from bullet(f"{pointer.title} [{pointer.id}]: {pointer.chapter}", "  ")


def _page_lines(page: RulePage, marks: Mapping[str, str]) -> Iterator[str]:
    yield from wrapped(f"{page.title} [{page.id}]", "  ")
    if page.picture is not None:
        top, bottom = side_names(page.picture)
        yield f"{_INDENT}{top}"
        yield from (f"{_INDENT}{row}".rstrip() for row in small_court(page.picture, marks))
        yield f"{_INDENT}{bottom}"
        yield from wrapped(f"Pictured: {page.scene}", _INDENT)
    yield from definitions(page_pairs(page), _INDENT)


def page_pairs(page: RulePage) -> list[tuple[str, str]]:
    """Return (label, text) for everything a rule says, without what it does not say."""
    pairs = [
        ("strength", f"{page.strength}: {page.meaning}"),
        ("when", "; ".join(page.when)),
        *(("unless", each) for each in page.unless),
        ("only if", page.choosing and f"the choice is {page.choosing}"),
        ("asks for", _joined(page.asks)),
        ("aims at", _joined(page.aims)),
        *(("also fine", each) for each in page.options),
        ("why", page.because),
        ("cue", page.cue),
        ("usual mistake", page.mistake),
        ("drills", ", ".join(page.drills)),
        ("note", page.note),
        ("rests on", page.evidence),
        ("written by", page.author),
        ("concern", page.concern),
    ]
    return [(label, text) for label, text in pairs if text]


def mix_pairs(mix: MixPage) -> list[tuple[str, str]]:
    """Return (label, text) for everything a mix says."""
    pairs = [
        ("asks for", mix.asked),
        ("why", mix.because),
        ("cue", mix.cue),
        ("drills", ", ".join(mix.drills)),
        ("note", mix.note),
    ]
    return [(label, text) for label, text in pairs if text]


def _joined(pairs: Sequence[tuple[str, str]]) -> str:
    return "; ".join(f"{part} {asked}" for part, asked in pairs)


def mix_sections(mix: MixRule, rules: RuleSet, drills: Catalogue) -> tuple[Section, ...]:
    """Return the page of one mix rule alone, with its examples."""
    told = [f"{each.seen.count} of {each.seen.of}: {_SAYS[each.says]}" for each in mix.examples]
    return (
        Section(
            title=f"{mix.title} [{mix.id}]",
            lines=tuple(definitions(mix_pairs(mix_page(mix, rules, drills)))),
        ),
        Section(
            title="Examples", lines=tuple(line for text in told for line in bullet(text, "  "))
        ),
    )


_SAYS = {
    MixSays.KEPT: "kept",
    MixSays.TOO_OFTEN: "too often",
    MixSays.TOO_RARELY: "too rarely",
    MixSays.NOT_ENOUGH: "not enough balls yet",
}


def _mix_lines(mixes: Sequence[MixPage]) -> Iterator[str]:
    for mix in mixes:
        yield ""
        yield from wrapped(f"{mix.title} [{mix.id}]", "  ")
        yield from definitions(mix_pairs(mix), _INDENT)
