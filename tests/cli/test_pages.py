"""The pages of problems that only commands find: the wrong file earns the code, the right none."""

import re
import shlex
from pathlib import Path

import pytest

from tactics.cli import files
from tactics.cli.main import Exit, safely

HEADINGS = ["What it means", "Why it matters", "Wrong", "Right"]


def blocks(code: str) -> dict[str, str]:
    """Return heading -> what stands in its block."""
    page = files.find_shipped(files.PAGES, code, ".md")
    assert page is not None
    _, *sections = re.split(r"(?m)^## ", files.read_text(page))
    texts = dict(section.split("\n", maxsplit=1) for section in sections)
    assert list(texts) == HEADINGS
    return {name: re.findall(r"(?s)```\w*\n(.*?)```", texts[name])[0] for name in HEADINGS[2:]}


def test_the_wrong_example_fails_and_the_right_one_does_not(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    found = blocks("example-fails")
    for name, text in found.items():
        (tmp_path / f"{name}.yaml").write_text(text, encoding="utf-8")

    wrong = safely(["check", "--quick", "--format", "short", str(tmp_path / "Wrong.yaml")])
    said = capsys.readouterr().out
    right = safely(["check", "--quick", str(tmp_path / "Right.yaml")])

    assert (wrong, right) == (Exit.PROBLEMS, Exit.FINE)
    assert re.findall(r"\[([a-z-]+)\]", said) == ["example-fails"]


def test_an_argument_that_is_no_pair_is_named_and_the_right_ones_are_read(
    capsys: pytest.CaptureFixture[str],
) -> None:
    found = blocks("name-and-value")

    wrong = safely(shlex.split(found["Wrong"])[1:])
    said = capsys.readouterr().err
    right = safely(shlex.split(found["Right"])[1:])

    assert (wrong, right) == (Exit.COULD_NOT_RUN, Exit.FINE)
    assert said.count("[name-and-value]") == 1


def test_a_page_is_shown_as_it_stands(capsys: pytest.CaptureFixture[str]) -> None:
    code = safely(["explain", "example fails"])

    assert code == Exit.FINE
    assert capsys.readouterr().out.startswith("# example-fails\n\n## What it means\n")
