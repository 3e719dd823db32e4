"""Exchanges as text: one shot in full, or several side by side."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from tactics.engine.candidate import Candidate
from tactics.engine.exchange import Flown
from tactics.engine.position import Position
from tactics.flight.exchange import Exchanges
from tactics.flight.motion import Array
from tactics.flight.point import PointOrder
from tactics.report.layout import Section, bullet, definitions, table, wrapped
from tactics.report.shot_words import (
    depth_words,
    hitter_words,
    inside_line_m,
    kmh,
    landing_words,
    no_shot_words,
    number,
    off_middle,
    opponent_words,
    pace_words,
    ranged,
)

BEST = "*"
OVER_REACH = "over reach"
OVER_REACH_M = 2.6
"""A ball that is still higher than this behind the baseline is let down, or met before."""
_REPLIES = 5
_NEARLY = 0.05


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shown:
    """A candidate as it is shown: under which number and name. flown: None where no shot is."""

    number: int
    label: str
    candidate: Candidate
    flown: Flown | None


def in_order(
    candidates: Sequence[tuple[str, Candidate, Flown | None]], order: PointOrder
) -> tuple[Shown, ...]:
    """Return the candidates numbered from the best estimate on; those without a shot last."""
    rest = [place for place in range(len(candidates)) if place not in order.numbers]
    return tuple(
        Shown(number=number, label=label, candidate=candidate, flown=flown)
        for number, place in enumerate((*order.numbers, *rest), start=1)
        for label, candidate, flown in [candidates[place]]
    )


def taken_section(position: Position, shown: Sequence[Shown]) -> Section:
    """Return what nobody said and was taken as given."""
    lines: list[str] = []
    for sentence in position.taken:
        lines += bullet(sentence, "  ")
    for each in shown:
        if each.candidate.taken:
            named = f"shot {each.number}: " if len(shown) > 1 else ""
            lines += bullet(f"{named}{'; '.join(each.candidate.taken)}", "  ")
    return Section(title="Taken as given", lines=tuple(lines))


def one_shot_sections(shown: Shown, position: Position) -> tuple[Section, ...]:
    """Return everything about one shot but the estimate of the point."""
    name = wrapped(shown.label, "  ", "  ")
    flown = shown.flown
    if flown is None:
        found = shown.candidate.no_shot
        reason = wrapped(no_shot_words(found), "  ") if found is not None else ()
        return (Section(title="Shot", lines=(*name, *reason)),)
    done = flown.exchanges
    pairs = [
        ("over the net", ranged(tuple(done.height_over_net_m), "m")),
        ("pace", pace_words(flown.candidate)),
        ("lands", f"{landing_words(flown)}, after {number(float(done.flight_time_s[0]), 's')}"),
        ("of 100 balls", _shares_words(flown)),
        ("they meet it", _contact_words(flown)),
        ("you", hitter_words(flown)),
        ("they", opponent_words(float(done.opponent_spare_s[0]))),
    ]
    return (
        Section(
            title=f"Shot, estimated {level_words(position)}", lines=(*name, *definitions(pairs))
        ),
        Section(
            title="Their replies, the surest first, and how many of 100 land in",
            lines=_reply_lines(flown),
        ),
    )


def level_words(position: Position) -> str:
    """Return whose scatter the shares come from, and how much the situation adds to it."""
    factor = position.moment.strain.factor
    times = f"{factor:.2f}".rstrip("0").rstrip(".")
    if position.landings is not None:
        whose = f"with the own scatter of {position.landings.n} balls"
        return whose if factor == 1.0 else f"{whose} times {times}"
    whose = f"at {position.moment.hitter.name} level"
    return whose if factor == 1.0 else f"{whose}, {times} times the usual scatter"


def _shares_words(flown: Flown) -> str:
    shares = flown.exchanges.shares
    said = [f"{hundred(float(shares.into_court[0]))} in ({in_range(flown)})"]
    for share, name in (
        (shares.into_net, "in the net"),
        (shares.long, "long"),
        (shares.wide, "wide"),
    ):
        said.append(f"{hundred(float(share[0]))} {name}")
    return f"{said[0]}: {', '.join(said[1:])}"


def hundred(share: float) -> int:
    """Return a share as a number of 100 balls."""
    return round(100.0 * share)


def in_range(flown: Flown) -> str:
    """Return the range of balls in: over the player's scatter, and over the bands of the choice."""
    inside = flown.exchanges.shares.into_court
    low, high = min(flown.in_low, float(inside.min())), max(flown.in_high, float(inside.max()))
    return f"{hundred(low)} to {hundred(high)}"


def _contact_words(flown: Flown) -> str:
    done, court = flown.exchanges, flown.candidate.moment.venue.court
    if np.isnan(done.contact_time_s[0]):
        return "never: it is down twice before anybody could be there"
    after = ranged(tuple(done.contact_time_s), "s")
    x, y, height = (float(each[0]) for each in _contact(done))
    where = f"{depth_words(y, court)}, {off_middle(x)}"
    if height > OVER_REACH_M:
        return f"after {after}, or earlier or later: it is over their reach {where}"
    return f"after {after}, {number(height, 'm')} high, {where}"


def _contact(done: Exchanges) -> tuple[Array, Array, Array]:
    return done.contact_x_m, done.contact_y_m, done.contact_height_m


def _reply_lines(flown: Flown) -> tuple[str, ...]:
    court = flown.candidate.moment.venue.court
    rows = [
        (
            off_middle(reply.target_x_m),
            depth_words(reply.target_depth_m, court),
            kmh(reply.pace_ms),
            f"{reply.time_s:.1f} s",
            f"{hundred(reply.share_in)}",
        )
        for reply in flown.replies[:_REPLIES]
    ]
    return table(("to", "lands", "pace", "time", "in"), rows, frozenset({2, 3, 4}))


