"""What is told about a ball, and what has to be taken as given where nothing is."""

from dataclasses import dataclass, field

from tactics.engine.derive import complete
from tactics.engine.typical import is_point, only_word, typical
from tactics.flight.court import Stage
from tactics.flight.shots import Contact
from tactics.flight.stand import ServeSide
from tactics.model.known import NOT_SEEN, Within, number
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary

USUAL_STATURE_M = {Stage.RED: 1.20, Stage.ORANGE: 1.35, Stage.GREEN: 1.50, Stage.FULL_COURT: 1.75}


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


@dataclass(slots=True, kw_only=True)
class Told:
    """Facts asked one after the other, and a sentence for each that had to be taken as given."""

    facts: Situation
    words: Vocabulary
    asked: Conditions = USUAL
    taken: list[str] = field(default_factory=list)

    @property
    def phase(self) -> str:
        """Return the game situation, or nothing."""
        return self.word("game situation")

    @property
    def stage(self) -> Stage:
        """Return the court that is played on; the full one where nothing else is said."""
        return Stage(self.word("stage", Stage.FULL_COURT))

    @property
    def stature_m(self) -> float:
        """Return how tall the player is, or what is usual at the stage."""
        return self.number("stature") or USUAL_STATURE_M[self.stage]

    @property
    def has_place(self) -> bool:
        """Say whether the place of the contact was told."""
        return self.asked.contact is not None or all(
            isinstance(self.facts.get(fact), Within) for fact in ("court depth", "court width")
        )

    def word(self, fact: str, usual: str = "") -> str:
        """Return the one word of a fact, or the usual one."""
        return only_word(self.facts.get(fact)) or usual

    def number(self, fact: str) -> float | None:
        """Return the typical number of a fact in its unit, or None."""
        return typical(self.facts.get(fact), self.words.trait(fact))

    def place_m(self, fact: str, scale: float) -> float | None:
        """Return a place; one given in words counts on the court of the stage, to scale."""
        found = self.number(fact)
        if found is None or is_point(self.facts.get(fact), self.words.trait(fact)):
            return found
        return found * scale

    def serve_side(self) -> ServeSide:
        """Return the side of the serve: deuce where it is not told."""
        side = self.word("serve side")
        if not side and "serve side not given: served from the deuce side" not in self.taken:
            self.taken.append("serve side not given: served from the deuce side")
        return ServeSide.AD if side == "ad" else ServeSide.DEUCE

    def take_contact(self, right: int) -> None:
        """Put a contact asked for in numbers among the facts; right: the sign of forehand x."""
        contact = self.asked.contact
        if contact is None:
            return
        told = {
            "court depth": contact.depth_m,
            "court width": right * contact.x_m,
            "contact height": contact.height_m,
        }
        self.facts = self.facts.with_facts({fact: number(round(m, 3)) for fact, m in told.items()})

    def complete(self) -> None:
        """Work heights out, for somebody of usual stature if need be."""
        if self.facts.get("stature") is NOT_SEEN:
            self.facts = self.facts.with_facts({"stature": number(USUAL_STATURE_M[self.stage])})
        self.facts = complete(self.facts, self.words)
