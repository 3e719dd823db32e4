"""How much each fact matters in the questions of a rule set: what a reader blind to it loses.

The reader knows every rule, does not look at one fact, takes some value for granted, any as
likely as another, and answers as if it were so. A fact that can be ignored without loss is one
that the rule set never really tests.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tactics.model.scenario import Ask, Scenario, credit_of
from tactics.model.situation import Situation
from tactics.model.trait import Kind, Trait
from tactics.quiz.balance import CHANCE
from tactics.quiz.beside import Sides
from tactics.quiz.generate import Maker
from tactics.quiz.grading import Desk, Graded
from tactics.quiz.plain import Value, situation_of, value_of
from tactics.quiz.play import Ball
from tactics.quiz.requests import Request
from tactics.quiz.shots import choice_of

LOSS_THAT_COUNTS = 0.15
QUESTIONS = 400
_A_QUIZ = 20
_SEED = "tested facts"


@dataclass(frozen=True, slots=True, kw_only=True)
class TestedFact:
    """A fact and what a reader blind to it scores, 1 for all right and 0 for guessing.

    asked: questions whose rule asks about it, which the score is over. turned: of those, the
    questions that a change of this fact turns.
    """

    fact: str
    asked: int
    turned: int
    score: float

    @property
    def loss(self) -> float:
        """Return what the reader loses against one who sees everything."""
        return 1.0 - self.score

    @property
    def is_tested(self) -> bool:
        """Say whether ignoring the fact costs anything worth the name."""
        return self.asked > 0 and self.loss >= LOSS_THAT_COUNTS


def sample(maker: Maker, questions: int = QUESTIONS) -> tuple[Scenario, ...]:
    """Return the questions that facts are tested with, always the same for a rule set."""
    requests = [
        Request(seed=f"{_SEED}/{number}", count=_A_QUIZ, asks=_ABOUT_CHOICES)
        for number in range(questions // _A_QUIZ)
    ]
    return tuple(one for quiz in maker.make(requests) for one in quiz.scenarios)


_ABOUT_CHOICES = frozenset(Ask) - {Ask.NAME}


def tested_facts(maker: Maker, scenarios: Sequence[Scenario]) -> tuple[TestedFact, ...]:
    """Return every fact that a rule asks about, the most needed first."""
    sides, places = maker.drawing.sides, maker.places
    asking: dict[str, list[Scenario]] = {fact: [] for fact in _facts(sides, places)}
    for scenario in scenarios:
        for fact in sides.facts_of[places[scenario.rule]]:
            if fact in asking:
                asking[fact].append(scenario)
    found = [_tested(maker, fact, each) for fact, each in asking.items()]
    return tuple(sorted(found, key=lambda each: (-each.loss, each.fact)))


def _facts(sides: Sides, places: Mapping[str, int]) -> list[str]:
    asked = {fact for place in places.values() for fact in sides.facts_of[place]}
    return sorted(asked & {*sides.play.changeable})


def _tested(maker: Maker, fact: str, scenarios: Sequence[Scenario]) -> TestedFact:
    desk = Desk(maker.quick)
    rows = [_rows(maker, fact, scenario, desk) for scenario in scenarios]
    graded = desk.grade()
    credit = [
        _credit(scenario, each, graded) for scenario, each in zip(scenarios, rows, strict=True)
    ]
    mean = sum(credit) / len(credit) if credit else 1.0
    return TestedFact(
        fact=fact,
        asked=len(scenarios),
        turned=sum(s.flip is not None and s.flip.fact == fact for s in scenarios),
        score=(mean - CHANCE) / (1 - CHANCE),
    )


def _rows(maker: Maker, fact: str, scenario: Scenario, desk: Desk) -> list[list[int]]:
    """Put every option on the desk for every value the fact might have."""
    given = {part: value_of(known) for part, known in scenario.context.parts}
    options = [
        choice_of({**given, **{part: value_of(known) for part, known in option.choice.parts}})
        for option in scenario.options
    ]
    return [
        [desk.put(situation, choice) for choice in options]
        for situation in _possible(maker, fact, scenario)
    ]


def _possible(maker: Maker, fact: str, scenario: Scenario) -> list[Situation]:
    play = maker.play
    ball: Ball = {name: value_of(known) for name, known in scenario.situation.facts}
    found = []
    for value in _values(maker, play.traits[fact], ball[fact]):
        changed = {**ball, fact: value}
        play.derive(changed)
        if value == ball[fact] or play.laws.allow_change(changed, fact):
            found.append(situation_of({f: v for f, v in changed.items() if f in play.judged}))
    return found


def _values(maker: Maker, trait: Trait, here: Value) -> list[Value]:
    """Return a value of the fact for every one that the rules tell apart."""
    if here is None:
        return [None]
    if trait.kind is not Kind.NUMBER:
        return [word.name for word in trait.words]
    rooms = maker.play.rulers[trait.folded].rooms.values()
    others: list[Value] = [
        round((low + high) / 2, 2) for low, high in rooms if not low <= float(here) <= high
    ]
    return [here, *others]


def _credit(scenario: Scenario, rows: Sequence[Sequence[int]], graded: Graded) -> float:
    """Return what the blind reader earns on average, over all values it may take for granted."""
    earned = [credit_of(option.grade).points for option in scenario.options]
    found = 0.0
    for each in rows:
        seen = [_points(graded, row) for row in each]
        best = [earned[n] for n, points in enumerate(seen) if points == max(seen)]
        found += sum(best) / len(best)
    return found / len(rows)


def _points(graded: Graded, row: int) -> float:
    grade = graded.grade(row)
    return 0.0 if grade is None else credit_of(grade).points
