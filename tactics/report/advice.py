"""What the rules say in a situation, in words."""

from collections.abc import Iterable, Sequence

from tactics.engine.advise import Advice
from tactics.engine.combine import Standard
from tactics.engine.match import YES
from tactics.model.known import Allowed
from tactics.model.rule import Answer, Rule, RuleSet, Strength
from tactics.model.situation import Situation
from tactics.model.vocabulary import Vocabulary
from tactics.reading.wording import both
from tactics.report.aims import aims
from tactics.report.layout import Section, bullet, definitions, wrapped
from tactics.report.rule_words import answer_words, condition_words
from tactics.report.sentences import situation_sentence
from tactics.report.words import say, say_bounds

_OPEN_FACTS_SHOWN = 3
_RULES_SHOWN = 6
CAUTION = (
    "Advice is the opinion of whoever wrote the rules, with their reasons. It supports a "
    "qualified coach; the coach on court decides."
)
RESTRAINT = (
    "Something hurts or is restricted today: effort is not graded, and serves and smashes wait. "
    "Rest comes first; pain that stays, wakes at night or follows a fall is for a health "
    "professional."
)


def situation_section(situation: Situation, rules: RuleSet) -> Section:
    """Return the situation as far as it was told, before any rule is asked."""
    given = dict(rules.applies_to)
    told = Situation.of((f, known) for f, known in situation.facts if known != given.get(f))
    lines = wrapped(situation_sentence(told, rules.vocabulary), "  ")
    return Section(title="Situation", lines=lines)


def advice_sections(advice: Advice) -> tuple[Section, ...]:
    """Return what the rules make of the situation: standard, reasons, options, what is open."""
    return (
        Section(title="In the words of the rules", lines=_term_lines(advice)),
        Section(title="What the rules ask for", lines=standard_lines(advice)),
        Section(title="Why", lines=_why_lines(advice)),
        Section(title="Set aside", lines=set_aside_lines(advice)),
        Section(title="For some choices only", lines=_conditional_lines(advice)),
        Section(title="Also acceptable", lines=_option_lines(advice)),
        Section(title="Still open", lines=open_lines(advice)),
    )


def caution_section(advice: Advice) -> Section:
    """Return what has to be said below any advice."""
    trait = advice.advisor.vocabulary.trait("restricted today")
    hurts = advice.situation.get(trait.folded) == trait.value_of("yes")
    return Section(title="", lines=(*(wrapped(RESTRAINT) if hurts else ()), *wrapped(CAUTION)))


def _term_lines(advice: Advice) -> tuple[str, ...]:
    names = advice.advisor.program.term_names
    holding = [name for name, truth in zip(names, advice.terms, strict=True) if truth is YES]
    return wrapped(", ".join(holding), "  ")


def standard_lines(advice: Advice) -> tuple[str, ...]:
    """Return one line for each part that has a standard or an aim."""
    words, aimed = advice.advisor.vocabulary, aims(advice)
    pairs = [
        (trait.name, part_words(advice, trait.folded, aimed, words))
        for trait in words.parts
        if trait.folded in advice.standards or trait.folded in aimed
    ]
    return definitions(pairs) or wrapped(_nothing_said(advice), "  ")


def _nothing_said(advice: Advice) -> str:
    if advice.open_rules:
        return "Nothing for certain yet: it depends on facts not seen (see below)."
    return "No rule speaks to this situation."


def part_words(advice: Advice, part: str, aimed: dict[str, Allowed], words: Vocabulary) -> str:
    """Return the standard of one part with its aim: `at least 1.3 m; aim 2 m`."""
    standard = advice.standards.get(part)
    trait = words.trait(part)
    said = []
    if standard is not None and not standard.allowed:
        said.append(f"undecided: {_ids(advice, standard.clashing)} leave no common answer")
    elif standard is not None:
        axis = advice.advisor.program.grid.axes[part]
        said.append(say_bounds(axis.allowed_of(standard.allowed), trait))
    if part in aimed:
        said.append(f"aim {say(aimed[part], trait)}")
    return "; ".join(said)


def _why_lines(advice: Advice) -> tuple[str, ...]:
    lines: list[str] = []
    for place in _deciding_first(advice):
        rule = advice.advisor.program.ready[place].rule
        if rule.strength is not Strength.MAY:
            lines += rule_lines(rule, both(_parts_decided(advice, place)))
    return tuple(lines)


def rule_lines(rule: Rule, about: str = "") -> tuple[str, ...]:
    """Return a rule as title, id with concern and strength, reason and cue."""
    decides = f"; decides {about}" if about else ""
    return (
        *wrapped(rule.title, "  ", "  "),
        *wrapped(f"[{rule.id}: {rule.concern}, {rule.strength}{decides}]", "    "),
        *(wrapped(rule.because, "    ") if rule.because else ()),
        *(wrapped(f"Cue: {rule.cue}", "    ") if rule.cue else ()),
    )


