"""A rule's revision: wording may change, meaning may not."""

import pytest

from tactics.quiz.revision import revisions, rules_hash
from tests.conftest import Read

CLUB = """
    rule set: Club
    precedence: [court position, pattern]
    terms:
      far out:
        means: wide of the court
        any:
          - court width: [wide forehand, wide backhand]
          - steps to the ball: at least 5
    rules:
      wide-go-high:
        title: Pulled wide, go high
        concern: court position
        strength: should
        when: {game situation: baseline rally, far out: yes}
        unless:
          - {balance: set}
        advise: {intent: [buy time, neutralise], direction: crosscourt}
        aim: {height over net: 2 m}
        because: A high ball is longer in the air.
        cue: Far out, go up
"""


def revised(read: Read, old: str = "", new: str = "") -> dict[str, str]:
    assert old in CLUB
    rules = read(CLUB.replace(old, new) if old else CLUB).value
    assert rules is not None
    return revisions(rules)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("A high ball is longer in the air.", "It buys you time."),
        ("Pulled wide, go high", "When pulled wide, lift it"),
        ("Far out, go up", "Up and over"),
        ("wide of the court", "outside the tramlines"),
        ("baseline rally, far out: yes", "Baseline-Rally, far out: yes"),
        ("[buy time, neutralise]", "[neutralise, buy time]"),
        (
            "intent: [buy time, neutralise], direction: crosscourt",
            "direction: crosscourt, intent: [buy time, neutralise]",
        ),
        (
            "game situation: baseline rally, far out: yes",
            "far out: yes, game situation: baseline rally",
        ),
        ("height over net: 2 m", "height over net: 200 cm"),
        ("[court position, pattern]", "[feasibility, court position, pattern]"),
    ],
    ids=["because", "title", "cue", "means", "spelling", "words", "parts", "facts", "unit",
         "another concern"],
)  # fmt: skip
def test_a_change_of_wording_keeps_what_is_remembered(read: Read, old: str, new: str) -> None:
    assert revised(read, old, new) == revised(read)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("{balance: set}", "{balance: moving}"),
        ("direction: crosscourt", "direction: straight"),
        ("height over net: 2 m", "height over net: 2.5 m"),
        ("strength: should", "strength: must"),
        ("at least 5", "at least 6"),
        ("concern: court position", "concern: pattern"),
    ],
    ids=["exception", "advice", "aim", "strength", "a term it uses", "concern"],
)
def test_a_change_of_meaning_starts_anew(read: Read, old: str, new: str) -> None:
    assert revised(read, old, new) != revised(read)


def test_the_hash_of_a_set_follows_its_rules(read: Read) -> None:
    one, same, other = (
        read(text).value
        for text in (CLUB, CLUB.replace("Far out", "So far"), CLUB.replace("2 m", "3 m"))
    )

    assert one is not None
    assert same is not None
    assert other is not None
    assert rules_hash(one) == rules_hash(same) != rules_hash(other)
