"""A target put on the court by the player: what it is in the words of a choice, and its grade."""

from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.judge import judge
from tactics.model.choice import Choice
from tactics.model.known import Known, OneOf, Within, between, word
from tactics.model.scenario import Option, Origin, Scenario
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary
from tactics.report.court_picture import (
    BASELINE_M,
    SERVICE_LINE_M,
    SINGLES_HALF_M,
    Spot,
    picture_of,
)
from tactics.report.quiz_ground import ground_of

AIM_STEP_M = 0.7
"""How far a target moves at once; what it lies nearer than half of that counts as met."""
_START = Spot(x_m=0.0, y_m=8.4)
_NEAREST_M = 1.4
_THIRD_M = SINGLES_HALF_M / 3
_BESIDE_M = 1.0
_PLAIN_ROADS, _RUN_AROUND_ROADS = ("crosscourt", "straight"), ("inside-out", "inside-in")
_ROAD_WORDS = {"middle": "to the middle"}


def first_spot() -> Spot:
    """Return where a target lies before it is moved: in the middle, which gives nothing away."""
    return _START


def moved(spot: Spot, along: int, right: int, half_m: float = SINGLES_HALF_M) -> Spot:
    """Return the place some steps on, inside the opponent's court; half_m: half its width."""
    x_m = spot.x_m + right * AIM_STEP_M
    y_m = spot.y_m + along * AIM_STEP_M
    most_right_m = AIM_STEP_M * int(half_m / AIM_STEP_M)
    return Spot(
        x_m=round(min(max(x_m, -most_right_m), most_right_m), 2),
        y_m=round(min(max(y_m, _NEAREST_M), BASELINE_M - AIM_STEP_M / 2), 2),
    )


def graded_spot(advisor: Advisor, scenario: Scenario, spot: Spot) -> Option:
    """Return a target as an answer, graded by the rules; undecided where they leave it open."""
    words = advisor.vocabulary
    roads = roads_to(spot, scenario.situation, words)
    ground = ground_of(scenario.situation)
    inside_m = ground.inside_m(spot.x_m)
    parts: dict[str, Known] = {
        **scenario.context.as_dict(),
        "direction": OneOf(frozenset(roads)),
        "depth": _about(spot.y_m),
        "inside line": _about(inside_m),
    }
    choice = Choice.of(parts)
    verdict = judge(choice, advise(advisor, scenario.situation))
    return Option(
        text=f"{_ROAD_WORDS.get(roads[0], roads[0])}, {inside_m:.1f} m inside the line, "
        f"{ground.along_m(spot.y_m):.1f} m past the net".capitalize(),
        grade=verdict.grade,
        origin=Origin.VARIATION,
        choice=choice,
        rules=verdict.charged or verdict.spoke,
    )


def roads_to(spot: Spot, situation: Situation, words: Vocabulary) -> tuple[str, ...]:
    """Return every direction that leads to a place, the plainest first."""
    found = list[str]()
    if abs(spot.x_m) < _THIRD_M:
        found.append("middle")
    roads = _PLAIN_ROADS + (_RUN_AROUND_ROADS if _runs_around(situation) else ())
    for road in roads if not found else ():
        target = picture_of(situation, {"direction": OneOf(frozenset((road,)))}, words).target
        if target is not None and (target.x_m > 0) is (spot.x_m > 0):
            found.append(road)
    if "crosscourt" in found and spot.y_m < SERVICE_LINE_M:
        found.append("sharp angle")
    opponent = picture_of(situation, {}, words).opponent
    if opponent is not None and abs(opponent.x_m - spot.x_m) < _BESIDE_M:
        found += ["at body", "behind"]
    return tuple(found)


def _runs_around(situation: Situation) -> bool:
    """Say whether a forehand is hit on the backhand side."""
    width = situation.get("court width")
    is_wide = isinstance(width, Within) and width.intervals[-1].high[0] <= 0
    return is_wide and situation.get("wing") == word("forehand")


def _about(metres: float) -> Within:
    half = AIM_STEP_M / 2
    return Within((between(metres - half, metres + half),))
