"""`tactics advise`: what the rules say in one situation, and a verdict on a choice."""

import argparse
import sys
from dataclasses import dataclass
from pathlib import Path

from tactics.cli import files, messages
from tactics.cli.arguments import (
    Asked,
    arguments_source,
    combined,
    read_arguments,
    read_facts,
)
from tactics.cli.clashes import Place, clashes, place_in
from tactics.cli.main import Exit
from tactics.cli.own_scatter import add_scatter, with_own_scatter
from tactics.cli.rule_files import load_rules
from tactics.cli.terminal import can_draw, heading_for, is_conversation
from tactics.engine.advise import Advice, advise
from tactics.engine.compile import compile_rules
from tactics.engine.coverage import as_covered
from tactics.engine.judge import judge
from tactics.engine.levels import for_level, level_of
from tactics.model.choice import Choice
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.verdict import Verdict
from tactics.problem import Problem, Reading, Severity
from tactics.reading.decoding import decode
from tactics.report.advice import advice_sections, caution_section, situation_section
from tactics.report.layout import text_of
from tactics.report.verdicts import verdict_section
from tactics.source import Source

_NOTHING: Asked = (Situation(), Choice())


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "facts", nargs="*", metavar="NAME=VALUE",
        help='facts and parts of a choice, such as balance=set "contact height=above" '
        "direction=straight; several words that may be true are parted by commas",
    )  # fmt: skip
    parser.add_argument("--facts", metavar="FILE", dest="file", help="a YAML file of facts")
    parser.add_argument(
        "--choose", action="append", default=[], metavar="PART=VALUE",
        help="a part of the choice to be judged, such as direction=straight",
    )  # fmt: skip
    parser.add_argument("--ask", action="store_true", help="ask for the facts one by one")
    parser.add_argument(
        "--rules", action="append", default=[], metavar="FILE",
        help="a rule file or the name of a shipped rule set; may be given several times",
    )  # fmt: skip
    parser.add_argument("--json", action="store_true", help="print JSON instead of text")
    parser.add_argument("--ascii", action="store_true", help="draw the court with plain characters")
    add_scatter(parser)
    parser.add_argument(
        "--no-estimate", action="store_true", help="leave out what the ball's flight says"
    )


def run(options: argparse.Namespace) -> int:
    """Print the advice; return 2 where rules or facts could not be read."""
    loaded = load_rules(options.rules, with_drills=False)
    if loaded.reading.value is None or not loaded.reading.is_usable:
        messages.show_problems(loaded.reading.problems, loaded.sources)
        return Exit.COULD_NOT_RUN
    rules = with_own_scatter(loaded.reading.value, options.scatter)
    asked = None if rules is None else _read(options, rules)
    if rules is None or asked is None:
        return Exit.COULD_NOT_RUN
    if options.ask or (asked == _NOTHING and is_conversation()):
        from tactics.cli.asking import ask_facts

        asked = (ask_facts(compile_rules(rules), asked), asked[1])
    if options.json:
        _print_json(rules, asked)
    else:
        plain = options.ascii or not can_draw(sys.stdout)
        flies = _Flies(estimates=not options.no_estimate, scatter=options.scatter or "")
        _print_text(rules, asked, plain=plain, flies=flies)
    return Exit.FINE


def _read(options: argparse.Namespace, rules: RuleSet) -> Asked | None:
    """Return what file and arguments say together, or None with the problems shown."""
    source = arguments_source(options.facts, options.choose)
    readings: list[tuple[Source, Reading[Asked]]] = []
    if options.file:
        path = Path(options.file)
        text = decode(files.shown(path), files.read_bytes(path))
        if text.value is None:
            messages.show_problems(text.problems, ())
            return None
        readings.append((text.value, read_facts(text.value, rules.vocabulary)))
    readings.append((source, read_arguments(source, rules.vocabulary)))
    problems = [problem for _, reading in readings for problem in reading.problems]
    messages.show_problems(problems, [text for text, _ in readings])
    if any(problem.severity is Severity.ERROR for problem in problems):
        return None
    asked = _NOTHING
    for _, reading in readings:
        asked = combined(asked, reading.value or _NOTHING)
    texts = [text for text, _ in readings]
    messages.show_problems(_clashes(asked, place_in(texts)), texts)
    return asked


def _clashes(asked: Asked, place: Place) -> list[Problem]:
    """Return what never comes together: the advice is given all the same."""
    situation, choice = asked
    found = [*clashes(situation, place, severity=Severity.WARNING)]
    if choice.parts:
        found += clashes(situation, place, choice, Severity.WARNING)
    return found


def _print_json(rules: RuleSet, asked: Asked) -> None:
    import json

    from tactics.report.advice_json import advice_as_json

    advice = _advice(rules, asked[0])
    document = advice_as_json(advice, asked[1], _verdict(advice, asked[1]))
    print(json.dumps(document, ensure_ascii=False, indent=2))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Flies:
    """Whether the flight is asked, and the file with the player's own landing places."""

    estimates: bool
    scatter: str


def _print_text(rules: RuleSet, asked: Asked, *, plain: bool, flies: _Flies) -> None:
    """Print the situation at once, then what the rules make of it."""
    heading = heading_for(sys.stdout)
    print(text_of([situation_section(asked[0], rules)], heading), flush=True)
    advice = _advice(rules, asked[0])
    verdict = _verdict(advice, asked[1])
    judged = [] if verdict is None else [verdict_section(asked[1], verdict, rules)]
    print(text_of([*judged, *advice_sections(advice)], heading))
    print("\n".join(_court(advice, plain=plain)) + "\n", flush=flies.estimates)
    if flies.estimates:
        from tactics.cli.estimate import print_evidence

        print_evidence(advice, heading, flies.scatter)
    print(text_of([caution_section(advice)], heading), end="")


def _advice(rules: RuleSet, situation: Situation) -> Advice:
    covered = as_covered(rules, situation)
    return advise(for_level(compile_rules(rules), level_of(covered)), covered)


def _verdict(advice: Advice, choice: Choice) -> Verdict | None:
    return judge(choice, advice) if choice.parts else None


def _court(advice: Advice, *, plain: bool) -> tuple[str, ...]:
    from tactics.report.court_picture import picture_of
    from tactics.report.court_text import ASCII, DRAWN, court_lines
    from tactics.report.targets import wanted_shot

    picture = picture_of(advice.situation, wanted_shot(advice), advice.advisor.vocabulary)
    return court_lines(picture, ASCII if plain else DRAWN)
