"""One `scatter` of a player in metres: as measured, else that of the level."""

from tactics.engine.position import Position
from tactics.flight.landings import LandingScatter, measured_scatter
from tactics.flight.levels import Level
from tactics.flight.margin import RALLY_DISTANCE_M, sideways_sd_m
from tactics.flight.moment import home_depth_m, rally_pace_ms
from tactics.flight.scatter import Scatter, level_scatter
from tactics.flight.shots import Contact
from tactics.flight.venue import FULL_COURT, Venue

_CONTACT_HEIGHT_M = 0.95


def level_sideways_m(level: Level, venue: Venue = FULL_COURT) -> float:
    """Return the sideways scatter (m) of a level's rally ball: one `scatter` of its players."""
    return sideways_sd_m(level_scatter(level), RALLY_DISTANCE_M * venue.length_scale)


def sideways_scatter_m(position: Position) -> float:
    """Return one `scatter` of the player (m): as measured, else that of the level."""
    if position.landings is not None:
        return position.landings.sideways.sd_m
    return level_sideways_m(position.moment.hitter, position.venue)


def own_scatter(
    landings: LandingScatter, mean_depth_m: float, level: Level, venue: Venue = FULL_COURT
) -> Scatter:
    """Return a player's own angles and speed from measured landings of rally balls.

    They are taken as struck from the level's usual place behind the baseline, in the middle.
    """
    height = _CONTACT_HEIGHT_M
    return measured_scatter(
        landings,
        level_scatter(level),
        contact=Contact(x_m=0.0, depth_m=home_depth_m(level, venue), height_m=height),
        pace_ms=rally_pace_ms(level, venue),
        topspin_rpm=level.rally_spin_rpm,
        landing_y_m=mean_depth_m,
        venue=venue,
    )
