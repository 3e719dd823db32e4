"""One row of cells -> a ball, or what is wrong with each of its cells."""

from collections.abc import Callable, Iterable, Sequence
from functools import cache
from typing import Generic, TypeVar

from tactics.model.ball import Ball
from tactics.model.choice import Cause, Choice, Outcome
from tactics.model.known import Known
from tactics.model.names import fold
from tactics.model.situation import Situation
from tactics.model.trait import Kind, Role
from tactics.model.verdict import Grade
from tactics.model.vocabulary import Vocabulary
from tactics.reading.chart_cells import BadCell, read_day, read_known, read_one_word, read_text
from tactics.reading.chart_columns import Column, Columns
from tactics.source import Span

_CAUSE, _MARK = "cause", fold("coach's mark")
_HINTS_FROM_AFAR = 300
"""Bad texts of one column for which all other columns are searched; later ones get less advice."""

_T = TypeVar("_T")


_Read = Callable[[Column, str, Vocabulary], _T | BadCell | None]


class BallReader:
    """Reads one row after another of one table."""

    def __init__(self, columns: Columns, words: Vocabulary) -> None:
        # in the order of names, as Situation.of and Choice.of would put them
        by_name = sorted(columns.known, key=lambda column: column.trait.folded)
        roles = {role: [each for each in by_name if each.trait.role is role] for role in Role}
        self._facts: _Group[Known] = _Group(roles[Role.FACT], read_known, words)
        self._parts: _Group[Known] = _Group(roles[Role.PART], read_known, words)
        self._outcomes = _Group(roles[Role.OUTCOME], read_one_word, words)
        labels = roles[Role.LABEL]
        days = [each for each in labels if each.trait.kind is Kind.DATE]
        texts = [each for each in labels if each.trait.kind is Kind.TEXT]
        self._days = _Group(days, read_day, words)
        self._texts = _Group(texts, read_text, words)
        self._aside = columns.aside

    def read(self, cells: Sequence[str], span: Span) -> tuple[Ball, list[BadCell]]:
        """Return the ball of a row as far as it can be read, and every cell that cannot."""
        bad: list[BadCell] = []
        outcome = {_field(name): said for name, said in self._outcomes.read(cells, bad)}
        cause, mark = outcome.pop(_field(_CAUSE), ""), outcome.pop(_field(_MARK), "")
        ball = Ball(
            situation=Situation(tuple(self._facts.read(cells, bad))),
            choice=Choice(tuple(self._parts.read(cells, bad))),
            outcome=Outcome(**outcome),
            cause=Cause(cause) if cause else None,
            mark=Grade(mark) if mark else None,
            more=tuple([(name, cells[index]) for index, name in self._aside if cells[index]]),
            span=span,
            **dict(self._days.read(cells, bad)),
            **dict(self._texts.read(cells, bad)),
        )
        return ball, bad


class _Group(Generic[_T]):
    """Columns of one kind; equal cells of a column are read once."""

    def __init__(self, columns: Iterable[Column], read: _Read[_T], words: Vocabulary) -> None:
        self._readers = [(each.index, _remembering(each, read, words)) for each in columns]

    def read(self, cells: Sequence[str], bad: list[BadCell]) -> list[tuple[str, _T]]:
        """Return name and value of every cell that says something; bad ones are listed."""
        said = [read(cells[index]) for index, read in self._readers]
        good = [each for each in said if type(each) is tuple]
        if BadCell in map(type, said):
            bad += [each for each in said if isinstance(each, BadCell)]
        return good


def _remembering(
    column: Column, read: _Read[_T], words: Vocabulary
) -> Callable[[str], tuple[str, _T] | BadCell | None]:
    name, alone = column.trait.folded, Vocabulary(traits=(column.trait,))
    bad_texts = 0

    @cache
    def named(text: str) -> tuple[str, _T] | BadCell | None:
        nonlocal bad_texts
        found = read(column, text, words if bad_texts < _HINTS_FROM_AFAR else alone)
        if isinstance(found, BadCell):
            bad_texts += 1
            return found
        return None if found is None else (name, found)

    return named


@cache
def _field(name: str) -> str:
    """Return the name that a row of the vocabulary has in Python."""
    return name.replace(" ", "_")