def several_sections(shown: Sequence[Shown], position: Position) -> tuple[Section, ...]:
    """Return candidates side by side, the best of each column marked."""
    flown = [each for each in shown if each.flown is not None]
    names = [line for each in shown for line in _name_lines(each)]
    return (
        Section(title="Shots, the best estimate of the point first", lines=tuple(names)),
        Section(
            title=f"Of 100 balls, estimated {level_words(position)}",
            lines=(*_table(flown, _BALL_COLUMNS), *(_inside_lines(position) if flown else ())),
        ),
        Section(
            title="Time, estimated: how early you are home, and what they have to spare",
            lines=(*_table(flown, _TIME_COLUMNS), *_over_reach_lines(flown)),
        ),
    )


def _inside_lines(position: Position) -> tuple[str, ...]:
    """Return what `inside` is measured from."""
    line = "line beside it" if position.is_serve else "sideline"
    return wrapped(f"inside: the landing place from the nearer {line}", "  ")


def _over_reach_lines(shown: Sequence[Shown]) -> tuple[str, ...]:
    """Return what `over reach` means, where it stands in the table."""
    if all(each.flown is None or _met_at(each.flown) != OVER_REACH for each in shown):
        return ()
    text = (
        f"{OVER_REACH}: still higher than {number(OVER_REACH_M, 'm')} where they would stand; "
        "they meet it earlier, or let it drop further back"
    )
    return wrapped(text, "  ")


def _name_lines(shown: Shown) -> tuple[str, ...]:
    lines = wrapped(f"{shown.number}  {shown.label}", "  ", "     ")
    if shown.candidate.no_shot is None:
        return lines
    return (*lines, *wrapped(no_shot_words(shown.candidate.no_shot), "     "))


Column = tuple[str, Callable[[Flown], str], Callable[[Flown], float] | None]
"""A heading, what stands in it, and what is best when largest (None: nothing to be best at)."""


def _table(shown: Sequence[Shown], columns: Sequence[Column]) -> tuple[str, ...]:
    best = [_best(shown, worth) for _, _, worth in columns]
    rows = [
        (
            str(each.number),
            *(
                f"{write(each.flown)}{BEST if each.number in best[place] else ' '}"
                for place, (_, write, _) in enumerate(columns)
                if each.flown is not None
            ),
        )
        for each in shown
    ]
    header = ("", *(f"{name} " for name, _, _ in columns))
    lines = table(header, rows, frozenset(range(1, len(header))))
    legend = wrapped(f"{BEST} best in its column", "  ") if any(best) and lines else ()
    return (*lines, *legend)


def _best(shown: Sequence[Shown], worth: Callable[[Flown], float] | None) -> frozenset[int]:
    """Return the numbers of the best; nobody where all are alike or only one is there."""
    if worth is None or len(shown) < 2:
        return frozenset()
    values = {each.number: worth(each.flown) for each in shown if each.flown is not None}
    top = max(values.values())
    best = frozenset(number for number, value in values.items() if value >= top)
    return best if len(best) < len(values) else frozenset()


def _first(name: str) -> Callable[[Flown], float]:
    return lambda flown: float(getattr(flown.exchanges, name)[0])


def _of_shares(name: str) -> Callable[[Flown], float]:
    return lambda flown: float(getattr(flown.exchanges.shares, name)[0])


def _written(name: str, unit: str) -> Callable[[Flown], str]:
    return lambda flown: number(float(getattr(flown.exchanges, name)[0]), unit)


def _share_column(name: str, heading: str, sign: int) -> Column:
    share = _of_shares(name)
    return (
        heading,
        lambda flown: str(hundred(share(flown))),
        lambda flown: sign * hundred(share(flown)),
    )


def _inside(flown: Flown) -> str:
    x = float(flown.exchanges.landing_x_m[0])
    return number(inside_line_m(x, flown.candidate.moment), "m")


def _met_at(flown: Flown) -> str:
    height = float(flown.exchanges.contact_height_m[0])
    return OVER_REACH if height > OVER_REACH_M else number(height, "m")


def _home(flown: Flown) -> str:
    spare, short = _first("hitter_spare_s")(flown), _first("short_m")(flown)
    if short >= _NEARLY:
        return f"{number(short, 'm')} short"
    return "just home" if spare < _NEARLY else f"{number(spare, 's')} early"


def _spare(flown: Flown) -> str:
    spare = _first("opponent_spare_s")(flown)
    if np.isnan(spare):
        return "never"
    return f"{number(-spare, 's')} late" if spare <= -_NEARLY else number(spare, "s")


def _rounded(name: str, sign: int) -> Callable[[Flown], float]:
    value = _first(name)
    return lambda flown: sign * round(value(flown), 1)


_BALL_COLUMNS: tuple[Column, ...] = (
    ("over net", _written("height_over_net_m", "m"), None),
    ("lands", _written("landing_y_m", "m"), None),
    ("inside", _inside, None),
    ("pace", lambda flown: kmh(flown.candidate.pace_ms), None),
    _share_column("into_court", "in", 1),
    ("likely", in_range, None),
    _share_column("into_net", "net", -1),
    _share_column("long", "long", -1),
    _share_column("wide", "wide", -1),
)
_TIME_COLUMNS: tuple[Column, ...] = (
    ("flight", _written("flight_time_s", "s"), None),
    ("they hit after", _written("contact_time_s", "s"), _rounded("contact_time_s", 1)),
    ("met at", _met_at, None),
    ("you", _home, _rounded("hitter_spare_s", 1)),
    ("they", _spare, _rounded("opponent_spare_s", -1)),
)  # fmt: skip
