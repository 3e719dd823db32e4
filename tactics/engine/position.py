"""Facts -> the moment of contact in numbers: who is where, how good, on which court, in what air.

Facts are stored as forehand and backhand side; here they become left and right, by each player's
hand. What no fact says is taken as usual and named in `taken`: nothing is filled in silently.
"""

from dataclasses import dataclass, field, replace

from tactics.engine.derive import complete
from tactics.engine.typical import is_point, only_word, typical
from tactics.flight.constants import (
    AIR_DENSITY,
    MS_PER_KMH,
    SURFACES,
    Air,
    SurfaceName,
    air_density_kg_m3,
)
from tactics.flight.court import Area, Format, Stage, court_for
from tactics.flight.landings import LandingScatter
from tactics.flight.levels import CLUB, LEVELS, Level
from tactics.flight.moment import Moment
from tactics.flight.scatter import Balance, Scatter, Strain
from tactics.flight.shots import Contact
from tactics.flight.stand import (
    CONTACT_TO_STATURE,
    FROM_CENTRE_M,
    Hand,
    ReturnStand,
    Server,
    ServeSide,
    return_stand,
)
from tactics.flight.venue import Venue
from tactics.model.facts import AT_NET, FACING_NET, RETURNING, SERVING
from tactics.model.known import NOT_SEEN, Within, number
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary

USUAL_STATURE_M = {Stage.RED: 1.20, Stage.ORANGE: 1.35, Stage.GREEN: 1.50, Stage.FULL_COURT: 1.75}
NET_HOME_M = 3.0
_WAIST = 0.54  # of stature: the middle of the strike zone
_BEHIND_LINE_M = 0.3
_NET_PLAYER_M = 3.0
_RETURNER_X_M = 3.2
_VERY_FAST_S = 0.9  # from hit to hit: little time for anybody
_KNEE, _SHOULDER = 0.285, 0.80  # of stature: contacts below and above are awkward
_LATE_S = {
    "recovering": 0.15, "running wide": 0.15, "coming in": 0.15, "backing up": 0.15,
    "unbalanced": 0.3,
}  # fmt: skip
"""What an opponent on the move has lost already, in seconds: an assumption."""
_SURFACE = {"slow": SurfaceName.CLAY, "medium": SurfaceName.HARD, "fast": SurfaceName.GRASS}


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """What is asked beside the facts; None: as the facts or the usual say.

    contact: x to the right, depth from the net, height. Wind along blows away from the hitter,
    across to the hitter's right.
    """

    contact: Contact | None = None
    level: str = ""
    opponent_level: str = ""
    altitude_m: float | None = None
    temperature_c: float | None = None
    wind_along_ms: float | None = None
    wind_across_ms: float | None = None
    service_line_m: float | None = None
    has_singles_sticks: bool = True


USUAL = Conditions()


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    """The moment with what is needed to turn words into places.

    right: the sign of x on the player's forehand side; their_right: on the opponent's.
    taken: what was taken as given, a sentence each. has_*: which places were told.
    """

    moment: Moment
    situation: Situation
    right: int
    their_right: int
    wing_side: int
    has_player_place: bool
    has_opponent_place: bool
    landings: LandingScatter | None = None
    taken: tuple[str, ...] = ()

    @property
    def venue(self) -> Venue:
        """Return court, air and surface."""
        return self.moment.venue

    @property
    def side(self) -> int:
        """Return the sign of the side the ball is struck on; in the middle the wing tells."""
        x = self.moment.contact.x_m
        if abs(x) < 0.5 * self.venue.width_scale:
            return self.wing_side
        return 1 if x > 0 else -1

    @property
    def is_serve(self) -> bool:
        """Say whether the ball is a serve."""
        return only_word(self.situation.get("game situation")) == SERVING


def position_of(situation: Situation, words: Vocabulary, asked: Conditions = USUAL) -> Position:
    """Return the position in a situation. Nothing is checked: see `troubles_of` in exchange.py."""
    return _Builder(situation, words, asked).position()


def with_scatter(position: Position, landings: LandingScatter, own: Scatter) -> Position:
    """Return the position of a player whose own scatter was measured."""
    return replace(position, moment=replace(position.moment, own_scatter=own), landings=landings)


