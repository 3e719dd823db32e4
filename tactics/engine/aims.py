"""A stroke and a wanted share of balls in -> how far inside the line and how high to aim."""

from dataclasses import dataclass

from tactics.engine.leading import usual_pace_ms
from tactics.engine.position import Position
from tactics.engine.roads import target_x_m
from tactics.engine.wish import IN_WORDS, PACE, InNumbers, Wish
from tactics.flight.constants import MS_PER_KMH
from tactics.flight.court import Area
from tactics.flight.limits import Quantity, Remark, check_numbers
from tactics.flight.margin import WANTED, Margin, Stroke, margin_curve, margin_for, most_pace_ms
from tactics.flight.ranges import OutOfRange
from tactics.flight.scatter import Scatter, strained_scatter
from tactics.model.choice import Choice
from tactics.model.vocabulary import Vocabulary

_NO_LINE = ("middle", "at body", "behind")


@dataclass(frozen=True, slots=True, kw_only=True)
class MarginFound:
    """The margin for the wanted share, the curve of others, and the pace that would be enough.

    margin: None where the stroke cannot be played at all. most_pace_ms: the highest pace at which
    the wanted share can be had, None where none of a third of the pace or more gives it.
    """

    stroke: Stroke
    pace_pct: float
    scatter: Scatter
    margin: Margin | OutOfRange | None
    curve: tuple[Margin | OutOfRange | None, ...]
    most_pace_ms: float | None
    taken: tuple[str, ...]
    remarks: tuple[Remark, ...]


def margin_found(
    choice: Choice,
    position: Position,
    words: Vocabulary,
    wanted_share: float,
    numbers: InNumbers = IN_WORDS,
) -> MarginFound:
    """Return the margin of a stroke: of its direction the side counts, of its parts the pace."""
    wish = Wish(choice=choice, position=position, words=words, numbers=numbers)
    pace = (wish.values(PACE) or (usual_pace_ms(wish),))[0]
    stroke = Stroke(
        contact=position.moment.contact,
        pace_ms=pace,
        topspin_rpm=wish.spin.topspin_rpm,
        line=_line(wish),
        area=position.moment.area,
        sidespin_rpm=wish.spin.sidespin_rpm,
    )
    moment, venue = position.moment, position.venue
    scatter = strained_scatter(moment.scatter, moment.strain, pace / moment.hitter_pace_ms)
    margin = margin_for(stroke, scatter, wanted_share, venue)
    slower = None
    if isinstance(margin, Margin) and not margin.is_enough:
        slower = most_pace_ms(stroke, scatter, wanted_share, venue)
    return MarginFound(
        stroke=stroke,
        pace_pct=100.0 * pace / wish.best_ms,
        scatter=scatter,
        margin=margin,
        curve=margin_curve(stroke, scatter, WANTED, venue),
        most_pace_ms=slower,
        taken=tuple(wish.taken),
        remarks=check_numbers(
            {Quantity.PACE: pace / MS_PER_KMH, Quantity.TOPSPIN: stroke.topspin_rpm}, venue.court
        ),
    )


def _line(wish: Wish) -> int:
    """Return which edge of the area the margin is measured from, by the direction."""
    if wish.road in _NO_LINE:
        wish.take(f"{wish.road} runs along no line: measured from the sideline all the same")
    if wish.position.is_serve:
        outer = 1 if wish.position.moment.area is Area.FROM_LEFT else -1
        return -outer if wish.road == "T" else outer
    return 1 if target_x_m(wish, 1.0) > 0 else -1


def usable(curve: tuple[Margin | OutOfRange | None, ...]) -> list[Margin]:
    """Return the margins of a curve that give what was wanted."""
    return [each for each in curve if isinstance(each, Margin) and each.is_enough]
