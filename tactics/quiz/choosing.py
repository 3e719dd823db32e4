"""Of all answers that hold, the three that are shown: from next door, and no habit pays."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from random import Random

from tactics.model.scenario import Origin
from tactics.model.verdict import BROKEN, Grade
from tactics.model.vocabulary import Vocabulary
from tactics.quiz.balance import Balance, Look, earned, look_of
from tactics.quiz.candidates import Values
from tactics.quiz.ladders import boldness
from tactics.quiz.phrases import option_text
from tactics.quiz.plain import Value
from tactics.quiz.turns import Held, Table, Turn

_MOST_WHOLE, _MOST_HALF, _MOST_NONE = 60, 50, 25
_FAIRNESS = 3.0
_LENGTHS_APART = 0.2
_UNEVEN, _HALF, _NO_TWIN, _OWN, _NOT_ADVISED, _TWICE = 1.0, 0.6, 0.2, 0.25, 0.15, 0.5
_NO_TURN, _BY_A_HAIR = 1.0, 4.0
_SAME = 1e-9
_CLEAR = {"height over net": 0.3, "inside line": 0.3, "pace": 8.0, "depth": 2.0}
"""How far the numbers of a wrong option have to be off where nothing else tells it apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """An answer as it would be shown. grade_there: after the turn, None where it is left open."""

    held: Held
    text: str
    look: Look
    grade_there: Grade | None
    origin: Origin

    @property
    def values(self) -> Values:
        """Return its parts."""
        return self.held.values


@dataclass(frozen=True, slots=True, kw_only=True)
class Trio:
    """The sound answer first, then what is right after the turn, then another wrong one."""

    turn: Turn
    shown: tuple[Shown, Shown, Shown]
    rule: str
    """The rule that decides after the turn; none where nothing turns."""

    @property
    def has_twin(self) -> bool:
        """Say whether the same three answers make a question after the turn as well."""
        first, second, third = (each.grade_there for each in self.shown)
        return first in BROKEN and second is Grade.SOUND and third in BROKEN

    @property
    def dislike(self) -> float:
        """Return how far it is from what one would like to ask."""
        origins = {each.origin for each in self.shown}
        return (
            _UNEVEN * _is_uneven([len(each.text) for each in self.shown])
            + _HALF * (not self.turn.is_whole)
            + _NO_TURN * (self.turn.near is None)
            + _NO_TWIN * (not self.has_twin)
            + _NOT_ADVISED * (Origin.ADVISED not in origins)
            + _TWICE * _is_nearly(self.shown[1].values, self.shown[2].values)
            + _BY_A_HAIR * (not is_clear(self.shown[1].values, self.shown[2].values))
            - _OWN * bool(origins & {Origin.USUAL_MISTAKE, Origin.CHARTED})
        )


def _is_nearly(one: Values, other: Values) -> bool:
    """Say whether two wrong answers are one and the same, but for a number."""
    return all(
        value == other[part] or (isinstance(value, float) and isinstance(other[part], float))
        for part, value in one.items()
    )


def is_clear(sound: Values, wrong: Values) -> bool:
    """Say whether a wrong answer is so by more than a hair: in a word, or in a visible number."""
    return any(_differs(part, value, wrong[part]) for part, value in sound.items() if part in wrong)


def _differs(part: str, one: Value, other: Value) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) >= _CLEAR.get(part, 0.0) - _SAME
    return one != other


def _is_uneven(lengths: Sequence[int]) -> bool:
    middle = sum(lengths) / len(lengths)
    return any(abs(each - middle) > _LENGTHS_APART * middle for each in lengths)


