"""`tactics shot`: what a shot does, and what it leaves both players, estimated from its flight."""

import argparse
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from tactics.cli import files, messages
from tactics.cli.clashes import clashes
from tactics.cli.court_options import add_court_options
from tactics.cli.main import Exit
from tactics.cli.positions import read_position
from tactics.cli.progress import counting
from tactics.cli.questions import Question, WrittenChoice, read_question
from tactics.cli.rule_files import load_rules
from tactics.cli.terminal import can_draw, heading_for
from tactics.engine.candidate import Candidate, candidate_of
from tactics.engine.exchange import Estimates, contest, estimated, exchange
from tactics.engine.position import Position
from tactics.engine.troubles import (
    candidate_problems,
    number_problems,
)
from tactics.engine.wish import IN_WORDS
from tactics.model.known import OneOf
from tactics.model.rule import RuleSet
from tactics.model.standard import STANDARD
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem
from tactics.reading.shot_codes import ShotCode
from tactics.report.layout import Section, text_of, wrapped
from tactics.report.sentences import situation_sentence
from tactics.report.shot_text import (
    Shown,
    in_order,
    one_shot_sections,
    several_sections,
    taken_section,
)
from tactics.report.shot_words import choice_label
from tactics.source import Span

_EXAMPLE = '"direction=crosscourt, height over net=2 m, pace=65 %"'
NOTHING_TO_SAY = Section(title="", lines=())


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "facts", nargs="*", metavar="NAME=VALUE",
        help='facts such as balance=moving "court width=wide forehand"; parts of one choice too',
    )  # fmt: skip
    parser.add_argument("--facts", metavar="FILE", dest="file", help="a YAML file of facts")
    parser.add_argument(
        "--choose", action="append", default=[], metavar="CHOICE",
        help='a whole choice: "direction=crosscourt, height over net=2 m, pace=65 %%"; give '
        "several to compare them",
    )  # fmt: skip
    parser.add_argument(
        "--best", action="store_true",
        help="search the best handful and set it beside what the rules advise",
    )  # fmt: skip
    parser.add_argument(
        "--rules", action="append", default=[], metavar="FILE",
        help="a rule file or the name of a shipped rule set, for --best and for own facts",
    )  # fmt: skip
    parser.add_argument("--draw", action="store_true", help="draw court and side view")
    parser.add_argument("--svg", metavar="FILE", help="write court and side view as SVG")
    parser.add_argument("--json", action="store_true", help="print JSON instead of text")
    parser.add_argument("--ascii", action="store_true", help="draw with plain characters")
    add_court_options(parser)


def run(options: argparse.Namespace) -> int:
    """Print the exchange; return 2 where the question cannot be answered."""
    rules: RuleSet | None = None
    if options.best or options.rules:
        loaded = load_rules(options.rules, with_drills=False)
        rules = loaded.reading.value
        if rules is None or not loaded.reading.is_usable:
            messages.show_problems(loaded.reading.problems, loaded.sources)
            return Exit.COULD_NOT_RUN
    words = STANDARD if rules is None else rules.vocabulary
    question = read_question(options, words)
    position = read_position(question, words, rules)
    if position is None:
        _check_numbers(question)
    candidates = [] if position is None else _candidates(question, position, words, options)
    messages.show_problems(question.problems, question.sources)
    if position is None or question.stops():
        return Exit.COULD_NOT_RUN
    asked = _Asked(options=options, question=question, position=position, words=words, rules=rules)
    return asked.answer(candidates)


def _candidates(
    question: Question, position: Position, words: Vocabulary, options: argparse.Namespace
) -> list[tuple[str, Candidate]]:
    """Return the choices made ready to fly, with their names; problems go to the question."""
    found = []
    for written in question.choices:
        place = partial(question.place, source=written.source)
        problems = [
            *clashes(position.situation, place, written.choice),
            *_no_stroke(written, place),
        ]
        question.problems += problems
        if problems:
            continue
        candidate = candidate_of(written.choice, position, words, written.numbers)
        question.problems += candidate_problems(candidate, place)
        found.append((choice_label(written.choice, written.numbers, words), candidate))
    if not question.choices and not options.best:
        question.problems.append(_nothing_chosen(question))
    return found


def _no_stroke(written: WrittenChoice, place: Callable[[Sequence[str]], Span]) -> Iterator[Problem]:
    """Yield the problem of a choice that is empty, or that plays no ball at all."""
    response = written.choice.get("response")
    if isinstance(response, OneOf) and "played" not in response.words:
        yield Problem(
            code=ShotCode.NOT_A_SHOT,
            span=place(("response",)),
            sentence="a ball that is not played has no flight",
            hint="take this choice out, or write what is played instead",
        )
    elif not written.choice.parts and written.numbers == IN_WORDS:
        yield Problem(
            code=ShotCode.NOT_A_SHOT,
            span=place(()),
            sentence="this choice is empty",
            hint=f"write it like {_EXAMPLE}, or take it out",
        )


