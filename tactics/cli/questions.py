"""Facts and choices on the command line -> a question about the court, every mistake at once."""

import argparse
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from tactics.cli import files
from tactics.cli.arguments import Asked, combined, read_arguments, read_facts
from tactics.cli.court_options import Given, Measured, read_conditions, read_scatter
from tactics.engine.told import Conditions
from tactics.engine.wish import InNumbers
from tactics.flight.constants import MS_PER_KMH
from tactics.model.choice import Choice
from tactics.model.names import fold
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem, Severity
from tactics.reading.decoding import decode
from tactics.reading.quantities import Measure, quantity, unclear
from tactics.source import Source, Span

_NEXT_PART = re.compile(r",\s*(?=[^,=]+=)")
_PERCENT = re.compile(r"%|percent|pct", re.IGNORECASE)
_SPEED = re.compile(r".*\d\s*(?:km/?h|kph|mph|m/s)\s*", re.IGNORECASE)
_TURNS = re.compile(r".*\d\s*(?:rpm|rps)?\s*", re.IGNORECASE)
_CHOOSE = "choose."


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenChoice:
    """A choice as read: its words, what was given in plain numbers, and how it was written."""

    choice: Choice
    numbers: InNumbers
    written: str
    source: str


@dataclass(slots=True, kw_only=True)
class Question:
    """Everything a command was asked, with the texts it stood in."""

    situation: Situation = field(default_factory=Situation)
    choices: list[WrittenChoice] = field(default_factory=list)
    conditions: Conditions = field(default_factory=Conditions)
    measured: Measured | None = None
    sources: list[Source] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def stops(self) -> bool:
        """Say whether something keeps the question from being answered."""
        return any(problem.severity is Severity.ERROR for problem in self.problems)

    def place(self, names: Sequence[str], source: str = "") -> Span:
        """Return where one of these names was given, else the start of what was said."""
        for text in self.sources:
            if source and text.name != source:
                continue
            for number, line in enumerate(text.lines, start=1):
                name = re.split(r"[=: ]", line.removeprefix(_CHOOSE).removeprefix("--"), maxsplit=1)
                whole = line.partition("=")[0].removeprefix(_CHOOSE)
                if fold(whole) in names or fold(name[0]) in names:
                    return Span(file=text.name, line=number, width=max(1, len(line)))
        named = next((text for text in self.sources if text.name == source), None)
        return (named or self.sources[0]).start()


def read_question(options: argparse.Namespace, words: Vocabulary) -> Question:
    """Return what facts, files and options say; `choose` holds one candidate each."""
    question = Question()
    given = Given()
    question.conditions = read_conditions(options, given)
    question.problems += given.problems
    question.sources.append(given.source)
    facts, first = _read_lines("arguments", list(options.facts), words, question)
    if options.file:
        facts = combined(_read_file(Path(options.file), words, question), facts)
    question.situation = facts[0]
    if facts[1].parts or first != InNumbers():
        question.choices.append(
            WrittenChoice(choice=facts[1], numbers=first, written="", source="arguments")
        )
    for number, written in enumerate(getattr(options, "choose", ()), start=1):
        name = f"choice {number}"
        lines = [piece.strip() for piece in _NEXT_PART.split(written)]
        asked, numbers = _read_lines(name, lines, words, question)
        question.choices.append(
            WrittenChoice(choice=asked[1], numbers=numbers, written=written, source=name)
        )
    if options.scatter:
        measured, problems, source = read_scatter(Path(options.scatter))
        question.measured = measured
        question.problems += problems
        question.sources.append(source)
    return question


def _read_file(path: Path, words: Vocabulary, question: Question) -> Asked:
    text = decode(files.shown(path), files.read_bytes(path))
    question.problems += text.problems
    if text.value is None:
        return Situation(), Choice()
    question.sources.append(text.value)
    read = read_facts(text.value, words)
    question.problems += read.problems
    return read.value or (Situation(), Choice())


def _read_lines(
    name: str, written: list[str], words: Vocabulary, question: Question
) -> tuple[Asked, InNumbers]:
    """Return facts and parts of `name=value` lines, and what of them was plain numbers."""
    lines = [" ".join(line.split()) for line in written]
    source = Source(name=name, text="\n".join(lines))
    numbers: dict[str, float] = {}
    rest: list[str] = []
    for number, line in enumerate(lines, start=1):
        taken = _in_numbers(line, Span(file=name, line=number, width=max(1, len(line))), numbers)
        if isinstance(taken, Problem):
            question.problems.append(taken)
        # an empty line keeps the numbers of the lines behind it
        rest.append("" if taken is not None else line)
    question.sources.append(source)
    read = read_arguments(Source(name=name, text="\n".join(rest)), words)
    blank = {place for place, line in enumerate(rest, start=1) if not line}
    question.problems += [each for each in read.problems if each.span.line not in blank]
    return read.value or (Situation(), Choice()), InNumbers(
        pace_ms=numbers.get("pace"),
        topspin_rpm=numbers.get("topspin"),
        sidespin_rpm=numbers.get("side spin"),
    )


def _in_numbers(line: str, span: Span, numbers: dict[str, float]) -> bool | Problem | None:
    """Take a pace in km/h or a spin in rpm into `numbers`; None where the line is for words."""
    name, equals, value = line.removeprefix(_CHOOSE).partition("=")
    name, value = fold(name), value.strip()
    if not equals:
        return None
    if name == "pace" and _SPEED.fullmatch(value):
        return _take("pace", value, Measure.SPEED, MS_PER_KMH, span, numbers)
    if name == "spin" and _TURNS.fullmatch(value):
        return _take("topspin", value, Measure.SPIN, 1.0, span, numbers)
    if name in ("topspin", "backspin"):
        sign = 1.0 if name == "topspin" else -1.0
        return _take("topspin", value, Measure.SPIN, sign, span, numbers)
    if name in ("side spin", "sidespin"):
        return _take("side spin", value, Measure.SPIN, 1.0, span, numbers)
    return None


def _take(
    name: str,
    text: str,
    measure: Measure,
    factor: float,
    span: Span,
    numbers: dict[str, float],
) -> bool | Problem:
    found = quantity(text, measure)
    if found is None:
        return unclear(name, text, measure, span)
    numbers[name] = factor * found
    return True
