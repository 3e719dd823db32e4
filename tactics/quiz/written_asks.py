"""What a written scenario asks for, and the parts of the choice that go with the question."""

from collections.abc import Mapping

from tactics.model.choice import Choice
from tactics.model.facts import SERVING
from tactics.model.known import Absent, Known, OneOf, Within
from tactics.model.quiz_file import WrittenOption, WrittenScenario
from tactics.model.scenario import Ask
from tactics.quiz.plain import Value
from tactics.quiz.play import GAME_SITUATION
from tactics.quiz.shots import natural_stroke
from tactics.quiz.templates import PART_ORDER
from tactics.quiz.written_ball import WholeBall

PARTS_OF: Mapping[Ask, tuple[str, ...]] = {
    Ask.SHOT: ("intent", "direction", "height over net"),
    Ask.SERVE: ("direction", "pace"),
    Ask.AIM: ("direction", "inside line"),
    Ask.HEIGHT: ("height over net",),
    Ask.AFTER: ("afterwards", "stance"),
    Ask.PLAY_ON: ("response",),
}
"""The parts of an answer where a coach wrote none."""


def parts_of(written: WrittenScenario, ask: Ask) -> tuple[str, ...]:
    """Return the parts that the answers speak about, in the order in which they are said."""
    said = {name for each in offered(written) for name, _ in each.choice.parts}
    parts = said or set(PARTS_OF[ask]) - {name for name, _ in written.chosen.parts}
    known = [part for part in PART_ORDER if part in parts]
    return (*known, *sorted(parts - set(known)))


def offered(written: WrittenScenario) -> tuple[WrittenOption, ...]:
    """Return the answers as written, the coach's own where there is no more."""
    if written.options:
        return written.options
    return () if written.answer is None else (written.answer,)


def asked_of(written: WrittenScenario, ball: WholeBall) -> Ask:
    """Return what is asked: as written, else what the answers speak about."""
    if written.ask is not None:
        return written.ask
    if any(each.name for each in offered(written)):
        return Ask.NAME
    parts = {name for each in offered(written) for name, _ in each.choice.parts}
    if parts & {"afterwards", "stance"}:
        return Ask.AFTER
    if "response" in parts:
        return Ask.PLAY_ON
    if ball.ball[GAME_SITUATION] == SERVING:
        return Ask.SERVE
    if parts == {"height over net"}:
        return Ask.HEIGHT
    return Ask.AIM if parts and parts <= {"direction", "inside line", "depth"} else Ask.SHOT


def context_of(written: WrittenScenario, ball: WholeBall, ask: Ask) -> dict[str, Value]:
    """Return the parts that every answer has in common: what was chosen, and the stroke."""
    chosen = plain_choice(written.chosen)
    parts = parts_of(written, ask)
    if "stroke" not in parts:
        chosen = {"stroke": natural_stroke(ball.ball), **chosen}
    if ask is Ask.AFTER:
        chosen = {"response": "played", **chosen}
    return {part: value for part, value in chosen.items() if part not in parts}


def plain_choice(choice: Choice) -> dict[str, Value]:
    """Return the parts of a choice in plain values, bands by their middle."""
    return {part: plain_part(known) for part, known in choice.parts}


def plain_part(known: Known) -> Value:
    """Return one value of a part: of several words the first by name, of numbers the middle."""
    match known:
        case OneOf(words):
            return min(words)
        case Within(intervals):
            low, high = intervals[0].low[0], intervals[-1].high[0]
            return float(low) if high > _ENDLESS else round((low + high) / 2, 2)
        case Absent():
            return None


_ENDLESS = 1e6
