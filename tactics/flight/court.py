"""Court and net by stage and format, in metres, in the hitter's frame (see the package)."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tactics.flight.constants import (
    CENTRE_LINE_HALF_WIDTH_M,
    FOOTPRINT,
    GREEN,
    ORANGE,
    RED_FELT,
    YELLOW,
    BallKind,
)

POST_OUTSIDE_M = 0.914  # supports stand this far outside the sideline; Rules of Tennis
CORD_AT_STRAP_M = 0.914
CORD_AT_SUPPORT_M = 1.07


class Stage(StrEnum):
    """Court sizes from the smallest; green and full court share one court, not one ball."""

    RED = "red"
    ORANGE = "orange"
    GREEN = "green"
    FULL_COURT = "full court"


class Format(StrEnum):
    """Which sidelines count, and where the net is held up."""

    SINGLES = "singles"
    DOUBLES = "doubles"


class Area(StrEnum):
    """The part of the opponent's side that a ball has to land in.

    Service boxes are named by the side the server stands on, so `FROM_RIGHT` lies at x < 0.
    """

    COURT = "court"
    FROM_RIGHT = "service box from the right"
    FROM_LEFT = "service box from the left"


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle on the ground, to the outside of its lines (m)."""

    x_low_m: float
    x_high_m: float
    y_low_m: float
    y_high_m: float

    def contains(self, x_m: ArrayLike, y_m: ArrayLike) -> NDArray[np.bool_]:
        """Whether balls whose middle lands at (x, y) touch the box; same shape as x and y.

        A ball that touches a line is in, so the middle may be a footprint past it. The net side
        gets none: a ball lands beyond the net or it does not.
        """
        x, y = np.asarray(x_m, float), np.asarray(y_m, float)
        reach = FOOTPRINT.value
        across = (x >= self.x_low_m - reach) & (x <= self.x_high_m + reach)
        return across & (y > self.y_low_m) & (y <= self.y_high_m + reach)


@dataclass(frozen=True, slots=True, kw_only=True)
class Court:
    """Half lengths and widths (m) of one side, and the net's cord.

    `service_line_m` is None where the stage prescribes none; no service box can be asked for then.
    """

    half_length_m: float
    half_width_m: float
    service_half_width_m: float
    service_line_m: float | None
    strap_height_m: float = CORD_AT_STRAP_M
    support_height_m: float = CORD_AT_SUPPORT_M
    support_x_m: float
    ball: BallKind = field(default=YELLOW)

    def net_height_m(self, x_m: ArrayLike) -> NDArray[np.float64]:
        """Height of the cord at x (m), straight between strap and support; shape of x.

        A real cord hangs up to 2 cm below the straight line. Outside the supports the height
        of the support is kept: this model knows no ball around the post.
        """
        share = np.minimum(np.abs(np.asarray(x_m, float)) / self.support_x_m, 1.0)
        rise = self.support_height_m - self.strap_height_m
        return np.asarray(self.strap_height_m + rise * share)

    def box(self, area: Area = Area.COURT) -> Box | None:
        """The rectangle to land in on the opponent's side, or None when there is no such box."""
        if area is Area.COURT:
            half = self.half_width_m
            return Box(x_low_m=-half, x_high_m=half, y_low_m=0.0, y_high_m=self.half_length_m)
        if self.service_line_m is None:
            return None
        low, high = -CENTRE_LINE_HALF_WIDTH_M, self.service_half_width_m
        if area is Area.FROM_RIGHT:
            low, high = -high, -low
        return Box(x_low_m=low, x_high_m=high, y_low_m=0.0, y_high_m=self.service_line_m)

    def inside_line_m(self, x_m: ArrayLike) -> NDArray[np.float64]:
        """Distance (m) from the nearer sideline at landing, negative when wide; shape of x."""
        return np.asarray(self.half_width_m - np.abs(np.asarray(x_m, float)))


@dataclass(frozen=True, slots=True, kw_only=True)
class StageSize:
    """Size of a stage: length, widths (m), service line (m from the net), net, ball."""

    length_m: float
    singles_width_m: float
    doubles_width_m: float
    service_line_m: float | None
    strap_height_m: float
    support_height_m: float
    ball: BallKind


# Red: 10.97-12.80 x 4.27-6.10 m, net 0.80-0.838 m. Orange: 17.68-18.29 x 6.10-8.23 m, net
# 0.80-0.914 m (federation). Inside those ranges, which size and a level net are our assumption;
# neither stage has a service line we could give a source for, so it is a setting.
STAGES: Mapping[Stage, StageSize] = {
    Stage.RED: StageSize(
        length_m=10.97,
        singles_width_m=5.49,
        doubles_width_m=6.10,
        service_line_m=None,
        strap_height_m=0.80,
        support_height_m=0.80,
        ball=RED_FELT,
    ),
    Stage.ORANGE: StageSize(
        length_m=18.29,
        singles_width_m=6.40,
        doubles_width_m=8.23,
        service_line_m=None,
        strap_height_m=0.80,
        support_height_m=0.80,
        ball=ORANGE,
    ),
    Stage.GREEN: StageSize(
        length_m=23.77,
        singles_width_m=8.23,
        doubles_width_m=10.97,
        service_line_m=6.40,
        strap_height_m=CORD_AT_STRAP_M,
        support_height_m=CORD_AT_SUPPORT_M,
        ball=GREEN,
    ),
    Stage.FULL_COURT: StageSize(
        length_m=23.77,
        singles_width_m=8.23,
        doubles_width_m=10.97,
        service_line_m=6.40,
        strap_height_m=CORD_AT_STRAP_M,
        support_height_m=CORD_AT_SUPPORT_M,
        ball=YELLOW,
    ),
}


def court_for(
    stage: Stage = Stage.FULL_COURT,
    format_: Format = Format.SINGLES,
    *,
    has_singles_sticks: bool = True,
    service_line_m: float | None = None,
) -> Court:
    """The court of a stage and format.

    Without singles sticks the net hangs from the doubles posts (1.014 m instead of 1.042 m at the
    singles sideline). `service_line_m` gives the small courts a service line.
    """
    size = STAGES[stage]
    singles = size.singles_width_m / 2
    doubles = size.doubles_width_m / 2
    half = singles if format_ is Format.SINGLES else doubles
    held_at = singles if format_ is Format.SINGLES and has_singles_sticks else doubles
    return Court(
        half_length_m=size.length_m / 2,
        half_width_m=half,
        service_half_width_m=singles,
        service_line_m=size.service_line_m if service_line_m is None else service_line_m,
        strap_height_m=size.strap_height_m,
        support_height_m=size.support_height_m,
        support_x_m=held_at + POST_OUTSIDE_M,
        ball=size.ball,
    )


FULL_SINGLES = court_for()