@dataclass(slots=True, kw_only=True)
class Chooser:
    """Chooses trios for one quiz."""

    words: Vocabulary
    balance: Balance

    def choose(
        self,
        table: Table,
        turns: Sequence[Turn],
        question: frozenset[str],
        rng: Random,
        *,
        most: float,
    ) -> Trio | None:
        """Return the trio that suits best and count what habits earn with it; None without one.

        question: the words of the question. most: what no habit may have earned above a guess so
        far with the trio; rather none than one with which it has.
        """
        best: tuple[float, Trio, dict[str, float]] | None = None
        earnings: dict[tuple[str, ...], dict[str, float]] = {}
        for trio in _trios(table, _some(turns, rng), self._looks(table), rng):
            # the same three answers come up with many changes
            texts = tuple(each.text for each in trio.shown)
            gains = earnings.get(texts)
            if gains is None:
                gains = earnings[texts] = earned([each.look for each in trio.shown], question)
            if self.balance.pays(gains, most):
                continue
            cost = _FAIRNESS * self.balance.cost(gains) + trio.dislike
            if best is None or cost < best[0]:
                best = (cost, trio, gains)
        if best is None:
            return None
        self.balance.take(best[2])
        return best[1]

    def _looks(self, table: Table) -> dict[int, tuple[str, Look]]:
        order = table.draft.template.parts
        found = {}
        for number in (*table.sound, *table.wrong):
            values = table.held[number].values
            text = option_text(values, order, self.words)
            found[number] = text, look_of(text, boldness(values))
        return found


def _some(turns: Sequence[Turn], rng: Random) -> list[Turn]:
    whole = [turn for turn in turns if turn.is_whole]
    half = [turn for turn in turns if not turn.is_whole and turn.near is not None]
    none = [turn for turn in turns if turn.near is None]
    return [
        each
        for some, most in ((whole, _MOST_WHOLE), (half, _MOST_HALF), (none, _MOST_NONE))
        for each in rng.sample(some, min(len(some), most))
    ]


def _trios(
    table: Table, turns: Sequence[Turn], looks: dict[int, tuple[str, Look]], rng: Random
) -> Iterator[Trio]:
    """Yield each turn with another wrong answer; one of the two has to be about the rule."""
    rule, kept = table.draft.rule, dict[tuple[int, int, bool], Shown]()

    def shown(turn: Turn, number: int) -> Shown:
        key = id(turn.near), number, number == turn.right
        if key not in kept:
            kept[key] = _shown(table, turn, number, looks)
        return kept[key]

    for turn in turns:
        sound = table.held[turn.sound].values
        if not is_clear(sound, table.held[turn.right].values):
            continue
        is_right_about = rule in table.held[turn.right].charged
        others = [
            n for n in table.wrong
            if n != turn.right
            and (is_right_about or rule in table.held[n].charged)
            and is_clear(sound, table.held[n].values)
        ]  # fmt: skip
        right = table.held[turn.right].values
        apart = [n for n in others if is_clear(right, table.held[n].values)] or others
        for other in rng.sample(apart, min(len(apart), 2)):
            yield Trio(
                turn=turn,
                shown=(shown(turn, turn.sound), shown(turn, turn.right), shown(turn, other)),
                rule=_rule_there(table, turn),
            )


def _rule_there(table: Table, turn: Turn) -> str:
    """Return the rule broken after the turn by what was sound, else the one that falls silent."""
    if turn.near is None:
        return ""
    charged = turn.near.charged(turn.sound) or table.held[turn.right].charged
    return charged[0] if charged else ""


def _shown(table: Table, turn: Turn, number: int, looks: dict[int, tuple[str, Look]]) -> Shown:
    held, (text, look) = table.held[number], looks[number]
    origin = held.candidate.origin
    if held.grade is Grade.SOUND and origin is not Origin.ADVISED:
        origin = Origin.VARIATION
    if turn.near is not None and number == turn.right and origin is Origin.VARIATION:
        origin = Origin.NEIGHBOUR
    return Shown(
        held=held,
        text=text,
        look=look,
        grade_there=None if turn.near is None else turn.near.grades.get(number),
        origin=origin,
    )
