"""A lesson plan as values for text and page: everything in words, nothing left to work out."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.coverage import as_covered
from tactics.model.ball import Ball
from tactics.model.known import Known, word
from tactics.model.plan import Block, Part, Plan
from tactics.model.rule import Rule, RuleSet
from tactics.report.audit_balls import background_of
from tactics.report.care import AID, CARE
from tactics.report.court_picture import Picture, picture_of
from tactics.report.layout import counted
from tactics.report.people import lessons_words, nickname
from tactics.report.player_words import asked_words, ball_words
from tactics.report.rule_book_scenes import scene_of
from tactics.report.targets import wanted_shot
from tactics.report.worked_on import WorkedOn, first_look, priority_worked_on
from tactics.review.ledger import Ledger
from tactics.review.plan import is_straining
from tactics.review.priorities import Priorities

_RETESTS, _MOST_RETESTS = 4, 3
_HANDS = ("own hand", "opponent hand")
_RETEST_FIRST = (
    "Begin with this, before any reminder and before a word about last time. Feed the ball, let "
    "the player choose, then ask: what did you see, what did you want, what else was there? "
    "Note the choice, not whether it went in."
)
_RETEST_NONE = (
    "There is no ball to try again this time. Feed two or three easy rally balls, let the player "
    "choose, then ask: what did you see, what did you want, what else was there? Note the choice, "
    "not whether it went in."
)
_WARM_UP = (
    "Easy movement, then half-court rallies in which the last thing that went well comes up again."
)
_POINTS = (
    "Free points. Stop at most one point in four or five: ask first, then one cue, then the same "
    "ball again. Chart the decisive balls, sound ones too."
)
_POINTS_RESTRICTED = " Start every point with an easy feed: no serves, no overheads today."
_CLOSE = "Write two lines: seen and worked on. One line: next. Give the homework with a day."
_QUIZ = (
    "A short quiz at home on these rules: {minutes} minutes, {times} times before the next lesson. "
    "What the quiz shows and what the court shows are two things; neither is taken as the cause of "
    "the other."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Retest:
    """A ball to begin with. ball: in a sentence, as it was met; wanted: what to listen for."""

    rule: str
    ball: str
    wanted: str
    where: str
    picture: Picture | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedBlock:
    """One block of the lesson; pairs: (label, text)."""

    part: Part
    title: str
    minutes: int
    lead: str
    pairs: tuple[tuple[str, str], ...] = ()
    scene: str = ""
    picture: Picture | None = None
    retests: tuple[Retest, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPage:
    """A whole plan in words. safety: what stands before everything else ("" where nothing does).

    facts: (label, text): for whom, what it rests on, by which rules.
    """

    title: str
    facts: tuple[tuple[str, str], ...]
    safety: str
    worked_on: tuple[WorkedOn, ...]
    remarks: tuple[str, ...]
    blocks: tuple[PlannedBlock, ...]
    homework: tuple[str, ...]
    care: tuple[str, ...]
    aid: str = AID


def plan_page(
    plan: Plan, found: Priorities, ledger: Ledger, advisor: Advisor, player: str
) -> PlanPage:
    """Return a plan in words, with a court picture for every ball it starts from."""
    rules = advisor.rules
    care = [CARE[each] for each in plan.care]
    return PlanPage(
        title=f"Next lesson, {plan.minutes} minutes",
        facts=_facts(ledger, player),
        safety=care[0] if plan.is_restricted else "",
        worked_on=tuple(_worked_on(plan, found, rules)),
        remarks=tuple(_remarks(plan, found, rules)),
        blocks=tuple(_block(block, plan, ledger, advisor) for block in plan.blocks),
        homework=tuple(_homework(plan, rules)),
        care=tuple(care[1:] if plan.is_restricted else care),
    )


def _facts(ledger: Ledger, player: str) -> tuple[tuple[str, str], ...]:
    return (
        ("for", nickname(player)),
        ("rests on", lessons_words(ledger)),
        ("rule set", ledger.rule_set),
    )


def with_homework(page: PlanPage, quiz_file: str) -> PlanPage:
    """Return the plan with the quiz file that holds its homework named."""
    first, *rules = page.homework
    return replace(page, homework=(f"{first} To start it: tactics quiz {quiz_file}", *rules))


def _worked_on(plan: Plan, found: Priorities, rules: RuleSet) -> Iterator[WorkedOn]:
    chosen = {each.rule: (place, each) for place, each in enumerate(found.chosen)}
    for rule_id in plan.rules:
        if rule_id in chosen:
            place, each = chosen[rule_id]
            yield priority_worked_on(each, place, rules)
        else:
            yield first_look(next(e for e in found.few if e.name == rule_id), rules)


def _remarks(plan: Plan, found: Priorities, rules: RuleSet) -> Iterator[str]:
    if not plan.rules:
        yield (
            "No rule stands out from the others, so the lesson is points and charting. Nothing to "
            "mend is a finding, too."
        )
    for rule_id in plan.waiting:
        yield f'"{rules.rule(rule_id).title}" waits until the player is well.'
    if plan.left_out:
        yield f"Not proposed today: {', '.join(plan.left_out)}."
    for rule_id in plan.without_drill:
        yield (
            f'No drill of the catalogue trains "{rules.rule(rule_id).title}": stop on it in the '
            "points."
        )
    trained = {block.rule for block in plan.blocks if block.drill is not None}
    for rule_id in plan.rules:
        if rule_id not in trained and rule_id not in plan.without_drill:
            title = rules.rule(rule_id).title
            yield f'There is no time for a drill on "{title}": stop on it in the points.'


def _block(block: Block, plan: Plan, ledger: Ledger, advisor: Advisor) -> PlannedBlock:
    match block.part:
        case Part.RETEST:
            retests = tuple(_retests(plan, ledger, advisor))
            return PlannedBlock(
                part=block.part,
                title="First, before any reminder",
                minutes=block.minutes,
                lead=_RETEST_FIRST if retests else _RETEST_NONE,
                retests=retests,
            )
        case Part.WARM_UP:
            return PlannedBlock(
                part=block.part, title="Warm-up", minutes=block.minutes, lead=_WARM_UP
            )
        case Part.DRILL:
            return _drill(block, ledger, advisor)
        case Part.POINTS:
            more = _POINTS_RESTRICTED if plan.is_restricted else ""
            return PlannedBlock(
                part=block.part,
                title="Points with stops",
                minutes=block.minutes,
                lead=_POINTS + more,
            )
        case Part.CLOSE:
            return PlannedBlock(part=block.part, title="Close", minutes=block.minutes, lead=_CLOSE)


def _drill(block: Block, ledger: Ledger, advisor: Advisor) -> PlannedBlock:
    drill, rule = block.drill, advisor.rules.rule(block.rule)
    assert drill is not None
    scene = scene_of(rule, advisor, _hands(ledger, advisor))
    pairs = (
        ("set-up", drill.set_up),
        ("scoring", drill.scoring),
        ("harder", drill.harder),
        ("easier", drill.easier),
        ("safety", drill.safety),
        ("cue", rule.cue),
    )
    return PlannedBlock(
        part=block.part,
        title=drill.title,
        minutes=block.minutes,
        lead=f"For: {rule.title}.",
        pairs=tuple((label, text) for label, text in pairs if text),
        scene=scene.says,
        picture=scene.picture,
    )


def _hands(ledger: Ledger, advisor: Advisor) -> dict[str, Known]:
    """Return both players' hands where they were the same throughout."""
    throughout = dict(background_of(ledger.balls, advisor.vocabulary))
    return {fact: throughout[fact] for fact in _HANDS if fact in throughout}


