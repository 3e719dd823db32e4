"""A lesson plan for the terminal, at most 80 columns."""

from collections.abc import Iterator, Mapping

from tactics.report.court_picture import Picture
from tactics.report.court_text import DRAWN
from tactics.report.layout import Section, bullet, definitions, wrapped
from tactics.report.plans import PlannedBlock, PlanPage, Retest, minutes_words
from tactics.report.rule_book_court import legend, side_names, small_court

_INDENT = "    "


def plan_sections(page: PlanPage, marks: Mapping[str, str] = DRAWN) -> tuple[Section, ...]:
    """Return a plan as sections: safety first where it is due, then the lesson in its order."""
    return (
        Section(title="Safety first" if page.safety else "", lines=wrapped(page.safety, "  ")),
        Section(title=page.title, lines=tuple(_opening(page))),
        *(Section(title=_title(block), lines=tuple(_block(block, marks))) for block in page.blocks),
        Section(title="Homework", lines=tuple(_homework(page))),
        Section(
            title="Care", lines=tuple(line for care in page.care for line in bullet(care, "  "))
        ),
        Section(title="", lines=(*wrapped(f"Courts: {legend(marks)}."), *wrapped(page.aid))),
    )


def _title(block: PlannedBlock) -> str:
    return f"{minutes_words(block.minutes)}: {block.title}"


def _opening(page: PlanPage) -> Iterator[str]:
    yield from definitions(page.facts, "  ")
    for each in page.worked_on:
        yield from bullet(each.headline, "  ")
        for text in each.reasons:
            yield from wrapped(text, _INDENT, "      ")
        if each.cue:
            yield from wrapped(f"Cue: {each.cue}", _INDENT, "      ")
    for text in page.remarks:
        yield from wrapped(text, "  ")


def _block(block: PlannedBlock, marks: Mapping[str, str]) -> Iterator[str]:
    yield from wrapped(block.lead, "  ")
    for each in block.retests:
        yield from _retest(each, marks)
    yield from definitions(block.pairs, "  ")
    if block.picture is not None:
        yield from _court(block.picture, marks)
        yield from wrapped(f"Pictured: {block.scene}", _INDENT)


def _retest(each: Retest, marks: Mapping[str, str]) -> Iterator[str]:
    yield from bullet(f"{each.ball} ({each.where})", "  ")
    yield from wrapped(f"Listen for: {each.wanted} [{each.rule}]", _INDENT, "      ")
    if each.picture is not None:
        yield from _court(each.picture, marks)


def _court(picture: Picture, marks: Mapping[str, str]) -> Iterator[str]:
    top, bottom = side_names(picture)
    yield f"{_INDENT}{top}"
    yield from (f"{_INDENT}{row}".rstrip() for row in small_court(picture, marks))
    yield f"{_INDENT}{bottom}"


def _homework(page: PlanPage) -> Iterator[str]:
    first, *rules = page.homework
    yield from wrapped(first, "  ")
    for text in rules:
        yield from bullet(text, "  ")
