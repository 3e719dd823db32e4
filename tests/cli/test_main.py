"""The program as a whole: what it loads, how it ends, what it shows where."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tactics.cli.main import COMMANDS, Exit, safely
from tests.cli.printed import RULES

TACTICS = [sys.executable, "-m", "tactics"]
HEAVY = ("yaml", "numpy", "durable", "prompt_toolkit")


def loaded_by(code: str) -> set[str]:
    """Return the names of all modules a fresh Python has after running this."""
    script = f"{code}\nimport sys\nprint(chr(10).join(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    return set(done.stdout.split("\n"))


@pytest.mark.parametrize(
    "code",
    [
        pytest.param("import tactics", id="package"),
        pytest.param("from tactics import read_chart, judge", id="functions"),
        pytest.param("import tactics.cli.main as m; m.main([])", id="help"),
    ],
)
def test_nothing_heavy_is_loaded_before_it_is_needed(code: str) -> None:
    assert loaded_by(code).isdisjoint(HEAVY)


def test_advice_needs_no_numbers_in_bulk() -> None:
    asked = ["advise", "--no-estimate", "--rules", str(RULES)]
    code = f"from tactics.cli.main import main; main({asked!r})"

    assert loaded_by(code).isdisjoint({"numpy", "prompt_toolkit"})


def test_every_function_of_the_library_can_be_had_from_its_root() -> None:
    import tactics

    found = {name: getattr(tactics, name) for name in tactics.__all__}

    assert all(callable(function) for function in found.values())
    assert set(tactics.__all__) <= set(dir(tactics))
    with pytest.raises(AttributeError):
        tactics.recommend  # noqa: B018 - asking for it is the test


def test_without_a_command_the_commands_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    code = safely([])

    shown = capsys.readouterr().out
    assert code == Exit.FINE
    assert all(name in shown for name in COMMANDS)


def test_the_version_names_the_engine(capsys: pytest.CaptureFixture[str]) -> None:
    code = safely(["--version"])

    name, version, engine = capsys.readouterr().out.strip().split(" ", 2)
    assert (code, name) == (Exit.FINE, "tactics")
    assert version[0].isdigit()
    assert engine in ("(engine: durable-rules)", "(engine: matcher)")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        pytest.param(["audti"], 'there is no command "audti"; did you mean "audit"?', id="near"),
        pytest.param(["xyzzy"], "it can be chart, audit, advise, check, compare", id="far"),
        pytest.param(["check", "."], '"." is a folder, and a file is wanted', id="folder"),
        pytest.param(["check", "no.yaml"], 'there is no file "no.yaml"', id="no-file"),
    ],
)
def test_what_cannot_run_ends_in_one_line_and_two(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    code = safely(arguments)

    out, err = capsys.readouterr()
    assert (code, out) == (Exit.COULD_NOT_RUN, "")
    assert said in err
    assert err.count("\n") == 1


def test_an_unknown_option_ends_in_two() -> None:
    with pytest.raises(SystemExit) as ending:
        safely(["check", "--colour"])

    assert ending.value.code == Exit.COULD_NOT_RUN


def test_a_reader_who_has_seen_enough_is_not_told_off() -> None:
    read, write = os.pipe()
    os.close(read)

    done = subprocess.run([*TACTICS, "explain", "words"], stdout=write, stderr=subprocess.PIPE)

    os.close(write)
    assert (done.returncode, done.stderr) == (0, b"")


def test_being_stopped_is_said_in_a_word() -> None:
    asking = subprocess.Popen(
        [*TACTICS, "advise", "--ask", "--rules", str(RULES)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
        # a job in the background is deaf to Ctrl-C, and would hand that on
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )
    assert asking.stdout is not None
    asking.stdout.readline()

    asking.send_signal(signal.SIGINT)

    _, said = asking.communicate()
    assert (asking.returncode, said) == (Exit.STOPPED, b"\nStopped.\n")


def test_a_pipe_gets_no_emphasis_and_lines_of_eighty_columns() -> None:
    done = subprocess.run(
        [*TACTICS, "explain", "words"], capture_output=True, text=True, check=True
    )

    assert "\x1b" not in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80


@pytest.mark.parametrize(
    ("environment", "starts"),
    [
        pytest.param({"TERM": "xterm"}, "\x1b[1mWho", id="screen"),
        pytest.param({"TERM": "xterm", "NO_COLOR": "1"}, "Who", id="no-colour"),
        pytest.param({"TERM": "dumb"}, "Who", id="dumb"),
    ],
)
def test_a_screen_gets_bold_headings_unless_it_asks_not_to(
    environment: dict[str, str], starts: str
) -> None:
    shown = on_a_screen([*TACTICS, "explain", "words"], environment)

    assert shown.startswith(starts)


def on_a_screen(command: list[str], environment: dict[str, str]) -> str:
    """Return what a command shows on a terminal of its own."""
    ours, theirs = os.openpty()
    plain = {name: value for name, value in os.environ.items() if name != "NO_COLOR"}
    running = subprocess.Popen(
        command, stdout=theirs, stdin=theirs, stderr=theirs, env={**plain, **environment}
    )
    os.close(theirs)
    shown = b""
    while piece := _piece(ours):
        shown += piece
    running.wait()
    os.close(ours)
    return shown.decode()


def _piece(terminal: int) -> bytes:
    try:
        return os.read(terminal, 4096)
    except OSError:  # the other end is closed
        return b""


def test_a_screen_that_cannot_draw_gets_plain_characters() -> None:
    done = subprocess.run(
        [*TACTICS, "advise", "--rules", str(RULES), "court depth=12", "court width=0"],
        capture_output=True,
        check=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
    )

    assert done.stdout.isascii()
    assert b"@ player" in done.stdout


def test_a_shipped_rule_set_is_found_by_name_from_anywhere(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)

    code = safely(["explain", "--rules", "Singles Club", "wide-go-high"])

    assert code == Exit.FINE
    assert "Asks for" in capsys.readouterr().out
