"""What the model likes beside what the rules advise, and the difference in words."""

from collections.abc import Iterator

from tactics.engine.exchange import Estimates, Flown
from tactics.model.choice import Choice
from tactics.model.known import OneOf
from tactics.model.rule import RuleSet
from tactics.model.verdict import KEPT, Verdict
from tactics.reading.wording import both
from tactics.report.layout import Section, wrapped
from tactics.report.point_text import comparison_words
from tactics.report.shot_text import Shown, hundred
from tactics.report.shot_words import kmh, number
from tactics.report.verdicts import finding_text, grade_line

_ROADS = {"middle": "through the middle", "at body": "at the body", "T": "down the T",
          "sharp angle": "at a sharp angle"}  # fmt: skip
_POINTS, _SECONDS, _METRES = 3, 0.2, 0.5
_HIGHER_M, _FASTER_MS = 0.3, 2.0


def difference_section(best: Shown, rules_shot: Shown, found: Estimates) -> Section:
    """Return how the model's first choice differs from the rules', and whether that survives."""
    compared = found.compare(best.number - 1, rules_shot.number - 1)
    held = comparison_words(compared, found.tried)
    if rules_shot.flown is None:
        first = f"The rules' shot ({rules_shot.number}) cannot be played from here as it stands."
    elif compared is not None and compared.survives:
        first = f"The rules' shot ({rules_shot.number}) is {held} against shot {best.number}."
    else:
        first = f"Between shot {best.number} and the rules' shot ({rules_shot.number}): {held}."
    lines = [*wrapped(first, "  ")]
    if best.flown is not None and rules_shot.flown is not None:
        said = tuple(_differences(best.flown, rules_shot.flown))
        if said:
            lines += wrapped(f"Against the rules' shot, shot {best.number} {both(said)}.", "  ")
    return Section(title="The difference", lines=tuple(lines))


def nothing_beside_section() -> Section:
    """Return that the rules name no shot to compare with."""
    text = (
        "The rules leave direction, depth, height and pace open here, so there is no shot of "
        "theirs to set beside these."
    )
    return Section(title="The difference", lines=wrapped(text, "  "))


def _differences(best: Flown, other: Flown) -> Iterator[str]:
    """Yield what differs by more than a little, as ends of a sentence about the first shot."""
    one, two = best.exchanges, other.exchanges
    ours, theirs = _road(best.candidate.choice), _road(other.candidate.choice)
    if ours and theirs and ours != theirs:
        yield f"goes {_ROADS.get(ours, ours)} instead of {_ROADS.get(theirs, theirs)}"
    higher = float(one.height_over_net_m[0] - two.height_over_net_m[0])
    if abs(higher) >= _HIGHER_M:
        yield f"crosses the net {number(abs(higher), 'm')} {'higher' if higher > 0 else 'lower'}"
    faster = best.candidate.pace_ms - other.candidate.pace_ms
    if abs(faster) >= _FASTER_MS:
        yield f"is {kmh(abs(faster))} {'faster' if faster > 0 else 'slower'}"
    more = hundred(float(one.shares.into_court[0])) - hundred(float(two.shares.into_court[0]))
    if abs(more) >= _POINTS:
        yield f"lands in for {abs(more)} {'more' if more > 0 else 'fewer'} of 100 balls"
    spare = float(one.hitter_spare_s[0] - two.hitter_spare_s[0])
    if abs(spare) >= _SECONDS:
        yield f"gives you {number(abs(spare), 's')} {'more' if spare > 0 else 'less'} to get home"
    for_them = float(one.opponent_spare_s[0] - two.opponent_spare_s[0])
    if abs(for_them) >= _SECONDS:
        more_time = "more" if for_them > 0 else "less"
        yield f"gives them {number(abs(for_them), 's')} {more_time} to get to it"


def _road(choice: Choice) -> str:
    known = choice.get("direction")
    return next(iter(known.words)) if isinstance(known, OneOf) and len(known.words) == 1 else ""


def verdict_lines_of(best: Shown, verdict: Verdict, rules: RuleSet) -> Section:
    """Return what the rules make of the model's first choice."""
    lines = [*wrapped(f"Shot {best.number} would be {grade_line(verdict)}.", "  ")]
    for finding in verdict.findings:
        if finding.grade not in KEPT:
            lines += wrapped(f"{finding.part}: {finding_text(finding, rules)}", "    ", "      ")
    return Section(title="By the rules", lines=tuple(lines))


def grid_section(playable: int) -> Section:
    """Return how many shots the best come from."""
    text = (
        f"The best of {playable} shots that can be played from here, over direction, depth, "
        "height over the net, spin and pace; shots that go by the same words count once."
    )
    return Section(title="Looked through", lines=wrapped(text, "  "))
