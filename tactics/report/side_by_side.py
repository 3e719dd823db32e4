"""Quiz and court side by side for text, page and JSON; neither is said to cause the other.

What is said is worked out once, in `BesideWords`; text and page only place it.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from tactics.model.rule import RuleSet
from tactics.report.layout import Section, bullet, counted, labelled, wrapped
from tactics.report.rates import percent, rate_cell
from tactics.report.verdicts import find_rule
from tactics.review.own_change import Group, Moved, OwnChange
from tactics.review.rates import Rate, Standing
from tactics.review.side_by_side import RuleBeside, SideBySide

TITLE = "Quiz and court, side by side"
_SHOWN = 10
_LEAD = (
    "Answers at home, and balls on court before the day a rule was first asked and since; the "
    "rules met most often come first."
)
NO_CAUSE = (
    "Neither is shown to cause the other. New rules come in an order of chance, but not where a "
    "coach or a chart picked them: rules picked because they went badly tend to look better "
    "afterwards by chance alone."
)
_COMPARED = "Each rule against itself"
COUNTED = (
    "How far the share that was kept moved, from before a rule was first asked to since. A ball "
    "counts once for each rule that speaks about it."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleWords:
    """One rule in words; before, since: of the balls on court, with their shares."""

    rule: str
    title: str
    quiz: str
    before: str
    since: str
    before_rate: Rate
    since_rate: Rate

    @property
    def name(self) -> str:
        """Return the rule by title and id."""
        return f'"{self.title}" [{self.rule}]' if self.title else f"[{self.rule}]"


@dataclass(frozen=True, slots=True, kw_only=True)
class BesideWords:
    """Everything there is to say. compared: (which rules, how they moved); notes: what it means."""

    title: str
    lead: str
    rules: tuple[RuleWords, ...]
    compared_title: str
    compared_lead: str
    compared: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]


def beside_words(found: SideBySide, rules: RuleSet) -> BesideWords | None:
    """Return what there is to say; None where no rule was both asked and met."""
    if not found.rules:
        return None
    return BesideWords(
        title=TITLE,
        lead=_LEAD,
        rules=tuple(_rule_words(each, rules) for each in found.rules),
        compared_title=_COMPARED,
        compared_lead=COUNTED,
        compared=tuple(_compared(found.change)),
        notes=tuple(_notes(found)),
    )


def _rule_words(each: RuleBeside, rules: RuleSet) -> RuleWords:
    rule = find_rule(rules, each.rule)
    quiz = each.quiz
    return RuleWords(
        rule=each.rule,
        title="" if rule is None else rule.title,
        quiz=f"{quiz.full} of {counted(quiz.answered, 'answer')} with full credit, first asked on "
        f"{quiz.first_day}",
        before=_kept(each.before),
        since=_kept(each.since),
        before_rate=each.before,
        since_rate=each.since,
    )


def _kept(rate: Rate) -> str:
    if not rate.n:
        return "not met"
    said = str(rate.standing) if rate.standing is Standing.NOT_ENOUGH else rate_cell(rate)
    return f"kept {rate.count} of {rate.n}, {said}"


def _compared(change: OwnChange) -> Iterator[tuple[str, str]]:
    asked, not_yet = _group_words(change.asked), _group_words(change.not_yet)
    moved = change.moved
    if moved is None:
        yield "rules asked", asked
        yield "rules not asked yet, over the same dates", not_yet
        yield "difference", str(Standing.NOT_ENOUGH)
    else:
        yield "rules asked", f"{_points(moved.asked)}, {asked}"
        yield "rules not asked yet, over the same dates", f"{_points(moved.not_yet)}, {not_yet}"
        yield "difference", f"{_points(moved.apart)}: {moved.says}"


def _group_words(group: Group) -> str:
    if not group.rules:
        return "none met both before and since"
    return f"{counted(group.rules, 'rule')}, n = {group.before} before and {group.since} since"


def _points(moved: Moved) -> str:
    by = percent(moved.by)
    return (
        f"{by:+} {'point' if abs(by) == 1 else 'points'} "
        f"({percent(moved.low):+} to {percent(moved.high):+})"
    )


def _notes(found: SideBySide) -> Iterator[str]:
    yield NO_CAUSE
    if found.undated:
        yield f"Left out: {counted(found.undated, 'ball')} without a date."


def side_by_side_section(found: SideBySide, rules: RuleSet) -> Section:
    """Return the section of a text, empty where no rule was both asked and met."""
    words = beside_words(found, rules)
    return Section(title=TITLE, lines=() if words is None else tuple(_lines(words)))


def _lines(words: BesideWords) -> Iterator[str]:
    for each in words.rules[:_SHOWN]:
        yield from bullet(each.name, "  ")
        for label, said in (("quiz", each.quiz), ("before", each.before), ("since", each.since)):
            yield from labelled(label, said, len("before"), "    ")
    if len(words.rules) > _SHOWN:
        yield from wrapped(f"and {len(words.rules) - _SHOWN} more", "  ")
    yield from wrapped(f"{words.compared_title}. {words.compared_lead}", "  ")
    for group, said in words.compared:
        yield from bullet(f"{group}: {said}", "  ")
    for text in words.notes:
        yield from wrapped(text, "  ")
