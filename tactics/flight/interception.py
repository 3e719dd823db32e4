"""Where and when the opponent can meet a ball, and with how much time to spare."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from tactics.flight.bounce import bounce
from tactics.flight.motion import Array, Motion
from tactics.flight.normal import Index, Mask
from tactics.flight.path import trace
from tactics.flight.venue import Venue

SAMPLE_S: Final = 0.1
BEHIND_BASELINE_M: Final = 5.0  # nobody plays from further back
_BOUNCED_HEIGHT_M: Final = (0.12, 2.3)
_AIR_HEIGHT_M: Final = (0.12, 2.5)
_AIR_DEPTH_M: Final = (0.3, 7.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Meetings:
    """m moments at which a ball can be met, arrays (m,): time (s) since the hitter's contact,
    place (m), time since the bounce (s, infinite in the air); `ball` says which ball it is.
    """

    ball: Index
    time_s: Array
    x_m: Array
    y_m: Array
    height_m: Array
    since_bounce_s: Array

    def __len__(self) -> int:
        """Number of meetings."""
        return int(self.time_s.size)

    def only(self, which: Index | Mask) -> "Meetings":
        """The meetings picked by a mask or by indices."""
        return Meetings(
            ball=self.ball[which],
            time_s=self.time_s[which],
            x_m=self.x_m[which],
            y_m=self.y_m[which],
            height_m=self.height_m[which],
            since_bounce_s=self.since_bounce_s[which],
        )

    @property
    def is_in_air(self) -> Mask:
        """Whether the ball has not bounced yet, (m,)."""
        return np.asarray(np.isinf(self.since_bounce_s))


def meetings(
    launch: Motion,
    landing: Motion,
    venue: Venue,
    *,
    in_air: bool = True,
    sample_s: float = SAMPLE_S,
) -> Meetings:
    """Every workable moment on the paths of n balls that land in, before their second bounce.

    `in_air` also lets the opponent volley; a serve may not be.
    """
    after = bounce(landing, surface=venue.surface, ball=venue.ball)
    bounced = _samples(after, venue, sample_s)
    low, high = _BOUNCED_HEIGHT_M
    far = venue.court.half_length_m + BEHIND_BASELINE_M
    parts = [_within(bounced, (low, high), (0.0, far), after.time_s)]
    if in_air:
        near, deep = _AIR_DEPTH_M
        flying = _samples(launch, venue, sample_s)
        parts.append(_within(flying, _AIR_HEIGHT_M, (near, deep * venue.length_scale), None))
    return _together(parts)


def _samples(start: Motion, venue: Venue, sample_s: float) -> Array:
    """Time, x, y, z (4, steps, n) from the start on, every `sample_s`; time is nan once down."""
    path = trace(start, ball=venue.ball, air=venue.air, step_s=sample_s)
    places = path.states[1:, :3].swapaxes(0, 1)
    # once down it stays down: the next bounce ends the path
    is_up = np.logical_and.accumulate(places[2] >= venue.ball.radius_m, axis=0)
    counts = np.arange(1, places.shape[1] + 1)
    time_s = np.where(is_up, start.time_s + sample_s * counts[:, None], np.nan)
    return np.concatenate([time_s[None], places])


def _within(
    samples: Array,
    heights: tuple[float, float],
    depths: tuple[float, float],
    bounced_at_s: Array | None,
) -> Meetings:
    time, x, y, z = samples
    workable = (z >= heights[0]) & (z <= heights[1]) & (y > depths[0]) & (y <= depths[1])
    step, ball = np.nonzero(workable & ~np.isnan(time))
    when = time[step, ball]
    since = np.full(when.size, np.inf) if bounced_at_s is None else when - bounced_at_s[ball]
    return Meetings(
        ball=ball,
        time_s=when,
        x_m=x[step, ball],
        y_m=y[step, ball],
        height_m=z[step, ball],
        since_bounce_s=since,
    )


def _together(parts: list[Meetings]) -> Meetings:
    return Meetings(
        ball=np.concatenate([each.ball for each in parts]),
        time_s=np.concatenate([each.time_s for each in parts]),
        x_m=np.concatenate([each.x_m for each in parts]),
        y_m=np.concatenate([each.y_m for each in parts]),
        height_m=np.concatenate([each.height_m for each in parts]),
        since_bounce_s=np.concatenate([each.since_bounce_s for each in parts]),
    )
