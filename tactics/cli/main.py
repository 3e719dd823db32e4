"""The command line: finds the command, loads only its module, turns what happens into a code."""

import argparse
import importlib
import os
import shlex
import sys
from collections.abc import Sequence
from enum import IntEnum
from pathlib import Path

COMMANDS = {
    "chart": "chart the balls of a lesson at the court, or write a blank sheet to fill in",
    "audit": "grade the choices in one or more charts, apart from how the balls came out",
    "advise": "say what the rules ask for in one situation, and why",
    "check": "read rule sets, name every mistake at once and run their examples",
    "compare": "show where two rule sets advise differently, and which charted grades flip",
    "plan": "turn what was charted into the next lesson, with drills and homework",
    "rate": "let a second coach grade the same balls blind, and see how far the two agree",
    "page": "write a page for the player, for the parents, or for another coach",
    "explain": "show the page of a rule, a fact, a part, a word, a drill or a problem",
    "rules": "show the rules of a set as a readable page, or write it as a hand-out",
    "shot": "fly one or more choices: where the ball lands, how often, and the time it leaves",
    "margin": "show how far inside the line and how high over the net to aim",
    "stand": "show where to stand for a return, or after a shot of one's own",
    "scatter": "measure a player's own scatter from a file of landing places",
    "new": "write a small rule set of your own to start from",
    "quiz": "practise ten situations from the rules, as the player at home",
    "export": "gather everything that is kept about a player in one zip file",
    "forget": "take the rows of a player out of charts, and say what cannot be reached",
    "schema": "write what an editor needs to complete and check words in rule files",
}
"""Command -> summary; each is a module of this package, loaded only when it is asked for."""
_WRITTEN = ("html", "svg", "output", "homework", "blank", "page", "ratings", "export")
"""Options that name a file to write: looked at before anything long is worked out."""


class Exit(IntEnum):
    """Exit codes: a bad choice is news and no failure, so `audit` returns 0 for it."""

    FINE = 0
    PROBLEMS = 1
    COULD_NOT_RUN = 2
    STOPPED = 130


def run() -> None:
    """Run the program as a command."""
    sys.exit(safely(sys.argv[1:]))


def safely(arguments: Sequence[str]) -> int:
    """Return the exit code of a whole run; files that fail and Ctrl-C end in one plain line."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        code = main(arguments)
        sys.stdout.flush()
    except BrokenPipeError:
        # whoever was reading has seen enough; keep Python from complaining at the end
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return Exit.FINE
    except KeyboardInterrupt:
        print("\nStopped.", file=sys.stderr)
        return Exit.STOPPED
    except OSError as error:
        print(f"tactics: {_reason(error)}", file=sys.stderr)
        return Exit.COULD_NOT_RUN
    return code


def main(arguments: Sequence[str]) -> int:
    """Return the exit code of a command."""
    chosen = next((each for each in arguments if not each.startswith("-")), "")
    if chosen and chosen not in COMMANDS:
        print(_unknown(chosen), file=sys.stderr)
        return Exit.COULD_NOT_RUN
    parser = _parser()
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    for name, summary in COMMANDS.items():
        command = commands.add_parser(
            name, help=summary, description=_sentence(summary), allow_abbrev=False
        )
        if name == chosen:
            module = importlib.import_module(f"tactics.cli.{name}")
            module.add_arguments(command)
            command.set_defaults(run=module.run)
    options, rest = parser.parse_known_args(arguments)
    more = [each for each in rest if "=" in each and not each.startswith("-")]
    if len(more) < len(rest) or (more and not hasattr(options, "facts")):
        parser.parse_args(arguments)  # says what is not known, and ends
    if more:
        options.facts = [*options.facts, *more]  # facts may stand behind options as well
    if options.version:
        return _version()
    if not chosen:
        parser.print_help()
        return Exit.FINE
    _look_at_what_is_written(options)
    return int(options.run(options))


def _look_at_what_is_written(options: argparse.Namespace) -> None:
    from tactics.cli.files import must_be_writable

    for name in _WRITTEN:
        if written := getattr(options, name, None):
            must_be_writable(Path(written))


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="tactics",
        description="Shot-selection rules for tennis coaches: write them down, ask them, check "
        "choices against them.",
        epilog="A practice aid for coaches: advice is the rule author's opinion with reasons, "
        "and a qualified coach on court decides. It is no medical advice.",
        allow_abbrev=False,
    )
    parser.add_argument(
        "--version", action="store_true", help="show the version and the engine, then stop"
    )
    return parser


def _sentence(summary: str) -> str:
    return f"{summary[0].upper()}{summary[1:]}."


def _unknown(chosen: str) -> str:
    from tactics.reading.suggest import did_you_mean, near

    found = near(chosen, COMMANDS)
    hint = did_you_mean(found) if found else f"it can be {', '.join(COMMANDS)}"
    return f'tactics: there is no command "{chosen}"; {hint}'


def _version() -> int:
    from importlib.metadata import version

    from tactics.cli.rule_files import engine_name

    print(f"tactics {version('tactics')} (engine: {engine_name()})")
    return Exit.FINE


def _rules_like(written: object) -> str:
    """Return `; did you mean "singles-club"?` where a shipped set is misspelt, or nothing."""
    from tactics.cli.files import shipped_rules
    from tactics.reading.suggest import did_you_mean, near

    found = near(str(written).removesuffix(".yaml"), shipped_rules())
    return f"; {did_you_mean(found)}" if found else ""


def _reason(error: OSError) -> str:
    from tactics.cli.files import NoFolderError

    if isinstance(error, NoFolderError):
        return _no_folder(Path(error.filename))
    if isinstance(error, FileNotFoundError):
        return f'there is no file "{error.filename}"{_rules_like(error.filename)}'
    if isinstance(error, IsADirectoryError):
        return f'"{error.filename}" is a folder, and a file is wanted'
    if isinstance(error, PermissionError):
        return f'"{error.filename}" may not be read or written by you'
    named = f' "{error.filename}"' if error.filename else ""
    return f"the file{named} could not be used: {error.strerror or error}"


def _no_folder(folder: Path) -> str:
    """Return what is missing, with the command that makes it."""
    if folder.exists():
        return f'"{folder}" is a file, and a folder is wanted'
    make = "mkdir" if folder.parent.is_dir() else "mkdir -p"
    return f'there is no folder "{folder}"; to make it: {make} {shlex.quote(str(folder))}'
