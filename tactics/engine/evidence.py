"""What the flight says for a rule: its shot against the mistake that is usual there."""

from collections.abc import Mapping
from dataclasses import dataclass

from tactics.engine.advise import Advice
from tactics.engine.candidate import Candidate
from tactics.engine.exchange import Contest, Flown, contest, estimated, exchange
from tactics.engine.no_shot import Why
from tactics.engine.position import Position
from tactics.engine.rule_shot import FLOWN, TELLING, flown_parts, rule_shot
from tactics.engine.typical import only_word
from tactics.engine.wish import DEPTH, HEIGHT, INSIDE, PACE
from tactics.model.known import Allowed, OneOf
from tactics.model.rule import Rule, Strength

_KEPT = ("direction", INSIDE, "spin", "stroke")
"""Parts of the advised shot that a mistake keeps where it says nothing else."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """The advised shot and the usual mistake of a rule; mistake: None where it is no shot.

    wrong: the mistake as the rule tells it. whose: the scatter it is flown with, in words.
    Evidence is only there where its order holds.
    """

    rule: Rule
    advised: Flown
    mistake: Flown | None
    whose: str
    wrong: tuple[tuple[str, Allowed], ...]


def evidence_for(
    advice: Advice, wanted: Mapping[str, Allowed], position: Position
) -> Evidence | None:
    """Return what the flight says for the rule that comes first, or None where it says nothing.

    Nothing is said where the player's place is not known, where something hurts today, where the
    ball is to be let go, where the shot says too little to be flown, and where no difference
    survives the assumptions.
    """
    rule = _first_rule(advice)
    if (
        rule is None
        or not position.has_player_place
        or _hurts(position)
        or _is_left(wanted, position)
    ):
        return None
    meant = flown_parts(wanted, position)
    if "direction" not in meant or not TELLING & (set(meant) - {"direction"}):
        return None
    words = advice.advisor.vocabulary
    advised = rule_shot(meant, position, words)
    wrong = _as_mistaken(meant, flown_parts(dict(rule.usual_mistake), position))
    mistake = rule_shot(wrong, position, words)
    flown = exchange(advised)
    if flown is None or not _holds(advised, mistake, contest((advised, mistake), position, words)):
        return None
    return Evidence(
        rule=rule,
        advised=flown,
        mistake=exchange(mistake),
        whose=_whose(position),
        wrong=rule.usual_mistake,
    )


def _first_rule(advice: Advice) -> Rule | None:
    """Return the deciding rule that comes first and names a mistake that can be flown."""
    ready = advice.advisor.program.ready
    order = sorted(
        advice.applying,
        key=lambda p: (ready[p].rule.strength is not Strength.MUST, ready[p].rank, p),
    )
    rules = (ready[place].rule for place in order if ready[place].rule.strength is not Strength.MAY)
    return next((rule for rule in rules if TELLING & dict(rule.usual_mistake).keys()), None)


def _whose(position: Position) -> str:
    if position.landings is not None:
        return f"with the own scatter of {position.landings.n} balls"
    told = only_word(position.situation.get("level"))
    name = position.moment.hitter.name
    return f"at {name} level" if told else f"at {name} level (none was given)"


def _hurts(position: Position) -> bool:
    return only_word(position.situation.get("restricted today")) == "yes"


def _is_left(wanted: Mapping[str, Allowed], position: Position) -> bool:
    """Say whether there is no shot to fly: out of reach, going out, or not to be played."""
    if only_word(position.situation.get("reachable")) in ("no", "going out"):
        return True
    response = wanted.get("response")
    return isinstance(response, OneOf) and "played" not in response.words


def _as_mistaken(meant: Mapping[str, Allowed], wrong: Mapping[str, Allowed]) -> dict[str, Allowed]:
    """Return the advised shot with what is usually done instead."""
    kept = {part: values for part, values in meant.items() if part in _KEPT}
    if not {HEIGHT, DEPTH, PACE} & set(wrong) and "intent" not in wrong:
        kept = {**meant}
    return {**kept, **{part: values for part, values in wrong.items() if part in FLOWN}}


def _holds(advised: Candidate, mistake: Candidate, asked: Contest) -> bool:
    """Say whether the advised shot is ahead in enough of the assumptions."""
    if mistake.no_shot is not None:
        return mistake.no_shot.why is Why.WINDOW_CLOSED
    found = estimated(asked)
    compared = None if found is None else found.compare(0, 1)
    return compared is not None and compared.survives and compared.share_first > 0.5
