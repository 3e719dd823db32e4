"""Pages as people open them: from a file, in a real browser, on a phone, on paper, by keyboard."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page

from tests.pages_in_browser.written_pages import HOSTILE, WRITERS, Write

KINDS = tuple(WRITERS)
HOSTILE_PAGES = [pytest.param((kind, "hostile"), id=f"{kind}-hostile") for kind in KINDS]
SHORT_PAGES = [pytest.param((kind, "short"), id=f"{kind}-short") for kind in KINDS[:-1]]
ORDINARY_PAGES = [pytest.param((kind, "ordinary"), id=kind) for kind in KINDS]
each_page = pytest.mark.parametrize("opened", ORDINARY_PAGES, indirect=True)
each_and_hostile = pytest.mark.parametrize(
    "opened", [*ORDINARY_PAGES, *HOSTILE_PAGES], indirect=True
)
NARROW, PAPER = 320, 718
"""CSS pixels: what WCAG 1.4.10 asks for, and A4 less a centimetre on each side."""
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
_FEW_CARDS = """() => document.querySelectorAll(".deck > :nth-child(n + 9)")
    .forEach(e => e.remove())"""
_SIDEWAYS = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
_STICKING_OUT = """() => [...document.querySelectorAll("main *, header *, footer *")]
    .filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
    .filter(e => !e.closest(".hidden") && e.getClientRects().length)
    .map(e => e.outerHTML.slice(0, 120))"""
_OPERABLE = """() => [...document.querySelectorAll("a[href], summary, button, input")]
    .filter(e => e.checkVisibility())
    .forEach((e, place) => e.dataset.place = place)"""
_FOCUSED = """() => {
    const at = document.activeElement, style = getComputedStyle(at);
    return [at.dataset.place ?? null, style.outlineStyle, parseFloat(style.outlineWidth)];
}"""
_MOVING = """() => document.getAnimations().length + [...document.querySelectorAll("*")]
    .filter(e => getComputedStyle(e).transitionDuration !== "0s"
        || getComputedStyle(e).animationName !== "none").length"""
_INJECT = """() => {
    const script = document.createElement("script");
    script.textContent = "document.title = 'hit'";
    document.body.append(script);
    const frame = document.createElement("div");
    frame.innerHTML = "<img src='https://example.org/x.png' onerror=\\"document.title='hit'\\">";
    document.body.append(frame);
}"""


@dataclass(slots=True)
class Opened:
    """A page and what it asked for and complained about while it was open."""

    page: Page
    url: str
    requests: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)


@pytest.fixture
def opened(
    request: pytest.FixtureRequest, browser: BrowserContext, write: Write
) -> Iterator[Opened]:
    """Yield a page, opened from its file."""
    kind, chart = request.param
    page = browser.new_page()
    found = Opened(page=page, url=write(kind, chart).as_uri())
    page.on("request", lambda each: found.requests.append(each.url))
    page.on("console", lambda each: found.complaints.append(each.text))
    page.on("pageerror", lambda each: found.complaints.append(str(each)))
    page.goto(found.url)
    yield found
    page.close()


@each_and_hostile
def test_it_asks_for_nothing_but_itself_and_does_not_move(opened: Opened) -> None:
    assert opened.requests == [opened.url]
    assert opened.complaints == []
    assert opened.page.title() not in ("", "hit")
    assert opened.page.locator("script, img, link, iframe, [style], [onclick]").count() == 0
    assert opened.page.evaluate(_MOVING) == 0


@each_and_hostile
def test_nothing_runs_or_loads_even_if_it_gets_in(opened: Opened) -> None:
    with opened.page.expect_event("requestfailed") as stopped:
        opened.page.evaluate(_INJECT)

    assert stopped.value.failure == "csp"
    assert opened.page.title() != "hit"
    assert sum("Content Security Policy" in each for each in opened.complaints) >= 2


@each_page
def test_everybody_can_use_it(opened: Opened) -> None:
    assert hindrances(opened.page) == []

    # what else keeps people from using a page is the same in the dark
    opened.page.emulate_media(color_scheme="dark")
    assert hindrances(opened.page, ["color-contrast", "link-in-text-block"]) == []


@pytest.mark.parametrize("opened", SHORT_PAGES, indirect=True)
def test_everybody_can_use_a_page_with_hardly_anything_on_it(opened: Opened) -> None:
    assert hindrances(opened.page) == []


def hindrances(page: Page, only: Sequence[str] = TAGS) -> list[str]:
    """Return what keeps people from using a page. Of many cards made alike, eight are looked at.

    only: kinds of hindrance, or the names of some.
    """
    page.evaluate(_FEW_CARDS)
    found = Axe().run(page, options={"runOnly": list(only), "resultTypes": ["violations"]})
    return [each["id"] for each in found.response["violations"]]


@each_and_hostile
def test_nobody_has_to_scroll_sideways(opened: Opened) -> None:
    for times, size in ((1, "100%"), (2, "200%")):
        opened.page.set_viewport_size({"width": NARROW * times, "height": 640})
        opened.page.evaluate("size => { document.documentElement.style.fontSize = size }", size)

        assert opened.page.evaluate(_SIDEWAYS) <= 0, size
        assert opened.page.evaluate(_STICKING_OUT) == [], size


@each_page
def test_it_fits_on_paper(opened: Opened) -> None:
    opened.page.set_viewport_size({"width": PAPER, "height": 1000})
    opened.page.emulate_media(media="print", color_scheme="dark")

    assert opened.page.evaluate(_SIDEWAYS) <= 0
    assert opened.page.evaluate(_STICKING_OUT) == []
    assert not opened.page.locator("nav, .skip").filter(visible=True).count()
    assert opened.page.pdf(format="A4").startswith(b"%PDF")


@each_page
def test_the_keyboard_reaches_everything_and_shows_where_it_is(opened: Opened) -> None:
    opened.page.evaluate(_OPERABLE)
    wanted = opened.page.locator("[data-place]").count()
    reached = []

    for _ in range(wanted):
        opened.page.keyboard.press("Tab")
        reached.append(opened.page.evaluate(_FOCUSED))

    assert [place for place, _, _ in reached] == [str(place) for place in range(wanted)]
    assert all(style != "none" and width >= 2 for _, style, width in reached)


@each_page
def test_the_first_key_skips_to_the_content(opened: Opened) -> None:
    opened.page.keyboard.press("Tab")
    opened.page.keyboard.press("Enter")

    assert opened.page.evaluate("document.activeElement.id") == "main"


@pytest.mark.parametrize("kind", KINDS)
def test_texts_that_look_like_code_stay_texts(
    kind: str, browser: BrowserContext, write: Write
) -> None:
    with browser.new_page() as page:
        page.goto(write(kind, "hostile").as_uri())

        assert HOSTILE[0] in page.locator("body").inner_text()
        assert page.title() != "hit"
