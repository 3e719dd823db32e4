"""Priorities and changes in words, for the terminal and for pages."""

from collections.abc import Iterable, Iterator, Sequence

from tactics.model.rule import RuleSet
from tactics.report.audit_balls import place_words
from tactics.report.layout import Section, bullet, counted, wrapped
from tactics.report.rates import counted_share, percent
from tactics.report.verdicts import find_rule
from tactics.review.comparing import CHANCE
from tactics.review.ledger import Heading, Ledger
from tactics.review.priorities import Because, Priorities, Priority, Sureness
from tactics.review.trend import Change, Period, Said, Trend
from tactics.source import Span

_PLACES_SHOWN = 12
_RULES_SHOWN = 4
_NUMBERS = ("first", "second", "third")
_REASON = {
    Because.SAFETY: "it is about safety",
    Because.SURER: "it is a pattern, and what follows is an early sign",
    Because.MUST: "the rule is a must, and the next is a should",
    Because.MORE_BALLS: "it costs more balls than the next",
}


def priority_section(found: Priorities, ledger: Ledger, rules: RuleSet) -> Section:
    """Return the priorities with their reasons, and how they were picked."""
    lines: list[str] = []
    for place, each in enumerate(found.chosen):
        lines += bullet(f"{_NUMBERS[place].capitalize()}: {headline(each, rules)}", "  ")
        for text in reasons(each, place, rules):
            lines += wrapped(text, "    ", "      ")
        lines += wrapped(f"Balls: {places(each.heading, ledger)}", "    ", "      ")
    for text in method(found):
        lines += wrapped(text, "  ")
    return Section(title="Priorities", lines=tuple(lines) if ledger.balls else ())


def headline(each: Priority, rules: RuleSet) -> str:
    """Return the rule by title and id, and how often it was broken."""
    return (
        f"{rule_name(each.rule, rules)}, broken on {each.broken.count} of {each.broken.n}: "
        f"{_own_rate(each)}"
    )


def _own_rate(each: Priority) -> str:
    low, high = each.broken.interval
    share = f"{percent(each.broken.share)} % ({percent(low)} to {percent(high)} %)"
    return f"{share}, n = {each.broken.n}, {each.sureness}"


def rule_name(rule_id: str, rules: RuleSet) -> str:
    """Return `"Title of the rule" [its-id]`."""
    rule = find_rule(rules, rule_id)
    return f"[{rule_id}]" if rule is None else f'"{rule.title}" [{rule_id}]'


def reasons(each: Priority, place: int, rules: RuleSet) -> Iterator[str]:
    """Yield what stands behind a priority and why it stands where it does."""
    rule = find_rule(rules, each.rule)
    yield (
        f"The other rules were broken on {counted_share(each.rest)}; beyond that, this one cost "
        f"about {counted(round(each.excess), 'ball')}. {chance_words(each)}"
    )
    if each.before is not Because.LAST:
        yield f"It comes {_NUMBERS[place]} because {_REASON[each.before]}."
    if each.causes:
        named = ", ".join(f"{cause} {count}" for cause, count in each.causes)
        yield f"Put down to: {named} (by you, or proposed where you named none)."
    if each.together:
        yield f"Mostly the same balls: {', '.join(each.together)}."
    if each.doubted:
        yield (
            f"You marked {counted(each.doubted, 'of these balls', 'of these balls')} as good: look "
            "at the rule before you train it."
        )
    if rule is not None and rule.cue:
        yield f"Cue: {rule.cue}"


def chance_words(each: Priority) -> str:
    """Return how often chance alone would show as much."""
    if each.sureness is Sureness.PATTERN:
        return (
            "With every rule that was looked at allowed for, chance alone would show as much in "
            f"{_odds(each.chance)} seasons."
        )
    if each.chance < CHANCE:
        return "Too far from the others for chance, but too few balls or lessons for a pattern."
    return (
        f"Taken alone, chance would show as much in {_odds(each.alone)} seasons; with every rule "
        "looked at allowed for, it may be chance."
    )


def _odds(chance: float) -> str:
    return f"{max(1, round(100 * chance))} of 100" if chance >= 0.01 else "fewer than 1 of 100"


