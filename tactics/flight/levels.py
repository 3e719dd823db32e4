"""What a level of player is taken to do: scatter, pace, running, reaction. All assumptions."""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """One level: angles in degrees, speeds in m/s, relative errors as fractions.

    `still_good_s`, `reply_odds` and `point_odds` come from the calibration "between equals a
    neutral rally is worth one half" (see `calibration.py`).
    """

    name: str
    sd_elevation_deg: float
    sd_azimuth_deg: float
    sd_speed: float
    sd_spin: float
    rally_pace_ms: float
    rally_spin_rpm: float
    serve_pace_ms: float
    acceleration_ms2: float
    top_speed_ms: float
    reaction_s: float
    serve_reaction_s: float
    behind_baseline_m: float
    rally_spare_s: float
    reply_odds: float
    point_odds: float


# Scatter "in degrees by level" is published nowhere known; running is shaped on sprint profiles.
# The ranges of the four anchor rows: elevation 0.7-1.3, 1.0-1.8, 1.6-3.0, 2.5-5 degrees; azimuth
# 1.3-2.3, 2.0-3.2, 3-5, 4-8 degrees (tour, competitive, club, beginner).
TOUR: Final = Level(
    name="tour",
    sd_elevation_deg=1.0,
    sd_azimuth_deg=1.8,
    sd_speed=0.045,
    sd_spin=0.10,
    rally_pace_ms=33.0,
    rally_spin_rpm=2700.0,
    serve_pace_ms=52.0,
    acceleration_ms2=7.0,
    top_speed_ms=8.0,
    reaction_s=0.10,
    serve_reaction_s=0.18,
    behind_baseline_m=2.0,
    rally_spare_s=1.08,
    reply_odds=-0.401,
    point_odds=-0.453,
)
COMPETITIVE: Final = Level(
    name="competitive",
    sd_elevation_deg=1.4,
    sd_azimuth_deg=2.6,
    sd_speed=0.055,
    sd_spin=0.12,
    rally_pace_ms=29.0,
    rally_spin_rpm=2200.0,
    serve_pace_ms=44.0,
    acceleration_ms2=6.5,
    top_speed_ms=7.5,
    reaction_s=0.14,
    serve_reaction_s=0.21,
    behind_baseline_m=1.5,
    rally_spare_s=1.14,
    reply_odds=0.029,
    point_odds=0.224,
)
CLUB: Final = Level(
    name="club",
    sd_elevation_deg=2.2,
    sd_azimuth_deg=4.0,
    sd_speed=0.08,
    sd_spin=0.20,
    rally_pace_ms=21.0,
    rally_spin_rpm=1000.0,
    serve_pace_ms=35.0,
    acceleration_ms2=5.5,
    top_speed_ms=6.5,
    reaction_s=0.18,
    serve_reaction_s=0.25,
    behind_baseline_m=1.0,
    rally_spare_s=1.64,
    reply_odds=0.312,
    point_odds=0.223,
)
BEGINNER: Final = Level(
    name="beginner",
    sd_elevation_deg=3.5,
    sd_azimuth_deg=6.0,
    sd_speed=0.13,
    sd_spin=0.30,
    rally_pace_ms=17.5,
    rally_spin_rpm=0.0,
    serve_pace_ms=25.0,
    acceleration_ms2=4.5,
    top_speed_ms=5.5,
    reaction_s=0.25,
    serve_reaction_s=0.30,
    behind_baseline_m=0.5,
    rally_spare_s=1.86,
    reply_odds=0.678,
    point_odds=0.746,
)


def _between(name: str, lower: Level, upper: Level) -> Level:
    """The level half way between two, number by number."""
    return Level(
        name=name,
        **{
            field: 0.5 * (getattr(lower, field) + getattr(upper, field))
            for field in Level.__dataclass_fields__
            if field != "name"
        },
    )


IMPROVER: Final = _between("improver", BEGINNER, CLUB)
PERFORMANCE: Final = _between("performance", COMPETITIVE, TOUR)

LEVELS: Final = {
    level.name: level for level in (BEGINNER, IMPROVER, CLUB, COMPETITIVE, PERFORMANCE, TOUR)
}
