"""A rule that a lesson works on, with its reasons, for a plan and for another coach."""

from dataclasses import dataclass

from tactics.model.rule import RuleSet
from tactics.report.reviews import headline, reasons, rule_name
from tactics.review.ledger import Heading
from tactics.review.priorities import Priority

_FIRST_LOOK = "A first look, no priority: chart it, and decide when there are more."
_TO_THE_COACH = ("Cue:", "Put down to:", "You marked")
"""Reasons that have a place of their own, or that speak to whoever charted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedOn:
    """A rule with its reasons. said: how often it was broken."""

    rule: str
    title: str
    said: str
    reasons: tuple[str, ...]
    cue: str

    @property
    def headline(self) -> str:
        """Return the rule by title and id, and how often it was broken."""
        return f'"{self.title}" [{self.rule}], {self.said}'


def priority_worked_on(
    each: Priority, place: int, rules: RuleSet, *, to_another: bool = False
) -> WorkedOn:
    """Return a priority with its reasons; to_another: for a coach who did not chart the balls."""
    rule = rules.rule(each.rule)
    kept_back = _TO_THE_COACH if to_another else _TO_THE_COACH[:1]
    why = [text for text in reasons(each, place, rules) if not text.startswith(kept_back)]
    if to_another and each.causes:
        named = ", ".join(f"{cause} {count}" for cause, count in each.causes)
        why.append(f"Put down to: {named} (by the coach, or proposed where none was named).")
    return WorkedOn(
        rule=each.rule,
        title=rule.title,
        said=headline(each, rules).removeprefix(f"{rule_name(each.rule, rules)}, "),
        reasons=tuple(why),
        cue=rule.cue,
    )


def first_look(few: Heading, rules: RuleSet) -> WorkedOn:
    """Return a rule that was broken, but on too few balls to be called a priority."""
    rule = rules.rule(few.name)
    return WorkedOn(
        rule=few.name,
        title=rule.title,
        said=f"broken on {len(few.broken)} of {few.broken_rate.n}, not enough balls yet",
        reasons=(_FIRST_LOOK,),
        cue=rule.cue,
    )
