"""Options that every question about the court takes: contact, levels, own scatter, air, court."""

import argparse
from dataclasses import dataclass, field
from pathlib import Path

from tactics.cli import files
from tactics.engine.margins import own_scatter
from tactics.engine.position import Position, with_scatter
from tactics.engine.told import Conditions
from tactics.flight.constants import MS_PER_KMH
from tactics.flight.landings import NUMBER_OF_BALLS, PLACES, LandingScatter, fit_landings
from tactics.flight.levels import LEVELS
from tactics.flight.ranges import OutOfRange
from tactics.flight.shots import Contact
from tactics.problem import Problem
from tactics.reading.chart_bytes import decode_chart
from tactics.reading.landings import Landings, read_landings
from tactics.reading.quantities import Measure, quantity, sided, unclear
from tactics.reading.shot_codes import ShotCode
from tactics.source import Source, Span

OPTIONS = "options"
"""The name by which messages call what was given behind `--`."""


def add_court_options(parser: argparse.ArgumentParser) -> None:
    """Declare the options; each takes its number with or without a unit."""
    group = parser.add_argument_group(
        "court, players and air", "stage, format, surface and wind can also be told as facts"
    )
    group.add_argument(
        "--contact", metavar="SIDE,DEPTH,HEIGHT",
        help='where the ball is met: "2.5 m right, 12.4 m, 0.9 m" (from the middle, from the '
        "net, from the ground)",
    )  # fmt: skip
    group.add_argument("--level", choices=tuple(LEVELS), help="the player's level")
    group.add_argument("--opponent-level", choices=tuple(LEVELS), help="the opponent's level")
    group.add_argument(
        "--scatter", metavar="FILE", help="the player's own landing places: see tactics scatter"
    )
    group.add_argument("--altitude", metavar="HEIGHT", help='above the sea: "1600 m"')
    group.add_argument("--temperature", metavar="HEAT", help='of the air: "30 °C" or "86 °F"')
    group.add_argument(
        "--wind-along", metavar="SPEED", help='with the player: "15 km/h"; "-15 km/h" is against'
    )
    group.add_argument(
        "--wind-across", metavar="SPEED", help='to the right: "15 km/h"; "-15 km/h" to the left'
    )
    group.add_argument(
        "--service-line", metavar="DEPTH",
        help="distance of the service line from the net, for courts that prescribe none",
    )  # fmt: skip
    group.add_argument(
        "--no-singles-sticks", action="store_true",
        help="the net hangs from the doubles posts, as on most club courts",
    )  # fmt: skip


@dataclass(slots=True)
class Given:
    """What options said, line by line, so that each has a place in a message."""

    name: str = OPTIONS
    lines: list[str] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    @property
    def source(self) -> Source:
        """Return the options as a text."""
        return Source(name=self.name, text="\n".join(self.lines))

    def number(self, name: str, text: str | None, measure: Measure) -> float | None:
        """Return the number of one option, or None where it was not given or not readable."""
        if text is None:
            return None
        span = self.place(f"--{name} {text}", len(name) + 4, len(text))
        found = quantity(text, measure)
        if found is None:
            self.problems.append(unclear(name.replace("-", " "), text, measure, span))
        return found

    def place(self, line: str, column: int, width: int) -> Span:
        """Return the place of a new line."""
        self.lines.append(" ".join(line.split()))
        return Span(file=self.name, line=len(self.lines), column=column, width=max(1, width))


def read_conditions(options: argparse.Namespace, given: Given) -> Conditions:
    """Return what the options say; what cannot be read is a problem in `given`."""
    along, across = (
        given.number(name, text, Measure.SPEED)
        for name, text in (
            ("wind-along", options.wind_along),
            ("wind-across", options.wind_across),
        )
    )
    return Conditions(
        contact=_contact(options.contact, given),
        level=options.level or "",
        opponent_level=options.opponent_level or "",
        altitude_m=given.number("altitude", options.altitude, Measure.LENGTH),
        temperature_c=given.number("temperature", options.temperature, Measure.TEMPERATURE),
        wind_along_ms=None if along is None else along * MS_PER_KMH,
        wind_across_ms=None if across is None else across * MS_PER_KMH,
        service_line_m=given.number("service-line", options.service_line, Measure.LENGTH),
        has_singles_sticks=not options.no_singles_sticks,
    )


