"""Every example in the README and in DEVELOPERS.md holds when it is run."""

import re
import shlex
import shutil
from pathlib import Path

import pytest

from tactics.cli.main import main
from tactics.cli.rule_files import load_rules
from tactics.engine.compile import compile_rules
from tactics.engine.examples import run_examples

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text("utf-8")
_FENCED = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
SAMPLE = ROOT / "tactics" / "samples" / "three-lessons.csv"
_LEFT_OUT = "..."


def _blocks(kind: str) -> list[str]:
    return [body for fence, body in _FENCED.findall(README) if fence == kind]


def _commands() -> list[tuple[str, str]]:
    """Return (command, what the README shows of its output)."""
    found = []
    for block in _blocks("console"):
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, shown = part.partition("\n")
            found.append((command, shown))
    return found


def _files() -> dict[str, str]:
    """Return the files the README writes: a YAML block whose first line names one."""
    named = {}
    for block in _blocks("yaml"):
        first = block.split("\n", 1)[0]
        if first.startswith("# ") and first.endswith(".yaml"):
            named[first[2:]] = block
    return named


@pytest.mark.parametrize(("command", "shown"), _commands(), ids=lambda text: text[:40])
def test_a_command_shown_in_the_readme_prints_what_is_shown(
    command: str,
    shown: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.chdir(tmp_path)
    for name, text in _files().items():
        Path(name).write_text(text, "utf-8")
        Path(f"broken-{name}").write_text(text.replace("body height", "body hight"), "utf-8")
    shutil.copy(SAMPLE, tmp_path)
    program, *words = shlex.split(command)
    assert program == "tactics"

    main(words)

    printed = capsys.readouterr()
    whole, place = printed.out + printed.err, 0
    for chunk in _chunks(shown):
        place = whole.find(chunk, place)
        assert place >= 0, f"not printed (any more):\n{chunk}\n--- but:\n{whole}"
        place += len(chunk)


def _chunks(shown: str) -> list[str]:
    """Return what is shown, cut where the README leaves lines out."""
    lines = shown.rstrip("\n").split("\n")
    chunks: list[list[str]] = [[]]
    for line in lines:
        if line.strip() == _LEFT_OUT:
            chunks.append([])
        else:
            chunks[-1].append(line)
    return ["\n".join(chunk) for chunk in chunks if chunk]


@pytest.mark.parametrize("name", sorted(_files()))
def test_a_rule_file_in_the_readme_holds_as_it_stands(name: str, tmp_path: Path) -> None:
    path = tmp_path / name
    path.write_text(_files()[name], "utf-8")

    reading = load_rules([str(path)]).reading

    assert reading.problems == ()
    assert all(example.holds for example in run_examples(compile_rules(reading.value)))


def test_the_two_commands_of_the_readme_are_the_ones_that_ci_runs() -> None:
    ci = (ROOT / ".ci" / "run").read_text("utf-8")

    commands = [line for block in _blocks("sh") for line in block.splitlines() if line]

    assert len(commands) == 2
    assert all(command in ci for command in commands)
