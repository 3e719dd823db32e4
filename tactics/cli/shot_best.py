"""The parts of `tactics shot --best`: the search, the rules' own shot, and the difference."""

from collections.abc import Sequence

from tactics.engine.advise import advise
from tactics.engine.best import best_shots
from tactics.engine.candidate import Candidate, choice_from
from tactics.engine.compile import compile_rules
from tactics.engine.exchange import Estimates
from tactics.engine.judge import judge
from tactics.engine.margins import sideways_scatter_m
from tactics.engine.position import Position
from tactics.engine.rule_shot import TELLING, flown_parts, rule_shot
from tactics.engine.scatter_rules import in_metres
from tactics.engine.wish import IN_WORDS
from tactics.model.choice import Choice
from tactics.model.known import word
from tactics.model.rule import RuleSet
from tactics.model.vocabulary import Vocabulary
from tactics.report.best_text import (
    difference_section,
    grid_section,
    nothing_beside_section,
    verdict_lines_of,
)
from tactics.report.layout import Section
from tactics.report.shot_text import Shown
from tactics.report.shot_words import choice_label
from tactics.report.targets import wanted_shot

RULES_SHOT = "as the rules advise: "


def searched(position: Position, words: Vocabulary) -> tuple[list[tuple[str, Candidate]], Section]:
    """Return the best handful with their names, and what they were picked from."""
    found = best_shots(position, words)
    named = [(choice_label(each.choice, IN_WORDS, words), each) for each in found.candidates]
    return named, grid_section(found.playable)


def rules_shots(
    position: Position, rules: RuleSet, words: Vocabulary
) -> list[tuple[str, Candidate]]:
    """Return the shot that the rules want here, or nothing where they say too little to fly."""
    unit = sideways_scatter_m(position)
    advice = advise(compile_rules(in_metres(rules, unit)), position.situation)
    wanted = flown_parts(wanted_shot(advice), position)
    if not TELLING & set(wanted):
        return []
    label = choice_label(choice_from(wanted), IN_WORDS, words)
    return [(f"{RULES_SHOT}{label}", rule_shot(wanted, position, words))]


def difference_sections(
    shown: Sequence[Shown], found: Estimates, position: Position, rules: RuleSet
) -> list[Section]:
    """Return how the model's first choice and the rules' shot differ, and the rules' view of it."""
    own = [each for each in shown if not each.label.startswith(RULES_SHOT)]
    theirs = [each for each in shown if each.label.startswith(RULES_SHOT)]
    if not own:
        return []
    advice = advise(
        compile_rules(in_metres(rules, sideways_scatter_m(position))),
        position.situation,
    )
    verdict = judge(_as_charted(own[0].candidate.choice, position), advice)
    sections = [verdict_lines_of(own[0], verdict, rules)]
    difference = (
        difference_section(own[0], theirs[0], found) if theirs else nothing_beside_section()
    )
    return [difference, *sections]


def _as_charted(choice: Choice, position: Position) -> Choice:
    """Return a choice with what goes without saying: whoever serves plays a serve."""
    if not position.is_serve:
        return choice
    return Choice.of({"stroke": word("serve"), **choice.as_dict()})
