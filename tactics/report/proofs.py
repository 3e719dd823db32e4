"""What was proved about a rule set, in words: each finding as a problem with its witness."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tactics.checks.finding import Finding, Kind, Near
from tactics.checks.witness import Common, Witness
from tactics.model.choice import Choice
from tactics.model.condition import Condition
from tactics.model.known import Known, OneOf
from tactics.model.rule import RuleSet
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Also, Problem, Severity
from tactics.reading.wording import both
from tactics.report.legality_page import reason_texts
from tactics.report.rule_text import condition_text
from tactics.report.rule_words import answer_words, condition_words
from tactics.report.sentences import GAME_SITUATION, choice_words, situation_sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class _Said:
    """The wording of a finding: what it means, what shows it, and what to do about it."""

    sentence: str
    notes: tuple[str, ...] = ()
    hint: str = ""
    also: tuple[Also, ...] = ()
    paste: tuple[str, ...] = ()


def problem_of(finding: Finding, rules: RuleSet) -> Problem:
    """Return a finding as a problem with its place, what it means, a witness and a way out."""
    said = _said(finding, rules)
    return Problem(
        code=finding.kind,
        span=finding.span,
        sentence=said.sentence,
        hint=said.hint,
        severity=finding.severity,
        also=said.also,
        opener=finding.opener,
        notes=(*said.notes, *_edges(finding, rules.vocabulary)),
        paste=said.paste,
    )


def _said(finding: Finding, rules: RuleSet) -> _Said:
    match finding.kind:
        case Kind.GAP:
            return _gap(finding, rules)
        case Kind.CONFLICT:
            return _conflict(finding, rules)
        case Kind.TERM_NEVER_HOLDS:
            return _dead_term(finding, rules)
        case Kind.NEVER_APPLIES:
            return _dead_rule(finding, rules)
        case Kind.ALWAYS_OVERRULED:
            return _overruled(finding, rules)
        case Kind.IDLE_CONDITION | Kind.IDLE_EXCEPTION:
            return _idle(finding, rules)
        case Kind.REPEATED_RULE:
            return _repeated(finding, rules)
        case Kind.UNEVEN_HANDS:
            return _uneven(finding, rules)
        case Kind.MISSING_STAGE:
            return _stage(finding, rules)


# What each finding says


def _gap(finding: Finding, rules: RuleSet) -> _Said:
    words = rules.vocabulary
    if not finding.witnesses:
        return _Said(
            sentence=f"no rule says anything about {both(_quoted(finding.phases))}",
            hint="that is well if the set is not about them; else write rules for them",
        )
    near = tuple(_nearest(each, words) for each in finding.near)
    if finding.severity is Severity.INFORMATION and not finding.edges:
        return _Said(
            sentence="no rule says anything about an ordinary ball, in any game situation",
            notes=near,
            hint="that is well for a set to lay on top of another (check the two together: tactics "
            "check OTHER THIS); else write rules for ordinary balls as well",
        )
    about = f" about {both(_names(finding.parts, words))}" if finding.parts else ""
    more = ("There are other such balls besides.",) if finding.has_more else ()
    paste = _cannot_happen(finding.witnesses[0], words, finding.phases)
    hint = "write a rule for these balls, or widen the nearest one"
    return _Said(
        sentence=f"no rule says anything{about} for some balls of game situation "
        f"{both(_quoted(finding.phases))}",
        notes=(
            *_common(finding, words),
            *(_example(each, words) for each in finding.witnesses),
            *more,
            *near,
        ),
        hint=f"{hint}; if it cannot happen, say so in the file and why:" if paste else hint,
        paste=paste,
    )


def _conflict(finding: Finding, rules: RuleSet) -> _Said:
    words, named = rules.vocabulary, _quoted(finding.rules)
    asked = tuple(
        f'"{each}" asks for {_asked(rules, each, finding.parts)}' for each in finding.rules
    )
    first, *others = finding.rules
    paste = _cannot_happen(finding.witnesses[0], words)
    hint = (
        f'let one of them beat the other ("beats: [{others[-1] if others else first}]"), give the '
        'broader one an "unless", or give them different strengths or concerns'
    )
    return _Said(
        sentence=f"{both(named)} leave no common answer for {both(_names(finding.parts, words))}",
        notes=(
            *asked,
            *_common(finding, words),
            *(_example(each, words) for each in finding.witnesses),
        ),
        hint=f"{hint}; if it cannot happen, say so in the file and why:" if paste else hint,
        also=tuple(
            Also(span=rules.rule(each).place_of(f"advise/{finding.parts[0]}"), text=f'"{each}"')
            for each in others
        ),
        paste=paste,
    )


def _dead_term(finding: Finding, rules: RuleSet) -> _Said:
    users = f"; so it is for nothing in {both(_quoted(finding.others))}" if finding.others else ""
    return _Said(
        sentence=f'the term "{finding.term}" never holds{users}',
        notes=tuple(_why_not(finding, rules)),
        hint="mend the condition, or take the term out",
    )


def _dead_rule(finding: Finding, rules: RuleSet) -> _Said:
    words = rules.vocabulary
    return _Said(
        sentence=f'the rule "{finding.rules[0]}" never applies: its conditions cannot come '
        "together",
        notes=(
            *_why_not(finding, rules),
            *(
                f"All but the last would hold here: {_told(each, words)}"
                for each in finding.witnesses
            ),
        ),
        hint="mend one of these conditions, or take the rule out",
    )


def _overruled(finding: Finding, rules: RuleSet) -> _Said:
    verb = _verb(finding.others, "comes", "come")
    by = f": {both(_quoted(finding.others))} always {verb} first" if finding.others else ""
    return _Said(
        sentence=f'the rule "{finding.rules[0]}" applies, but never decides anything{by}',
        notes=tuple(_example(each, rules.vocabulary) for each in finding.witnesses),
        hint="move it to a higher concern, let it beat the others, narrow those, or take it out",
        also=tuple(
            Also(span=rules.rule(each).span, text=f'"{each}" comes first')
            for each in finding.others
        ),
    )


def _idle(finding: Finding, rules: RuleSet) -> _Said:
    words = rules.vocabulary
    is_exception = finding.kind is Kind.IDLE_EXCEPTION
    meant, *others = (
        (*finding.exceptions, *finding.conditions)
        if is_exception
        else (*finding.conditions, *finding.exceptions)
    )
    what = "the exception" if is_exception else "the condition"
    return _Said(
        sentence=f'in rule "{finding.rules[0]}" {what} "{condition_words(meant, words)}" changes '
        "nothing",
        notes=tuple(_why_idle(finding, rules, tuple(others))),
        hint="take it out, or keep it as a reminder to the reader",
        also=tuple(
            Also(span=rules.rule(each).span, text=f'"{each}" decides there')
            for each in finding.others
        ),
    )


def _repeated(finding: Finding, rules: RuleSet) -> _Said:
    others = both(_quoted(finding.others)) or "what the others say"
    verb = _verb(finding.others, "says", "say")
    return _Said(
        sentence=f'the rule "{finding.rules[0]}" changes no advice: {others} already '
        f"{verb} as much",
        notes=tuple(_example(each, rules.vocabulary) for each in finding.witnesses),
        hint="take it out, or keep it for its reason and its cue",
        also=tuple(Also(span=rules.rule(each).span, text=f'"{each}"') for each in finding.others),
    )


def _uneven(finding: Finding, rules: RuleSet) -> _Said:
    words = rules.vocabulary
    witness = finding.witnesses[0]
    mirror = Witness(
        situation=witness.situation.mirrored(), choice=witness.choice, telling=witness.telling
    )
    return _Said(
        sentence=f'the rule "{finding.rules[0]}" treats a left-hander otherwise than the mirror '
        "image of a right-hander",
        notes=(
            f"Here and in its mirror image the advice differs. {_told(witness, words)}",
            f"The mirror image: {_told(mirror, words)}",
        ),
        hint='ask for "hands: same" or "hands: opposite", or for the wing a ball finds; or write '
        "the rule a second time for the other hand",
    )


def _stage(finding: Finding, rules: RuleSet) -> _Said:
    asked = condition_words(finding.conditions[0], rules.vocabulary)
    return _Said(
        sentence=f'the rule "{finding.rules[0]}" asks for {asked} whatever the stage',
        notes=(
            "What is thigh high on a grown player is under the net; on a child the net itself "
            "comes up to the chest.",
        ),
        hint='say whom the set is for ("applies to: {stage: full court}"), or ask for the stage '
        "or the contact height in the rule",
    )


# Pieces that several findings share


def _common(finding: Finding, words: Vocabulary) -> Iterator[str]:
    if finding.common is None:
        return
    told = [
        situation_sentence(finding.common.facts, words) if finding.common.facts.facts else "",
        f"Always: {both(finding.common.terms)}." if finding.common.terms else "",
        _choosing(finding.common.parts, words),
    ]
    said = " ".join(text for text in told if text)
    if said and not _is_same(finding.common, finding.witnesses[0]):
        yield f"All of them have in common: {said}"


def _is_same(common: Common, witness: Witness) -> bool:
    """Say whether what is common is just what the example tells, the game situation apart."""
    shared, told = common.facts.as_dict(), witness.told.as_dict()
    told.pop(GAME_SITUATION, None)
    shared.pop(GAME_SITUATION, None)
    return (shared, common.parts, common.terms) == (told, witness.told_choice, ())


def _example(witness: Witness, words: Vocabulary) -> str:
    return f"For example: {_told(witness, words)} All else as on an ordinary ball."


def _told(witness: Witness, words: Vocabulary) -> str:
    said = situation_sentence(witness.told, words)
    return " ".join(text for text in (said, _choosing(witness.told_choice, words)) if text)


def _choosing(choice: Choice, words: Vocabulary) -> str:
    return f"The choice: {choice_words(choice, words)}." if choice.parts else ""


def _nearest(near: Near, words: Vocabulary) -> str:
    if near.beaten_by:
        return f'Nearest: "{near.rule}" applies, but "{near.beaten_by}" sets it aside.'
    asks = both(condition_words(each, words) for each in near.asks)
    lacks = [f"it asks for {asks}"] if asks else []
    lacks += [f"it stands back where {condition_words(each, words)}" for each in near.unless]
    lacks += [f"it is for a choice of {condition_words(each, words)}" for each in near.choosing]
    return f'Nearest: "{near.rule}", but {both(lacks)}.'


def _why_not(finding: Finding, rules: RuleSet) -> Iterator[str]:
    words = rules.vocabulary
    said = [condition_words(each, words) for each in finding.conditions]
    said += [f"no exception for {condition_words(each, words)}" for each in finding.exceptions]
    if len(said) > 1:
        yield f"These cannot come together: {'; '.join(said)}."
    elif said:
        yield f"This cannot be: {said[0]}."
    yield from reason_texts(finding.reasons, rules)


def _why_idle(finding: Finding, rules: RuleSet, others: tuple[Condition, ...]) -> Iterator[str]:
    words = rules.vocabulary
    if finding.others:
        yield (
            f"Where it does not hold, {both(_quoted(finding.others))} "
            f"{_verb(finding.others, 'decides', 'decide')}, with or without this rule."
        )
    elif others or finding.reasons:
        said = [condition_words(each, words) for each in others]
        if said:
            yield f"It follows from the rest of the rule: {'; '.join(said)}."
        yield from reason_texts(finding.reasons, rules)
    else:
        yield "Without it the advice would be the same everywhere."


def _edges(finding: Finding, words: Vocabulary) -> Iterator[str]:
    if finding.edges:
        names = both(words.trait(name).name for name in finding.edges)
        yield (
            f"It happens only where two limits of {names} meet: on the very number, one of them "
            'should say "more than" or "less than" instead, or the other way round.'
        )


def _cannot_happen(
    witness: Witness, words: Vocabulary, phases: tuple[str, ...] = ()
) -> tuple[str, ...]:
    """Return the lines that shut out a witness, in all game situations it stands for.

    No lines for an ordinary ball: that one does happen.
    """
    told = witness.told
    if witness.telling == (GAME_SITUATION,):
        return ()
    if phases:
        told = told.with_facts({GAME_SITUATION: OneOf(frozenset(phases))})
    facts: list[tuple[str, Known]] = list(told.facts)
    facts.sort(key=lambda pair: pair[0] != GAME_SITUATION)
    parts = witness.told_choice.parts
    choosing = (f"    if choosing: {condition_text(parts, words)}",) if parts else ()
    return (
        "cannot happen:",
        f"  - when: {condition_text(facts, words)}",
        *choosing,
        "    because: write here why it cannot be",
    )


def _asked(rules: RuleSet, rule_id: str, parts: Iterable[str]) -> str:
    advice = dict(rules.rule(rule_id).advice)
    return answer_words(tuple((part, advice[part]) for part in parts), rules.vocabulary)


def _names(parts: Iterable[str], words: Vocabulary) -> list[str]:
    return [words.trait(part).name for part in parts]


def _verb(ids: tuple[str, ...], one: str, several: str) -> str:
    return several if len(ids) > 1 else one


def _quoted(ids: Iterable[str]) -> list[str]:
    return [f'"{each}"' for each in ids]
