"""The quiz page as a player meets it: on a phone, by touch, by keyboard, without storage."""

import random
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page, ViewportSize

import tactics
from tactics.cli.rule_files import load_rules
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.model.scenario import Scenario
from tactics.model.standard import STANDARD
from tactics.quiz.generate import make_quizzes
from tactics.quiz.handing_out import page_of
from tactics.quiz.handout import Handout, Paper, even_days, returned
from tactics.quiz.requests import Request
from tactics.quiz.short_code import Mark, Result, read_code
from tactics.report.html.quiz_page import quiz_html
from tactics.report.quiz_places import shown_picture
from tests.pages_in_browser.written_pages import HOSTILE

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
PHONE = ViewportSize(width=360, height=740)
LEAST_TARGET = 44
CODE_SCRIPT = Path(tactics.__file__).parent / "report" / "html" / "short_code.js"
QUESTIONS = 4
_SIDEWAYS = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
_TARGETS = """() => [...document.querySelectorAll("button, label, summary, [type=text], textarea")]
    .filter(e => e.checkVisibility()).map(e => e.getBoundingClientRect())
    .map(r => Math.min(r.width, r.height))"""
_NO_STORAGE = """Object.defineProperty(window, "localStorage",
    { get() { throw new DOMException("refused", "SecurityError"); } });"""


@pytest.fixture(scope="session")
def advisor() -> Advisor:
    rules = load_rules(["singles-club"], with_drills=False).reading.value
    assert rules is not None
    return compile_rules(rules, "matcher")


@pytest.fixture(scope="session")
def handout(advisor: Advisor) -> Handout:
    requests = [Request(seed=f"page/{paper}", count=QUESTIONS) for paper in range(2)]
    days = even_days(date(2026, 3, 14), 2, 2)
    papers = zip(days, make_quizzes(advisor, requests), strict=True)
    return Handout(
        made=days[0],
        nickname="",
        rules_name=advisor.rules.name,
        papers=tuple(Paper(day=day, quiz=quiz) for day, quiz in papers),
    )


@pytest.fixture(scope="session")
def url(handout: Handout, advisor: Advisor, tmp_path_factory: pytest.TempPathFactory) -> str:
    path = tmp_path_factory.mktemp("quiz") / "quiz.html"
    path.write_text(quiz_html(page_of(handout, advisor.vocabulary)), "utf-8")
    return path.as_uri()


@pytest.fixture
def phone(browser: BrowserContext) -> Iterator[BrowserContext]:
    assert browser.browser is not None
    opened = browser.browser.new_context(viewport=PHONE, has_touch=True, reduced_motion="reduce")
    yield opened
    opened.close()


@pytest.fixture
def page(phone: BrowserContext, url: str) -> Page:
    opened = phone.new_page()
    opened.goto(url)
    return opened


def button(page: Page, name: str) -> Any:
    return page.get_by_role("button", name=name)


def answer(page: Page, option: int | None, *, is_sure: bool = True) -> None:
    """Answer the question on show by touch."""
    if option is None:
        button(page, "Leave it open").tap()
        return
    page.locator("article.now label").nth(option).tap()
    button(page, "I am sure" if is_sure else "I am not sure").tap()


def onward(page: Page, *, is_last: bool = False) -> None:
    button(page, "See the summary" if is_last else "Next question").tap()


def told_of(page: Page) -> Result:
    result = read_code(page.locator("#code").inner_text())
    assert isinstance(result, Result)
    return result


def test_a_whole_paper_by_touch_comes_back_as_a_code(page: Page, handout: Handout) -> None:
    sound = [scenario.sound for scenario in handout.papers[1].quiz.scenarios]
    button(page, "Paper 2").tap()
    answer(page, sound[0])
    assert "sound" in page.locator("article.now .told li.best").inner_text()
    onward(page)
    answer(page, (sound[1] + 1) % 3, is_sure=False)
    onward(page)
    answer(page, None)
    assert page.locator("article.now h3").last.inner_text().startswith("Left open")
    onward(page)
    answer(page, sound[3], is_sure=False)
    onward(page, is_last=True)
    page.get_by_label("nickname").fill("Wren")

    result = told_of(page)
    answers = returned(handout, result)

    assert result.nickname == "Wren"
    assert (result.page, result.paper) == (handout.number, 1)
    assert answers is not None
    assert [each.picked for each in answers] == [sound[0], (sound[1] + 1) % 3, None, sound[3]]
    assert [each.sure for each in answers] == [True, False, None, False]
    assert "1 left open" in page.locator("#summary").inner_text()


