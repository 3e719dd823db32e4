"""`tactics quiz --page` and `--collect`: there and back again, and what goes wrong on the way."""

from pathlib import Path

import pytest

from tactics.cli.main import Exit, safely
from tactics.quiz.handout import Handout, unpacked
from tactics.quiz.short_code import Mark, Result, write_code

RULES = """\
rule set: Wednesday group
precedence: [feasibility, court position]
rules:
  far-out-go-high:
    title: Far out, go high
    concern: feasibility
    strength: should
    when: {game situation: baseline rally, court width: wide forehand}
    advise: {direction: [crosscourt, middle], height over net: at least 1.3 m}
    aim: {direction: crosscourt, height over net: 2 m}
    usual mistake: {direction: straight, height over net: 0.3 m}
    because: A high ball buys time for the run back.
    cue: Far out, go up
  middle-stays-long:
    title: From the middle, long
    concern: court position
    strength: should
    when: {game situation: baseline rally, court width: middle third}
    advise: {depth: deep or higher, direction: middle, height over net: at most 1.2 m}
    aim: {direction: middle, depth: deep, height over net: 0.8 m}
    usual mistake: {depth: short}
    because: Depth takes time away.
    cue: Long first
"""


@pytest.fixture
def club(tmp_path: Path) -> Path:
    path = tmp_path / "club.yaml"
    path.write_text(RULES, "utf-8")
    return path