@dataclass(slots=True)
class _Builder:
    """Answers one question after the other, and notes what it had to take as given."""

    facts: Situation
    words: Vocabulary
    asked: Conditions
    taken: list[str] = field(default_factory=list)

    def position(self) -> Position:
        venue = self._venue()
        right = -1 if self._word("own hand", "right") == "left" else 1
        their_right = 1 if self._word("opponent hand", "right") == "left" else -1
        told = self._with_contact(right)
        self.facts = told
        self.facts = self._completed()
        level = self._level()
        contact = self._contact(venue, right)
        opponent_x, opponent_depth, is_told = self._opponent(venue, level, their_right)
        wing = only_word(self.facts.get("wing"))
        moment = Moment(
            contact=contact,
            hitter=level,
            opponent=LEVELS.get(self.asked.opponent_level, level),
            venue=replace(venue, air=self._air(right)),
            strain=self._strain(),
            opponent_x_m=opponent_x,
            opponent_depth_m=opponent_depth,
            opponent_late_s=self._late(),
            home_m=self._home(contact, venue),
            area=self._area(),
        )
        return Position(
            moment=moment,
            situation=told,
            right=right,
            their_right=their_right,
            wing_side=-right if wing == "backhand" else right,
            has_player_place=self._phase() == SERVING or self._has_place(),
            has_opponent_place=is_told,
            taken=tuple(self.taken),
        )

    # who and where

    def _phase(self) -> str:
        return only_word(self.facts.get("game situation"))

    def _word(self, fact: str, usual: str) -> str:
        return only_word(self.facts.get(fact)) or usual

    def _number(self, fact: str) -> float | None:
        return typical(self.facts.get(fact), self.words.trait(fact))

    def _place(self, fact: str, scale: float) -> float | None:
        """Return a place; one given in words counts on the court of the stage, to scale."""
        found = self._number(fact)
        if found is None or is_point(self.facts.get(fact), self.words.trait(fact)):
            return found
        return found * scale

    def _has_place(self) -> bool:
        return self.asked.contact is not None or all(
            isinstance(self.facts.get(fact), Within) for fact in ("court depth", "court width")
        )

    def _with_contact(self, right: int) -> Situation:
        """Return the facts as told, with a contact given in numbers among them."""
        contact = self.asked.contact
        if contact is None:
            return self.facts
        told = {
            "court depth": contact.depth_m,
            "court width": right * contact.x_m,
            "contact height": contact.height_m,
        }
        return self.facts.with_facts({fact: number(round(m, 3)) for fact, m in told.items()})

    def _completed(self) -> Situation:
        """Return the facts with heights worked out, for somebody of usual stature if need be."""
        facts = self.facts
        if facts.get("stature") is NOT_SEEN:
            facts = facts.with_facts({"stature": number(USUAL_STATURE_M[self._stage()])})
        return complete(facts, self.words)

    def _stature_m(self) -> float:
        return self._number("stature") or USUAL_STATURE_M[self._stage()]

    def _level(self) -> Level:
        name = self.asked.level or only_word(self.facts.get("level"))
        if not name:
            self.taken.append("level not given: both play at club level")
        return LEVELS.get(name, CLUB)

    def _contact(self, venue: Venue, right: int) -> Contact:
        if self.asked.contact is not None:
            return self.asked.contact
        if self._phase() == SERVING:
            return self._serve_contact(venue)
        depth = self._place("court depth", venue.length_scale)
        width = self._place("court width", venue.width_scale)
        height = self._number("contact height")
        if depth is None:
            depth = self._usual_depth(venue)
            self.taken.append(f"court depth not given: met {depth:.1f} m from the net")
        if width is None:
            width = self._usual_width(venue) * right
            self.taken.append(f"court width not given: met {_side_words(width * right)}")
        if height is None:
            height = round(_WAIST * self._stature_m(), 2)
            self.taken.append(f"contact height not given: met {height:g} m high, at the waist")
        return Contact(x_m=right * width, depth_m=depth, height_m=height)

    def _usual_depth(self, venue: Venue) -> float:
        if self._phase() == AT_NET:
            return _NET_PLAYER_M * venue.length_scale
        return venue.court.half_length_m + _BEHIND_LINE_M * venue.length_scale

    def _usual_width(self, venue: Venue) -> float:
        """Return the usual x: the middle, or for a returner the side of the serve."""
        side = only_word(self.facts.get("serve side"))
        if self._phase() == RETURNING and side:
            return (1.0 if side == "deuce" else -1.0) * _RETURNER_X_M * venue.width_scale
        return 0.0

    def _serve_contact(self, venue: Venue) -> Contact:
        """Return where a serve is struck: from the baseline, as high as body and racket reach."""
        side = 1.0 if self._serve_side() is ServeSide.DEUCE else -1.0
        height = self._number("contact height") or CONTACT_TO_STATURE * self._stature_m()
        return Contact(
            x_m=side * FROM_CENTRE_M * venue.width_scale,
            depth_m=venue.court.half_length_m,
            height_m=round(height, 3),
        )

    def _serve_side(self) -> ServeSide:
        side = only_word(self.facts.get("serve side"))
        if not side and "serve side not given: served from the deuce side" not in self.taken:
            self.taken.append("serve side not given: served from the deuce side")
        return ServeSide.AD if side == "ad" else ServeSide.DEUCE

    def _area(self) -> Area:
        if self._phase() != SERVING:
            return Area.COURT
        return Area.FROM_RIGHT if self._serve_side() is ServeSide.DEUCE else Area.FROM_LEFT

    def _opponent(
        self, venue: Venue, level: Level, their_right: int
    ) -> tuple[float, float | None, bool]:
        """Return the opponent's x, depth (None: the neutral place) and whether both were told."""
        depth = self._place("opponent depth", venue.length_scale)
        width = self._place("opponent width", venue.width_scale)
        is_told = depth is not None and width is not None
        if depth is None and self._phase() == FACING_NET:
            depth = _NET_PLAYER_M * venue.length_scale
            self.taken.append(f"opponent depth not given: {depth:.1f} m from the net")
        if width is not None:
            return their_right * width, depth, is_told
        x = self._usual_opponent_x(venue, level)
        self.taken.append(f"opponent width not given: {_opponent_words(x)}")
        return x, depth, is_told

    def _usual_opponent_x(self, venue: Venue, level: Level) -> float:
        side = only_word(self.facts.get("serve side"))
        if self._phase() == RETURNING and side:
            return (-1.0 if side == "deuce" else 1.0) * FROM_CENTRE_M * venue.width_scale
        if self._phase() != SERVING:
            return 0.0
        hand = Hand.LEFT if only_word(self.facts.get("own hand")) == "left" else Hand.RIGHT
        server = Server(
            hand=hand,
            side=self._serve_side(),
            level=level,
            from_centre_m=FROM_CENTRE_M * venue.width_scale,
        )
        found = return_stand(server, level, venue=venue)
        return -found.by_time_x_m if isinstance(found, ReturnStand) else 0.0

    def _late(self) -> float:
        movement = only_word(self.facts.get("opponent movement"))
        lost = _LATE_S.get(movement, 0.0)
        if lost:
            self.taken.append(f"an opponent who is {movement} has lost {lost:g} s")
        return lost

    def _home(self, contact: Contact, venue: Venue) -> float | None:
        """Return the depth of the place to recover to: a net player stays at the net."""
        if self._phase() != AT_NET:
            return None
        return min(contact.depth_m, NET_HOME_M * venue.length_scale)

    def _strain(self) -> Strain:
        time = only_word(self.facts.get("time"))
        share = self.facts.get("body height")
        incoming = self.facts.get("incoming time")
        balance = only_word(self.facts.get("balance"))
        if not balance:
            self.taken.append("balance not given: met set")
        return Strain(
            balance=Balance(balance or "set"),
            is_late=time in ("late", "emergency"),
            is_awkward_height=_lies_below(share, _KNEE) or _lies_above(share, _SHOULDER),
            has_little_time=time == "emergency" or _lies_below(incoming, _VERY_FAST_S),
            is_serve=self._phase() == SERVING,
        )

    # court and air

    def _stage(self) -> Stage:
        return Stage(self._word("stage", Stage.FULL_COURT))

    def _venue(self) -> Venue:
        court = court_for(
            self._stage(),
            Format(self._word("format", Format.SINGLES)),
            has_singles_sticks=self.asked.has_singles_sticks,
            service_line_m=self.asked.service_line_m,
        )
        surface = SURFACES[_SURFACE[self._word("surface", "medium")]]
        return Venue(court=court, surface=surface)

    def _air(self, right: int) -> Air:
        """Return the air: density by altitude and temperature, wind by the numbers or the fact."""
        density = AIR_DENSITY.value
        if self.asked.altitude_m is not None or self.asked.temperature_c is not None:
            warmth = 20.0 if self.asked.temperature_c is None else self.asked.temperature_c
            density = air_density_kg_m3(self.asked.altitude_m or 0.0, warmth)
        along, across = self.asked.wind_along_ms, self.asked.wind_across_ms
        if along is None and across is None:
            along, across = self._wind(right)
        return Air(density_kg_m3=density, wind_along_ms=along or 0.0, wind_across_ms=across or 0.0)

    def _wind(self, right: int) -> tuple[float, float]:
        way = only_word(self.facts.get("wind"))
        if way in ("", "none"):
            return 0.0, 0.0
        strength = self._number("wind strength")
        if strength is None:
            strength = 15.0
            self.taken.append("wind strength not given: 15 km/h")
        speed = strength * MS_PER_KMH
        if way == "across":
            self.taken.append("wind across: taken to blow towards the forehand side")
            return 0.0, right * speed
        return (speed if way == "with" else -speed), 0.0


def _lies_below(known: object, limit: float) -> bool:
    return isinstance(known, Within) and known.intervals[-1].high <= (limit, 0)


def _lies_above(known: object, limit: float) -> bool:
    return isinstance(known, Within) and known.intervals[0].low >= (limit, 0)


def _side_words(to_forehand_m: float) -> str:
    if to_forehand_m == 0.0:
        return "in the middle"
    side = "forehand" if to_forehand_m > 0 else "backhand"
    return f"{abs(to_forehand_m):.1f} m to the {side} side"


def _opponent_words(x_m: float) -> str:
    if x_m == 0.0:
        return "in the middle"
    return f"{abs(x_m):.1f} m to the {'right' if x_m > 0 else 'left'}, as you look"