def _deciding_first(advice: Advice) -> tuple[int, ...]:
    """Return the applying rules: musts before shoulds, high concerns before low ones."""
    ready = advice.advisor.program.ready
    return tuple(
        sorted(
            advice.applying,
            key=lambda p: (ready[p].rule.strength is not Strength.MUST, ready[p].rank, p),
        )
    )


def _parts_decided(advice: Advice, place: int) -> tuple[str, ...]:
    return tuple(
        trait.name
        for trait in advice.advisor.vocabulary.parts
        for standard in [advice.standards.get(trait.folded)]
        if standard is not None and place in standard.deciding
    )


def set_aside_lines(advice: Advice) -> tuple[str, ...]:
    """Return the rules that apply and yet do not decide: beaten, overruled, yielded, clashing."""
    lines: list[str] = []
    for place, beater in advice.beaten:
        lines += bullet(
            f"{_id(advice, place)} is beaten: {_id(advice, beater)} sets it aside here", "  "
        )
    for trait in advice.advisor.vocabulary.parts:
        standard = advice.standards.get(trait.folded)
        if standard is not None:
            for sentence in _standard_losses(advice, standard, trait.name):
                lines += bullet(sentence, "  ")
    return tuple(lines)


def _standard_losses(advice: Advice, standard: Standard, part: str) -> Iterable[str]:
    ready = advice.advisor.program.ready
    deciding = standard.deciding or standard.clashing
    concern = ready[deciding[0]].rule.concern if deciding else ""
    for place in standard.overruled:
        rule = ready[place].rule
        yield f"{rule.id} is overruled on {part}: {concern} comes before {rule.concern}"
    for place in standard.yielded:
        yield (
            f"{ready[place].rule.id} yields on {part}: no answer that keeps "
            f"{_ids(advice, standard.musts)} could keep it, and a must goes before a should"
        )
    if standard.clashing:
        yield f"{_ids(advice, standard.clashing)} clash on {part}: neither sets the other aside"


def _conditional_lines(advice: Advice) -> tuple[str, ...]:
    words = advice.advisor.vocabulary
    lines: list[str] = []
    for place in advice.conditional:
        rule = advice.advisor.program.ready[place].rule
        if rule.choosing is not None:
            asked = answer_words(rule.advice, words)
            verb = "may be" if rule.strength is Strength.MAY else f"{rule.strength} be"
            aim = f"; aim {answer_words(rule.aim, words)}" if rule.aim else ""
            lines += bullet(
                f"If the choice is {condition_words(rule.choosing, words)}, then it {verb}: "
                f"{asked}{aim} [{rule.id}: {rule.concern}]",
                "  ",
            )
            lines += wrapped(f"Cue: {rule.cue}", "    ") if rule.cue else ()
    return tuple(lines)


def _option_lines(advice: Advice) -> tuple[str, ...]:
    words = advice.advisor.vocabulary
    lines: list[str] = []
    for place in _deciding_first(advice):
        rule = advice.advisor.program.ready[place].rule
        for answer in options_of(rule):
            lines += bullet(f"{answer_words(answer, words)} [{rule.id}]", "  ")
    return tuple(lines)


def options_of(rule: Rule) -> tuple[Answer, ...]:
    """Return the whole other answers a rule allows: its alternatives, a may rule's own advice."""
    own = (rule.advice,) if rule.strength is Strength.MAY else ()
    return (*own, *rule.alternatives)


def open_lines(advice: Advice) -> tuple[str, ...]:
    """Return the facts that decide which further rules apply, the one that matters most first."""
    words, groups = advice.advisor.vocabulary, open_by_fact(advice)
    lines: list[str] = []
    for fact, places in groups[:_OPEN_FACTS_SHOWN]:
        rules = "rule" if len(places) == 1 else "rules"
        named = ", ".join(_id(advice, place) for place in places[:_RULES_SHOWN])
        if len(places) > _RULES_SHOWN:
            named = f"{named} and {len(places) - _RULES_SHOWN} more"
        lines += bullet(f"{words.trait(fact).name} decides on {len(places)} {rules}: {named}", "  ")
    rest = [words.trait(fact).name for fact, _ in groups[_OPEN_FACTS_SHOWN:]]
    return (*lines, *(bullet(f"further: {', '.join(rest)}", "  ") if rest else ()))


def open_by_fact(advice: Advice) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """Return (fact, rules that hang on it), the fact on which most rules hang first."""
    groups: dict[str, list[int]] = {}
    for place, facts in advice.open_rules:
        for fact in facts:
            groups.setdefault(fact, []).append(place)
    order = [trait.folded for trait in advice.advisor.vocabulary.facts]
    ranked = sorted(groups, key=lambda fact: (-len(groups[fact]), order.index(fact)))
    return tuple((fact, tuple(groups[fact])) for fact in ranked)


def _id(advice: Advice, place: int) -> str:
    return advice.advisor.program.ready[place].rule.id


def _ids(advice: Advice, places: Sequence[int]) -> str:
    return both(_id(advice, place) for place in places)
