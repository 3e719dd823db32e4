"""A choice looked at from the position it is played in: its words, and its parts in SI."""

from dataclasses import dataclass, field, replace

from tactics.engine.position import Position
from tactics.engine.strokes import Spin, best_pace_ms, serve_spin_of, spin_of
from tactics.engine.typical import is_point, only_word, spread_of_values
from tactics.flight.moment import Moment
from tactics.flight.strike import Strike
from tactics.flight.venue import Venue
from tactics.model.choice import Choice
from tactics.model.known import OneOf
from tactics.model.vocabulary import Vocabulary

HEIGHT, DEPTH, PACE, INSIDE = "height over net", "depth", "pace", "inside line"
_FOLLOWED_IN_M = 2.5


@dataclass(frozen=True, slots=True, kw_only=True)
class InNumbers:
    """Parts of a choice given as plain numbers; None where words say them."""

    pace_ms: float | None = None
    topspin_rpm: float | None = None
    sidespin_rpm: float | None = None


IN_WORDS = InNumbers()


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What is wanted of one ball. `taken` collects what the choice did not say, in words."""

    choice: Choice
    position: Position
    words: Vocabulary
    numbers: InNumbers = IN_WORDS
    taken: list[str] = field(default_factory=list)

    @property
    def moment(self) -> Moment:
        """Return the moment with the place to go to after this choice."""
        return _with_home(self.position.moment, self.word("afterwards"), self.intent)

    @property
    def venue(self) -> Venue:
        """Return court, air and surface."""
        return self.position.venue

    @property
    def intent(self) -> str:
        """Return the intent, or nothing."""
        return self.word("intent")

    @property
    def stroke(self) -> str:
        """Return the stroke, or nothing; whoever serves plays a serve."""
        return "serve" if self.position.is_serve else self.word("stroke")

    @property
    def serve_number(self) -> str:
        """Return first or second, or nothing."""
        return only_word(self.position.situation.get("serve number"))

    @property
    def road(self) -> str:
        """Return the direction; without a word crosscourt, and for a serve wide."""
        said = self.word("direction")
        if said:
            return said
        usual = "wide" if self.position.is_serve else "crosscourt"
        self.take(f"direction not said: {usual}")
        return usual

    @property
    def best_ms(self) -> float:
        """Return the player's own best for this stroke: what `pace` is a share of."""
        return best_pace_ms(self.position.moment, self.stroke)

    @property
    def spin(self) -> Spin:
        """Return the spin: numbers where they were given, else by word, else by stroke."""
        said = self.word("spin")
        if self.position.is_serve:
            spin = serve_spin_of(said, self.serve_number, self.position.right)
        else:
            spin = spin_of(said, self.stroke, self.position.moment.hitter)
            if said == "side":
                self.take("side spin is flown as slice, without its curve")
        topspin, side = self.numbers.topspin_rpm, self.numbers.sidespin_rpm
        return Spin(
            topspin_rpm=spin.topspin_rpm if topspin is None else topspin,
            sidespin_rpm=spin.sidespin_rpm if side is None else side,
        )

    @property
    def strike(self) -> Strike:
        """Return contact and spin as the flight takes them."""
        contact, spin = self.position.moment.contact, self.spin
        return Strike(
            x_m=contact.x_m,
            y_m=-contact.depth_m,
            z_m=contact.height_m,
            topspin_rpm=spin.topspin_rpm,
            sidespin_rpm=spin.sidespin_rpm,
        )

    def word(self, part: str) -> str:
        """Return the word of a part, the first where several are named, or nothing."""
        known = self.choice.get(part)
        if not isinstance(known, OneOf):
            return ""
        names = [word.name for word in self.words.trait(part).words]
        return next(name for name in names if name in known.words)

    def values(self, part: str) -> tuple[float, ...]:
        """Return the typical value of a part (m, m/s), then the ends of its band."""
        if part == PACE and self.numbers.pace_ms is not None:
            return (self.numbers.pace_ms,)
        known, trait = self.choice.get(part), self.words.trait(part)
        found = spread_of_values(known, trait)
        if part == PACE:
            return tuple(each / 100.0 * self.best_ms for each in found)
        if part == DEPTH and found and not is_point(known, trait):
            return self._on_court(tuple(each * self.venue.length_scale for each in found))
        return found

    def is_number(self, part: str) -> bool:
        """Say whether a part was given as one number and not as a band."""
        return is_point(self.choice.get(part), self.words.trait(part))

    def take(self, sentence: str) -> None:
        """Note something that was taken as given, once."""
        if sentence not in self.taken:
            self.taken.append(sentence)

    def _on_court(self, depths: tuple[float, ...]) -> tuple[float, ...]:
        """Return the depths of a band, kept on the court: its words know full courts only."""
        far = self.position.moment.box.y_high_m
        return tuple(min(max(depth, 0.5), far) for depth in depths)


def _with_home(moment: Moment, afterwards: str, intent: str) -> Moment:
    if afterwards == "follow in" or (intent == "approach" and not afterwards):
        return replace(moment, home_m=_FOLLOWED_IN_M * moment.venue.length_scale)
    if afterwards == "hold ground":
        return replace(moment, home_m=moment.contact.depth_m)
    return moment
