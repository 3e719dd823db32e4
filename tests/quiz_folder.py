"""A folder in which Wren has answered a quiz, for what is shown beside the charts."""

from dataclasses import replace
from datetime import date
from pathlib import Path

from tactics.model.scenario import Credit
from tactics.quiz.boxes import Boxes
from tactics.quiz.store import Store, open_store
from tests.quiz.answered import answer, question, quiz

FIRST = date(2026, 3, 14)
ANSWERED = (
    ("short-and-low-lead-in", Credit.FULL),
    ("short-and-low-lead-in", Credit.NONE),
    ("wide-go-high", Credit.FULL),
    ("rally-with-air", Credit.FULL),
)


def keep_answers(folder: Path) -> Path:
    """Keep four answers on three rules, all on one day, and return the folder."""
    store = open_store(folder, "Wren", FIRST)
    assert isinstance(store, Store)
    with store:
        number = store.begin(quiz(question()), FIRST)
        assert isinstance(number, int)
        for rule, credit in ANSWERED:
            each = replace(answer(0, credit), rule=rule, day=FIRST)
            assert store.save(number, question(), each, Boxes()) is None
    return folder
