"""A rule set from a stranger is data: it runs nothing, and nothing in it keeps the program busy."""

import json
import os
from pathlib import Path

import pytest

from tactics.cli.main import Exit
from tests.cli.printed import as_printed

SMALL = """\
rule set: From a stranger
builds on: [{below}]
"""


def codes_of(path: Path, capsys: pytest.CaptureFixture[str]) -> set[str]:
    printed = as_printed(["check", str(path), "--quick", "--format", "json"], capsys)
    body = printed.split("\n", 1)[1].rsplit("--- exit code", 1)[0]
    return {each["code"] for each in json.loads(body)["problems"]}


@pytest.mark.parametrize(
    "text",
    [
        "rule set: !!python/object/apply:os.mkdir [{trap}]\n",
        "!!python/object/new:os.mkdir\nargs: [{trap}]\n",
        "rule set: x\nprecedence: !!python/name:os.mkdir\n",
        "rule set: ${{jndi:x}}\nprecedence: [`mkdir {trap}`]\nrules: $(mkdir {trap})\n",
    ],
)
def test_nothing_in_a_file_is_run(text, tmp_path, capsys):
    trap = tmp_path / "trap"
    path = tmp_path / "set.yaml"
    path.write_text(text.format(trap=trap), "utf-8")

    printed = as_printed(["check", str(path)], capsys)

    assert f"exit code {Exit.PROBLEMS:d}" in printed
    assert not trap.exists()


@pytest.mark.parametrize("below", ["/dev/zero", "/", "."])
def test_only_files_are_built_on(below, tmp_path, capsys):
    path = tmp_path / "set.yaml"
    path.write_text(SMALL.format(below=below), "utf-8")

    assert codes_of(path, capsys) == {"missing-file"}


def test_a_pipe_that_nobody_writes_to_is_not_waited_for(tmp_path, capsys):
    os.mkfifo(tmp_path / "pipe.yaml")
    path = tmp_path / "set.yaml"
    path.write_text(SMALL.format(below="pipe.yaml"), "utf-8")

    assert codes_of(path, capsys) == {"missing-file"}


def test_a_file_without_an_end_is_too_large(tmp_path, capsys):
    path = tmp_path / "endless.yaml"
    with path.open("wb") as file:
        file.truncate(50_000_000_000)  # sparse: takes no room, and reading it all would take hours

    assert codes_of(path, capsys) == {"file-too-large"}
    assert codes_of(Path("/dev/zero"), capsys) == {"file-too-large"}


def test_a_tower_of_files_is_not_climbed(tmp_path, capsys):
    for floor in range(600):
        text = SMALL.format(below=f"floor-{floor + 1}.yaml")
        (tmp_path / f"floor-{floor}.yaml").write_text(text, "utf-8")

    assert "file-too-large" in codes_of(tmp_path / "floor-0.yaml", capsys)


@pytest.mark.parametrize(
    "text",
    [
        "[" * 200_000,
        "rule set: " + "a" * 900_000,
        "a: &a [x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nd: [*c, *c]\n",
        "rule set: x\nrules:\n" + "".join(f"  r{'x' * 40}: {{\n" for _ in range(5_000)),
        "? " * 100_000,
        "- " * 100_000,
        '"' + "\\u0041" * 100_000,
    ],
    ids=["brackets", "long word", "aliases", "open braces", "questions", "dashes", "escapes"],
)
def test_a_file_made_to_be_slow_earns_a_problem(text, tmp_path, capsys):
    path = tmp_path / "set.yaml"
    path.write_text(text, "utf-8")

    assert codes_of(path, capsys)


def test_questions_that_take_too_much_work_are_said_to_be_open(tmp_path, capsys):
    # ten birds, nine nests: that two must share is hard to see for any solver that learns clauses
    birds, nests = "abcdefghij", "abcdefghi"
    path = tmp_path / "birds.yaml"
    path.write_text("".join(_birds(birds, nests)), "utf-8")

    printed = as_printed(["check", str(path)], capsys)

    assert "this took too much work, and nothing is known" in printed


def _birds(birds: str, nests: str):
    words = ", ".join(f"nest {nest}" for nest in nests)
    yield "rule set: Birds\nprecedence: [pattern]\nfacts:\n"
    yield from (f"  bird {each}: {{says: where it sits, words: [{words}]}}\n" for each in birds)
    yield "rules:\n"
    for one in birds:
        for other in birds[: birds.index(one)]:
            for nest in nests:
                when = f"{{bird {one}: nest {nest}, bird {other}: nest {nest}}}"
                yield (
                    f"  share-{one}-{other}-{nest}:\n"
                    "    title: Two in one nest\n    concern: pattern\n    strength: should\n"
                    f"    when: {when}\n    advise: {{direction: crosscourt}}\n"
                    "    because: There is room for one.\n    cue: Move\n    examples:\n"
                    f"      - {{given: {when}, choose: {{direction: crosscourt}}, grade: sound}}\n"
                )
