"""A question of the quiz and the answer to it: one situation, three options, one of them sound."""

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from tactics.model.choice import Choice
from tactics.model.known import Absent, Allowed, Known
from tactics.model.situation import Situation
from tactics.model.verdict import BROKEN, Grade


class Ask(StrEnum):
    """What a question asks for."""

    SHOT = "which shot"
    NAME = "what do you see"
    AIM = "where to aim"
    HEIGHT = "how high"
    AFTER = "what then"
    SERVE = "where to serve"
    PLAY_ON = "play on or stop"


class Credit(StrEnum):
    """What an answer earns."""

    FULL = "full"
    HALF = "half"
    NONE = "none"

    @property
    def points(self) -> float:
        """Return the credit as a number, 0 to 1."""
        return {Credit.FULL: 1.0, Credit.HALF: 0.5, Credit.NONE: 0.0}[self]


def credit_of(grade: Grade) -> Credit:
    """Return what an option of this grade earns."""
    return {Grade.SOUND: Credit.FULL, Grade.ACCEPTABLE: Credit.HALF}.get(grade, Credit.NONE)


class Origin(StrEnum):
    """Where an option comes from."""

    ADVISED = "advised"
    NEIGHBOUR = "right next door"
    USUAL_MISTAKE = "usual mistake"
    CHARTED = "charted"
    VARIATION = "variation"
    WRITTEN = "written by the coach"


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One answer on offer. `term` is the named situation it stands for, where names are asked.

    rules: ids charged where it is wrong, else the ids that decide.
    """

    text: str
    grade: Grade
    origin: Origin
    choice: Choice = field(default_factory=Choice)
    term: str = ""
    rules: tuple[str, ...] = ()

    @property
    def aim(self) -> tuple[tuple[str, Allowed], ...]:
        """Return its parts as an aim."""
        return tuple((p, k) for p, k in self.choice.parts if not isinstance(k, Absent))


@dataclass(frozen=True, slots=True, kw_only=True)
class Flip:
    """One changed fact and what it does: option number `sound` is then right.

    answer: what is right then, in the place of that option, where none of the three is. grades: of
    the three options after the change (undecided where the rules leave one open).
    rule, revision, because, cue: of the rule that decides then. situation, facts: after the
    change, the latter in words. said: the change and what it does, in one sentence.
    """

    fact: str
    was: Known
    now: Known
    sound: int
    grades: tuple[Grade, ...]
    rule: str
    revision: str
    situation: Situation
    facts: str
    because: str
    said: str
    cue: str = ""
    answer: Option | None = None

    @property
    def is_whole(self) -> bool:
        """Say whether the change leaves exactly one sound option and two wrong ones."""
        others = {grade for number, grade in enumerate(self.grades) if number != self.sound}
        return self.grades[self.sound] is Grade.SOUND and others <= BROKEN


@dataclass(frozen=True, slots=True, kw_only=True)
class Scenario:
    """A question: exactly one option is sound, and no other is acceptable.

    told: facts worth saying, in the vocabulary's order; all others are those of an ordinary ball.
    context: parts of the choice that are given with the question. neighbour: the rule that holds
    on the other side of the flip. aim: the advised target, part by part. is_steady: whichever fact
    one changes, the answer stays right. is_conflict: rules pull apart
    here. seed, number: what it was drawn from, for showing it again.
    """

    ask: Ask
    situation: Situation
    told: tuple[str, ...]
    context: Choice
    prompt: str
    facts: str
    options: tuple[Option, ...]
    sound: int
    rule: str
    revision: str
    because: str
    neighbour: str = ""
    cue: str = ""
    note: str = ""
    aim: tuple[tuple[str, Allowed], ...] = ()
    flip: Flip | None = None
    is_steady: bool = False
    is_conflict: bool = False
    is_twin: bool = False
    seed: str = ""
    number: int = 0

    @property
    def pair(self) -> str:
        """Return the name that a scenario and its twin share."""
        return f"{self.seed}/{self.number}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Quiz:
    """The scenarios of one run, and what they were made from."""

    scenarios: tuple[Scenario, ...]
    seed: str
    rules_hash: str
    generator: int
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """An answer as it is kept. credit is None where nothing was answered, which never costs.

    picked: number of the option (None: none, or a free target). confused_with: the rule whose
    advice was given instead. day: the study day. took_ms is kept and never graded.
    """

    day: date
    ask: Ask
    rule: str
    revision: str
    pair: str
    picked: int | None = None
    grade: Grade | None = None
    credit: Credit | None = None
    sure: bool | None = None
    confused_with: str = ""
    took_ms: int | None = None
    timed_out: bool = False
    is_twin: bool = False
    disagrees: str = ""
