"""Quiz files on disk: found by path or by name, with the rule set each of them is for."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from tactics.cli import files
from tactics.cli.rule_files import LoadedRules, load_rules
from tactics.problem import Problem, Reading
from tactics.reading.codes import Code
from tactics.reading.decoding import RULE_FILE_LIMIT, decode
from tactics.reading.suggest import did_you_mean, near
from tactics.reading.wording import quoted
from tactics.source import Source, Span

QUIZZES = "quizzes"


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenedQuiz:
    """The text of a quiz file, None where it has none, and why."""

    path: Path
    source: Source | None
    problems: tuple[Problem, ...] = ()


def find_quiz(written: str) -> Path | None:
    """Return the quiz file meant: a path that is there, else a shipped one by name, or None."""
    path = Path(written)
    return path if path.is_file() else files.find_shipped(QUIZZES, written, ".yaml")


def open_quiz(written: str) -> OpenedQuiz | None:
    """Return a quiz file, or None where no such file is there; OSError where it cannot be read."""
    path = find_quiz(written)
    if path is None:
        return None
    read = decode(files.shown(path), files.read_bytes(path, RULE_FILE_LIMIT + 1))
    return OpenedQuiz(path=path, source=read.value, problems=read.problems)


def is_quiz(written: str) -> bool:
    """Say whether a name or path means a quiz file; a rule set of that name comes first."""
    from tactics.reading.quizzes import is_quiz_file

    path = files.find_rules(written)
    if path.is_file() and path != Path(written):
        return False
    opened = open_quiz(written)
    return opened is not None and opened.source is not None and is_quiz_file(opened.source)


def rules_for(opened: OpenedQuiz, named: Sequence[str] = ()) -> LoadedRules:
    """Return the rules named, else those a quiz file says it is for, else the usual ones.

    A rule file that the quiz file names is looked for beside it first; one that is not there is
    a problem of the quiz file.
    """
    from tactics.reading.quizzes import made_for

    if named or opened.source is None:
        return load_rules(named, with_drills=False)
    wanted = made_for(opened.source)
    paths = [files.find_rules(each.text, opened.path.parent) for each in wanted]
    missing = tuple(
        _not_there(each.text, each.span)
        for each, path in zip(wanted, paths, strict=True)
        if not path.is_file()
    )
    if missing:
        return LoadedRules(reading=Reading(value=None, problems=missing), sources=())
    return load_rules([str(path) for path in paths], with_drills=False)


def _not_there(written: str, span: Span) -> Problem:
    names = [path.stem for path in files.shipped(files.RULES, ".yaml")]
    close = near(written, names)
    hint = "write the path of a rule file, or the name of a rule set that comes with the program"
    return Problem(
        code=Code.MISSING_FILE,
        span=span,
        sentence=f"there is no rule set {quoted(written)} that this quiz could be for",
        hint=did_you_mean(close) if close else hint,
        replacement=close[0] if len(close) == 1 else "",
    )
