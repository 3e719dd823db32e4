"""Facts -> the moment of contact in numbers: who is where, how good, on which court, in what air.

Facts are stored as forehand and backhand side; here they become left and right, by each player's
hand. What no fact says is taken as usual and named in `taken`: nothing is filled in silently.
"""

from dataclasses import dataclass, replace

from tactics.engine.air_and_court import air_of, venue_of
from tactics.engine.contact import area_of, contact_of, home_m, strain_of
from tactics.engine.opponent_place import late_s, opponent_of
from tactics.engine.told import USUAL, Conditions, Told
from tactics.engine.typical import only_word
from tactics.flight.landings import LandingScatter
from tactics.flight.levels import CLUB, LEVELS, Level
from tactics.flight.moment import Moment
from tactics.flight.scatter import Scatter
from tactics.flight.venue import Venue
from tactics.model.facts import SERVING
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary


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
    told = Told(facts=situation, words=words, asked=asked)
    venue = venue_of(told)
    right = -1 if told.word("own hand") == "left" else 1
    their_right = 1 if told.word("opponent hand") == "left" else -1
    told.take_contact(right)
    as_told = told.facts
    told.complete()
    moment, has_opponent_place = _moment(told, venue, right, their_right)
    return Position(
        moment=moment,
        situation=as_told,
        right=right,
        their_right=their_right,
        wing_side=-right if told.word("wing") == "backhand" else right,
        has_player_place=told.phase == SERVING or told.has_place,
        has_opponent_place=has_opponent_place,
        taken=tuple(told.taken),
    )


def with_scatter(position: Position, landings: LandingScatter, own: Scatter) -> Position:
    """Return the position of a player whose own scatter was measured."""
    return replace(position, moment=replace(position.moment, own_scatter=own), landings=landings)


def _moment(told: Told, venue: Venue, right: int, their_right: int) -> tuple[Moment, bool]:
    """Return the moment of contact, and whether the opponent's place was told."""
    level = _level(told)
    contact = contact_of(told, venue, right)
    opponent_x, opponent_depth, is_told = opponent_of(told, venue, level, their_right)
    moment = Moment(
        contact=contact,
        hitter=level,
        opponent=LEVELS.get(told.asked.opponent_level, level),
        venue=replace(venue, air=air_of(told, right)),
        strain=strain_of(told),
        opponent_x_m=opponent_x,
        opponent_depth_m=opponent_depth,
        opponent_late_s=late_s(told),
        home_m=home_m(told, contact, venue),
        area=area_of(told),
    )
    return moment, is_told


def _level(told: Told) -> Level:
    name = told.asked.level or told.word("level")
    if not name:
        told.taken.append("level not given: both play at club level")
    return LEVELS.get(name, CLUB)
