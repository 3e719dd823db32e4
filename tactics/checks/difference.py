"""Whether the advice would be another one: two versions of who speaks, side by side."""

from collections.abc import Iterator

from tactics.checks.space import Space
from tactics.checks.voices import Voices
from tactics.model.rule import Rule, RuleSet, Strength


def affected_by(rules: RuleSet, rule: Rule) -> frozenset[str]:
    """Return the rules whose standing can hang on this one: itself, whom it beats, and on."""
    beats = {each.id: each.beats for each in rules.rules}
    found, waiting = {rule.id}, [rule.id]
    while waiting:
        for beaten in beats[waiting.pop()]:
            if beaten in beats and beaten not in found:
                found.add(beaten)
                waiting.append(beaten)
    return frozenset(found)


def advice_differs(space: Space, one: Voices, other: Voices, rules: frozenset[str]) -> int:
    """Return the literal that two versions of one rule set give another answer somewhere.

    rules: those whose standing can differ; only what they speak about is compared. An answer
    is what the musts and what all who decide leave of a part, and the options that are open.
    """
    parts = sorted(
        part for part, speakers in one.by_part.items() if any(rule.id in rules for rule in speakers)
    )
    literals: list[int] = []
    for part in parts:
        literals += part_differs(space, one, other, part)
        if _has_options(one.rules, part):  # whether an option excuses hangs on who decides
            literals += _concern_differs(space, one, other, part)
    literals += [
        space.clauses.differs(one.active[rule.id], other.active[rule.id])
        for rule in one.rules.rules
        if rule.id in rules and (rule.strength is Strength.MAY or rule.alternatives)
    ]
    return space.clauses.some(literals)


def part_differs(space: Space, one: Voices, other: Voices, part: str) -> Iterator[int]:
    """Yield literals, one of which holds just where two versions answer a part differently.

    Both have to tell the same values apart.
    """
    differs = space.clauses.differs
    first, second = one.part(part), other.part(part)
    yield differs(first.spoken, second.spoken)
    for before, after in zip(first.must_allows, second.must_allows, strict=True):
        yield differs(before, after)
    for before, after in zip(first.allows, second.allows, strict=True):
        yield differs(before, after)


def _concern_differs(space: Space, one: Voices, other: Voices, part: str) -> Iterator[int]:
    concerns = {rule.concern for rule in one.by_part[part]}
    for concern in sorted(concerns):
        decided = [
            space.clauses.some(
                voices.part(part).decides[rule.id]
                for rule in voices.by_part[part]
                if rule.concern == concern
            )
            for voices in (one, other)
        ]
        yield space.clauses.differs(*decided)


def _has_options(rules: RuleSet, part: str) -> bool:
    return any(
        part in dict(answer)
        for rule in rules.rules
        for answer in (
            *((rule.advice,) if rule.strength is Strength.MAY else ()),
            *rule.alternatives,
        )
    )
