"""Shots, places and times of an exchange in a coach's words: rounded, and in trade units."""

from math import isnan

from tactics.engine.candidate import Candidate
from tactics.engine.exchange import Flown
from tactics.engine.no_shot import NoShot, Why
from tactics.engine.wish import DEPTH, HEIGHT, PACE, InNumbers
from tactics.flight.constants import MS_PER_KMH
from tactics.flight.court import Court
from tactics.flight.moment import Moment
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
    done, moment = flown.exchanges, flown.candidate.moment
    depth = ranged(tuple(done.landing_y_m), "m")
    x = float(done.landing_x_m[0])
    return f"{depth} from the net, {line_words(x, moment)}{_out(flown)}"


def inside_line_m(x_m: float, moment: Moment) -> float:
    """Return the distance (m) from the nearer line beside the ball, negative outside.

    For a serve that may be the centre line.
    """
    if moment.is_serve:
        return min(x_m - moment.box.x_low_m, moment.box.x_high_m - x_m)
    return moment.venue.court.half_width_m - abs(x_m)


def line_words(x_m: float, moment: Moment) -> str:
    """Return the distance from the nearer line, or that the ball is near the middle."""
    if not moment.is_serve and abs(x_m) < 0.5:
        return off_middle(x_m)
    inside = inside_line_m(x_m, moment)
    what = "inside" if inside >= 0 else "outside"
    middle = (moment.box.x_low_m + moment.box.x_high_m) / 2
    is_centre = moment.is_serve and abs(x_m) < abs(middle)
    line = "centre line" if is_centre else f"{side_of(x_m)} sideline"
    return f"{number(abs(inside), 'm')} {what} the {line}"


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
    if spare_s < _NEARLY:
        return "there just as they hit"
    return f"there {number(spare_s, 's')} before they hit"


def opponent_words(spare_s: float) -> str:
    """Return what the opponent has in hand or lacks."""
    if isnan(spare_s):
        return "cannot meet it at all"
    if abs(spare_s) < _NEARLY:
        return "just in time, with nothing to spare"
    if spare_s > 0:
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
            needed = f"a ball that {_asked_words(asked)} needs {kmh(found.value)}"
            best = f"and the own best is {kmh(found.most)}; higher or shorter takes less"
            return f"no shot: {needed}, {best}"
        case Why.AROUND_THE_POST:
            return (
                f"no shot: it would cross {number(abs(found.value), 'm')} {side_of(found.value)} "
                f"of the middle, and the net ends at {number(found.most, 'm')}"
            )
        case Why.THROUGH_THE_NET:
            through = f"a ball that {_asked_words(asked)} goes through the net"
            return f"no shot: {through}; slower or deeper it would rise more steeply"
        case Why.NO_LAUNCH:
            slow = "; that takes more pace" if {DEPTH, PACE} <= set(asked) else ""
            return f"no shot: no ball from here {_asked_words(asked)}{slow}"


def _asked_words(asked: dict[str, float]) -> str:
    said = {
        HEIGHT: lambda value: f"goes {number(value, 'm')} over the net",
        DEPTH: lambda value: f"lands {number(value, 'm')} from the net",
        PACE: lambda value: f"at {kmh(value)}",
    }
    words = [said[part](value) for part, value in asked.items()]
    return (" " if PACE in asked else " and ").join(words)