def test_a_whole_paper_by_keyboard(page: Page) -> None:
    page.keyboard.press("Tab")  # from the heading on show to the first paper
    page.keyboard.press("Enter")
    for number in range(QUESTIONS):
        assert page.evaluate("document.activeElement.tagName") == "H3"
        page.keyboard.press("Tab")
        page.keyboard.press("Space")
        page.keyboard.press("ArrowDown")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        assert page.evaluate("document.activeElement.closest('.told') !== null")
        page.keyboard.press("Tab")  # I see it differently
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        assert page.locator("#summary").is_visible() == (number == QUESTIONS - 1)

    assert [mark.picked for mark in told_of(page).marks] == [1] * QUESTIONS


def test_single_letters_and_figures_do_nothing(page: Page) -> None:
    button(page, "Paper 1").tap()
    before = page.content()

    page.keyboard.type("123snlq? ")

    assert page.content() == before


def test_the_target_is_shown_beside_what_is_said(page: Page, handout: Handout) -> None:
    shots = [shown_target(each) for each in handout.papers[0].quiz.scenarios]
    button(page, "Paper 1").tap()
    for number, has_target in enumerate(shots):
        assert page.locator("article.now .pictures > svg").is_visible()
        answer(page, 0)
        assert not page.locator("article.now .pictures > svg").is_visible()
        assert page.locator("article.now .told > svg").is_visible()
        assert page.locator("article.now .told use[href='#target']").count() == has_target
        onward(page, is_last=number == QUESTIONS - 1)


def shown_target(scenario: Scenario) -> bool:
    """Say whether a question has a target once it is answered."""
    return shown_picture(scenario, is_answered=True, words=STANDARD).target is not None


def test_an_answer_without_a_pick_is_asked_for_again(page: Page) -> None:
    button(page, "Paper 1").tap()
    button(page, "I am sure").tap()

    assert "Pick one of the three" in page.get_by_role("alert").inner_text()
    assert page.evaluate("document.activeElement.type") == "radio"


def test_a_reload_in_the_middle_keeps_what_was_answered(page: Page) -> None:
    button(page, "Paper 1").tap()
    for option in (2, 0):
        answer(page, option)
        onward(page)
    page.reload()

    button(page, "go on with question 3").tap()
    answer(page, 1)
    onward(page)
    answer(page, 1)
    onward(page, is_last=True)

    assert [mark.picked for mark in told_of(page).marks] == [2, 0, 1, 1]


def test_without_storage_it_works_and_says_so(phone: BrowserContext, url: str) -> None:
    page = phone.new_page()
    page.add_init_script(_NO_STORAGE)
    page.goto(url)
    button(page, "Paper 1").tap()
    for number in range(QUESTIONS):
        answer(page, number % 3)
        assert "keeps nothing" in page.locator("article.now .told .hint").inner_text()
        onward(page, is_last=number == QUESTIONS - 1)

    assert [mark.picked for mark in told_of(page).marks] == [0, 1, 2, 0]


def test_the_file_of_the_result_holds_code_and_remarks(page: Page) -> None:
    button(page, "Paper 1").tap()
    answer(page, 0)
    page.get_by_text("I see it differently").tap()
    page.get_by_label("What you see differently").fill("I never have time\nfor that.")
    onward(page)
    for number in range(1, QUESTIONS):
        answer(page, None)
        onward(page, is_last=number == QUESTIONS - 1)
    code = page.locator("#code").inner_text()

    with page.expect_download() as download:
        button(page, "Save as a file").tap()

    text = Path(download.value.path()).read_text("utf-8")
    assert f"Code: {code}" in text
    assert "Question 1, seen differently: I never have time for that." in text
    assert "Practice, not an exam." in text


def test_a_thousand_codes_written_by_the_page_are_read_here(browser: BrowserContext) -> None:
    rng = random.Random("a thousand codes")
    names = (
        "",
        "Wren",
        "Zoë",
        "小鳥",
        "\N{TENNIS RACQUET AND BALL}\N{HAMMER}",
        "a b-c'd",
        "x" * 31,
    )
    results = [
        Result(
            page=rng.getrandbits(30),
            paper=rng.randrange(32),
            day=rng.randrange(1024),
            marks=tuple(
                Mark(picked=None)
                if rng.random() < 0.1
                else Mark(
                    picked=rng.randrange(3), is_sure=rng.random() < 0.5, took=rng.randrange(4)
                )
                for _ in range(rng.randrange(32))
            ),
            nickname=rng.choice(names),
        )
        for _ in range(1000)
    ]
    sent = [
        {
            "page": each.page,
            "paper": each.paper,
            "day": each.day,
            "nickname": each.nickname,
            "marks": [
                {"picked": mark.picked, "sure": mark.is_sure, "took": mark.took}
                for mark in each.marks
            ],
        }
        for each in results
    ]
    with browser.new_page() as page:
        script = CODE_SCRIPT.read_text("utf-8")
        codes = page.evaluate(f"(all) => {{ {script}; return all.map(shortCode.write); }}", sent)

    assert [read_code(code) for code in codes] == results


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_everybody_can_use_every_view(page: Page, scheme: Any) -> None:
    page.emulate_media(color_scheme=scheme)
    found = {"start": hindrances(page)}
    button(page, "Paper 1").tap()
    found["question"] = hindrances(page)
    button(page, "I am sure").tap()
    found["nothing picked"] = hindrances(page)
    answer(page, 0)
    found["answered"] = hindrances(page)
    for number in range(1, QUESTIONS):
        onward(page)
        answer(page, None if number == 1 else 1)
    onward(page, is_last=True)
    found["summary"] = hindrances(page)

    assert [view for view, hindering in found.items() if hindering] == []


