"""Each page of a problem code holds a wrong file that earns that code, and a right one."""

import re
from pathlib import Path

import pytest

import tactics
from tactics.model.drill import Catalogue, Drill
from tactics.problem import Problem, Severity
from tactics.reading.codes import Code
from tactics.reading.drills import read_drills
from tactics.reading.rules import read_rules
from tactics.source import Source, Span

PAGES = Path(tactics.__file__).parent / "pages"
HEADINGS = ["What it means", "Why it matters", "Wrong", "Right"]
# mistakes that cannot be shown inside a page, because no text has them
NOT_TO_BE_SHOWN = {Code.FILE_TOO_LARGE, Code.NOT_TEXT, Code.NOT_UTF_8}
SHOWN = [code for code in Code if code not in NOT_TO_BE_SHOWN]
LADDER = Drill(
    id="diagonal-ladder", title="", minutes=15, trains=(), set_up="", scoring="", harder="",
    easier="", span=Span(file="drills.yaml", line=1),
)  # fmt: skip


def page(code: Code) -> dict[str, str]:
    """Return heading -> text below it."""
    text = (PAGES / f"{code}.md").read_text(encoding="utf-8")
    title, *sections = re.split(r"(?m)^## ", text)
    assert title.strip() == f"# {code}"
    return dict(section.split("\n", maxsplit=1) for section in sections)


def block(code: Code, heading: str) -> str:
    found = re.findall(r"(?s)```yaml\n(.*?)```", page(code)[heading])
    assert len(found) == 1
    return found[0]


def problems(code: Code, text: str) -> tuple[Problem, ...]:
    source = Source(name=f"{code}.yaml", text=text)
    if text.startswith("drills:"):
        return read_drills(source).problems
    files = {source.name: source}
    return read_rules(source, files.get, Catalogue(drills=(LADDER,))).problems


@pytest.mark.parametrize("code", Code, ids=str)
def test_a_page_has_the_four_headings(code: Code) -> None:
    assert list(page(code)) == HEADINGS


@pytest.mark.parametrize("code", SHOWN, ids=str)
def test_the_wrong_file_of_a_page_earns_its_code_and_no_other(code: Code) -> None:
    found = problems(code, block(code, "Wrong"))

    assert {problem.code for problem in found} == {code}


@pytest.mark.parametrize("code", Code, ids=str)
def test_the_right_file_of_a_page_has_no_problem(code: Code) -> None:
    assert problems(code, block(code, "Right")) == ()


@pytest.mark.parametrize("code", Code, ids=str)
def test_only_a_warning_lets_a_set_be_used(code: Code) -> None:
    found = problems(code, block(code, "Wrong")) if code in SHOWN else ()

    is_warning = [problem.severity is not Severity.ERROR for problem in found]
    assert any(is_warning) == (code in (Code.UNKNOWN_DRILL, Code.HASH_IN_TEXT))