def _check_numbers(question: Question) -> None:
    """Look at the plain numbers of choices that have no position to be played from."""
    for written in question.choices:
        place = partial(question.place, source=written.source)
        question.problems += number_problems(written.numbers, place)


def _nothing_chosen(question: Question) -> Problem:
    return Problem(
        code=ShotCode.NOT_A_SHOT,
        span=question.sources[0].start(),
        sentence="nothing is said about the shot itself",
        hint=f"add --choose {_EXAMPLE}, or --best",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """One run of the command: from candidates to what is printed, drawn and written."""

    options: argparse.Namespace
    question: Question
    position: Position
    words: Vocabulary
    rules: RuleSet | None

    def answer(self, named: list[tuple[str, Candidate]]) -> int:
        """Print everything there is to say; the order first, the ranges when they are there."""
        looked_through = NOTHING_TO_SAY
        if self.options.best and self.rules is not None:
            from tactics.cli.shot_best import rules_shots, searched

            best, looked_through = searched(self.position, self.words)
            named += [*best, *rules_shots(self.position, self.rules, self.words)]
        shown = self._in_order(named)
        if self.options.svg:
            self._write_svg(shown)
        if self.options.json:
            return self._print_json(shown)
        self._say(self._first_sections(shown, looked_through))
        if self.options.draw:
            print("\n".join(self._drawing(shown)) + "\n", flush=True)
        return self._estimate(shown)

    def _in_order(self, named: Sequence[tuple[str, Candidate]]) -> tuple[Shown, ...]:
        flown = [(label, candidate, exchange(candidate)) for label, candidate in named]
        order = contest([each for _, each in named], self.position, self.words).order()
        return in_order(flown, order)

    def _say(self, sections: Sequence[Section], end: str = "\n") -> None:
        print(text_of(sections, heading_for(sys.stdout)), end=end, flush=True)

    def _first_sections(self, shown: Sequence[Shown], looked_through: Section) -> Sequence[Section]:
        sentence = situation_sentence(self.question.situation, self.words)
        sections = [Section(title="Situation", lines=wrapped(sentence, "  "))]
        sections += [taken_section(self.position, shown), looked_through]
        if len(shown) == 1:
            return [*sections, *one_shot_sections(shown[0], self.position)]
        return [*sections, *several_sections(shown, self.position)]

    def _estimate(self, shown: Sequence[Shown]) -> int:
        from tactics.report.point_text import estimate_sections

        found = self._estimates(shown)
        if found is None:
            return Exit.FINE
        sections = list(estimate_sections(found, shown))
        if self.options.best and self.rules is not None:
            from tactics.cli.shot_best import difference_sections

            sections[1:1] = difference_sections(shown, found, self.position, self.rules)
        self._say(sections, end="")
        return Exit.FINE if found.tried == found.of_all else Exit.STOPPED

    def _estimates(self, shown: Sequence[Shown]) -> Estimates | None:
        if not any(each.candidate.exists for each in shown):
            return None
        asked = contest([each.candidate for each in shown], self.position, self.words)
        with counting("estimating the point") as said:
            return estimated(asked, said)

    def _drawing(self, shown: Sequence[Shown]) -> tuple[str, ...]:
        from tactics.report.court_scene import shot_scene, side_flights
        from tactics.report.shot_drawing import ASCII, DRAWN, court_lines, side_lines

        marks = ASCII if self.options.ascii or not can_draw(sys.stdout) else DRAWN
        court = court_lines(shot_scene(shown, self.position), marks)
        side = side_lines(side_flights(shown), self.position.venue.court, marks)
        return (*court, "", *side)

    def _write_svg(self, shown: Sequence[Shown]) -> None:
        from tactics.report.court_scene import shot_scene, side_flights
        from tactics.report.html.shot_svg import shot_svg

        scene = shot_scene(shown, self.position)
        text = shot_svg(scene, side_flights(shown), [each.label for each in shown])
        path = Path(self.options.svg)
        files.write_atomic(path, text.encode("utf-8"))
        print(f"wrote {files.shown(path)}", file=sys.stderr)

    def _print_json(self, shown: Sequence[Shown]) -> int:
        import json

        from tactics.report.shot_json import shots_as_json

        document = shots_as_json(shown, self.position, self.words, self._estimates(shown))
        print(json.dumps(document, ensure_ascii=False, indent=2))
        return Exit.FINE
