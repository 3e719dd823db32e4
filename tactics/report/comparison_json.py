"""A comparison as plain data; what its keys mean is said in `plain_json`."""

from tactics.checks.comparison import Change, Comparison, Flip, Said
from tactics.model.vocabulary import Vocabulary
from tactics.report.comparison import grade_word
from tactics.report.plain_json import (
    FORMAT,
    Json,
    choice_as_json,
    situation_as_json,
    values_as_json,
)


def comparison_as_json(comparison: Comparison) -> Json:
    """Return everything that changes from one rule set to the other."""
    words = comparison.words
    return {
        "format": FORMAT,
        "old": comparison.old,
        "new": comparison.new,
        "is_same": comparison.is_same,
        "is_complete": comparison.is_complete,
        "added": list(comparison.added),
        "removed": list(comparison.removed),
        "rewritten": list(comparison.reworded),
        "changes": [_change(each, words) for each in comparison.changes],
        "balls": comparison.balls,
        "flips": [_flip(each, words) for each in comparison.flips],
    }


def _change(change: Change, words: Vocabulary) -> Json:
    return {
        "before": list(change.before),
        "after": list(change.after),
        "options_opened": list(change.opened),
        "options_closed": list(change.closed),
        "in_common": {
            "situation": situation_as_json(change.common.facts, words),
            "choice": choice_as_json(change.common.parts, words),
            "terms": list(change.common.terms),
        },
        "example": {
            "situation": situation_as_json(change.witness.told, words),
            "choice": choice_as_json(change.witness.told_choice, words),
        },
        "parts": [
            {"part": was.part, "before": _said(was, words), "after": _said(now, words)}
            for was, now in zip(change.said_before, change.said_after, strict=True)
        ],
    }


def _said(said: Said, words: Vocabulary) -> Json:
    allowed = said.allowed
    return {
        "is_spoken": said.is_spoken,
        "allowed": None if allowed is None else values_as_json(allowed, said.part, words),
        "clashing": list(said.clashing),
    }


def _flip(flip: Flip, words: Vocabulary) -> Json:
    return {
        "file": flip.ball.span.file,
        "line": flip.ball.span.line,
        "before": grade_word(flip.before),
        "after": grade_word(flip.after),
        "situation": situation_as_json(flip.ball.situation, words),
        "choice": choice_as_json(flip.ball.choice, words),
    }
