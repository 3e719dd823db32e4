"""The ball that stands for a rule in its picture: an example of it, else its own conditions."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from tactics.engine.advise import Advice, advise
from tactics.engine.advisor import Advisor
from tactics.engine.examples import situation_of
from tactics.engine.match import YES
from tactics.model.choice import Choice
from tactics.model.condition import Condition, TermTest, Test, tests_in
from tactics.model.known import Allowed, Known, OneOf
from tactics.model.names import fold
from tactics.model.rule import Example, Rule
from tactics.model.situation import Situation
from tactics.model.verdict import KEPT, Grade
from tactics.report.court_picture import Picture, picture_of
from tactics.report.sentences import situation_sentence
from tactics.report.targets import wanted_shot

_OF_A_STROKE = frozenset(
    {"direction", "depth", "height over net", "inside line", "pace", "spin", "finds", "intent"}
)

_NO_HANDS: Mapping[str, Known] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What a picture shows in a sentence, and the picture (None where nobody has a place)."""

    says: str
    picture: Picture | None


def scene_of(rule: Rule, advisor: Advisor, hands: Mapping[str, Known] = _NO_HANDS) -> Scene:
    """Return an everyday ball to which a rule applies, with the shot it wants.

    hands: of the players, for the picture, where neither rule nor example speaks of hands.
    """
    place = [ready.rule.id for ready in advisor.program.ready].index(rule.id)
    for example in _candidates(rule):
        advice = advise(advisor, situation_of(advisor.rules, rule, example))
        if advice.rules[place] is YES:
            return _scene(rule, example, advice, hands)
    return Scene(says="", picture=None)


def _candidates(rule: Rule) -> Iterator[Example]:
    """Yield the rule's examples, those that keep the rules first, then its own conditions."""
    yield from sorted(rule.examples, key=lambda example: example.grade not in KEPT)
    yield Example(given=Situation(), choose=Choice(), grade=Grade.UNDECIDED, span=rule.span)


def _scene(rule: Rule, example: Example, advice: Advice, hands: Mapping[str, Known]) -> Scene:
    words = advice.advisor.vocabulary
    telling = _mentioned(rule.when, advice) | {name for name, _ in example.given.facts}
    left_open = {fact: known for fact, known in hands.items() if fact not in telling}
    drawn = advice.situation.with_facts(left_open)
    picture = picture_of(drawn, _wanted(rule, example, advice), words)
    given = dict(advice.advisor.rules.applies_to)
    shown = Situation.of(
        (fact, known)
        for fact, known in advice.situation.facts
        if fact in {*telling, "game situation"} - given.keys()
    )
    is_drawn = picture.player is not None or picture.opponent is not None
    return Scene(
        says=situation_sentence(shown, words) if shown.facts else "",
        picture=picture if is_drawn else None,
    )


def _wanted(rule: Rule, example: Example, advice: Advice) -> dict[str, Allowed]:
    """Return the shot to draw: the rule's own, else what its example and the set want."""
    own = {**dict(rule.advice), **_chosen(rule), **dict(rule.aim)}
    if not own.keys() & _OF_A_STROKE:
        return {}
    road = example.choose.get("direction")
    shown = {"direction": road} if example.grade in KEPT and isinstance(road, OneOf) else {}
    return {**wanted_shot(advice), **shown, **own}


def _chosen(rule: Rule) -> dict[str, Allowed]:
    """Return the choices a rule is about, where it is about one kind of choice only."""
    if rule.choosing is None:
        return {}
    spoken = {part for part, _ in rule.advice}
    return {
        test.name: test.allowed
        for test in tests_in(rule.choosing)
        if isinstance(test, Test) and isinstance(test.allowed, OneOf) and test.name not in spoken
    }


def _mentioned(condition: Condition, advice: Advice) -> set[str]:
    """Return the facts a condition rests on, those inside its terms included."""
    terms = {fold(term.name): term.condition for term in advice.advisor.rules.terms}
    found: set[str] = set()
    for test in tests_in(condition):
        if isinstance(test, TermTest):
            found |= _mentioned(terms[fold(test.term)], advice)
        else:
            found.add(test.name)
    return found
