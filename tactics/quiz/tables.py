"""The tables that hold a player's answers, step by step from an empty file to this version."""

STEPS = (
    """
CREATE TABLE player (
    nickname TEXT NOT NULL PRIMARY KEY CHECK (length(nickname) BETWEEN 1 AND 24),
    made_day TEXT NOT NULL,
    seed TEXT NOT NULL
) STRICT;
CREATE TABLE quiz (
    id INTEGER PRIMARY KEY,
    player TEXT NOT NULL REFERENCES player ON DELETE CASCADE,
    day TEXT NOT NULL,
    rules_hash TEXT NOT NULL,
    generator INTEGER NOT NULL,
    seed TEXT NOT NULL,
    source TEXT NOT NULL,
    paper TEXT UNIQUE,
    ended TEXT NOT NULL DEFAULT '' CHECK (ended IN ('', 'done', 'stopped'))
) STRICT;
CREATE TABLE answer (
    id INTEGER PRIMARY KEY,
    quiz INTEGER NOT NULL REFERENCES quiz ON DELETE CASCADE,
    number INTEGER NOT NULL,
    day TEXT NOT NULL,
    ask TEXT NOT NULL,
    rule TEXT NOT NULL,
    revision TEXT NOT NULL,
    pair TEXT NOT NULL,
    picked INTEGER CHECK (picked IS NULL OR picked BETWEEN 0 AND 2),
    grade TEXT,
    credit TEXT CHECK (credit IS NULL OR credit IN ('full', 'half', 'none')),
    sure INTEGER CHECK (sure IS NULL OR sure IN (0, 1)),
    confused_with TEXT NOT NULL,
    took_ms INTEGER,
    timed_out INTEGER NOT NULL CHECK (timed_out IN (0, 1)),
    is_twin INTEGER NOT NULL CHECK (is_twin IN (0, 1)),
    disagrees TEXT NOT NULL,
    scenario TEXT NOT NULL CHECK (json_valid(scenario)),
    UNIQUE (quiz, number)
) STRICT;
CREATE INDEX answers_of_a_rule ON answer (rule, revision);
CREATE TABLE memory (
    player TEXT NOT NULL REFERENCES player ON DELETE CASCADE,
    rule TEXT NOT NULL,
    revision TEXT NOT NULL,
    scheduler TEXT NOT NULL,
    state TEXT NOT NULL,
    last_day TEXT NOT NULL,
    due_day TEXT NOT NULL,
    PRIMARY KEY (player, rule, revision, scheduler)
) STRICT;
""",
)
"""Step 1 makes the first version, step 2 (when there is one) turns version 1 into 2, and so on.

A step that has been shipped never changes; a new version is a new step at the end.
"""

ANSWER = (
    "number", "day", "ask", "rule", "revision", "pair", "picked", "grade", "credit", "sure",
    "confused_with", "took_ms", "timed_out", "is_twin", "disagrees",
)  # fmt: skip
"""The columns of an answer besides its quiz and its question."""
HELD = ("player", "quiz", "answer", "memory")
"""All tables, for an export of everything."""


def statements(step: str) -> tuple[str, ...]:
    """Return the statements of a step, one by one, so that all run in one transaction."""
    return tuple(each.strip() for each in step.split(";\n") if each.strip())
