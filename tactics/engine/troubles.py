"""What cannot be, or is odd, about the numbers of a question: as problems with their places."""

from collections.abc import Callable, Iterable, Mapping, Sequence

from tactics.engine.candidate import Candidate
from tactics.engine.position import Position
from tactics.engine.told import Conditions
from tactics.engine.wish import InNumbers
from tactics.flight.constants import MS_PER_KMH
from tactics.flight.limits import Quantity, Remark, check_numbers
from tactics.flight.moment import remarks_on
from tactics.flight.venue import Venue
from tactics.problem import Problem, Severity
from tactics.reading.shot_codes import ShotCode
from tactics.source import Span

Place = Callable[[Sequence[str]], Span]
"""The names a number may go by -> where it was given."""

_NAMES: Mapping[Quantity, tuple[str, ...]] = {
    Quantity.CONTACT_HEIGHT: ("contact", "contact height", "body height"),
    Quantity.COURT_DEPTH: ("contact", "court depth"),
    Quantity.COURT_WIDTH: ("contact", "court width"),
    Quantity.OPPONENT_DEPTH: ("opponent depth",),
    Quantity.OPPONENT_WIDTH: ("opponent width",),
    Quantity.PACE: ("pace",),
    Quantity.TOPSPIN: ("spin", "topspin", "backspin"),
    Quantity.SIDE_SPIN: ("side spin", "sidespin", "spin"),
    Quantity.HEIGHT_OVER_NET: ("height over net", "net height"),
    Quantity.LANDING_DEPTH: ("depth",),
    Quantity.NET_CROSSING: ("direction", "inside line"),
    Quantity.ALTITUDE: ("altitude",),
    Quantity.TEMPERATURE: ("temperature",),
    Quantity.WIND_ALONG: ("wind along", "wind strength", "wind"),
    Quantity.WIND_ACROSS: ("wind across", "wind strength", "wind"),
}


def air_problems(asked: Conditions, place: Place) -> tuple[Problem, ...]:
    """Return what cannot be or is odd about the air: asked before a position is worked out."""
    given = {
        Quantity.ALTITUDE: asked.altitude_m,
        Quantity.TEMPERATURE: asked.temperature_c,
    }
    numbers = {quantity: number for quantity, number in given.items() if number is not None}
    return remark_problems(check_numbers(numbers), place)


def position_problems(position: Position, place: Place) -> tuple[Problem, ...]:
    """Return what cannot be or is odd about places and wind, and a serve without a box."""
    found = remark_problems(remarks_on(position.moment), place)
    return (*found, *_service_line_problems(position.venue, position.is_serve, place))


def _service_line_problems(venue: Venue, is_serve: bool, place: Place) -> tuple[Problem, ...]:
    """Return the problem of a serve on a court of no known service line, or one off the court."""
    line, far = venue.court.service_line_m, venue.court.half_length_m
    if line is None and is_serve:
        return (no_service_line(place(("stage",))),)
    if line is None or 1.0 <= line < far:
        return ()
    return (
        Problem(
            code=ShotCode.CANNOT_BE,
            span=place(("service line",)),
            sentence=f"a service line {line:g} m from the net cannot be: 1 to {far:g} m is "
            "possible (between the net and the baseline)",
        ),
    )


def no_service_line(span: Span) -> Problem:
    """Return the problem of a serve on a court whose service line nobody has said."""
    return Problem(
        code=ShotCode.NO_SERVICE_LINE,
        span=span,
        sentence="this court has no service line of its own, so no service box is known",
        hint='say how far from the net it is painted: --service-line "4.2 m"',
    )


def candidate_problems(candidate: Candidate, place: Place) -> tuple[Problem, ...]:
    """Return what cannot be or is odd about the numbers of a choice."""
    return remark_problems(candidate.remarks, place)


def number_problems(numbers: InNumbers, place: Place) -> tuple[Problem, ...]:
    """Return what cannot be or is odd about plain numbers, whatever position they belong to."""
    given = {
        Quantity.PACE: None if numbers.pace_ms is None else numbers.pace_ms / MS_PER_KMH,
        Quantity.TOPSPIN: numbers.topspin_rpm,
        Quantity.SIDE_SPIN: numbers.sidespin_rpm,
    }
    known = {quantity: number for quantity, number in given.items() if number is not None}
    return remark_problems(check_numbers(known), place)


def remark_problems(remarks: Iterable[Remark], place: Place) -> tuple[Problem, ...]:
    """Return remarks as problems: what cannot be is an error, what is odd a warning."""
    return tuple(
        Problem(
            code=ShotCode.CANNOT_BE if remark.is_impossible else ShotCode.UNUSUAL_NUMBER,
            span=place(_NAMES.get(remark.quantity, ())),
            sentence=remark.sentence,
            severity=Severity.ERROR if remark.is_impossible else Severity.WARNING,
        )
        for remark in remarks
    )


def is_impossible(position: Position) -> bool:
    """Say whether nothing can be flown from here: an impossible number, or no box to serve into."""
    has_no_box = position.is_serve and position.venue.court.service_line_m is None
    return has_no_box or any(remark.is_impossible for remark in remarks_on(position.moment))
