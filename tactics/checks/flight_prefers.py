"""Aims that the flight model would trade for another choice, clearly and against the rules.

An estimate at the level the set is for, rule by rule and slow: asked for, never run by itself.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.candidate import Candidate
from tactics.engine.examples import situation_of
from tactics.engine.judge import judge
from tactics.engine.position import Position, position_of
from tactics.model.rule import Example, Rule
from tactics.model.situation import Situation
from tactics.model.verdict import BROKEN, KEPT
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem, Severity
from tactics.reading.chart_writing import write_known

CODE = "flight-prefers"
_CLEARLY_POINTS = 10
"""How far ahead, of a hundred points, in nine of ten sets of assumptions."""
_FLOWN = ("depth", "height over net", "pace")


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """One more aim was looked at; problem: None where the model has nothing better."""

    done: int
    total: int
    problem: Problem | None


def flight_prefers(advisor: Advisor) -> Iterator[Looked]:
    """Yield rule by rule whether the model puts a choice the rules refuse clearly ahead."""
    asked = [
        (rule, example)
        for rule in advisor.rules.rules
        if (example := _kept_example(rule)) is not None and _is_shot(rule)
    ]
    for done, (rule, example) in enumerate(asked, start=1):
        problem = _about(advisor, rule, example)
        yield Looked(done=done, total=len(asked), problem=problem)


def _kept_example(rule: Rule) -> Example | None:
    return next((each for each in rule.examples if each.grade in KEPT), None)


def _is_shot(rule: Rule) -> bool:
    wanted = {**dict(rule.advice), **dict(rule.aim)}
    return "direction" in wanted and any(part in wanted for part in _FLOWN)


def _about(advisor: Advisor, rule: Rule, example: Example) -> Problem | None:
    from tactics.engine.exchange import contest, estimated  # numpy: only here
    from tactics.engine.rule_shot import flown_parts, rule_shot
    from tactics.engine.troubles import is_impossible

    words = advisor.vocabulary
    situation = situation_of(advisor.rules, rule, example)
    position = position_of(situation, words)
    if is_impossible(position):
        return None
    wanted = flown_parts({**dict(rule.advice), **dict(rule.aim)}, position)
    aimed = rule_shot(wanted, position, words)
    other = _best_against_the_rules(advisor, situation, position)
    if other is None or not aimed.exists:
        return None
    both = contest((other, aimed), position, words)
    order = both.order()
    if order.numbers[0] != 0 or order.behind_points[1] < _CLEARLY_POINTS:
        return None  # by the middle assumptions already: no need to try them all
    found = estimated(both)
    compared = None if found is None else found.compare(0, 1)
    if compared is None or compared.low_points < _CLEARLY_POINTS:
        return None
    return _problem(rule, example, other, (compared.low_points, compared.high_points), words)


def _best_against_the_rules(
    advisor: Advisor, situation: Situation, position: Position
) -> Candidate | None:
    """Return the best of the handful that the rules grade doubtful or unsound."""
    from tactics.engine.best import best_shots

    advice = advise(advisor, situation)
    few = best_shots(position, advisor.vocabulary).candidates
    return next((each for each in few if judge(each.choice, advice).grade in BROKEN), None)


def _problem(
    rule: Rule, example: Example, other: Candidate, ahead: tuple[int, int], words: Vocabulary
) -> Problem:
    low, high = ahead
    points = f"{low}" if low == high else f"{low} to {high}"
    return Problem(
        code=CODE,
        span=rule.place_of("aim" if rule.aim else "advise"),
        sentence=f'where rule "{rule.id}" first holds (example in line {example.span.line}) the '
        f"flight model (an estimate) puts another choice {points} points of a hundred ahead: "
        f"{_in_words(other, words)}",
        hint="nothing has to change: the model knows no intent, no disguise and no habit of a "
        "player; look at both with `tactics shot`",
        severity=Severity.INFORMATION,
    )


def _in_words(other: Candidate, words: Vocabulary) -> str:
    told = [(words.trait(part), known) for part, known in other.choice.parts]
    return ", ".join(f"{trait.name} {write_known(known, trait)}" for trait, known in told)
