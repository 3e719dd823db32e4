"""A quiz as a coach writes it down: scenarios by hand, and what else to draw from the rules."""

from dataclasses import dataclass, field

from tactics.model.choice import Choice
from tactics.model.scenario import Ask
from tactics.model.situation import Situation
from tactics.source import Span

NOTHING_CHOSEN = Choice()


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenOption:
    """An answer on offer: parts of a choice, or the name of a situation (`name`)."""

    choice: Choice = NOTHING_CHOSEN
    name: str = ""
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenScenario:
    """A scenario as written. Facts it leaves open are those of an ordinary ball.

    ask: None where the answers tell what is asked. rule: id of the rule it is about, or empty.
    chosen: parts of the choice that are given with the question. options: three, or none where
    the program is to find them. answer, because: the coach's own; the rules decide.
    """

    id: str
    given: Situation
    ask: Ask | None = None
    rule: str = ""
    chosen: Choice = NOTHING_CHOSEN
    options: tuple[WrittenOption, ...] = ()
    answer: WrittenOption | None = None
    because: str = ""
    note: str = ""
    span: Span = field(compare=False)
    spans: tuple[tuple[str, Span], ...] = field(default=(), compare=False)

    def place_of(self, key: str) -> Span:
        """Return the place of one of its keys, or of its id."""
        return dict(self.spans).get(key, self.span)


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A rule or a topic that a quiz file names, and where."""

    text: str
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class QuizFile:
    """The scenarios of one file in the order written, and how many fresh ones come to them.

    made_for: rule sets by name or path, none for the usual one. hand: of the player, "right" or
    "left". rules, topics: what fresh situations are drawn from; nothing means all rules.
    """

    name: str
    author: str = ""
    about: str = ""
    made_for: tuple[str, ...] = ()
    hand: str = "right"
    draw: int = 0
    rules: tuple[Named, ...] = ()
    topics: tuple[Named, ...] = ()
    scenarios: tuple[WrittenScenario, ...] = ()
    span: Span = field(compare=False)
