"""What holds for every page: it stands alone, it is sound HTML, its numbers are in words too."""

import re
from base64 import b64encode
from hashlib import sha256
from itertools import pairwise
from pathlib import Path

import pytest

from tactics.cli.main import Exit, safely
from tests.pages_in_browser.written_pages import HOSTILE, WRITERS, Write, chart_with, page_writer
from tests.report.html.page_reader import ReadPage, read_page

EVERY = [(kind, chart) for chart in ("ordinary", "short", "hostile") for kind in WRITERS]
IDS = [f"{kind}-{chart}" for kind, chart in EVERY]
LETTERS = {"audit": 900_000, "rule book": 60_000}
"""A page may have so many; all others 60,000. The hostile chart has long names."""
LOADING = {"script", "img", "link", "iframe", "object", "embed", "video", "audio", "base", "form"}


@pytest.fixture(scope="module")
def write(tmp_path_factory: pytest.TempPathFactory) -> Write:
    return page_writer(tmp_path_factory.mktemp("pages"))


@pytest.fixture(scope="module", params=EVERY, ids=IDS)
def text(request: pytest.FixtureRequest, write: Write) -> str:
    return write(*request.param).read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def page(text: str) -> ReadPage:
    return read_page(text)


def test_every_element_is_closed_and_every_link_leads_somewhere(page: ReadPage) -> None:
    names = page.values("id")

    assert page.wrong == []
    assert len(names) == len(set(names))
    assert {link.removeprefix("#") for link in page.values("href")} <= set(names)
    assert set(page.values("aria-labelledby")) <= set(names)


def test_headings_go_down_one_step_at_a_time(page: ReadPage) -> None:
    steps = [int(e.tag[1]) for e in page.elements if re.fullmatch(r"h[1-6]", e.tag)]

    assert steps[0] == 1
    assert steps.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(steps))


def test_nothing_is_fetched_and_nothing_runs(page: ReadPage, text: str) -> None:
    names = {name for each in page.elements for name in each.attributes}
    style = page.named("style")[0].text
    digest = b64encode(sha256(style.encode()).digest()).decode()

    assert LOADING.isdisjoint(each.tag for each in page.elements)
    assert not {name for name in names if name.startswith("on")} | (names & {"style", "src"})
    assert not re.search(r"url\(|@import|expression", style)
    assert all(link.startswith("#") for link in page.values("href"))
    assert (
        f"default-src 'none'; base-uri 'none'; form-action 'none'; style-src 'sha256-{digest}'"
        in text
    )


def test_every_number_in_a_picture_is_in_words_beside_it(text: str) -> None:
    scales = re.findall(r'class="at" cx="(\d+)".*?</svg>\s*<span class="says">(.*?)<', text, re.S)

    assert len(scales) == text.count('<svg class="scale"')
    assert all(f"{int(place) - 2} %" in says for place, says in scales)


def test_every_court_says_what_it_shows(page: ReadPage) -> None:
    pictures = [each for each in page.named("svg") if each.attributes.get("role") == "img"]
    hidden = [each for each in page.named("svg") if each.attributes.get("aria-hidden") == "true"]

    assert len(pictures) + len(hidden) == len(page.named("svg"))
    assert all("Court seen from above" in each.attributes["aria-label"] for each in pictures)


@pytest.mark.parametrize("kind", WRITERS)
def test_no_page_is_large(kind: str, write: Write) -> None:
    assert len(write(kind, "ordinary").read_bytes()) < LETTERS.get(kind, 60_000)


def test_a_page_of_many_long_notes_stays_small_and_says_what_is_not_shown(tmp_path: Path) -> None:
    chart = chart_with(tmp_path, note="a note that goes on and on " * 200)

    code = safely(["audit", str(chart), "--html", str(tmp_path / "page.html")])

    written = (tmp_path / "page.html").read_text(encoding="utf-8")
    assert code == Exit.FINE
    assert len(written) < 3_000_000
    assert "more are counted in every number and not pictured" in read_page(written).text


def test_each_text_of_a_chart_arrives_on_the_audit_as_it_is(write: Write) -> None:
    said = read_page(write("audit", "hostile").read_text(encoding="utf-8")).text

    assert [each for each in HOSTILE if _shown(each) not in said] == []


def _shown(text: str) -> str:
    """Return a text as a page shows it: hidden characters spelt out."""
    return re.sub("[\u2028\u2029\u202e]", lambda each: f"\\u{ord(each[0]):04x}", text)


def test_the_same_chart_gives_the_same_page(write: Write, tmp_path: Path) -> None:
    again = page_writer(tmp_path)

    assert again("plan", "ordinary").read_bytes() == write("plan", "ordinary").read_bytes()
