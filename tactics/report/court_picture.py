"""Where everybody stands and where the ball goes: the court picture before it is drawn.

Frame: the hitter's own view, metres; x to the right, y along the court, the net at 0, the
hitter below it (y < 0). Sides become left and right here, by each player's hand.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf

from tactics.model.facts import BOUNCE_BANDS
from tactics.model.known import Allowed, Known, OneOf, Within
from tactics.model.situation import Situation
from tactics.model.trait import Trait
from tactics.model.vocabulary import Vocabulary

BASELINE_M, SERVICE_LINE_M = 11.885, 6.4
SINGLES_HALF_M, DOUBLES_HALF_M = 4.115, 5.485
_BEYOND_M = 1.0
"""How far past the limit of an open-ended band its player is drawn."""
_DEEP_M, _SERVE_DEPTH_M = 9.5, 5.4
_USUAL_DEPTHS_M = {"drop": 2.2, "dip at the feet": 5.8}
"""Intent -> how far past the net its ball lands, where a rule does not say; others go deep."""
_USUAL_INSIDE_M = 1.2
_SERVE_STANCE_M = 0.9


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place on the court, metres."""

    x_m: float
    y_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """What can be drawn of a situation; None where it was not seen.

    source: where the incoming ball comes from; bounce: where it lands; target: the aim. over_net_m:
    the least and the most height over the net, the most may be infinite.
    forehand_is_right: for the player and for the opponent. notes: what had to be taken as given.
    """

    player: Spot | None = None
    opponent: Spot | None = None
    source: Spot | None = None
    bounce: Spot | None = None
    target: Spot | None = None
    over_net_m: tuple[float, float] | None = None
    forehand_is_right: bool = True
    their_forehand_is_right: bool = True
    is_doubles: bool = False
    notes: tuple[str, ...] = ()


def picture_of(situation: Situation, wanted: Mapping[str, Allowed], words: Vocabulary) -> Picture:
    """Return the picture of a situation and of what is wanted (part -> values) in it."""
    view = _View(situation, wanted, words)
    player, opponent = view.player(), view.opponent()
    source = view.source(player, opponent)
    return Picture(
        player=player,
        opponent=opponent,
        source=source,
        bounce=view.bounce(player, source),
        target=view.target(player, opponent),
        over_net_m=view.over_net(),
        forehand_is_right=view.hand("own hand") != "left",
        their_forehand_is_right=view.hand("opponent hand") != "left",
        is_doubles=situation.get("format") == words.trait("format").value_of("doubles"),
        notes=view.notes(player, opponent),
    )


def middle_of(known: Known | Allowed, trait: Trait) -> float | None:
    """Return the number a set is drawn at: its middle, or a metre past the end of an open one."""
    if not isinstance(known, Within):
        return None
    low, high = known.intervals[0].low[0], known.intervals[-1].high[0]
    low = -inf if low <= trait.low < 0 else max(low, trait.low)
    high = inf if high >= trait.high else high
    if trait.words == BOUNCE_BANDS and low < BASELINE_M:
        high = min(high, BASELINE_M)  # a ball that is meant to land, or has landed, is in
    if low == -inf:
        return None if high == inf else high - _BEYOND_M
    return low + _BEYOND_M if high == inf else (low + high) / 2


