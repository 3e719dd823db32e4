"""Shots, places and times of an exchange in a coach's words: rounded, and in trade units."""

from math import isnan

from tactics.engine.candidate import Candidate
from tactics.engine.exchange import Flown
from tactics.engine.no_shot import NoShot, Why
from tactics.engine.wish import DEPTH, HEIGHT, PACE, InNumbers
from tactics.flight.constants import MS_PER_KMH
from tactics.flight.court import Court
from tactics.model.choice import Choice
from tactics.model.vocabulary import Vocabulary
from tactics.report.sentences import choice_words

_NEARLY = 0.05
_DECIMALS = {"m": 1, "s": 1, "km/h": 0, "%": 0}


def number(value: float, unit: str) -> str:
    """Return a rounded number with its unit: `1.4 m`, `87 km/h`."""
    return f"{bare(value, unit)} {unit}"


def bare(value: float, unit: str) -> str:
    """Return the rounded number alone."""
    written = f"{value:.{_DECIMALS[unit]}f}"
    written = written.rstrip("0").rstrip(".") if "." in written else written
    return "0" if written in ("-0", "") else written


def ranged(values: tuple[float, ...], unit: str) -> str:
    """Return the first value, with the range of all where it was given as a band."""
    first, low, high = (bare(each, unit) for each in (values[0], min(values), max(values)))
    return f"{first} {unit}" if low == high else f"{first} {unit} ({low} to {high} {unit})"


def kmh(pace_ms: float) -> str:
    """Return a pace in km/h."""
    return number(pace_ms / MS_PER_KMH, "km/h")


def choice_label(choice: Choice, numbers: InNumbers, words: Vocabulary) -> str:
    """Return a choice as it was asked: its words, then what was given in plain numbers."""
    said = [choice_words(choice, words)] if choice.parts else []
    if numbers.pace_ms is not None:
        said.append(f"pace {kmh(numbers.pace_ms)}")
    if numbers.topspin_rpm is not None:
        name = "topspin" if numbers.topspin_rpm >= 0 else "backspin"
        said.append(f"{name} {abs(numbers.topspin_rpm):.0f} rpm")
    if numbers.sidespin_rpm is not None:
        said.append(f"side spin {numbers.sidespin_rpm:.0f} rpm")
    return ", ".join(said)


def pace_words(candidate: Candidate) -> str:
    """Return the pace of a shot: `87 km/h, 80 % of the own best`."""
    return f"{kmh(candidate.pace_ms)}, {number(candidate.pace_pct, '%')} of the own best"


def side_of(x_m: float) -> str:
    """Return left or right, as the player looks."""
    return "left" if x_m < 0 else "right"


def off_middle(x_m: float) -> str:
    """Return a place between the sidelines: `0.7 m right of the middle`."""
    if abs(x_m) < _NEARLY:
        return "in the middle"
    return f"{number(abs(x_m), 'm')} {side_of(x_m)} of the middle"


def depth_words(depth_m: float, court: Court) -> str:
    """Return a distance from the net against the baseline: `1 m behind the baseline`."""
    behind = depth_m - court.half_length_m
    if abs(behind) < _NEARLY:
        return "on the baseline"
    if behind > 0:
        return f"{number(behind, 'm')} behind the baseline"
    if behind > -3.0:
        return f"{number(-behind, 'm')} inside the baseline"
    return f"{number(depth_m, 'm')} from the net"


def landing_words(flown: Flown) -> str:
    """Return where the ball lands: depth from the net and distance from the nearer sideline."""
    done, court = flown.exchanges, flown.candidate.moment.venue.court
    depth = ranged(tuple(done.landing_y_m), "m")
    x = float(done.landing_x_m[0])
    return f"{depth} from the net, {line_words(x, court)}{_out(flown)}"


def line_words(x_m: float, court: Court) -> str:
    """Return the distance from the nearer sideline, or that the ball is near the middle."""
    if abs(x_m) < 0.5:
        return off_middle(x_m)
    inside = court.half_width_m - abs(x_m)
    what = "inside" if inside >= 0 else "outside"
    return f"{number(abs(inside), 'm')} {what} the {side_of(x_m)} sideline"


def _out(flown: Flown) -> str:
    """Return a remark where the ball as meant lands out."""
    done, moment = flown.exchanges, flown.candidate.moment
    is_in = bool(moment.box.contains(done.landing_x_m[0], done.landing_y_m[0]))
    return "" if is_in else ": out as it is meant"


def hitter_words(flown: Flown) -> str:
    """Return how the hitter stands at the right place when the opponent hits."""
    done, moment = flown.exchanges, flown.candidate.moment
    run, home_x = float(done.run_m[0]), float(done.home_x_m[0])
    place = f"{off_middle(home_x)}, {depth_words(moment.home_depth_m, moment.venue.court)}"
    home = home_words(float(done.hitter_spare_s[0]), float(done.short_m[0]))
    return f"{number(run, 'm')} to the right place ({place}): {home}"


def home_words(spare_s: float, short_m: float) -> str:
    """Return whether the hitter is home as they hit."""
    if short_m >= _NEARLY:
        return f"still {number(short_m, 'm')} short as they hit"
    return f"there {number(max(spare_s, 0.0), 's')} before they hit"


def opponent_words(spare_s: float) -> str:
    """Return what the opponent has in hand or lacks."""
    if isnan(spare_s):
        return "cannot meet it at all"
    if spare_s >= 0:
        return f"{number(spare_s, 's')} to spare"
    return f"{number(-spare_s, 's')} too late for it"


def no_shot_words(found: NoShot) -> str:
    """Return why there is no shot, with the number in the way and what would do."""
    asked = dict(found.asked)
    match found.why:
        case Why.WINDOW_CLOSED:
            room = "at no pace" if isnan(found.most) else f"only below {kmh(found.most)}"
            return (
                f"no shot: at {kmh(found.value)} nothing that clears the net from here comes down "
                f"inside the lines; there is a window {room}"
            )
        case Why.TOO_FAST:
            needed = f"{_asked_words(asked)} needs {kmh(found.value)}"
            return f"no shot: {needed}, and the own best is {kmh(found.most)}"
        case Why.AROUND_THE_POST:
            return (
                f"no shot: it would cross {number(abs(found.value), 'm')} {side_of(found.value)} "
                f"of the middle, and the net ends at {number(found.most, 'm')}"
            )
        case Why.THROUGH_THE_NET:
            return f"no shot: {_asked_words(asked)} would go through the net"
        case Why.NO_LAUNCH:
            return f"no shot: from here no ball does {_asked_words(asked)}"


def _asked_words(asked: dict[str, float]) -> str:
    said = {
        HEIGHT: lambda value: f"{number(value, 'm')} over the net",
        DEPTH: lambda value: f"landing {number(value, 'm')} from the net",
        PACE: lambda value: f"at {kmh(value)}",
    }
    return " and ".join(said[part](value) for part, value in asked.items())
