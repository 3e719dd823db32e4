"""A choice in words -> a shot that can be flown, or the reason why there is none.

Height over the net, depth and pace hang together at a given spin: any two lead and the third
follows. A part given as a band is flown at a few points of it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from tactics.engine.leading import Row, is_lob, rows_of
from tactics.engine.no_shot import NoShot, Why, no_shot_of
from tactics.engine.position import Position
from tactics.engine.roads import target_x_m
from tactics.engine.typical import bounds
from tactics.engine.wish import DEPTH, HEIGHT, IN_WORDS, INSIDE, PACE, InNumbers, Wish
from tactics.flight.constants import MS_PER_KMH
from tactics.flight.launch import Aim, aim
from tactics.flight.limits import Quantity, Remark, check_numbers
from tactics.flight.moment import Moment
from tactics.flight.motion import Array
from tactics.flight.shots import Shots
from tactics.flight.strike import Branch
from tactics.model.choice import Choice
from tactics.model.known import Allowed, OneOf, Within
from tactics.model.vocabulary import Vocabulary

_PACE_SLACK_PCT = 5.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Candidate:
    """A choice made ready to fly.

    shots: the choice as it is meant, then the ends of its bands that can be played; empty where
    there is no shot. Where the middle of a band cannot be played, one of its ends is what is meant.
    pace_ms, pace_pct: the pace it has or would need, also against the own best for the stroke.
    taken: what the choice did not say, in words.
    """

    choice: Choice
    moment: Moment
    shots: Shots
    no_shot: NoShot | None
    pace_ms: float
    pace_pct: float
    taken: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()

    @property
    def exists(self) -> bool:
        """Say whether there is a shot."""
        return self.no_shot is None

    def first(self) -> Shots:
        """Return the shot as it is meant, alone."""
        return self.shots.only(np.array([0]))


def candidate_of(
    choice: Choice, position: Position, words: Vocabulary, numbers: InNumbers = IN_WORDS
) -> Candidate:
    """Return the shot that a choice stands for from this position."""
    wish = Wish(choice=choice, position=position, words=words, numbers=numbers)
    rows, leading = rows_of(wish)
    targets = np.array([target_x_m(wish, row[INSIDE]) for row in rows])
    done = _aimed(wish, rows, leading, targets)
    reasons = [
        no_shot_of(wish, done, leading, row, float(target), number)
        for number, (row, target) in enumerate(zip(rows, targets, strict=True))
    ]
    usable = np.array([n for n, why in enumerate(reasons) if why is None], dtype=np.intp)
    no_shot = None if usable.size else _nearest(reasons)
    meant = int(usable[0]) if usable.size else 0
    _note_other_end(wish, rows, meant)
    pace = float(done.pace_ms[meant])
    _note_pace(wish, leading, 100.0 * pace / wish.best_ms)
    return Candidate(
        choice=choice,
        moment=wish.moment,
        shots=_shots(wish, done).only(usable),
        no_shot=no_shot,
        pace_ms=pace,
        pace_pct=100.0 * pace / wish.best_ms,
        taken=tuple(wish.taken),
        remarks=_remarks(wish, rows[meant]),
    )


def _nearest(reasons: Sequence[NoShot | None]) -> NoShot | None:
    """Return why the middle of the bands is no shot; of balls too fast, the slowest."""
    fast = [each for each in reasons if each is not None and each.why is Why.TOO_FAST]
    if len(fast) < len(reasons):
        return reasons[0]
    return min(fast, key=lambda each: each.value)


def _note_other_end(wish: Wish, rows: list[Row], meant: int) -> None:
    """Note where the middle of a band cannot be played, and one of its ends is flown instead."""
    units = {PACE: ("km/h", MS_PER_KMH)}
    for part, value in rows[meant].items():
        if value != rows[0][part]:
            unit, one = units.get(part, ("m", 1.0))
            wish.take(
                f"{part}: {value / one:.3g} {unit}, as {rows[0][part] / one:.3g} {unit} is no shot"
            )


def _note_pace(wish: Wish, leading: tuple[str, str], needed_pct: float) -> None:
    """Note where a pace was asked for that height and depth do not have."""
    asked = bounds(wish.choice.get(PACE), wish.words.trait(PACE))
    if PACE in leading or asked is None or np.isnan(needed_pct):
        return
    low, high = asked
    if not low - _PACE_SLACK_PCT <= needed_pct <= high + _PACE_SLACK_PCT:
        wish.take(
            f"height, depth and pace do not go together: this height and depth need "
            f"{needed_pct:.0f} % of the own best"
        )


def choice_from(wanted: Mapping[str, Allowed]) -> Choice:
    """Return wanted values as a choice; multiples of scatter have to be metres already."""
    return Choice.of(
        {part: allowed for part, allowed in wanted.items() if isinstance(allowed, OneOf | Within)}
    )


def _aimed(wish: Wish, rows: list[Row], leading: tuple[str, str], targets: Array) -> Aim:
    columns = {part: np.array([row[part] for row in rows]) for part in leading}
    return aim(
        wish.strike,
        target_x_m=targets,
        pace_ms=columns.get(PACE),
        height_over_net_m=columns.get(HEIGHT),
        landing_y_m=columns.get(DEPTH),
        branch=Branch.LOB if is_lob(wish) and leading == (DEPTH, PACE) else Branch.DRIVE,
        court=wish.venue.court,
        air=wish.venue.air,
    )


def _shots(wish: Wish, done: Aim) -> Shots:
    spin, count = wish.spin, done.pace_ms.size
    return Shots(
        contact=wish.moment.contact,
        pace_ms=done.pace_ms,
        elevation_deg=done.elevation_deg,
        azimuth_deg=done.azimuth_deg,
        topspin_rpm=np.full(count, spin.topspin_rpm),
        sidespin_rpm=np.full(count, spin.sidespin_rpm),
    )


def _remarks(wish: Wish, asked: Row) -> tuple[Remark, ...]:
    """Return what cannot be or is odd about the numbers that were asked for."""
    spin = wish.spin
    numbers = {Quantity.TOPSPIN: spin.topspin_rpm, Quantity.SIDE_SPIN: spin.sidespin_rpm}
    for part, quantity, unit in (
        (HEIGHT, Quantity.HEIGHT_OVER_NET, 1.0),
        (DEPTH, Quantity.LANDING_DEPTH, 1.0),
        (PACE, Quantity.PACE, MS_PER_KMH),
    ):
        if part in asked:
            numbers[quantity] = asked[part] / unit
    return check_numbers(numbers, wish.venue.court)
