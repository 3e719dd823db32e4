"""Exchanges as JSON: metres, seconds, km/h and shares from 0 to 1, all of them estimates."""

from collections.abc import Sequence
from math import isnan

from tactics.engine.exchange import Estimates, Flown
from tactics.engine.position import Position
from tactics.flight.constants import MS_PER_KMH
from tactics.model.vocabulary import Vocabulary
from tactics.report.plain_json import FORMAT, Json, choice_as_json, situation_as_json
from tactics.report.shot_text import Shown
from tactics.report.shot_words import no_shot_words

_DECIMALS = 3
_NUMBERS = (
    "height_over_net_m", "landing_x_m", "landing_y_m", "flight_time_s", "contact_time_s",
    "contact_x_m", "contact_y_m", "contact_height_m", "home_x_m", "run_m", "short_m",
    "hitter_spare_s", "opponent_spare_s",
)  # fmt: skip
_SHARES = ("into_court", "into_net", "long", "wide")


def shots_as_json(
    shown: Sequence[Shown], position: Position, words: Vocabulary, found: Estimates | None
) -> Json:
    """Return shots from the best estimate on.

    Keys: format, situation, taken, contact, level, shots (number, label, choice, taken, no_shot,
    pace_kmh, pace_pct, exchange, replies, estimate), assumptions. x counts to the hitter's right,
    y from the net towards the opponent.
    """
    contact = position.moment.contact
    known = [each for each in (found.ranges if found else ()) if each is not None]
    return {
        "format": FORMAT,
        "situation": situation_as_json(position.situation, words),
        "taken": list(position.taken),
        "contact": {
            "x_m": _plain(contact.x_m),
            "depth_m": _plain(contact.depth_m),
            "height_m": _plain(contact.height_m),
        },
        "level": position.moment.hitter.name,
        "opponent_level": position.moment.opponent.name,
        "shots": [_shot(each, words, found) for each in shown],
        "assumptions": list(known[0].assumptions) if known else [],
    }


def _shot(shown: Shown, words: Vocabulary, found: Estimates | None) -> Json:
    candidate = shown.candidate
    return {
        "number": shown.number,
        "label": shown.label,
        "choice": choice_as_json(candidate.choice, words),
        "taken": list(candidate.taken),
        "no_shot": None if candidate.no_shot is None else no_shot_words(candidate.no_shot),
        "pace_kmh": _plain(candidate.pace_ms / MS_PER_KMH),
        "pace_pct": _plain(candidate.pace_pct),
        "exchange": None if shown.flown is None else _exchange(shown.flown),
        "replies": [] if shown.flown is None else _replies(shown.flown),
        "estimate": _estimate(shown.number, found),
    }


def _exchange(flown: Flown) -> Json:
    done = flown.exchanges
    shares: Json = {name: _plain(float(getattr(done.shares, name)[0])) for name in _SHARES}
    return {
        **{name: _plain(float(getattr(done, name)[0])) for name in _NUMBERS},
        "shares": {**shares, "into_court_range": [_plain(flown.in_low), _plain(flown.in_high)]},
    }


def _replies(flown: Flown) -> list[Json]:
    return [
        {
            "x_m": _plain(reply.target_x_m),
            "depth_m": _plain(reply.target_depth_m),
            "pace_kmh": _plain(reply.pace_ms / MS_PER_KMH),
            "time_s": _plain(reply.time_s),
            "share_in": _plain(reply.share_in),
        }
        for reply in flown.replies
    ]


def _estimate(number: int, found: Estimates | None) -> Json | None:
    wins = None if found is None else found.ranges[number - 1]
    if found is None or wins is None:
        return None
    against_first = found.compare(0, number - 1) if number > 1 else None
    return {
        "won_of_100": [wins.low_pct, wins.high_pct],
        "survives_against_first": against_first.survives if against_first else None,
    }


def _plain(value: float) -> float | None:
    """Return a number JSON can hold: what does not happen is null."""
    rounded = round(value, _DECIMALS)
    return None if isnan(value) else rounded + 0.0