def _retests(plan: Plan, ledger: Ledger, advisor: Advisor) -> Iterator[Retest]:
    """Yield, for each rule worked on, the latest balls on which it was broken."""
    headings = {each.name: each for each in ledger.by_rule()}
    words = advisor.vocabulary
    each_rule = min(_MOST_RETESTS, _RETESTS // max(1, len(plan.rules)))
    for rule_id in plan.rules:
        rows = [int(row) for row in headings[rule_id].broken] if rule_id in headings else []
        fit = [row for row in rows if _can_be_tried(ledger.balls[row], plan)]
        latest = sorted(fit, key=lambda r: (ledger.balls[r].date, r))
        for row in latest[-each_rule:]:
            ball = ledger.balls[row]
            given = as_covered(advisor.rules, ball.situation)
            shot = wanted_shot(advise(advisor, given))
            picture = picture_of(given, shot, words)
            yield Retest(
                rule=rule_id,
                ball=ball_words(ball.situation, words),
                wanted=_wanted(advisor.rules.rule(rule_id), advisor),
                where=f"line {ball.span.line}" + (f", {ball.date}" if ball.date else ""),
                picture=picture if picture.player is not None else None,
            )


def _can_be_tried(ball: Ball, plan: Plan) -> bool:
    """Say whether a ball suits the day: nothing straining for the sore, no sore day's ball else."""
    if plan.is_restricted:
        return not is_straining(ball)
    return ball.situation.get("restricted today") != word("yes")


def _wanted(rule: Rule, advisor: Advisor) -> str:
    return asked_words(dict(rule.advice), advisor.vocabulary)


def _homework(plan: Plan, rules: RuleSet) -> Iterator[str]:
    work = plan.homework
    if not work.rules:
        yield "None this time."
        return
    yield _QUIZ.format(minutes=work.minutes, times=work.times_a_week)
    for rule_id in work.rules:
        yield f"{rules.rule(rule_id).title} [{rule_id}]"


def minutes_words(minutes: int) -> str:
    """Return `12 minutes`."""
    return counted(minutes, "minute")
