"""Which rules a rule sets aside: they have to be there, and none may come back to itself."""

from collections.abc import Iterable, Mapping, Set
from dataclasses import replace

from tactics.model.rule import Rule
from tactics.problem import Also
from tactics.reading.circles import circles_in
from tactics.reading.codes import Code
from tactics.reading.notes import Notes
from tactics.reading.suggest import did_you_mean, near
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Scalar


def with_known_beats(
    rules: Mapping[str, Rule], left_out: Mapping[str, Rule], named: Set[str], notes: Notes
) -> dict[str, Rule]:
    """Return rules that beat only rules which are there, with a problem for all other beats.

    left_out: rules with errors. named: the ids of all rules, those with errors and those dropped.
    """
    for rule in (*rules.values(), *left_out.values()):
        for beaten in rule.beats:
            _check_beaten(rule, beaten, named, notes)
    uses = {rule.id: set(rule.beats) - {rule.id} for rule in rules.values()}
    for circle in circles_in(uses):
        _note_circle([rules[rule_id] for rule_id in circle], notes)
    return {
        rule_id: replace(rule, beats=tuple(each for each in rule.beats if each in rules))
        for rule_id, rule in rules.items()
    }


def _check_beaten(rule: Rule, beaten: str, named: Set[str], notes: Notes) -> None:
    place = rule.place_of(f"beats/{beaten}")
    inner = notes.inside(rule.span.line, f"rule {quoted(rule.id)}")
    if beaten == rule.id:
        inner.add(
            Code.BEATS_ITSELF,
            place,
            f"{inner.whose} beats itself",
            "name the rule that it sets aside, or take the line out",
        )
    elif beaten not in named:
        written = Scalar(text=beaten, span=place)
        sentence = f"{inner.whose} beats {quoted(beaten)}, which"
        unknown_rule(written, named - {rule.id}, sentence, inner)


def _note_circle(circle: list[Rule], notes: Notes) -> None:
    first, *others = circle
    road = " -> ".join(quoted(rule.id) for rule in (*circle, first))
    notes.inside(first.span.line).add(
        Code.BEATS_IN_A_CIRCLE,
        first.place_of("beats"),
        f"these rules beat each other in a circle: {road}",
        "take one of them out of a beats line",
        also=tuple(Also(span=rule.place_of("beats"), text="and here") for rule in others),
    )


def unknown_rule(written: Scalar, names: Iterable[str], sentence: str, notes: Notes) -> None:
    """Note an id that no rule has; the sentence ends before "is not a rule of this set"."""
    spelt = near(written.text, names)
    notes.add(
        Code.UNKNOWN_RULE,
        written,
        f"{sentence} is not a rule of this set",
        did_you_mean(spelt) if spelt else "write the id of a rule as it stands under rules",
        replacement=spelt[0] if len(spelt) == 1 else "",
    )
