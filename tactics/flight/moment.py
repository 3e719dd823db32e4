"""The moment of the hitter's contact: who is where, how good, and on which court."""

from dataclasses import dataclass, field
from math import sqrt

from tactics.flight.constants import MS_PER_KMH
from tactics.flight.court import Area, Box
from tactics.flight.levels import CLUB, Level
from tactics.flight.limits import Quantity, Remark, check_numbers
from tactics.flight.scatter import Scatter, Strain, level_scatter
from tactics.flight.shots import Contact
from tactics.flight.venue import FULL_COURT, Venue


def rally_pace_ms(level: Level, venue: Venue) -> float:
    """Launch speed of a level's rally ball (m/s): less on a short court, so that it stays in.

    Without air the same elevation reaches the same share of the court at this speed.
    """
    return level.rally_pace_ms * sqrt(venue.length_scale)


def home_depth_m(level: Level, venue: Venue) -> float:
    """Distance from the net (m) of a level's neutral place."""
    return venue.court.half_length_m + level.behind_baseline_m * venue.length_scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """All that an exchange needs to know when the hitter meets the ball.

    The opponent's place is in the hitter's frame (x to the hitter's right) with depth from the net;
    None for a depth is the neutral place of that player's level. `opponent_late_s` is time the
    opponent has already lost; `home_m` is the depth the hitter goes to afterwards.
    """

    contact: Contact
    hitter: Level = field(default=CLUB)
    opponent: Level = field(default=CLUB)
    venue: Venue = field(default=FULL_COURT)
    own_scatter: Scatter | None = None
    strain: Strain = field(default_factory=Strain)
    opponent_x_m: float = 0.0
    opponent_depth_m: float | None = None
    opponent_late_s: float = 0.0
    home_m: float | None = None
    area: Area = Area.COURT

    @property
    def scatter(self) -> Scatter:
        """The hitter's own scatter where measured, else that of the level."""
        return self.own_scatter or level_scatter(self.hitter)

    @property
    def hitter_pace_ms(self) -> float:
        """The hitter's rally pace on this court."""
        return rally_pace_ms(self.hitter, self.venue)

    @property
    def opponent_pace_ms(self) -> float:
        """The opponent's rally pace on this court."""
        return rally_pace_ms(self.opponent, self.venue)

    @property
    def home_depth_m(self) -> float:
        """Where the hitter recovers to (m from the net)."""
        return self.home_m if self.home_m is not None else home_depth_m(self.hitter, self.venue)

    @property
    def opponent_place_m(self) -> tuple[float, float]:
        """Where the opponent stands at the hitter's contact: x, distance from the net."""
        depth = self.opponent_depth_m
        if depth is None:
            depth = home_depth_m(self.opponent, self.venue)
        return self.opponent_x_m, depth

    @property
    def box(self) -> Box:
        """Where the ball has to land; asking for a box on a court without service line is a bug."""
        box = self.venue.court.box(self.area)
        if box is None:
            raise ValueError("this court has no service line: give it one before serving on it")
        return box

    @property
    def is_serve(self) -> bool:
        """Whether the ball has to land in a service box."""
        return self.area is not Area.COURT

    @property
    def opponent_reaction_s(self) -> float:
        """Time before the opponent moves; longer against a serve, which is read later."""
        return self.opponent.serve_reaction_s if self.is_serve else self.opponent.reaction_s


def remarks_on(moment: Moment) -> tuple[Remark, ...]:
    """What is impossible or odd about the places of a moment, the impossible first."""
    opponent_x, opponent_depth = moment.opponent_place_m
    contact, air = moment.contact, moment.venue.air
    return check_numbers(
        {
            Quantity.CONTACT_HEIGHT: contact.height_m,
            Quantity.COURT_DEPTH: contact.depth_m,
            Quantity.COURT_WIDTH: contact.x_m,
            Quantity.OPPONENT_DEPTH: opponent_depth,
            Quantity.OPPONENT_WIDTH: opponent_x,
            Quantity.WIND_ALONG: air.wind_along_ms / MS_PER_KMH,
            Quantity.WIND_ACROSS: air.wind_across_ms / MS_PER_KMH,
        },
        moment.venue.court,
    )
