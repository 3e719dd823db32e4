"""A question about the court -> the position it asks about, with all that is wrong with it."""

from dataclasses import replace

from tactics.cli.clashes import clashes, contact_clashes, level_clash
from tactics.cli.court_options import position_with
from tactics.cli.questions import Question
from tactics.engine.coverage import as_covered
from tactics.engine.position import Position, position_of
from tactics.engine.troubles import air_problems, position_problems
from tactics.engine.typical import only_word
from tactics.model.known import Within
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem

_PLACES = ("court depth", "court width", "contact height", "opponent depth", "opponent width")


def read_position(
    question: Question, words: Vocabulary, rules: RuleSet | None = None
) -> Position | None:
    """Return the position asked about, or None; what is wrong with it goes to the question."""
    conditions, odd = question.conditions, air_problems(question.conditions, question.place)
    question.problems += odd
    if odd:
        # the rest is looked at in ordinary air, so that everything is said at once
        conditions = replace(conditions, altitude_m=None, temperature_c=None)
    situation = question.situation
    if rules is not None:
        situation = as_covered(rules, situation)
    position = position_with(position_of(situation, words, conditions), question.measured)
    question.problems += position_problems(position, question.place)
    question.problems += _clashes(question, position)
    position = _with_open_places(position, question.situation)
    return None if question.stops() else position


def _clashes(question: Question, position: Position) -> list[Problem]:
    """Return what cannot come together of facts, contact and level."""
    place = question.place
    level = only_word(question.situation.get("level"))
    found = [*level_clash(level, question.conditions.level, place)]
    if question.conditions.contact is not None:
        is_small = position.venue.length_scale < 1.0
        told = Situation() if is_small else question.situation
        found += contact_clashes(told, position.situation, place)
    return [*found, *clashes(position.situation, place)]


def _with_open_places(position: Position, told: Situation) -> Position:
    """Return the position with a note where a place may be one of several."""
    open_ = [
        f"{fact} may be one of several: the first is taken"
        for fact in _PLACES
        for known in [told.get(fact)]
        if isinstance(known, Within) and len(known.intervals) > 1
    ]
    return replace(position, taken=(*position.taken, *open_))