@dataclass(frozen=True, slots=True)
class _View:
    """Answers each question about one picture."""

    situation: Situation
    wanted: Mapping[str, Allowed]
    words: Vocabulary

    def word(self, fact: str) -> str:
        """Return the one word known of a fact, or nothing."""
        known = self.situation.get(fact)
        return next(iter(known.words)) if isinstance(known, OneOf) and len(known.words) == 1 else ""

    def hand(self, fact: str) -> str:
        return self.word(fact)

    def number(self, fact: str) -> float | None:
        return middle_of(self.situation.get(fact), self.words.trait(fact))

    @property
    def right(self) -> int:
        """Return the sign of x on the player's forehand side."""
        return -1 if self.hand("own hand") == "left" else 1

    def player(self) -> Spot | None:
        depth, width = self.number("court depth"), self.number("court width")
        if self.word("game situation") == "serving":
            side = {"deuce": 1.0, "ad": -1.0}.get(self.word("serve side"))
            at_line = BASELINE_M + 0.2 if depth is None else depth
            return None if side is None else Spot(x_m=side * _SERVE_STANCE_M, y_m=-at_line)
        if depth is None or width is None:
            return None
        return Spot(x_m=self.right * width, y_m=-depth)

    def opponent(self) -> Spot | None:
        depth, width = self.number("opponent depth"), self.number("opponent width")
        if depth is None or width is None:
            return None
        # they look the other way: their forehand side lies to the hitter's left
        side = 1 if self.hand("opponent hand") == "left" else -1
        return Spot(x_m=side * width, y_m=depth)

    def source(self, player: Spot | None, opponent: Spot | None) -> Spot | None:
        if self.word("game situation") == "serving":
            return None  # no ball comes in
        if opponent is not None or player is None:
            return opponent
        across = {"crosscourt": -1.0, "straight": 1.0, "middle": 0.0, "sharp angle": -1.0}
        sign = across.get(self.word("incoming direction"))
        if sign is None:
            return None
        return Spot(x_m=sign * _side(player.x_m, self._wing_side()) * 3.0, y_m=BASELINE_M)

    def bounce(self, player: Spot | None, source: Spot | None) -> Spot | None:
        depth = self.number("incoming depth")
        if depth is None or player is None or source is None or depth >= -player.y_m:
            return None
        share = (source.y_m + depth) / (source.y_m - player.y_m)
        return Spot(x_m=source.x_m + share * (player.x_m - source.x_m), y_m=-depth)

    def target(self, player: Spot | None, opponent: Spot | None) -> Spot | None:
        roads = self.wanted.get("direction")
        if not isinstance(roads, OneOf) or player is None:
            return None
        road = next(
            word.name for word in self.words.trait("direction").words if word.name in roads.words
        )
        if road in ("wide", "T") or self.word("game situation") == "serving":
            return self._serve_target(road, player)
        side = _side(player.x_m, self._wing_side())
        inside = SINGLES_HALF_M - self._wanted_number("inside line", _USUAL_INSIDE_M)
        depth = self._wanted_number("depth", _USUAL_DEPTHS_M.get(self._intent(), _DEEP_M))
        if road == "sharp angle":
            return Spot(x_m=-side * inside, y_m=min(depth, SERVICE_LINE_M - 0.5))
        across = {"crosscourt": -side, "inside-out": -side, "straight": side, "inside-in": side}
        if road in across:
            return Spot(x_m=across[road] * inside, y_m=depth)
        if road in ("at body", "behind"):
            return None if opponent is None else Spot(x_m=opponent.x_m, y_m=depth)
        return Spot(x_m=0.0, y_m=depth)

    def _intent(self) -> str:
        asked = self.wanted.get("intent")
        return next(iter(asked.words)) if isinstance(asked, OneOf) and len(asked.words) == 1 else ""

    def over_net(self) -> tuple[float, float] | None:
        part = "height over net"
        known, trait = self.wanted.get(part), self.words.trait(part)
        if not isinstance(known, Within):
            return None
        low, high = known.intervals[0].low[0], known.intervals[-1].high[0]
        return max(low, trait.low), inf if high >= trait.high else high

    def _serve_target(self, road: str, player: Spot) -> Spot:
        box = -1.0 if player.x_m > 0 else 1.0
        place = {"wide": SINGLES_HALF_M - 0.8, "T": 0.5}.get(road, SINGLES_HALF_M / 2)
        return Spot(x_m=box * place, y_m=_SERVE_DEPTH_M)

    def _wing_side(self) -> int:
        return self.right * (-1 if self.word("wing") == "backhand" else 1)

    def _wanted_number(self, part: str, usual: float) -> float:
        found = (
            middle_of(self.wanted[part], self.words.trait(part)) if part in self.wanted else None
        )
        return usual if found is None else found

    def notes(self, player: Spot | None, opponent: Spot | None) -> tuple[str, ...]:
        """Return what the reader of the picture has to know about it."""
        said = []
        if player is None:
            said.append("the player's place was not seen")
        if opponent is None:
            said.append("the opponent's place was not seen")
        if not self.hand("own hand"):
            said.append("own hand not seen: drawn for a right-hander")
        if opponent is not None and not self.hand("opponent hand"):
            said.append("opponent's hand not seen: drawn as right-handed")
        return tuple(said)


def _side(x_m: float, wing_side: int) -> int:
    """Return the side of the court a ball is struck from; in the middle the wing tells."""
    if abs(x_m) < 0.5:
        return wing_side
    return 1 if x_m > 0 else -1
