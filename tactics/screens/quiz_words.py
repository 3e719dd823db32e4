"""Titles and keys of a quiz."""

from tactics.model.scenario import Ask, Scenario

ASK_KEYS = "1 2 3, or up/down and Enter: answer   l: leave it open   q: stop"
AIM_KEYS = "Arrows: move  Enter: aim there  a: pick an answer  l: leave it open  q: stop"
SURE_KEYS = "s, n, or up/down and Enter: how sure   1 2 3: change the answer   q: stop"
AIM_SURE_KEYS = "s, n, or up/down and Enter: how sure   q: stop"
TYPING_KEYS = "Type a line for your coach.   Enter: keep it (empty: never mind)"
SEEN_DIFFERENTLY = "I see it differently: "
KEPT_FOR_COACH = "Kept for your coach."


def title(nickname: str, scenario: Scenario, number: int, total: int) -> str:
    """Return the first line of a question."""
    return f"Quiz for {nickname}   {heading(scenario, number, total)}"


def heading(scenario: Scenario, number: int, total: int) -> str:
    """Return which question this is."""
    if scenario.is_twin:
        return "The same ball with one fact changed"
    return f"Question {number} of {total}: {scenario.ask.value}"


def is_aimed(scenario: Scenario) -> bool:
    """Say whether a place on the court is asked for."""
    return scenario.ask is Ask.AIM


def feedback_keys(*, can_twin: bool, is_last: bool, has_more: bool, is_scrolled: bool) -> str:
    """Return the keys after an answer; is_scrolled: whether something went by above."""
    keys = [f"Enter: {'finish' if is_last else 'next'}"]
    if can_twin:
        keys.append("c: change one thing")
    keys.append("i: I see it differently")
    if is_scrolled:
        keys.append("PgUp PgDn")
    elif has_more:
        keys.append("PgDn: more")
    return "  ".join((*keys, "q: stop"))
