"""`tactics stand`: where to stand for a return, and where to go after one's own shot."""

import argparse
import sys
from collections.abc import Iterator, Sequence
from functools import partial

from tactics.cli import messages
from tactics.cli.court_options import Given, add_court_options
from tactics.cli.main import Exit
from tactics.cli.positions import read_position
from tactics.cli.questions import Question, read_question
from tactics.cli.terminal import can_draw, heading_for
from tactics.engine.candidate import candidate_of
from tactics.engine.exchange import exchange
from tactics.engine.position import Position
from tactics.engine.stands import ServeAsked, stand_found
from tactics.engine.troubles import candidate_problems, no_service_line, remark_problems
from tactics.flight.constants import MS_PER_KMH
from tactics.flight.court import FULL_SINGLES
from tactics.flight.limits import Quantity, check_numbers
from tactics.flight.ranges import out_of_range
from tactics.flight.stand import FARTHEST_M, NEAREST_M
from tactics.model.standard import STANDARD
from tactics.problem import Problem
from tactics.reading.quantities import Measure
from tactics.reading.shot_codes import ShotCode
from tactics.report.court_scene import CourtScene, shot_scene
from tactics.report.layout import Section, bullet, text_of
from tactics.report.shot_drawing import ASCII, DRAWN, court_lines
from tactics.report.shot_text import Shown, one_shot_sections
from tactics.report.shot_words import choice_label
from tactics.report.stand_text import recovery_sections, return_scene, return_sections
from tactics.source import Span


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "facts", nargs="*", metavar="NAME=VALUE",
        help='for a return: "serve side=ad" "opponent hand=left" level=club; for the way home '
        "after a shot: the facts as its player meets the ball",
    )  # fmt: skip
    parser.add_argument("--facts", metavar="FILE", dest="file", help="a YAML file of facts")
    parser.add_argument(
        "--choose", action="append", default=[], metavar="CHOICE",
        help='the shot to recover from: "direction=straight, height over net=1 m"',
    )  # fmt: skip
    group = parser.add_argument_group("the serve to be returned")
    group.add_argument(
        "--behind", metavar="DISTANCE", default="1 m",
        help='how far behind the baseline the returner waits; "-0.5 m" is inside (default: 1 m)',
    )  # fmt: skip
    group.add_argument(
        "--from-centre", metavar="DISTANCE", help="how far from the middle the server stands"
    )
    group.add_argument("--serve-height", metavar="HEIGHT", help="where the serve is struck")
    group.add_argument("--serve-pace", metavar="SPEED", help="the server's flat first serve")
    group.add_argument(
        "--curve", choices=("flat", "slice", "kick"), help="of the wide serve (default: by hand)"
    )
    parser.add_argument("--ascii", action="store_true", help="draw with plain characters")
    add_court_options(parser)


def run(options: argparse.Namespace) -> int:
    """Print the place with its drawing; return 2 where the question cannot be answered."""
    question = read_question(options, STANDARD)
    asked = _serve_asked(options, question)
    position = read_position(question, STANDARD)
    question.problems += _out_of_place(asked, position, question)
    after_a_shot = bool(question.choices)
    if position is not None and not after_a_shot and position.venue.court.service_line_m is None:
        question.problems.append(no_service_line(question.place(("stage",))))
    shown = _shot(question, position) if position is not None and after_a_shot else None
    messages.show_problems(question.problems, question.sources)
    if position is None or question.stops():
        return Exit.COULD_NOT_RUN
    scene, sections = _return(position, asked) if shown is None else _recovery(shown, position)
    marks = ASCII if options.ascii or not can_draw(sys.stdout) else DRAWN
    print(text_of(sections, heading_for(sys.stdout)), end="")
    if scene is not None:
        print("\n" + "\n".join(court_lines(scene, marks)))
    return Exit.FINE


def _serve_asked(options: argparse.Namespace, question: Question) -> ServeAsked:
    given = Given(name="serve")
    behind = given.number("behind", options.behind, Measure.LENGTH)
    from_centre = given.number("from-centre", options.from_centre, Measure.LENGTH)
    height = given.number("serve-height", options.serve_height, Measure.LENGTH)
    pace = given.number("serve-pace", options.serve_pace, Measure.SPEED)
    question.sources.append(given.source)
    question.problems += given.problems
    for quantity, option, value in (
        (Quantity.CONTACT_HEIGHT, "serve height", height),
        (Quantity.PACE, "serve pace", pace),
    ):
        if value is not None:
            span = question.place((option,), "serve")
            odd = check_numbers({quantity: value})
            question.problems += remark_problems(odd, partial(_same_place, span))
    return ServeAsked(
        behind_baseline_m=1.0 if behind is None else behind,
        from_centre_m=from_centre,
        contact_height_m=height,
        curve=options.curve or "",
        pace_ms=None if pace is None else pace * MS_PER_KMH,
    )


def _out_of_place(
    asked: ServeAsked, position: Position | None, question: Question
) -> Iterator[Problem]:
    """Yield what cannot be about the places of server and returner."""
    court = FULL_SINGLES if position is None else position.venue.court
    widest = round(court.half_width_m, 2)
    for option, name, value, low, high in (
        ("behind", "distance behind the baseline", asked.behind_baseline_m, NEAREST_M, FARTHEST_M),
        ("from centre", "the server's distance from the middle", asked.from_centre_m, 0.0, widest),
    ):
        odd = None if value is None else out_of_range(name, value, low, high, "m")
        if odd is not None:
            yield Problem(
                code=ShotCode.CANNOT_BE,
                span=question.place((option,), "serve"),
                sentence=odd.sentence,
                hint=_WHERE[option],
            )


_WHERE = {
    "behind": 'inside the baseline counts negative: --behind "-0.5 m"',
    "from centre": "a server stands between the centre mark and the sideline, on the side of "
    '"serve side"',
}


def _same_place(span: Span, _: Sequence[str]) -> Span:
    return span


def _shot(question: Question, position: Position) -> Shown:
    """Return the shot to recover from; what is odd about it goes to the question."""
    written = question.choices[-1]
    candidate = candidate_of(written.choice, position, STANDARD, written.numbers)
    question.problems += candidate_problems(
        candidate, partial(question.place, source=written.source)
    )
    label = choice_label(written.choice, written.numbers, STANDARD)
    return Shown(number=1, label=label, candidate=candidate, flown=exchange(candidate))


def _return(position: Position, asked: ServeAsked) -> tuple[CourtScene | None, Sequence[Section]]:
    found = stand_found(position, asked)
    return return_scene(found), return_sections(found)


def _recovery(shown: Shown, position: Position) -> tuple[CourtScene | None, Sequence[Section]]:
    taken = [line for each in (*position.taken, *shown.candidate.taken)
             for line in bullet(each, "  ")]  # fmt: skip
    given = Section(title="Taken as given", lines=tuple(taken))
    if shown.flown is None:
        return None, (given, *one_shot_sections(shown, position))
    return shot_scene([shown], position), (
        given,
        *recovery_sections(shown, shown.flown, position),
    )
