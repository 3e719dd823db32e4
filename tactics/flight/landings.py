"""A player's own scatter from landing places: robust to a few shanks, with n and intervals."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from tactics.flight.flat_fire import flat_fire, flat_spread
from tactics.flight.motion import Array
from tactics.flight.normal import normal_quantile
from tactics.flight.ranges import OutOfRange, out_of_range
from tactics.flight.scatter import Scatter
from tactics.flight.shots import Contact
from tactics.flight.venue import FULL_COURT, Venue

LEAST_BALLS: Final = 8
MOST_BALLS: Final = 100_000
MOST_SET_ASIDE: Final = 0.2  # more strange balls than this are no shanks but the player's scatter
CONFIDENCE: Final = 0.9
NUMBER_OF_BALLS: Final = "number of balls"
PLACES: Final = ("sideways place", "depth")
FARTHEST_M: Final = 40.0
LEAST_SPREAD_M: Final = 0.05  # less is a sheet filled in, not balls measured
MOST_SPREAD_M: Final = 15.0
_STRANGE: Final = 3.5  # times the robust spread: a ball that belongs to another stroke
_MAD_TO_SD: Final = 1.4826


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """One standard deviation (m) and the middle of the balls (m), with intervals at `CONFIDENCE`.

    The middle lies between `middle_low_m` and `middle_high_m` (Student's t).
    """

    sd_m: float
    low_m: float
    high_m: float
    middle_m: float
    middle_low_m: float
    middle_high_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LandingScatter:
    """Measured scatter: `n` balls counted, `set_aside` shanks left out; sideways and in depth.

    With targets the middles are how far the player's balls land from them on average.
    """

    n: int
    set_aside: int
    sideways: Spread
    depth: Spread


def fit_landings(
    x_m: Sequence[float], y_m: Sequence[float]
) -> LandingScatter | tuple[OutOfRange, ...]:
    """Scatter of landing places, or of errors from targets: x sideways, y in depth (m).

    Balls further than 3.5 robust spreads from the middle in either way are set aside, unless that
    were more than a fifth of all.
    """
    x, y = np.asarray(x_m, dtype=np.float64), np.asarray(y_m, dtype=np.float64)
    problems = _problems(x, y)
    if problems:
        return problems
    kept = _is_usual(x) & _is_usual(y)
    if np.count_nonzero(~kept) > MOST_SET_ASIDE * len(kept):
        kept = np.ones(len(kept), dtype=bool)
    found = LandingScatter(
        n=int(np.count_nonzero(kept)),
        set_aside=int(np.count_nonzero(~kept)),
        sideways=_spread(x[kept]),
        depth=_spread(y[kept]),
    )
    strange = [
        out_of_range(name, spread.sd_m, LEAST_SPREAD_M, MOST_SPREAD_M, "m")
        for name, spread in (("sideways scatter", found.sideways), ("depth scatter", found.depth))
    ]
    return tuple(each for each in strange if each is not None) or found


def measured_scatter(
    landings: LandingScatter,
    preset: Scatter,
    *,
    contact: Contact,
    pace_ms: float,
    topspin_rpm: float,
    landing_y_m: float,
    venue: Venue = FULL_COURT,
) -> Scatter:
    """Angles and speed that explain the measured scatter of one stroke.

    Sideways scatter gives the azimuth; elevation and speed keep the preset's proportion and are
    scaled until their depth scatter is the measured one. Spin is the preset's.
    """
    distance = landing_y_m + contact.depth_m
    shot = flat_fire(
        distance_m=distance,
        start_height_m=contact.height_m,
        pace_ms=pace_ms,
        topspin_rpm=topspin_rpm,
        drag=venue.flat_drag(),
    )
    expected = flat_spread(
        shot,
        contact.depth_m,
        np.radians(preset.sd_elevation_deg),
        np.radians(preset.sd_azimuth_deg),
        preset.sd_speed,
    )
    ratio = landings.depth.sd_m / float(expected.depth_m)
    return Scatter(
        sd_elevation_deg=preset.sd_elevation_deg * ratio,
        sd_azimuth_deg=float(np.degrees(landings.sideways.sd_m / distance)),
        sd_speed=preset.sd_speed * ratio,
        sd_spin=preset.sd_spin,
    )


def _problems(x: Array, y: Array) -> tuple[OutOfRange, ...]:
    found = [out_of_range(NUMBER_OF_BALLS, float(len(x)), LEAST_BALLS, MOST_BALLS)]
    if len(y) != len(x):
        found.append(out_of_range("number of depths", float(len(y)), len(x), len(x)))
    for name, values in zip(PLACES, (x, y), strict=True):
        strange = values[~(np.abs(values) <= FARTHEST_M)]
        found += [out_of_range(name, float(each), -FARTHEST_M, FARTHEST_M, "m") for each in strange]
    return tuple(each for each in found if each is not None)


def _is_usual(values: Array) -> npt.NDArray[np.bool_]:
    """Which balls belong together; the spread of the kept ones lets wrong exclusions back."""
    middle = np.median(values)
    away = np.abs(values - middle)
    spread = _MAD_TO_SD * np.median(away)
    if spread == 0.0:
        spread = np.std(values)
    kept: npt.NDArray[np.bool_] = away <= _STRANGE * spread
    for _ in range(5):
        again = np.abs(values - values[kept].mean()) <= _STRANGE * values[kept].std(ddof=1)
        if np.array_equal(again, kept) or np.count_nonzero(again) < LEAST_BALLS // 2:
            break
        kept = again
    return kept


def _spread(values: Array) -> Spread:
    free = len(values) - 1
    sd = float(values.std(ddof=1))
    tail = (1.0 - CONFIDENCE) / 2.0
    middle, away = float(np.mean(values)), _student_t(1.0 - tail, free) * sd / len(values) ** 0.5
    return Spread(
        sd_m=sd,
        low_m=sd * (free / _chi_square(1.0 - tail, free)) ** 0.5,
        high_m=sd * (free / _chi_square(tail, free)) ** 0.5,
        middle_m=middle,
        middle_low_m=middle - away,
        middle_high_m=middle + away,
    )


def _student_t(share: float, free: int) -> float:
    """Quantile of Student's t by Cornish and Fisher's series; within 0.2 % from 7 degrees on."""
    z = normal_quantile(share)
    first = (z**3 + z) / 4.0
    second = (5.0 * z**5 + 16.0 * z**3 + 3.0 * z) / 96.0
    third = (3.0 * z**7 + 19.0 * z**5 + 17.0 * z**3 - 15.0 * z) / 384.0
    return z + first / free + second / free**2 + third / free**3


def _chi_square(share: float, free: int) -> float:
    """Quantile of chi square by Wilson and Hilferty's cube root; within 1 % from 7 degrees on."""
    part = 2.0 / (9.0 * free)
    return float(free * (1.0 - part + normal_quantile(share) * part**0.5) ** 3)
