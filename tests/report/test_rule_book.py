"""A rule set as a page: what a reader sees in each form, and that nothing in it can do harm."""

import re
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest

from tactics.engine.compile import compile_rules
from tactics.model.drill import Catalogue, Drill
from tactics.reading.rules import read_rules
from tactics.report.court_text import ASCII
from tactics.report.html.rule_book import rule_book_html
from tactics.report.layout import text_of
from tactics.report.rule_book import SMALLER_COURT, RuleBook, rule_book
from tactics.report.rule_book_markdown import plain, rule_book_markdown
from tactics.report.rule_book_text import rule_book_sections
from tactics.source import Source, Span
from tests.golden import CASES, Golden

STYLE = Path(__file__).parents[2] / "tactics" / "report" / "html" / "style.css"
CORNER = Drill(
    id="rescue-corner", title="Rescue corner", minutes=15, trains=(), set_up="", scoring="",
    harder="", easier="", span=Span(file="drills.yaml", line=1),
)  # fmt: skip


LOWER = """\
rule set: Two
author: Coach K.
precedence: [safety]
rules:
  go-up:
    title: Go up
    concern: safety
    strength: should
    when: {body height: overhead}
    advise: {stroke: not smash}
    because: It comes down late.
    cue: Up
"""


def book_of(text: str) -> RuleBook:
    reading = read_rules(Source(name="club.yaml", text=text))
    assert reading.problems == ()
    return rule_book(compile_rules(reading.value, engine="matcher"), Catalogue(drills=(CORNER,)))


@pytest.fixture(scope="module")
def book() -> RuleBook:
    return book_of((CASES / "rule_pages" / "club.yaml").read_text("utf-8"))


def test_the_page_for_the_terminal(book: RuleBook, golden: Golden) -> None:
    golden("rule_pages/club.txt", text_of(rule_book_sections(book)))


def test_the_page_for_a_terminal_that_cannot_draw(book: RuleBook) -> None:
    text = text_of(rule_book_sections(book, ASCII))

    assert text.isascii()
    assert max(map(len, text.splitlines())) <= 80


def test_the_page_as_markdown(book: RuleBook, golden: Golden) -> None:
    golden("rule_pages/club.md", rule_book_markdown(book))


def test_the_page_as_html(book: RuleBook, golden: Golden) -> None:
    golden("rule_pages/club.html", rule_book_html(book))


def test_every_rule_stands_in_the_book_once(book: RuleBook) -> None:
    found = [page.id for chapter in book.chapters for page in chapter.pages]

    assert sorted(found) == [
        "lefty-serves-wide", "low-ball-up", "play-on-until-the-call", "wide-go-high",
    ]  # fmt: skip


def test_a_rule_of_two_situations_stands_where_its_examples_are(book: RuleBook) -> None:
    by_title = {chapter.title: chapter for chapter in book.chapters}

    assert [page.id for page in by_title["Approaching or at net"].pages] == ["low-ball-up"]
    assert [each.id for each in by_title["Baseline rally"].elsewhere] == ["low-ball-up"]
    assert [page.id for page in by_title["In every situation"].pages] == ["play-on-until-the-call"]


def test_a_rule_that_never_applies_has_no_picture() -> None:
    text = (CASES / "rule_pages" / "club.yaml").read_text("utf-8")
    when = "when: {game situation: serving, own hand: left, serve side: ad}"
    never = text.replace(when, f"{when}\n    unless: {{own hand: left}}")

    pages = [page for chapter in book_of(never).chapters for page in chapter.pages]

    assert [page.id for page in pages if page.picture is None] == ["lefty-serves-wide"]


def test_pictures_for_children_say_that_they_are_drawn_on_a_full_court(book: RuleBook) -> None:
    text = (CASES / "rule_pages" / "club.yaml").read_text("utf-8")
    small = text.replace("{format: singles}", "{format: singles, stage: [red, orange]}", 1)

    assert book_of(small).pictures == f"{book.pictures} {SMALLER_COURT}"


