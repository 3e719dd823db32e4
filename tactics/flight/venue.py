"""Where a ball is played: court with its ball and net, air, surface."""

from dataclasses import dataclass, field, replace
from typing import Final

from tactics.flight.constants import HARD, STILL_AIR, Air, BallKind, Surface
from tactics.flight.court import FULL_SINGLES, Court
from tactics.flight.flat_fire import Drag, drag_of

FULL_LENGTH_M: Final = 11.885
FULL_HALF_WIDTH_M: Final = 4.115
FULL_SERVICE_LINE_M: Final = 6.40


@dataclass(frozen=True, slots=True, kw_only=True)
class Venue:
    """Court, air and surface of one exchange; the ball is the court's (its stage's)."""

    court: Court = field(default=FULL_SINGLES)
    air: Air = field(default=STILL_AIR)
    surface: Surface = field(default=HARD)

    @property
    def ball(self) -> BallKind:
        """The ball of the stage."""
        return self.court.ball

    @property
    def restitution(self) -> float:
        """Upward speed after a bounce over the downward speed before it, for this ball."""
        return self.surface.restitution * self.ball.liveliness

    @property
    def length_scale(self) -> float:
        """Length of this court over a full one: stretches targets and places along the court."""
        return self.court.half_length_m / FULL_LENGTH_M

    @property
    def width_scale(self) -> float:
        """Width of this court over a full singles court: stretches targets across the court."""
        return self.court.half_width_m / FULL_HALF_WIDTH_M

    @property
    def service_line_m(self) -> float:
        """The stage's service line, else the same share of the court as on a full one (m)."""
        return self.court.service_line_m or FULL_SERVICE_LINE_M * self.length_scale

    def flat_drag(self) -> Drag:
        """Drag and lift lengths for the closed form."""
        return drag_of(self.ball, self.air.density_kg_m3)

    def with_drag(self, drag: float) -> "Venue":
        """The same venue with another drag coefficient of its ball."""
        ball = replace(self.ball, drag=drag)
        return replace(self, court=replace(self.court, ball=ball))


FULL_COURT: Final = Venue()
