"""How a fact sounds inside a sentence: phrases for the standard facts, clause by clause.

Facts without a phrase here (a rule set's own among them) are listed behind the sentence.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType


class Clause(StrEnum):
    """The clauses of a sentence, in the order in which they are said."""

    SERVE = "serve"
    BALL = "ball"
    BALL_MORE = "ball, behind the noun"
    CONTACT = "contact"
    PLAYER = "player"
    OPPONENT = "opponent"


@dataclass(frozen=True, slots=True, kw_only=True)
class Phrase:
    """A fact in a sentence. `{}` stands for its words, in `as_number` for its numbers.

    exceptions: word -> the whole phrase, where the pattern would not be good English.
    """

    fact: str
    clause: Clause
    as_word: str = "{}"
    as_number: str = "{}"
    exceptions: Mapping[str, str] = field(default_factory=dict)


OPENINGS: Mapping[str, str] = MappingProxyType(
    {
        "serving": "serving",
        "returning": "returning",
        "baseline rally": "baseline rally, both players back",
        "approaching or at net": "coming in or at the net",
        "opponent at net": "the opponent is at the net or on the way",
    }
)

_PLACES = {
    "close net": "close to the net",
    "forecourt": "in the forecourt",
    "midcourt": "in midcourt",
    "inside baseline": "inside the baseline",
    "on baseline": "on the baseline",
    "behind": "behind the baseline",
    "far behind": "far behind the baseline",
}
_SIDES = {
    "wide backhand": "wide on the backhand side",
    "backhand third": "in the backhand third",
    "middle third": "in the middle third",
    "forehand third": "in the forehand third",
    "wide forehand": "wide on the forehand side",
}
_ROADS = {
    "at body": "at the body",
    "middle": "through the middle",
    "sharp angle": "at a sharp angle",
    "T": "down the T",
}
_HEIGHTS = {"level": "level with the net", "high": "high over the net"}
_BODY = {"below knee": "below the knee", "overhead": "overhead"}
_BOUNCES = {
    "rising": "on the rise",
    "top": "at the top of the bounce",
    "falling": "as it falls",
    "volley": "before it bounces",
    "half volley": "as it leaves the ground",
}
_TIMES = {
    "plenty": "with plenty of time",
    "normal": "in normal time",
    "late": "late",
    "emergency": "with time for a block only",
}
_STEPS = {"near": "near the ball", "a run": "after a short run", "far": "far from the ball"}

PHRASES: tuple[Phrase, ...] = (
    Phrase(fact="serve number", clause=Clause.SERVE, as_word="{} serve"),
    Phrase(fact="serve side", clause=Clause.SERVE, as_word="{} side"),
    Phrase(fact="incoming time", clause=Clause.BALL, as_number="{} on its way"),
    Phrase(fact="incoming depth", clause=Clause.BALL, as_number="landing {} from the net",
           exceptions={"drop": "dropped", "mid": "mid-length"}),
    Phrase(fact="ball line", clause=Clause.BALL),
    Phrase(fact="incoming direction", clause=Clause.BALL_MORE, exceptions=_ROADS),
    Phrase(fact="incoming spin", clause=Clause.BALL_MORE, as_word="with {} spin",
           exceptions={"heavy top": "with heavy topspin", "top": "with topspin",
                       "slice": "with slice", "flat": "hit flat", "side": "with sidespin"}),
    Phrase(fact="incoming pace", clause=Clause.BALL_MORE, as_word="{} off the racket",
           as_number="at {} off the racket"),
    Phrase(fact="wing", clause=Clause.CONTACT, as_word="on the {}",
           exceptions={"overhead": "overhead"}),
    Phrase(fact="contact height", clause=Clause.CONTACT, as_word="{} the net",
           as_number="{} off the ground", exceptions=_HEIGHTS),
    Phrase(fact="body height", clause=Clause.CONTACT, as_word="at {} height", exceptions=_BODY),
    Phrase(fact="bounce", clause=Clause.CONTACT, exceptions=_BOUNCES),
    Phrase(fact="balance", clause=Clause.PLAYER),
    Phrase(fact="time", clause=Clause.PLAYER, exceptions=_TIMES),
    Phrase(fact="steps to the ball", clause=Clause.PLAYER, as_number="{} from the ball",
           exceptions=_STEPS),
    Phrase(fact="court depth", clause=Clause.PLAYER, as_number="{} from the net",
           exceptions=_PLACES),
    Phrase(fact="court width", clause=Clause.PLAYER, exceptions=_SIDES),
    Phrase(fact="opponent depth", clause=Clause.OPPONENT, as_number="{} from the net",
           exceptions=_PLACES),
    Phrase(fact="opponent width", clause=Clause.OPPONENT, exceptions=_SIDES),
    Phrase(fact="opponent movement", clause=Clause.OPPONENT),
)  # fmt: skip
