"""What the charting tests share: the club's rules, a sitting, and a file of balls."""

from functools import cache

from tactics.charting.deciding import Decider
from tactics.charting.entry import Entry, Sitting, begin
from tactics.charting.questions import Form
from tactics.cli.rule_files import load_rules
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.model.situation import Situation
from tests.charting.lessons import STANDING


@cache
def club() -> Advisor:
    rules = load_rules(["singles-club"], with_drills=False).reading.value
    assert rules is not None
    return compile_rules(rules, "matcher")


@cache
def form() -> Form:
    return Form(decider=Decider(club()))


def first_entry(**more: object) -> Entry:
    """Return a sitting in which everything about the day is known."""
    words = club().vocabulary
    known = {name: words.trait(name).value_of(value) for name, value in STANDING.items()}
    known["stature"] = words.trait("stature").value_of("1.7 m")
    return begin(
        Sitting(form=form(), date="2026-03-14"),
        player="Wren",
        known=Situation.of({name: value for name, value in known.items() if value is not None}),
    )
