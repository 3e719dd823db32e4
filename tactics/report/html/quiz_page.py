"""The quiz as one page for a phone, and as a paper to print: what the template places."""

from collections.abc import Sequence
from dataclasses import dataclass

from tactics.report.html.quiz_court import QuizCourt, QuizSide
from tactics.report.html.render import render


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerLine:
    """One option, and the word for it after the answer."""

    text: str
    grade: str
    is_best: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionView:
    """A question and everything that is said after it. place: "2-7" is the 7th of paper 2."""

    place: str
    heading: str
    facts: str
    prompt: str
    options: tuple[AnswerLine, ...]
    court: QuizCourt
    side: QuizSide | None
    on_court: str
    height: str
    target: str
    why: str
    flip: str
    keep: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperView:
    """The questions of one day; day: in words, iso: for the program."""

    number: int
    day: str
    iso: str
    questions: tuple[QuestionView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class QuizPage:
    """The whole page. number: as printed on it; packed: the papers for the coach's side.

    headings: (grade word, what is said to such an answer); "" for one left open.
    """

    number: str
    page: int
    made: str
    nickname: str
    rules_name: str
    headings: tuple[tuple[str, str], ...]
    papers: tuple[PaperView, ...]
    packed: str

    @property
    def count(self) -> int:
        """Return how many questions there are."""
        return sum(len(paper.questions) for paper in self.papers)

    @property
    def asks_for_nickname(self) -> bool:
        """Say whether the player has to give one."""
        return not self.nickname


def quiz_html(page: QuizPage) -> str:
    """Return the page as one file that needs nothing else."""
    return render("quiz", page)


def in_a_row(texts: Sequence[str]) -> str:
    """Return sentences as one text."""
    return " ".join(text for text in texts if text)
