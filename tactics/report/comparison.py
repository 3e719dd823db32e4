"""A comparison of two rule sets in words: each change once, with what its balls have in common."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from tactics.checks.comparison import Change, Comparison, Flip, Said
from tactics.checks.witness import Common
from tactics.model.choice import Choice
from tactics.model.situation import Situation
from tactics.model.verdict import Verdict
from tactics.model.vocabulary import Vocabulary
from tactics.reading.wording import both
from tactics.report.audit_balls import short_ball
from tactics.report.layout import Section, counted, definitions, wrapped
from tactics.report.sentences import choice_words, situation_sentence
from tactics.report.verdicts import GRADE_ORDER
from tactics.report.words import say_bounds

NOT_COVERED = "not covered"


def comparison_sections(comparison: Comparison) -> tuple[Section, ...]:
    """Return what changes: rules, advice change by change, and charted balls."""
    return (
        Section(title=f"{comparison.old} -> {comparison.new}", lines=tuple(_rules(comparison))),
        *(
            Section(title=change_title(change), lines=tuple(_change(change, comparison.words)))
            for change in comparison.changes
        ),
        Section(title="Remarks", lines=tuple(_remarks(comparison))),
        Section(title=_flips_title(comparison), lines=tuple(_flips(comparison))),
    )


def _rules(comparison: Comparison) -> Iterator[str]:
    lists = {
        "added": comparison.added,
        "removed": comparison.removed,
        "rewritten": comparison.reworded,
    }
    yield from definitions([(name, ", ".join(ids)) for name, ids in lists.items() if ids])
    places = counted(len(comparison.changes), "change")
    yield f"  {places} of advice" if comparison.changes else "  The advice is the same everywhere."


def change_title(change: Change) -> str:
    """Return who decides before and after: `wide-go-high -> wide-go-middle`."""
    if change.opened or change.closed:
        return _option_title(change)
    if change.before == change.after:
        return f"{both(change.before)}, changed"
    return f"{both(change.before) or 'no other rule'} -> {both(change.after) or 'no other rule'}"


def _option_title(change: Change) -> str:
    if change.opened and change.closed:
        return f"{both(change.opened)}: the options change"
    if change.opened:
        return f"{both(change.opened)}: a new option"
    return f"{both(change.closed)}: the option is gone"


def _change(change: Change, words: Vocabulary) -> Iterator[str]:
    shared, example = _common(change.common, words), _told(change, words)
    if shared and shared != example:
        yield from wrapped(f"In common: {shared}", "  ", "    ")
    yield from wrapped(f"For example: {example} All else as on an ordinary ball.", "  ", "    ")
    for was, now in zip(change.said_before, change.said_after, strict=True):
        if was != now:
            trait = words.trait(was.part)
            text = f"{trait.name}: {said_words(was, now, words)}, now {said_words(now, was, words)}"
            yield from wrapped(text, "  ", "    ")


def _common(common: Common, words: Vocabulary) -> str:
    said = (_sentence(common.facts, common.parts, words), terms_words(common.terms))
    return " ".join(text for text in said if text)


def _told(change: Change, words: Vocabulary) -> str:
    return _sentence(change.witness.told, change.witness.told_choice, words)


def _sentence(facts: Situation, parts: Choice, words: Vocabulary) -> str:
    said = [situation_sentence(facts, words)] if facts.facts else []
    said += [f"The choice: {choice_words(parts, words)}."] if parts.parts else []
    return " ".join(said)


def terms_words(terms: Sequence[str]) -> str:
    """Return the named situations that hold in a sentence."""
    return f"Always: {both(terms)}." if terms else ""


def said_words(said: Said, other: Said, words: Vocabulary) -> str:
    """Return what a rule set leaves of a part; how firmly, where only that differs."""
    if not said.is_spoken:
        return "left open"
    if said.allowed is None:
        return f"undecided ({both(said.clashing)} disagree)"
    asked = say_bounds(said.allowed, words.trait(said.part))
    if said.allowed != other.allowed:
        return asked
    return f"{asked} ({'a must' if said.must_allowed == said.allowed else 'a should'})"


def _remarks(comparison: Comparison) -> Iterator[str]:
    if not comparison.is_complete:
        yield from wrapped(
            "There are more changes than these; the two sets have too little in common for all of "
            "them to be found.",
            "  ",
        )
    if comparison.unconfirmed:
        yield from wrapped(
            f"{counted(comparison.unconfirmed, 'change')} could not be confirmed and "
            "is left out: a fault of this program.",
            "  ",
        )


def _flips_title(comparison: Comparison) -> str:
    flipped = len(comparison.flips)
    return f"{flipped} of {counted(comparison.balls, 'charted ball')} change grade"


def _flips(comparison: Comparison) -> Iterator[str]:
    if not comparison.balls:
        return
    if not comparison.flips:
        yield "  No charted ball gets another grade."
        return
    yield from definitions([(_turn(pair), str(n)) for pair, n in _turns(comparison.flips)])
    yield ""
    with_file = len({flip.ball.span.file for flip in comparison.flips}) > 1
    for flip in comparison.flips:
        yield from _flip(flip, comparison.words, with_file=with_file)


def _turns(flips: Iterable[Flip]) -> Sequence[tuple[tuple[str, str], int]]:
    """Return (grade before, grade after) with how many balls, the most frequent first."""
    counts = Counter((grade_word(flip.before), grade_word(flip.after)) for flip in flips)
    order = [*map(str, GRADE_ORDER), NOT_COVERED]
    return sorted(
        counts.items(), key=lambda each: (-each[1], *(order.index(word) for word in each[0]))
    )


def _turn(pair: tuple[str, str]) -> str:
    return f"{pair[0]} -> {pair[1]}"


def grade_word(verdict: Verdict | None) -> str:
    """Return a grade in a word, also where a rule set does not cover the ball."""
    return NOT_COVERED if verdict is None else str(verdict.grade)


def _flip(flip: Flip, words: Vocabulary, *, with_file: bool) -> Iterator[str]:
    place = short_ball(flip.ball, with_file=with_file)
    yield from wrapped(f"{place}: {_turn((grade_word(flip.before), grade_word(flip.after)))}", "  ")
    said = situation_sentence(flip.ball.situation, words)
    yield from wrapped(f"{said} {_chosen(flip, words)}{_by(flip)}", "    ")


def _chosen(flip: Flip, words: Vocabulary) -> str:
    return f"The choice: {choice_words(flip.ball.choice, words)}."


def _by(flip: Flip) -> str:
    """Return the rules that decided, where they are not the same."""
    was, now = (each.deciding if each else "" for each in (flip.before, flip.after))
    if was == now:
        return f" Decided by {was}." if was else ""
    before, after = was or "no rule", now or "no rule"
    return f" Decided by {before}, now by {after}."
