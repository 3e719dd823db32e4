"""Launches, contacts and air as Hypothesis draws them: whole arrays of a few balls at once."""

import numpy as np
from hypothesis import strategies as st

from tactics.flight.constants import Air, Surface
from tactics.flight.motion import Motion, launches
from tactics.flight.strike import Strike


def _several(low: float, high: float, n: int) -> st.SearchStrategy[np.ndarray]:
    return st.lists(st.floats(low, high), min_size=n, max_size=n).map(np.array)


def shots(
    n: int = 4, *, has_spin: bool = True, elevation: tuple[float, float] = (-10.0, 60.0)
) -> st.SearchStrategy[Motion]:
    """n balls leaving the racket on the hitter's side, at human pace and spin."""
    spin = 4500.0 if has_spin else 0.0
    return st.builds(
        launches,
        x_m=_several(-6, 6, n),
        y_m=_several(-16, -1, n),
        z_m=_several(0.1, 3.0, n),
        pace_ms=_several(5, 60, n),
        elevation_deg=_several(*elevation, n),
        azimuth_deg=_several(-40, 40, n),
        topspin_rpm=_several(-spin, spin, n),
        sidespin_rpm=_several(-spin, spin, n),
    )


def baseline_strikes(n: int = 4) -> st.SearchStrategy[Strike]:
    """Contacts near the baseline with groundstroke spin."""
    return st.builds(
        Strike,
        x_m=_several(-5, 5, n),
        y_m=_several(-14, -9, n),
        z_m=_several(0.3, 1.8, n),
        topspin_rpm=_several(-2000, 3200, n),
        sidespin_rpm=_several(-1000, 1000, n),
    )


winds = st.builds(
    Air,
    density_kg_m3=st.floats(0.9, 1.3),
    wind_across_ms=st.floats(-10, 10),
    wind_along_ms=st.floats(-10, 10),
)
still_airs = st.builds(Air, density_kg_m3=st.floats(0.0, 1.3))
surfaces = st.builds(
    Surface,
    restitution=st.floats(0.6, 0.9),
    friction=st.floats(0.2, 1.0),
    grip_restitution=st.floats(0.0, 0.2),
)


def mirrored(motion: Motion) -> Motion:
    """The same balls seen in a mirror along the court; spin turns the other way but for its x."""
    return Motion(
        time_s=motion.time_s,
        position_m=motion.position_m * np.array([[-1.0], [1.0], [1.0]]),
        velocity_ms=motion.velocity_ms * np.array([[-1.0], [1.0], [1.0]]),
        spin_rad_s=motion.spin_rad_s * np.array([[1.0], [-1.0], [-1.0]]),
    )