def test_whoever_wrote_one_of_the_rules_is_named() -> None:
    lower = Source(name="lower.yaml", text=LOWER)
    upper = LOWER.replace("author: Coach K.", "author: Coach L.\nbuilds on: [lower.yaml]")
    upper = upper.replace("go-up", "go-higher").replace("precedence: [safety]\n", "")

    reading = read_rules(Source(name="upper.yaml", text=upper), {"lower.yaml": lower}.get)

    book = rule_book(compile_rules(reading.value, engine="matcher"), Catalogue(drills=()))
    assert book.summary == "2 rules by Coach L. and Coach K."


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("*bold* _slanted_ `code`", r"\*bold\* \_slanted\_ \`code\`"),
        ("[a](b) <b> # | ~ &lt;", r"\[a\](b) \<b\> \# \| \~ \&lt;"),
        ("back\\slash \u202e", r"back\\slash \\u202e"),
    ],
    ids=["emphasis", "links and tags", "what cannot be seen"],
)
def test_a_text_has_no_meaning_in_markdown(text: str, written: str) -> None:
    assert plain(text) == written


class Page(HTMLParser):
    """Collects what an HTML page is made of."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def values(self, name: str) -> list[str]:
        return [found for _, given in self.tags if (found := given.get(name)) is not None]


def test_a_page_fetches_nothing_and_runs_nothing(book: RuleBook) -> None:
    page = Page(rule_book_html(book))

    assert {tag for tag, _ in page.tags} & {"script", "link", "img", "iframe", "object"} == set()
    assert [value for value in page.values("href") if not value.startswith("#")] == []
    assert page.values("src") == []
    assert "url(" not in STYLE.read_text("utf-8")


def test_every_link_of_a_page_leads_somewhere_and_every_id_is_its_own(book: RuleBook) -> None:
    page = Page(rule_book_html(book))
    ids = page.values("id")

    assert len(ids) == len(set(ids))
    assert {value[1:] for value in page.values("href")} <= set(ids)
    assert set(page.values("aria-labelledby")) <= set(ids)


def test_headings_go_down_one_level_at_a_time_and_pictures_have_words(book: RuleBook) -> None:
    page = Page(rule_book_html(book))
    levels = [int(tag[1]) for tag, _ in page.tags if re.fullmatch("h[1-6]", tag)]
    pictures = [given for tag, given in page.tags if tag == "svg"]

    assert levels[0] == 1
    assert all(later - earlier <= 1 for earlier, later in pairwise(levels))
    assert all(given.get("aria-label") or given.get("aria-hidden") for given in pictures)


def test_a_rule_set_cannot_put_markup_into_a_page() -> None:
    text = (CASES / "rule_pages" / "club.yaml").read_text("utf-8")
    attack = '"><script>alert(1)</script>{{ 7 * 7 }}'
    spoilt = text.replace("Hit first, ask later", f"'{attack}'")

    html = rule_book_html(book_of(spoilt))

    assert "<script" not in html
    assert "{{ 7 * 7 }}" in html


def colours(text: str) -> list[dict[str, str]]:
    """Return the colours of each scheme in the style sheet: light, dark, print."""
    blocks = re.findall(r":root \{(.*?)\}", text, re.DOTALL)
    return [dict(re.findall(r"--(\w+): (#\w{6});", block)) for block in blocks]


def brightness(colour: str) -> float:
    """Return the relative luminance of a colour (WCAG 2)."""
    channels = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    low, high = sorted((brightness(one), brightness(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("scheme", [0, 1, 2], ids=["light", "dark", "print"])
@pytest.mark.parametrize(
    ("front", "behind", "least"),
    [
        ("ink", "paper", 7), ("ink", "raised", 7), ("soft", "paper", 4.5), ("soft", "raised", 4.5),
        ("accent", "paper", 4.5), ("accent", "raised", 4.5), ("accent", "ground", 3),
        ("ink", "ground", 3), ("soft", "ground", 3), ("line", "ground", 3),
    ],
)  # fmt: skip
def test_colours_can_be_told_from_what_is_behind_them(
    scheme: int, front: str, behind: str, least: float
) -> None:
    found = colours(STYLE.read_text("utf-8"))

    assert len(found) == 3
    assert contrast(found[scheme][front], found[scheme][behind]) >= least
