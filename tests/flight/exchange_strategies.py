"""Moments and shots as Hypothesis draws them: a hitter, an opponent, one contact, a few shots."""

from dataclasses import replace

import numpy as np
from hypothesis import strategies as st

from tactics.flight.launch import aim
from tactics.flight.levels import BEGINNER, CLUB, COMPETITIVE, TOUR
from tactics.flight.moment import Moment
from tactics.flight.scatter import Balance, Strain
from tactics.flight.shots import Contact, Shots
from tactics.flight.strike import Strike
from tactics.flight.venue import Venue

LEVELS = st.sampled_from([BEGINNER, CLUB, COMPETITIVE, TOUR])
contacts = st.builds(
    Contact, x_m=st.floats(-5, 5), depth_m=st.floats(9, 14), height_m=st.floats(0.4, 1.5)
)
moments = st.builds(
    Moment,
    contact=contacts,
    hitter=LEVELS,
    opponent=LEVELS,
    strain=st.builds(Strain, balance=st.sampled_from(Balance)),
    opponent_x_m=st.floats(-4, 4),
    opponent_depth_m=st.floats(1.5, 14),
)
targets = st.lists(st.tuples(st.floats(-3.8, 3.8), st.floats(6, 10.5)), min_size=1, max_size=3)


def high_balls(moment: Moment, places: list[tuple[float, float]], height_m: float = 1.2) -> Shots:
    """Shots that land at those places and go that high over the net; the pace follows."""
    x, y = np.array(places).T
    return aimed_shots(moment.contact, x, y, height_m, 1200.0, moment.venue)


def aimed_shots(
    contact: Contact,
    x: np.ndarray,
    y: np.ndarray | float,
    height_m: np.ndarray | float,
    spin: float,
    venue: Venue,
) -> Shots:
    done = aim(
        Strike(x_m=contact.x_m, y_m=-contact.depth_m, z_m=contact.height_m, topspin_rpm=spin),
        target_x_m=x,
        height_over_net_m=height_m,
        landing_y_m=y,
        court=venue.court,
        air=venue.air,
    )
    return Shots(
        contact=contact,
        pace_ms=done.pace_ms,
        elevation_deg=done.elevation_deg,
        azimuth_deg=done.azimuth_deg,
        topspin_rpm=np.full(len(done.pace_ms), spin),
        sidespin_rpm=np.zeros(len(done.pace_ms)),
    )


def mirrored_moment(moment: Moment) -> Moment:
    contact = replace(moment.contact, x_m=-moment.contact.x_m)
    air = replace(moment.venue.air, wind_across_ms=-moment.venue.air.wind_across_ms)
    return replace(
        moment,
        contact=contact,
        opponent_x_m=-moment.opponent_x_m,
        venue=replace(moment.venue, air=air),
    )


def mirrored_shots(shots: Shots) -> Shots:
    return replace(
        shots,
        contact=replace(shots.contact, x_m=-shots.contact.x_m),
        azimuth_deg=-shots.azimuth_deg,
        sidespin_rpm=-shots.sidespin_rpm,
    )
