"""What the pages say of special charts: several players, sore days, a single ball."""

import csv
import io
from collections.abc import Callable
from pathlib import Path

from tactics.cli.main import Exit, safely
from tests.pages_in_browser.written_pages import CHART, short_chart
from tests.report.html.page_reader import ReadPage, read_page

Row = dict[str, str]


def page_of(folder: Path, text: str, *command: str) -> ReadPage:
    chart, page = folder / "chart.csv", folder / "page.html"
    chart.write_text(text, encoding="utf-8")
    assert safely([*command, str(chart), "--html", str(page)]) == Exit.FINE
    return read_page(page.read_text(encoding="utf-8"))


def charted(change: Callable[[int, Row], Row]) -> str:
    """Return the chart of three lessons with every row changed."""
    rows = list(csv.DictReader(io.StringIO(CHART.read_text(encoding="utf-8"))))
    out = io.StringIO()
    writer = csv.DictWriter(out, list(rows[0]))
    writer.writeheader()
    writer.writerows(row | change(place, row) for place, row in enumerate(rows))
    return out.getvalue()


def test_with_several_players_every_ball_and_lesson_says_whose(tmp_path: Path) -> None:
    text = charted(lambda place, _: {"player": ("Wren", "נועה")[place % 2]})

    page = page_of(tmp_path, text, "audit")

    cards = [each for each in page.named("article") if "ball" in each.attributes["class"].split()]
    assert cards
    assert all("player" in each.text for each in cards)
    assert "נועה: baseline points" in page.text


def test_changes_that_chance_could_explain_say_so_once(tmp_path: Path) -> None:
    page = page_of(tmp_path, CHART.read_text(encoding="utf-8"), "audit")

    assert page.text.count("Chance alone could explain it") == 1
    assert page.text.count("balls would tell.") > 5


def test_a_plan_for_a_well_player_tries_no_ball_of_a_sore_day_again(tmp_path: Path) -> None:
    sore = "2026-03-14"
    text = charted(lambda _, row: {"restricted today": "yes" if row["date"] == sore else "no"})

    page = page_of(tmp_path, text, "plan")

    tried = [each.text for each in page.named("li") if "Listen for:" in each.text]
    assert "Sore means soft" in page.text
    assert tried
    assert not [each for each in tried if sore in each]


def test_a_plan_without_a_ball_to_try_again_says_so_and_has_no_legend(tmp_path: Path) -> None:
    page = page_of(tmp_path, short_chart(), "plan")

    assert "There is no ball to try again this time." in page.text
    assert "legend" not in page.values("class")


def test_a_plan_says_for_whom_it_is_and_what_it_rests_on(tmp_path: Path) -> None:
    page = page_of(tmp_path, short_chart(), "plan")

    assert [each.text for each in page.named("dd")[:3]] == [
        "Wren", "1 lesson or match, 2026-03-07", "Singles, club level",
    ]  # fmt: skip
