"""The rules of a set as a book: one chapter for each game situation, ready for any form."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tactics.engine.advise import advise
from tactics.engine.advisor import Advisor
from tactics.engine.match import NO
from tactics.model.condition import All, Condition
from tactics.model.drill import Catalogue
from tactics.model.known import OneOf, word
from tactics.model.mix_rule import MixRule
from tactics.model.rule import Rule, RuleSet
from tactics.model.situation import Situation
from tactics.reading.wording import both
from tactics.report.court_picture import Picture
from tactics.report.layout import counted
from tactics.report.mix import asked_words
from tactics.report.rule_book_scenes import scene_of
from tactics.report.rule_words import answer_pairs, answer_words, condition_words
from tactics.report.verdicts import strength_word

GAME_SITUATION = "game situation"
EVERYWHERE = "In every situation"
CAUTION = (
    "These are the opinions of whoever wrote them, with their reasons. They support a qualified "
    "coach, who decides on court."
)
PICTURES = (
    "The pictures show an ordinary ball of each rule, to scale; other balls belong to it as well."
)
SMALLER_COURT = (
    "They are drawn on a full court: on a smaller one every distance shrinks by the same share."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class RulePage:
    """One rule in words. scene: what its picture shows; picture: None where none can be drawn."""

    id: str
    title: str
    strength: str
    meaning: str
    concern: str
    author: str
    when: tuple[str, ...]
    unless: tuple[str, ...]
    choosing: str
    asks: tuple[tuple[str, str], ...]
    aims: tuple[tuple[str, str], ...]
    options: tuple[str, ...]
    because: str
    cue: str
    mistake: str
    drills: tuple[str, ...]
    evidence: str
    note: str
    scene: str
    picture: Picture | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pointer:
    """A rule that stands in another chapter and counts here as well."""

    id: str
    title: str
    chapter: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """The rules of one game situation. id: for links inside a page."""

    id: str
    title: str
    pages: tuple[RulePage, ...]
    elsewhere: tuple[Pointer, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MixPage:
    """One mix rule in words."""

    id: str
    title: str
    asked: str
    because: str
    cue: str
    drills: tuple[str, ...]
    note: str


_ORDER = (
    "Where several rules speak about one part of a choice, the concern that comes first here "
    "decides: {}."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleBook:
    """A rule set as a book. order: which concern decides; terms: (name, what it means)."""

    title: str
    summary: str
    order: str
    chapters: tuple[Chapter, ...]
    mixes: tuple[MixPage, ...]
    terms: tuple[tuple[str, str], ...]
    pictures: str
    caution: str = CAUTION


def rule_book(advisor: Advisor, drills: Catalogue) -> RuleBook:
    """Return the book of a rule set; every rule stands in it once, in the order of the file."""
    rules = advisor.rules
    return RuleBook(
        title=rules.name,
        summary=_summary(rules),
        order=_ORDER.format(", ".join(rules.precedence)),
        chapters=tuple(_chapters(advisor, drills)),
        mixes=tuple(mix_page(mix, rules, drills) for mix in rules.mixes),
        terms=tuple(
            (term.name, term.means or condition_words(term.condition, rules.vocabulary))
            for term in rules.terms
        ),
        pictures=f"{PICTURES} {SMALLER_COURT}" if _is_for_smaller_courts(rules) else PICTURES,
    )


def _is_for_smaller_courts(rules: RuleSet) -> bool:
    stages = dict(rules.applies_to).get("stage")
    return isinstance(stages, OneOf) and "full court" not in stages.words


def _summary(rules: RuleSet) -> str:
    scope = answer_words(rules.applies_to, rules.vocabulary)
    mixes = f" and {counted(len(rules.mixes), 'mix', 'mixes')}" if rules.mixes else ""
    authors = dict.fromkeys(filter(None, (rules.author, *(r.author for r in rules.rules))))
    author = f" by {both(authors)}" if authors else ""
    whole = f"{counted(len(rules.rules), 'rule')}{mixes}{author}{f', for {scope}' if scope else ''}"
    return f"{whole.removesuffix('.')}."


def _chapters(advisor: Advisor, drills: Catalogue) -> Iterator[Chapter]:
    """Yield the chapters in the order of a point, that of the rules for all of them first."""
    situations = tuple(w.name for w in advisor.vocabulary.trait(GAME_SITUATION).words)
    homes = {rule.id: _homes(rule, advisor, situations) for rule in advisor.rules.rules}
    for title in (EVERYWHERE, *situations):
        own = [rule for rule in advisor.rules.rules if homes[rule.id][:1] == (title,)]
        others = [rule for rule in advisor.rules.rules if title in homes[rule.id][1:]]
        if own or others:
            yield Chapter(
                id=title.replace(" ", "-").lower(),
                title=_capital(title),
                pages=tuple(_page(rule, advisor, drills) for rule in own),
                elsewhere=tuple(_pointer(rule, homes[rule.id][0]) for rule in others),
            )


def _homes(rule: Rule, advisor: Advisor, situations: Sequence[str]) -> tuple[str, ...]:
    """Return the game situations in which a rule can apply, that of most of its examples first."""
    place = [ready.rule.id for ready in advisor.program.ready].index(rule.id)
    possible = tuple(
        name
        for name in situations
        if advise(advisor, Situation.of({GAME_SITUATION: word(name)})).rules[place] is not NO
    )
    if set(possible) == set(situations) or not possible:
        return (EVERYWHERE,)
    shown = [example.given.get(GAME_SITUATION) for example in rule.examples]
    ordinary = advisor.vocabulary.trait(GAME_SITUATION).ordinary
    return tuple(sorted(possible, key=lambda name: (-shown.count(word(name)), name != ordinary)))


def _pointer(rule: Rule, chapter: str) -> Pointer:
    return Pointer(id=rule.id, title=rule.title, chapter=_capital(chapter))


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


def _page(rule: Rule, advisor: Advisor, drills: Catalogue) -> RulePage:
    rules, words = advisor.rules, advisor.vocabulary
    scene = scene_of(rule, advisor)
    return RulePage(
        id=rule.id,
        title=rule.title,
        strength=str(rule.strength),
        meaning=strength_word(rule.strength),
        concern=rule.concern,
        author=rule.author or rules.author,
        when=tuple(condition_words(each, words) for each in _each_of(rule.when)),
        unless=tuple(condition_words(each, words) for each in rule.unless),
        choosing="" if rule.choosing is None else condition_words(rule.choosing, words),
        asks=tuple(answer_pairs(rule.advice, words)),
        aims=tuple(answer_pairs(rule.aim, words)),
        options=tuple(answer_words(answer, words) for answer in rule.alternatives),
        because=rule.because,
        cue=rule.cue,
        mistake=answer_words(rule.usual_mistake, words),
        drills=_drills(rule.drills, drills),
        evidence=rule.evidence,
        note=rule.note,
        scene=scene.says,
        picture=scene.picture,
    )


def _each_of(condition: Condition) -> tuple[Condition, ...]:
    """Return what all has to hold."""
    return condition.inside if isinstance(condition, All) else (condition,)


def mix_page(mix: MixRule, rules: RuleSet, drills: Catalogue) -> MixPage:
    """Return one mix rule in words."""
    balls = condition_words(mix.of, rules.vocabulary)
    return MixPage(
        id=mix.id,
        title=mix.title,
        asked=f"Of the balls with {balls}: {asked_words(mix, rules.vocabulary)}.",
        because=mix.because,
        cue=mix.cue,
        drills=_drills(mix.drills, drills),
        note=mix.note,
    )


def _drills(names: Sequence[str], drills: Catalogue) -> tuple[str, ...]:
    """Return the drills by title with their minutes; one that no drill file has by its id."""
    found = [(name, drills.find(name)) for name in names]
    return tuple(
        name if drill is None else f"{drill.title} ({drill.minutes} min)" for name, drill in found
    )
