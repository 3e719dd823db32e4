"""Pages for people: nicknames, what goes first, and care where something hurts."""

import re
from pathlib import Path

import pytest

from tactics.cli.main import Exit, safely
from tactics.report.people import is_more_than_a_nickname, nickname
from tests.pages_in_browser.written_pages import chart_with
from tests.report.html.page_reader import read_page


def page(folder: Path, *arguments: str, **cells: str) -> str:
    """Return what can be read on a page."""
    path = folder / "page.html"
    command = [
        *arguments,
        str(chart_with(folder, **cells)),
        "--html" if arguments[0] == "plan" else "-o",
    ]
    assert safely([*command, str(path)]) == Exit.FINE
    return read_page(path.read_text(encoding="utf-8")).text


def in_order(text: str, *pieces: str) -> bool:
    """Say whether these pieces stand in a text, one behind another."""
    return re.search(".*?".join(map(re.escape, pieces)), text, re.S) is not None


@pytest.mark.parametrize(
    ("charted", "called"),
    [
        pytest.param("Wren", "Wren", id="nickname"),
        pytest.param("Wren Example", "Wren", id="two words"),
        pytest.param("wren@example.org", "wren", id="address"),
        pytest.param("@", "the player", id="nothing left"),
        pytest.param("", "the player", id="nobody"),
    ],
)
def test_a_page_uses_a_nickname_only(charted: str, called: str) -> None:
    assert nickname(charted) == called
    assert is_more_than_a_nickname(charted) == (" " in charted or "@" in charted)


@pytest.mark.parametrize("command", ["audit", "plan", "page"])
def test_a_full_name_earns_one_gentle_word(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = chart_with(tmp_path, player="Wren Example")
    more = {"page": ["parent"], "audit": [], "plan": []}[command]
    out = {"page": ["-o", str(tmp_path / "page.html")], "audit": [], "plan": []}[command]

    code = safely([command, *more, str(path), *out])

    assert code == Exit.FINE
    assert capsys.readouterr().err.count("a nickname is enough") == 1


def test_a_page_for_the_parents_never_shows_the_rest_of_a_name(tmp_path: Path) -> None:
    text = page(tmp_path, "page", "parent", player="Wren Example")

    assert "Wren" in text
    assert "Example" not in text


def test_the_player_reads_first_what_went_right(tmp_path: Path) -> None:
    text = page(tmp_path, "page", "player")

    assert in_order(
        text, "What went right", "A ball you chose well", "In your own words", "One cue",
        "One thing to try",
    )  # fmt: skip


def test_the_player_reads_metres_and_no_multiples_of_scatter(tmp_path: Path) -> None:
    text = page(tmp_path, "page", "player")

    assert re.search(r"[\d.]+ m inside the line", text)
    assert "scatter" not in text


def test_the_parents_read_no_blame_no_results_and_no_comparison(tmp_path: Path) -> None:
    text = page(tmp_path, "page", "parent").lower()

    assert in_order(text, "choices", "effort", "what we practise next", "how you can help")
    assert not [word for word in ("error", "mistake", "broken", "lost", "worse", "best", "rank")
                if word in text]  # fmt: skip


def test_another_coach_finds_the_rules_their_balls_and_the_words_in_use(tmp_path: Path) -> None:
    text = page(tmp_path, "page", "hand-over")

    assert in_order(
        text, "seen in", "rule set", "Choices by game situation", "Strong", "Worked on", "Tried:",
        "Wanted:", "In the player's words", "Cue words in use", "Then and now", "Open",
    )  # fmt: skip
    assert "by you" not in text


@pytest.mark.parametrize("kind", ["player", "parent", "hand-over"])
def test_where_something_hurts_rest_comes_before_everything(kind: str, tmp_path: Path) -> None:
    text = page(tmp_path, "page", kind, restricted_today="yes")

    first = {"player": "rest comes first", "parent": "effort is not graded",
             "hand-over": "no serve and smash drills"}[kind]  # fmt: skip
    heading = {"player": "What went right", "parent": "Choices",
               "hand-over": "Choices by game situation"}[kind]  # fmt: skip
    assert in_order(text, first, heading)
    assert "Moved on well" not in text


def test_a_restricted_lesson_begins_with_safety_and_starts_points_without_serves(
    tmp_path: Path,
) -> None:
    text = page(tmp_path, "plan", restricted_today="yes")

    assert in_order(
        text, "Safety first", "At a glance", "First, before any reminder", "no serves, no overheads"
    )


def test_a_plan_says_set_up_scoring_and_both_ways_to_change_a_drill(tmp_path: Path) -> None:
    text = page(tmp_path, "plan")

    assert in_order(
        text, "At a glance", "What it works on", "before any reminder", "Listen for:", "Warm-up",
        "set-up", "scoring", "harder", "easier", "cue", "pictured", "Points with stops", "Homework",
        "Care",
    )  # fmt: skip


def test_a_plan_with_a_quiz_file_says_how_to_start_it(tmp_path: Path) -> None:
    text = page(tmp_path, "plan", "--homework", str(tmp_path / "home.yaml"))

    assert in_order(text, "Homework", "tactics quiz", "home.yaml")