def _contact(text: str | None, given: Given) -> Contact | None:
    if text is None:
        return None
    mark = ";" if ";" in text else ","
    pieces = [piece.strip() for piece in text.split(mark)]
    span = given.place(f"--contact {text}", len("--contact ") + 1, len(text))
    if len(pieces) != 3:
        given.problems.append(
            Problem(
                code=ShotCode.UNCLEAR_NUMBER,
                span=span,
                sentence=f"a contact has three numbers, and this has {len(pieces)}",
                hint='write side, depth and height: --contact "2.5 m right, 12.4 m, 0.9 m"; '
                "with decimal commas part them by semicolons",
            )
        )
        return None

    def length(piece: str) -> float | None:
        return quantity(piece, Measure.LENGTH)

    numbers = [read(piece) for read, piece in zip((sided, length, length), pieces, strict=True)]
    for name, piece, number in zip(
        ("the side", "the depth", "the height"), pieces, numbers, strict=True
    ):
        if number is None:
            given.problems.append(unclear(name, piece, Measure.LENGTH, span))
    x, depth, height = numbers
    if x is None or depth is None or height is None:
        return None
    return Contact(x_m=x, depth_m=depth, height_m=height)


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A file of landing places with the scatter that was fitted to it."""

    landings: Landings
    scatter: LandingScatter
    source: Source


def read_scatter(path: Path) -> tuple[Measured | None, tuple[Problem, ...], Source]:
    """Return the scatter measured in a file, or None, with every problem in it."""
    source, odd = decode_chart(files.shown(path), files.read_bytes(path))
    read = read_landings(source)
    problems = (*odd, *read.problems)
    if read.value is None:
        return None, problems, source
    if not read.value.has_targets and min(read.value.depth_m) < 0.0:
        return None, (*problems, _own_side(min(read.value.depth_m), source)), source
    fitted = fit_landings(read.value.sideways_m, read.value.depth_m)
    if isinstance(fitted, LandingScatter):
        return Measured(landings=read.value, scatter=fitted, source=source), problems, source
    found = tuple(dict.fromkeys(_unfitted(each, source) for each in fitted))
    return None, (*problems, *found), source


def _own_side(depth_m: float, source: Source) -> Problem:
    return Problem(
        code=ShotCode.LANDING_PLACE,
        span=source.start(),
        sentence=f"depth {depth_m:g} m would be on the player's own side of the net",
        hint="depth counts from the net on; leave out balls in the net, they have no landing place",
    )


def _unfitted(found: OutOfRange, source: Source) -> Problem:
    """Return why no scatter can be fitted to a file."""
    if found.name == NUMBER_OF_BALLS and found.value < found.low:
        return Problem(
            code=ShotCode.FEW_LANDINGS,
            span=source.start(),
            sentence=f"{found.value:g} balls are too few to measure a scatter: "
            f"{found.low:g} to {found.high:g} can be used",
            hint="chart 20 balls or more of one stroke at one pace",
        )
    is_place = found.name in PLACES
    return Problem(
        code=ShotCode.LANDING_PLACE,
        span=source.start(),
        sentence=found.sentence,
        hint="a place is written in metres, from the middle and from the net"
        if is_place
        else "write where each ball really landed, to 0.1 m",
    )


def position_with(position: Position, measured: Measured | None) -> Position:
    """Return the position of a player with measured scatter, or as it was."""
    if measured is None:
        return position
    own = own_scatter(
        measured.scatter,
        measured.landings.mean_depth_m,
        position.moment.hitter,
        position.venue,
    )
    return with_scatter(position, measured.scatter, own)