def method(found: Priorities) -> Iterator[str]:
    """Yield how the priorities were picked, and what cannot be said yet."""
    if not found.looked_at:
        yield ("No rule was met on ten balls yet, so there is no priority; play on and chart on.")
    elif not found.chosen:
        yield (
            f"No rule is broken more often than the others beyond chance "
            f"({counted(found.looked_at, 'rule')} met on ten balls or more). Play on and chart on."
        )
    else:
        yield (
            f"{counted(found.looked_at, 'rule')} met on ten balls or more, each compared with all "
            "others of this chart. That several were looked at is allowed for (Holm), and balls of "
            f"one lesson count {alike_words(found.alike)}. An early sign alone may be chance: "
            "about 1 in 20 of the rules looked at shows one. Looking again every week makes "
            "chance finds more likely."
        )
    if found.waiting:
        named = ", ".join(each.rule for each in found.waiting)
        yield f"Left for later, three are enough: {named}."
    if found.few:
        named = ", ".join(
            f"{each.name} {len(each.broken)} of {each.broken_rate.n}"
            for each in found.few[:_RULES_SHOWN]
        )
        more = len(found.few) - _RULES_SHOWN
        further = f" and {counted(more, 'more rule')}" if more > 0 else ""
        yield f"Broken, but on fewer than ten balls, so nothing is said yet: {named}{further}."


def alike_words(alike: float) -> str:
    """Return how much the balls of one lesson are alike."""
    if alike < 0.005:
        return "fully, as lessons differ no more here than chance would have it"
    return f"less (two balls of one lesson are alike by {alike:.2f} on a scale from 0 to 1)"


def places(heading: Heading, ledger: Ledger) -> str:
    """Return where the broken balls of a heading stand."""
    return places_of((ledger.balls[int(row)].span for row in heading.broken), ledger)


def places_of(spans: Iterable[Span], ledger: Ledger) -> str:
    """Return places in words, the first dozen of them."""
    with_file = len(ledger.charts) > 1
    said = [place_words(span, with_file=with_file) for span in spans]
    more = len(said) - _PLACES_SHOWN
    return ", ".join(said[:_PLACES_SHOWN]) + (f" and {more} more" if more > 0 else "")


def trend_section(found: Trend | None, rules: RuleSet) -> Section:
    """Return what changed between two periods; empty with one lesson only."""
    if found is None:
        return Section(title="", lines=())
    lines = [*wrapped(f"{period_words(found.before)} against {period_words(found.after)}:", "  ")]
    for each in _telling(found.changes):
        lines += bullet(change_words(each, rules), "  ")
    for text in trend_notes(found):
        lines += wrapped(text, "  ")
    return Section(title="Then and now", lines=tuple(lines))


_CHANGES_SHOWN = 6


def _telling(changes: Sequence[Change]) -> list[Change]:
    """Return the whole, and then what moved most surely."""
    first, others = list(changes[:1]), list(changes[1:])
    return first + sorted(others, key=lambda each: each.chance)[: _CHANGES_SHOWN - 1]


def period_words(period: Period) -> str:
    """Return `2 lessons (2026-03-07 to 2026-03-14)`."""
    lessons = counted(period.lessons, "lesson")
    if not period.first:
        return lessons
    days = period.first if period.first == period.last else f"{period.first} to {period.last}"
    return f"{lessons} ({days})"


def change_words(each: Change, rules: RuleSet) -> str:
    """Return one change: shares, the interval of the change, and what may be said."""
    name = rule_name(each.name, rules) if each.kind == "rule" else each.name
    name = "all choices" if name == "all" else name
    return f"{name}: {shares_words(each)}. {needed_words(each)}"


def shares_words(each: Change) -> str:
    """Return `kept 45 % (n = 20), then 60 % (n = 35): +15 points (-10 to +38)`."""
    low, high = each.interval
    moved = percent(each.after.share) - percent(each.before.share)
    points = "point" if abs(moved) == 1 else "points"
    return (
        f"kept {percent(each.before.share)} % (n = {each.before.n}), then "
        f"{percent(each.after.share)} % (n = {each.after.n}): {moved:+} {points} "
        f"({percent(low):+} to {percent(high):+})"
    )


def needed_words(each: Change) -> str:
    """Return what may be said about a change, and the balls that would tell."""
    if each.says is Said.BEYOND_CHANCE:
        return f"{each.says.capitalize()}."
    said = each.says.capitalize()
    return f"{said}; about {each.needed} balls in each period would show 15 points."


def trend_notes(found: Trend) -> Iterator[str]:
    """Yield how changes were compared and what is missing."""
    if not found.compared:
        yield "Nothing has ten balls in both periods yet."
        return
    yield (
        f"{counted(found.compared, 'heading')} with ten balls or more in both periods, all allowed "
        "for at once (Holm); intervals of a change are Newcombe's 95 %, with balls of one lesson "
        "counting less where lessons differ. What was worked on is not shown to be the cause."
    )
    if found.too_few:
        yield f"{counted(found.too_few, 'rule')} with too few balls in one of the periods."
    if found.undated:
        yield f"{counted(found.undated, 'ball')} without a date left out of this comparison."
