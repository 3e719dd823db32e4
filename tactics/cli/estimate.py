"""What `tactics advise` asks the flight for: loaded only when it is wanted, as numpy takes long."""

from collections.abc import Callable
from pathlib import Path

from tactics.cli.court_options import position_with, read_scatter
from tactics.cli.terminal import announced
from tactics.engine.advise import Advice
from tactics.engine.evidence import evidence_for
from tactics.engine.margins import level_sideways_m
from tactics.engine.position import position_of
from tactics.engine.scatter_rules import level_it_applies_to
from tactics.engine.troubles import is_impossible
from tactics.engine.typical import only_word
from tactics.flight.levels import CLUB, LEVELS
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.report.evidence_text import evidence_section
from tactics.report.layout import text_of
from tactics.report.targets import wanted_shot


def one_scatter_m(rules: RuleSet, situation: Situation) -> float:
    """Return one `scatter` (m) of the player's level, else of the level the rules are for."""
    name = only_word(situation.get("level")) or level_it_applies_to(rules)
    return level_sideways_m(LEVELS.get(name, CLUB))


def print_evidence(advice: Advice, heading: Callable[[str], str], scatter: str = "") -> None:
    """Print what the flight says for the advice; nothing where it says nothing worth it.

    `scatter` names a file of the player's own landing places, looked at before.
    """
    words = advice.advisor.vocabulary
    with announced("estimating"):
        measured = read_scatter(Path(scatter))[0] if scatter else None
        position = position_with(position_of(advice.situation, words), measured)
        if is_impossible(position):
            return
        found = evidence_for(advice, wanted_shot(advice), position)
    section = None if found is None else evidence_section(found, words)
    if section is not None and section.lines:
        print(text_of([section], heading))