class Desk:
    """A coach's computer: a folder of answers, and what the program last said there."""

    def __init__(self, folder: Path, rules: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.folder = folder
        self.rules = rules
        self.capsys = capsys
        self.said = ""

    def quiz(self, *arguments: str) -> int:
        self.capsys.readouterr()
        code = safely(
            ["quiz", "--folder", str(self.folder), "--rules", str(self.rules), *arguments]
        )
        captured = self.capsys.readouterr()
        self.said = captured.out + captured.err
        return code

    def page(self, *arguments: str) -> tuple[Path, Handout]:
        path = self.folder.parent / "quiz.html"
        assert self.quiz("--page", str(path), "--count", "4", "--seed", "x", *arguments) == 0
        handout = unpacked(path.read_text("utf-8"))
        assert handout is not None
        return path, handout


@pytest.fixture
def desk(tmp_path: Path, club: Path, capsys: pytest.CaptureFixture[str]) -> Desk:
    return Desk(tmp_path / "players", club, capsys)


def code_of(handout: Handout, nickname: str = "Wren", paper: int = 0) -> str:
    scenarios = handout.papers[paper].quiz.scenarios
    marks = [Mark(picked=each.sound, is_sure=True) for each in scenarios]
    marks[0] = Mark(picked=None)
    result = Result(page=handout.number, paper=paper, day=0, marks=tuple(marks), nickname=nickname)
    return write_code(result)


def test_a_code_comes_home_once(desk: Desk):
    _, handout = desk.page()
    code = code_of(handout)

    assert desk.quiz("--collect", code) == Exit.FINE
    assert f"Wren, paper {handout.name}/1: 4 questions: 3 full credit, 1 left open" in desk.said
    assert "3 answers taken in." in desk.said
    assert desk.quiz("--collect", code) == Exit.FINE
    assert "nothing was added" in desk.said
    assert desk.quiz("--progress", "--player", "Wren") == Exit.FINE
    assert "comes back on" in desk.said


@pytest.mark.parametrize(
    "typed",
    [
        lambda code: [code.lower().replace("0", "o")],
        lambda code: code.split("-"),
        lambda code: [code.replace("-", "\n> ")],
        lambda code: [f"  {code.replace('-', ' ')} "],
    ],
    ids=["small letters", "in pieces", "quoted lines", "blanks"],
)
def test_a_code_is_read_as_it_arrives(desk: Desk, typed):
    _, handout = desk.page()

    assert desk.quiz("--collect", *typed(code_of(handout))) == Exit.FINE
    assert "3 answers taken in." in desk.said


def test_several_codes_at_once(desk: Desk):
    _, handout = desk.page("--days", "2")

    codes = [code_of(handout, paper=paper) for paper in range(2)]

    assert desk.quiz("--collect", *codes) == Exit.FINE
    assert f"paper {handout.name}/1" in desk.said
    assert f"paper {handout.name}/2" in desk.said


def test_a_page_made_elsewhere_is_asked_for(desk: Desk, tmp_path: Path):
    page, handout = desk.page()
    desk.folder = tmp_path / "another computer"

    assert desk.quiz("--collect", code_of(handout)) == Exit.PROBLEMS
    assert f"knows no quiz page {handout.name}" in desk.said
    assert desk.quiz("--collect", code_of(handout), str(page)) == Exit.FINE
    assert "3 answers taken in." in desk.said


def test_a_damaged_code_says_where_and_keeps_no_other_back(desk: Desk):
    _, handout = desk.page()
    good = code_of(handout)
    second = good.split("-")[1]
    bad = good.replace(second, second[1:] + second[0], 1)

    assert desk.quiz("--collect", bad) == Exit.PROBLEMS
    assert f'group 2 ("{bad.split("-")[1]}") does not fit' in desk.said


def test_a_file_of_a_result_brings_the_remarks_along(desk: Desk, tmp_path: Path):
    _, handout = desk.page()
    path = tmp_path / "result.txt"
    path.write_text(
        f"Quiz {handout.name}\nQuestion 2, seen differently: I never have time for that.\n"
        f"Code: {code_of(handout)}\n",
        "utf-8",
    )

    assert desk.quiz("--collect", str(path)) == Exit.FINE
    assert desk.quiz("--export", "--player", "Wren") == Exit.FINE
    assert "I never have time for that." in desk.said


def test_a_page_for_a_player_needs_no_nickname(desk: Desk):
    _, handout = desk.page("--for", "Wren")

    assert handout.nickname == "Wren"
    assert desk.quiz("--collect", code_of(handout, nickname="")) == Exit.FINE
    assert desk.said.startswith("Wren, paper")


def test_somebody_has_to_say_whose_answers_they_are(desk: Desk):
    _, handout = desk.page()

    assert desk.quiz("--collect", code_of(handout, nickname="")) == Exit.PROBLEMS
    assert "add --player NICKNAME" in desk.said
    assert desk.quiz("--collect", code_of(handout, nickname=""), "--player", "Wren") == Exit.FINE


def test_answers_about_a_changed_rule_no_longer_count(desk: Desk):
    _, handout = desk.page()
    changed = RULES.replace("at least 1.3 m}", "at least 1.6 m}")
    desk.rules.write_text(changed, "utf-8")

    assert desk.quiz("--collect", code_of(handout)) == Exit.FINE
    assert '"Far out, go high" was changed by your coach' in desk.said
    assert '"From the middle, long" was changed' not in desk.said


def test_answers_about_a_rule_that_is_gone_are_said(desk: Desk):
    _, handout = desk.page()
    desk.rules.write_text(RULES.replace("  middle-stays-long:", "  other-rule:"), "utf-8")

    assert desk.quiz("--collect", code_of(handout)) == Exit.FINE
    assert "is no longer a rule" in desk.said


def test_a_page_from_other_rules_is_not_taken_for_these(desk: Desk):
    _, handout = desk.page()
    desk.rules.write_text(RULES.replace("Wednesday group", "Friday group"), "utf-8")

    assert desk.quiz("--collect", code_of(handout)) == Exit.PROBLEMS
    assert 'was made from the rules "Wednesday group"' in desk.said


def test_a_file_that_is_neither_page_nor_result_is_said_to_be(desk: Desk):
    assert desk.quiz("--collect", str(desk.rules)) == Exit.COULD_NOT_RUN
    assert "neither a quiz page nor a result" in desk.said
