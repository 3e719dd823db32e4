"""Each page of something that can be proved holds a wrong file with it and a right one."""

import re
from pathlib import Path

import pytest

import tactics
from tactics.checks.finding import Finding, Kind
from tactics.checks.prove import prove
from tactics.engine.compile import compile_rules
from tactics.reading.rules import read_rules
from tactics.source import Source

PAGES = Path(tactics.__file__).parent / "pages"
HEADINGS = ["What it means", "Why it matters", "Wrong", "Right"]


def sections(kind: Kind) -> dict[str, str]:
    """Return heading -> text below it."""
    text = (PAGES / f"{kind}.md").read_text(encoding="utf-8")
    title, *found = re.split(r"(?m)^## ", text)
    assert title.strip() == f"# {kind}"
    return dict(each.split("\n", maxsplit=1) for each in found)


def kinds_found(text: str) -> set[Kind]:
    reading = read_rules(Source(name="page.yaml", text=text))
    assert reading.value is not None
    assert reading.problems == ()
    steps = prove(compile_rules(reading.value, "matcher"))
    return {
        step.kind
        for step in steps
        if isinstance(step, Finding) and (step.kind is not Kind.GAP or step.witnesses)
    }


@pytest.mark.parametrize("kind", Kind, ids=str)
def test_a_page_has_the_four_headings(kind: Kind) -> None:
    assert list(sections(kind)) == HEADINGS


@pytest.mark.parametrize("kind", Kind, ids=str)
def test_the_wrong_file_has_it_and_the_right_file_has_nothing(kind: Kind) -> None:
    wrong, right = (
        re.findall(r"(?s)```yaml\n(.*?)```", sections(kind)[heading])[0]
        for heading in ("Wrong", "Right")
    )

    assert kind in kinds_found(wrong)
    assert kinds_found(right) == set()
