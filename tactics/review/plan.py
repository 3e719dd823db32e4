"""Priorities and drills -> the next lesson."""

from collections.abc import Iterable, Sequence
from itertools import islice

from tactics.model.ball import Ball
from tactics.model.drill import Catalogue, Drill
from tactics.model.known import Known, OneOf
from tactics.model.plan import Block, Care, Homework, Part, Plan
from tactics.model.rule import Rule, RuleSet
from tactics.model.vocabulary import Vocabulary
from tactics.review.ledger import Ledger
from tactics.review.priorities import Priorities

STRAINING = frozenset({"serve", "smash"})
USUAL_MINUTES = 60
SHORTEST_MINUTES = 20
_RETEST, _WARM_UP, _CLOSE = 5, 8, 5
_LEAST_POINTS = 10
_HOME_MINUTES, _HOME_TIMES = 8, 3
_SECOND_DRILLS_FROM = 75
_FIRST_LOOKS = 2


def plan_lesson(
    chosen: Sequence[str],
    rules: RuleSet,
    catalogue: Catalogue,
    *,
    minutes: int = USUAL_MINUTES,
    is_restricted: bool = False,
    is_junior: bool = False,
) -> Plan:
    """Return a lesson on the chosen rules, most important first.

    It opens with what was worked on, before any reminder, and leaves room for points. With a
    restriction no drill with serves or smashes is proposed, and no rule about effort is worked on.
    """
    asked = [rules.rule(each) for each in chosen]
    wanted = [
        rule for rule in asked if not (is_restricted and _has_to_wait(rule, rules, catalogue))
    ]
    fit = {rule.id: _drills(rule, catalogue, is_restricted=is_restricted) for rule in wanted}
    taken = _taken(wanted, fit, _room(minutes), twice=minutes >= _SECOND_DRILLS_FROM)
    used = sum(drill.minutes for _, drill in taken)
    blocks = (
        Block(part=Part.RETEST, minutes=_RETEST),
        Block(part=Part.WARM_UP, minutes=_WARM_UP),
        *(Block(part=Part.DRILL, minutes=d.minutes, rule=rule, drill=d) for rule, d in taken),
        Block(part=Part.POINTS, minutes=minutes - _RETEST - _WARM_UP - _CLOSE - used),
        Block(part=Part.CLOSE, minutes=_CLOSE),
    )
    return Plan(
        minutes=minutes,
        rules=tuple(rule.id for rule in wanted),
        blocks=blocks,
        homework=Homework(
            rules=tuple(rule.id for rule in wanted),
            minutes=_HOME_MINUTES,
            times_a_week=_HOME_TIMES,
        ),
        care=tuple(_care([drill for _, drill in taken], is_restricted, is_junior)),
        is_restricted=is_restricted,
        without_drill=tuple(rule.id for rule in wanted if not fit[rule.id]),
        waiting=tuple(rule.id for rule in asked if rule not in wanted),
        left_out=_left_out(asked, catalogue) if is_restricted else (),
    )


def _has_to_wait(rule: Rule, rules: RuleSet, catalogue: Catalogue) -> bool:
    """Say whether a rule has to wait until the player is well: effort, or only straining drills."""
    drills = _drills(rule, catalogue, is_restricted=False)
    return is_about_effort(rule, rules) or (bool(drills) and all(map(_strains, drills)))


def rules_to_work_on(found: Priorities, skip: frozenset[str] = frozenset()) -> tuple[str, ...]:
    """Return the priorities; without any, the one or two rules broken most often so far."""
    if found.chosen:
        return tuple(each.rule for each in found.chosen)
    often = (each.name for each in found.few if len(each.broken) > 1 and each.name not in skip)
    return tuple(islice(often, _FIRST_LOOKS))


def is_about_effort(rule: Rule, rules: RuleSet) -> bool:
    """Say whether a rule asks for nothing but effort: trying, running back, being ready."""
    return bool(rule.advice) and all(rules.vocabulary.trait(part).effort for part, _ in rule.advice)


def effort_rules(rules: RuleSet) -> frozenset[str]:
    """Return the rules that ask for nothing but effort."""
    return frozenset(rule.id for rule in rules.rules if is_about_effort(rule, rules))


def is_restricted_now(ledger: Ledger) -> bool:
    """Say whether the last day of the charts has a ball with the restriction set, or in doubt."""
    if not ledger.sessions:
        return False
    last = ledger.sessions[-1][1]
    return any(
        _may_be(ball.situation.get("restricted today"), "yes")
        for ball in ledger.balls
        if ball.date == last
    )


def is_straining(ball: Ball) -> bool:
    """Say whether a ball was a serve or an overhead, which a restricted player does not repeat."""
    serves = _may_be(ball.situation.get("game situation"), "serving")
    over_head = _may_be(ball.situation.get("wing"), "overhead")
    return serves or over_head or _may_be(ball.choice.get("stroke"), "smash")


def is_junior(ledger: Ledger, words: Vocabulary) -> bool:
    """Say whether any ball was played on a court for children."""
    stages = frozenset(word.name for word in words.trait("stage").words) - {"full court"}
    return any(
        isinstance(known, OneOf) and known.words <= stages
        for known in (ball.situation.get("stage") for ball in ledger.balls)
    )


def _may_be(known: Known, word: str) -> bool:
    return isinstance(known, OneOf) and word in known.words


def _room(minutes: int) -> int:
    return minutes - _RETEST - _WARM_UP - _CLOSE - _LEAST_POINTS


def _drills(rule: Rule, catalogue: Catalogue, *, is_restricted: bool) -> list[Drill]:
    """Return the drills that train a rule, those the rule itself names first."""
    named = [drill for each in rule.drills if (drill := catalogue.find(each)) is not None]
    tagged = [each for each in catalogue.drills if rule.id in each.trains and each not in named]
    return [each for each in (*named, *tagged) if not (is_restricted and _strains(each))]


def _strains(drill: Drill) -> bool:
    return bool(STRAINING & set(drill.strains))


def _taken(
    wanted: Iterable[Rule], fit: dict[str, list[Drill]], room: int, *, twice: bool
) -> list[tuple[str, Drill]]:
    """Return (rule, drill): one drill for each rule as far as there is time, then a second."""
    taken: list[tuple[str, Drill]] = []
    for _ in range(2 if twice else 1):
        for rule in wanted:
            used = {drill.id for _, drill in taken}
            left = room - sum(drill.minutes for _, drill in taken)
            fresh = (each for each in fit[rule.id] if each.id not in used and each.minutes <= left)
            drill = next(fresh, None)
            if drill is not None:
                taken.append((rule.id, drill))
    order = [rule.id for rule in wanted]
    return sorted(taken, key=lambda pair: order.index(pair[0]))


def _left_out(wanted: Iterable[Rule], catalogue: Catalogue) -> tuple[str, ...]:
    names = (
        drill.title
        for rule in wanted
        for drill in _drills(rule, catalogue, is_restricted=False)
        if _strains(drill)
    )
    return tuple(dict.fromkeys(names))


def _care(drills: Sequence[Drill], is_restricted: bool, is_junior: bool) -> Iterable[Care]:
    if is_restricted:
        yield Care.RESTRICTED
    yield Care.WARM_UP
    strains = any(_strains(drill) for drill in drills)
    if strains:
        yield Care.SHOULDER
    if is_junior:
        yield Care.JUNIOR
    elif strains:
        yield Care.LOAD
    yield Care.WEATHER
