"""From what a shot should do to how it must leave the racket, or that it cannot be played.

At a given spin, pace, height over the net and landing depth hang together: any two give the third.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tactics.flight.constants import GRAVITY_MS2, STILL_AIR, Air
from tactics.flight.court import FULL_SINGLES, Court
from tactics.flight.motion import Array, Motion
from tactics.flight.search import Search, refine
from tactics.flight.strike import Branch, Goal, Setting, Strike, Turn, set_up
from tactics.flight.trajectory import Flight

FIRST_DEPTH_M = 8.0  # direction guess while the landing depth is still unknown
FASTEST_MS = 80.0
SLOWEST_MS = 3.0


class Cannot(StrEnum):
    """Why a shot cannot be played."""

    NO_LAUNCH = "no launch does it"
    THROUGH_THE_NET = "it would have to go through the net"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Aim:
    """Launches of n wanted shots and their flights; nan everywhere for a shot that has none.

    `elevation_deg`, `azimuth_deg` (degrees), `pace_ms` (m/s) and `height_over_net_m` are (n,).
    """

    elevation_deg: Array
    azimuth_deg: Array
    pace_ms: Array
    height_over_net_m: Array
    launch: Motion
    flight: Flight

    @property
    def is_possible(self) -> NDArray[np.bool_]:
        """Whether there is a launch, and the ball clears the net; (n,)."""
        return ~np.isnan(self.elevation_deg) & (self.height_over_net_m >= 0.0)

    def cannot(self, number: int) -> Cannot | None:
        """Why shot `number` cannot be played, or None when it can."""
        if np.isnan(self.elevation_deg[number]):
            return Cannot.NO_LAUNCH
        return Cannot.THROUGH_THE_NET if self.height_over_net_m[number] < 0.0 else None


def aim(
    strike: Strike,
    *,
    target_x_m: ArrayLike,
    pace_ms: ArrayLike | None = None,
    height_over_net_m: ArrayLike | None = None,
    landing_y_m: ArrayLike | None = None,
    branch: Branch = Branch.DRIVE,
    court: Court = FULL_SINGLES,
    air: Air = STILL_AIR,
) -> Aim:
    """Launches that land at target x with two of: pace, height over the net, landing depth.

    Everything broadcasts to n shots, in metres and m/s in the hitter's frame. Two elevations may
    do at a given pace: the drive unless the lob is asked for.
    """
    wanted = (pace_ms, height_over_net_m, landing_y_m)
    if sum(each is not None for each in wanted) != 2:
        raise ValueError("aim takes exactly two of pace, height over net and landing depth")
    setting, (target, pace, height, depth) = set_up(
        strike, court, air, target_x_m, *(np.nan if each is None else each for each in wanted)
    )
    x, y = setting.strike[:2]
    toward = FIRST_DEPTH_M if landing_y_m is None else depth
    azimuth = np.degrees(np.arctan2(target - x, toward - y))
    if pace_ms is None:
        turns = first_guess(setting, azimuth, height, depth)
        goals = {Goal.HEIGHT_OVER_NET: height, Goal.LANDING_X: target, Goal.LANDING_Y: depth}
        return described(setting, refine(setting, turns, tuple(Turn), goals))
    goal, value = (Goal.HEIGHT_OVER_NET, height) if landing_y_m is None else (Goal.LANDING_Y, depth)
    turns = np.stack([np.zeros_like(pace), azimuth, pace])
    search = Search(setting=setting, turns=turns, goal=goal, wanted=value, branch=branch)
    turns[Turn.ELEVATION] = search.find()
    goals = {goal: value, Goal.LANDING_X: target}
    return described(setting, refine(setting, turns, (Turn.ELEVATION, Turn.AZIMUTH), goals))


def described(setting: Setting, turns: Array) -> Aim:
    """The flights of solved launches (3, n), with nan for those without a solution."""
    everyone = np.arange(turns.shape[1])
    flight = setting.fly(turns, everyone)
    found = np.asarray(~np.isnan(turns).any(axis=0))
    height = setting.effects_of(flight)[Goal.HEIGHT_OVER_NET]
    elevation, azimuth, pace = turns
    return Aim(
        elevation_deg=elevation,
        azimuth_deg=azimuth,
        pace_ms=pace,
        height_over_net_m=np.where(found, height, np.nan),
        launch=setting.launch(turns, everyone).where(found),
        flight=flight,
    )


def first_guess(setting: Setting, azimuth_deg: Array, height_m: Array, depth_m: Array) -> Array:
    """Launches of the parabola through contact, net point and landing, with spin and drag added."""
    x, y, z, topspin, _ = setting.strike
    ball = setting.court.ball
    straight = np.cos(np.radians(azimuth_deg))
    to_net, to_landing = -y / straight, (depth_m - y) / straight
    at_net_x = x - y * np.tan(np.radians(azimuth_deg))
    net_z = setting.court.net_height_m(at_net_x) + ball.radius_m + height_m
    chord = (ball.radius_m - z) / to_landing
    with np.errstate(divide="ignore", invalid="ignore"):
        bend = (net_z - z - to_net * chord) / (to_net * (to_landing - to_net))
    bend = np.where((bend > 0.0) & (to_net > 0.0) & (to_landing > to_net), bend, np.nan)
    k = setting.air.density_kg_m3 * np.pi * ball.radius_m**2 / (2 * ball.mass_kg)
    turn = ball.radius_m * topspin * np.pi / 30
    pull = np.full_like(bend, GRAVITY_MS2)
    for _ in range(4):
        level = np.sqrt(pull / (2 * bend))
        lift = k * ball.lift_share * turn * level / (1 + 2 * np.abs(turn) / level)
        pull = np.maximum(GRAVITY_MS2 + lift, 2.0)
    elevation = np.arctan(chord + bend * to_landing)
    pace = level * np.exp(k * ball.drag * to_landing / 2) / np.cos(elevation)
    pace = np.clip(pace, SLOWEST_MS, FASTEST_MS)
    return np.stack([np.degrees(elevation), azimuth_deg, pace])
