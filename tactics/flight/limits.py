"""Which numbers cannot be, and which are odd but can be computed; in the units a coach types."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from tactics.flight.constants import BALL_RADIUS, FOOTPRINT, RUN_BACK, SIDE_RUN
from tactics.flight.court import FULL_SINGLES, Court


class Quantity(StrEnum):
    """Every number a shot can be asked with, by the name a coach reads."""

    CONTACT_HEIGHT = "contact height"
    COURT_DEPTH = "distance from the net"
    COURT_WIDTH = "distance to the right of the middle"
    OPPONENT_DEPTH = "opponent's distance from the net"
    OPPONENT_WIDTH = "opponent's distance from the middle"
    PACE = "pace"
    TOPSPIN = "topspin"
    SIDE_SPIN = "side spin"
    ELEVATION = "elevation"
    AZIMUTH = "direction to the right"
    HEIGHT_OVER_NET = "height over net"
    NET_CROSSING = "place over the net, from its middle"
    LANDING_DEPTH = "landing depth"
    LANDING_WIDTH = "landing place from the middle"
    ALTITUDE = "altitude"
    TEMPERATURE = "temperature"
    WIND_ALONG = "wind along the court"
    WIND_ACROSS = "wind across the court"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """What a number may be at all, and between what it usually is; both ends included."""

    unit: str
    low: float
    high: float
    usual_low: float
    usual_high: float
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """A number outside its range: it cannot be, or it is odd and was computed all the same."""

    quantity: Quantity
    value: float
    limit: Limit
    is_impossible: bool

    @property
    def sentence(self) -> str:
        """The number, its range and the reason, for a coach."""
        what = f"{self.quantity} {_number(self.value)} {self.limit.unit}"
        if self.is_impossible:
            between = _between(self.limit.low, self.limit.high, self.limit.unit)
            return f"{what} cannot be: {between} is possible ({self.limit.why})"
        between = _between(self.limit.usual_low, self.limit.usual_high, self.limit.unit)
        return f"{what} is unusual: {between} is common; it was computed all the same"


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".") if math.isfinite(value) else str(value)


def _between(low: float, high: float, unit: str) -> str:
    return f"{_number(low)} to {_number(high)} {unit}"


def _spread(unit: str, high: float, usual_high: float, why: str) -> Limit:
    """The same to both sides of zero."""
    return Limit(
        unit=unit, low=-high, high=high, usual_low=-usual_high, usual_high=usual_high, why=why
    )


# The fastest serve ever timed was under 265 km/h and the fiercest spin measured near 5000 rpm; the
# room above both is ours.
FIXED: Mapping[Quantity, Limit] = {
    Quantity.CONTACT_HEIGHT: Limit(
        unit="m",
        low=BALL_RADIUS.value,
        high=4.0,
        usual_low=0.10,
        usual_high=3.2,
        why="from a ball on the ground to the highest jump with a racket",
    ),
    Quantity.PACE: Limit(
        unit="km/h",
        low=5.0,
        high=270.0,
        usual_low=20.0,
        usual_high=235.0,
        why="slower is no stroke, and no human hits harder",
    ),
    Quantity.TOPSPIN: _spread("rpm", 7000.0, 4500.0, "no human spins the ball more"),
    Quantity.SIDE_SPIN: _spread("rpm", 7000.0, 4000.0, "no human spins the ball more"),
    Quantity.ELEVATION: _spread("degrees", 88.0, 65.0, "straight up and down is no shot"),
    Quantity.AZIMUTH: _spread("degrees", 89.0, 45.0, "the ball must go towards the net"),
    Quantity.HEIGHT_OVER_NET: Limit(
        unit="m", low=0.0, high=25.0, usual_low=0.05, usual_high=6.0, why="below 0 is in the net"
    ),
    Quantity.ALTITUDE: Limit(
        unit="m",
        low=-450.0,
        high=6000.0,
        usual_low=-50.0,
        usual_high=2700.0,
        why="nobody plays elsewhere",
    ),
    Quantity.TEMPERATURE: Limit(
        unit="°C", low=-30.0, high=60.0, usual_low=0.0, usual_high=42.0, why="nobody plays then"
    ),
    Quantity.WIND_ALONG: _spread("km/h", 110.0, 32.0, "more is a storm"),
    Quantity.WIND_ACROSS: _spread("km/h", 110.0, 32.0, "more is a storm"),
}
FARTHEST_BEHIND_M = 10.0  # back fence of the largest courts, behind the baseline
FARTHEST_ASIDE_M = 8.0  # and the side fence, from the sideline
NEAREST_M = 0.05


def limits_for(court: Court = FULL_SINGLES) -> Mapping[Quantity, Limit]:
    """The range of every number on a court."""
    back, aside = court.half_length_m, court.half_width_m
    place = Limit(
        unit="m",
        low=0.0,
        high=back + FARTHEST_BEHIND_M,
        usual_low=0.3,
        usual_high=back + RUN_BACK.high,
        why="between the net and the back fence",
    )
    side = _spread("m", aside + FARTHEST_ASIDE_M, aside + SIDE_RUN.high, "between the side fences")
    return {
        **FIXED,
        Quantity.COURT_DEPTH: place,
        Quantity.OPPONENT_DEPTH: place,
        Quantity.COURT_WIDTH: side,
        Quantity.OPPONENT_WIDTH: side,
        Quantity.NET_CROSSING: _spread(
            "m",
            court.support_x_m,
            court.support_x_m - 0.5,
            "further out there is no net, and this model knows no ball around the post",
        ),
        Quantity.LANDING_DEPTH: Limit(
            unit="m",
            low=NEAREST_M,
            high=back + FOOTPRINT.value,
            usual_low=1.0,
            usual_high=back,
            why="between the net and the far baseline",
        ),
        Quantity.LANDING_WIDTH: _spread(
            "m", aside + FOOTPRINT.value, aside, "between the sidelines"
        ),
    }


def check_numbers(
    values: Mapping[Quantity, float], court: Court = FULL_SINGLES
) -> tuple[Remark, ...]:
    """Remarks on the numbers outside their ranges, the impossible ones first."""
    limits = limits_for(court)
    remarks = []
    for quantity, value in values.items():
        limit = limits[quantity]
        if limit.usual_low <= value <= limit.usual_high:
            continue
        is_impossible = not limit.low <= value <= limit.high  # so nan is impossible too
        remarks.append(
            Remark(quantity=quantity, value=value, limit=limit, is_impossible=is_impossible)
        )
    return tuple(sorted(remarks, key=lambda remark: not remark.is_impossible))
