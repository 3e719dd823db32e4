"""A made-up rule set of the size of a real one, and situations to ask it about."""

from random import Random

from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test
from tactics.model.known import Known, OneOf, Within, merged, number, word
from tactics.model.rule import Rule, RuleSet, Strength, Term
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.model.trait import Kind, Trait
from tactics.source import Span

CONCERNS = ("feasibility", "wind", "court position", "style")
_PHASES = STANDARD.trait("game situation")
_FACTS = tuple(
    STANDARD.trait(name)
    for name in (
        "contact height", "body height", "court depth", "court width", "incoming time",
        "incoming spin", "incoming depth", "incoming direction", "ball line", "bounce",
        "balance", "time", "steps to the ball", "opponent depth", "opponent width",
        "opponent movement", "hands", "serve number", "surface", "wind", "wind strength",
    )
)  # fmt: skip
_HERE = Span(file="made up", line=1)


def sixty_rules(rules: int = 60, terms: int = 10, seed: int = 1) -> RuleSet:
    """Return rules of 4 to 6 tests, some with `any`, `not`, `unless` or a term of two levels."""
    rng = Random(seed)
    names = [f"term {place}" for place in range(terms)]
    return RuleSet(
        name="made up",
        precedence=CONCERNS,
        terms=tuple(
            Term(name=name, means="made up", condition=_term(rng, names, place), span=_HERE)
            for place, name in enumerate(names)
        ),
        rules=tuple(_rule(rng, names, place) for place in range(rules)),
        vocabulary=STANDARD,
        span=_HERE,
    )


def _term(rng: Random, names: list[str], place: int) -> Condition:
    first = TermTest(term=rng.choice(names[: len(names) // 2]))
    tests = [_test(rng) for _ in range(rng.randint(2, 3))]
    return All((first, *tests)) if place >= len(names) // 2 else AnyOf(tuple(tests))


def _rule(rng: Random, names: list[str], place: int) -> Rule:
    phase = Test(name="game situation", allowed=word(rng.choice(_PHASES.words).name))
    tests: list[Condition] = [phase, *(_test(rng) for _ in range(rng.randint(2, 4)))]
    if place % 3 == 0:
        tests.append(TermTest(term=rng.choice(names), wanted=rng.random() < 0.8))
    if place % 5 == 0:
        tests.append(AnyOf((_test(rng), _test(rng))))
    if place % 7 == 0:
        tests.append(Not(_test(rng)))
    return Rule(
        id=f"rule-{place}",
        title=f"Rule {place}",
        concern=rng.choice(CONCERNS),
        strength=rng.choice(list(Strength)),
        when=All(tuple(tests)),
        unless=(_test(rng),) if place % 4 == 0 else (),
        advice=(("direction", word(rng.choice(["crosscourt", "straight", "middle"]))),),
        span=_HERE,
    )


def _test(rng: Random) -> Test:
    trait = rng.choice(_FACTS)
    some = rng.sample(trait.words, rng.randint(1, max(1, len(trait.words) // 2)))
    if trait.kind is Kind.NUMBER:
        first = rng.randrange(len(trait.words))
        kept = trait.words[: first + 1] if rng.random() < 0.5 else trait.words[first:]
        return Test(name=trait.folded, allowed=Within(merged(each.interval for each in kept)))
    return Test(name=trait.folded, allowed=OneOf(frozenset(each.name for each in some)))


def situations(count: int, *, unseen: float = 0.0, seed: int = 2) -> list[Situation]:
    """Return situations in which a share `unseen` of the facts was not seen."""
    rng = Random(seed)
    traits = [trait for trait in STANDARD.facts if not trait.derived]
    return [
        Situation.of({t.folded: _value(rng, t) for t in traits if rng.random() >= unseen})
        for _ in range(count)
    ]


def _value(rng: Random, trait: Trait) -> Known:
    if trait.kind is Kind.NUMBER:
        return number(round(rng.uniform(trait.low, trait.high), 2))
    return word(rng.choice(trait.words).name)