def hindrances(page: Page) -> list[str]:
    found = Axe().run(page, options={"runOnly": TAGS, "resultTypes": ["violations"]})
    return [each["id"] for each in found.response["violations"]]


@pytest.mark.parametrize("size", [pytest.param("100%", id="usual"), pytest.param("200%", id="big")])
def test_every_view_fits_a_narrow_phone_and_a_thumb(page: Page, size: str) -> None:
    page.set_viewport_size({"width": 320, "height": 640})
    page.evaluate("size => { document.documentElement.style.fontSize = size }", size)

    def fits() -> None:
        assert page.evaluate(_SIDEWAYS) <= 0
        assert min(page.evaluate(_TARGETS)) >= LEAST_TARGET

    fits()
    button(page, "Paper 1").tap()
    fits()
    for number in range(QUESTIONS):
        answer(page, number % 3)
        fits()
        onward(page, is_last=number == QUESTIONS - 1)
    fits()


def test_on_paper_it_is_a_quiz_with_the_answers_at_the_end(page: Page, handout: Handout) -> None:
    button(page, "Paper 1").tap()
    answer(page, 0)
    page.emulate_media(media="print")
    total = handout.questions

    assert page.locator("article").filter(visible=True).count() == total
    assert page.locator("#answers > div").filter(visible=True).count() == total
    assert page.locator("button, fieldset, article .told").filter(visible=True).count() == 0
    assert page.locator("article > ol > li").filter(visible=True).count() == 3 * total
    assert page.evaluate(_SIDEWAYS) <= 0
    assert page.pdf(format="A4").startswith(b"%PDF")


def test_without_scripts_it_is_a_paper(browser: BrowserContext, url: str, handout: Handout) -> None:
    assert browser.browser is not None
    with browser.browser.new_context(java_script_enabled=False, viewport=PHONE) as still:
        page = still.new_page()
        page.goto(url)

        assert page.locator("article").filter(visible=True).count() == handout.questions
        assert "do it on paper" in page.locator("noscript").inner_text()


def test_it_asks_for_nothing_and_moves_nothing(phone: BrowserContext, url: str) -> None:
    page = phone.new_page()
    asked: list[str] = []
    said: list[str] = []
    page.on("request", lambda each: asked.append(each.url))
    page.on("console", lambda each: said.append(each.text))
    page.on("pageerror", lambda each: said.append(str(each)))
    page.goto(url)
    button(page, "Paper 1").tap()
    answer(page, 0)
    onward(page)

    assert asked == [url]
    assert said == []
    assert page.evaluate("document.getAnimations().length") == 0


def test_texts_that_look_like_code_stay_texts(
    phone: BrowserContext, handout: Handout, advisor: Advisor, tmp_path: Path
) -> None:
    path = tmp_path / "hostile.html"
    path.write_text(_hostile_page(handout, advisor), "utf-8")
    page = phone.new_page()
    page.goto(path.as_uri())
    page.get_by_role("button", name="Paper 1").tap()
    assert HOSTILE[0] in page.locator("article.now fieldset").inner_text()
    assert "<!-- </script>" in page.locator("article.now > p").first.inner_text()
    answer(page, 1)

    assert HOSTILE[0] in page.locator("article.now .told").inner_text()
    assert page.title() != "hit"
    assert page.locator("img").count() == 0


def _hostile_page(handout: Handout, advisor: Advisor) -> str:
    paper = handout.papers[0]
    scenarios = tuple(
        replace(
            each,
            facts=f"<!-- </script> \u2028 {HOSTILE[3]}",
            note=HOSTILE[1],
            because=HOSTILE[2],
            options=tuple(replace(one, text=f"{HOSTILE[0]} {one.text}") for one in each.options),
        )
        for each in paper.quiz.scenarios
    )
    hostile = replace(
        handout,
        rules_name=HOSTILE[0],
        papers=(replace(paper, quiz=replace(paper.quiz, scenarios=scenarios)), handout.papers[1]),
    )
    return quiz_html(page_of(hostile, advisor.vocabulary))
