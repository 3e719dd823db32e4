"""What the flight model says about a rule's aim: no such ball, or numbers that do not agree.

An estimate at the level the set is for: where it only argues, that is news and no mistake.
"""

from collections.abc import Iterator

from tactics.engine.advisor import Advisor
from tactics.engine.examples import situation_of
from tactics.model.known import Within
from tactics.model.rule import Example, Rule
from tactics.model.verdict import KEPT
from tactics.problem import Problem, Severity

_DEPTH, _HEIGHT, _PACE = "depth", "height over net", "pace"
_TELLING = frozenset((_DEPTH, _HEIGHT, _PACE))
_WIDE_APART_PCT = 10.0


def flight_says(advisor: Advisor) -> tuple[Problem, ...]:
    """Return a problem for each aim that cannot be played, a remark for each the model disputes."""
    aiming = [rule for rule in advisor.rules.rules if len(_TELLING & dict(rule.aim).keys()) > 1]
    return tuple(problem for rule in aiming for problem in _about(advisor, rule))


def _about(advisor: Advisor, rule: Rule) -> Iterator[Problem]:
    from tactics.engine.position import position_of  # numpy and the flight model: only here
    from tactics.engine.rule_shot import flown_parts, rule_shot
    from tactics.engine.troubles import is_impossible

    example = _kept_example(rule)
    if example is None:
        return
    situation = situation_of(advisor.rules, rule, example)
    position = position_of(situation, advisor.vocabulary)
    if is_impossible(position):
        return
    aim = dict(rule.aim)
    shot = rule_shot(flown_parts(aim, position), position, advisor.vocabulary)
    if not shot.exists:
        yield _cannot_be_played(rule, example)
        return
    wanted_pct = _one_number(aim.get(_PACE))
    if wanted_pct is not None and shot.pace_pct - wanted_pct > _WIDE_APART_PCT:
        yield _argues(rule, wanted_pct, shot.pace_pct)


def _kept_example(rule: Rule) -> Example | None:
    return next((each for each in rule.examples if each.grade in KEPT), None)


def _one_number(known: object) -> float | None:
    if isinstance(known, Within) and len(known.intervals) == 1:
        low, high = known.intervals[0].low[0], known.intervals[0].high[0]
        return low if low == high else None
    return None


def _cannot_be_played(rule: Rule, example: Example) -> Problem:
    return Problem(
        code="cannot-be-played",
        span=rule.place_of("aim"),
        sentence=f'rule "{rule.id}" aims at a ball that no launch gives from where its first kept '
        f"example (line {example.span.line}) meets it",
        hint="change the height, the depth or the pace of the aim, or say where the ball is met",
        severity=Severity.WARNING,
    )


def _argues(rule: Rule, wanted_pct: float, needed_pct: float) -> Problem:
    return Problem(
        code="flight-argues",
        span=rule.place_of(f"aim/{_PACE}"),
        sentence=f'rule "{rule.id}" aims at {wanted_pct:.0f} % of the own best; by the flight '
        f"model (an estimate) its height and depth need about {needed_pct:.0f} %",
        hint="nothing has to change: aim lower or shorter where the slower ball is what you mean",
        severity=Severity.INFORMATION,
    )
