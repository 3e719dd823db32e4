"""A quiz file as the program writes one: homework on a few rules, to be changed by a coach."""

import re
from collections.abc import Sequence

from tactics.reading.quizzes import HANDS

_PLAIN = re.compile(r"[^\W\d_][\w./ -]*(?<! )")
_LIKE_A_KEY_WORD = re.compile(r"(?i)(yes|no|on|off|true|false|null|~)")


def quiz_text(
    name: str,
    made_for: Sequence[str],
    rules: Sequence[tuple[str, str]],
    draw: int,
    hand: str = HANDS[0],
) -> str:
    """Return a quiz file that draws fresh situations. rules: (id, title), the first one first."""
    lines = [
        "# Fresh situations on the rules below. Take rules out, add others, or write scenarios of",
        "# your own under it; tactics check tells what is wrong with it.",
        f"quiz: {_quoted(name)}",
    ]
    if made_for:
        lines.append(f"for: [{', '.join(map(_quoted, made_for))}]")
    if hand != HANDS[0]:
        lines.append(f"hand: {hand}")
    lines += [f"draw: {draw}", "rules:"]
    lines += [f"  - {rule}  # {_on_one_line(title)}" for rule, title in rules]
    return "\n".join(lines) + "\n"


def _quoted(text: str) -> str:
    """Return a text as it may stand behind a colon or in a list."""
    one = _on_one_line(text)
    if _PLAIN.fullmatch(one) and not _LIKE_A_KEY_WORD.fullmatch(one):
        return one
    doubled = one.replace("'", "''")
    return f"'{doubled}'"


def _on_one_line(text: str) -> str:
    return " ".join("".join(each if each.isprintable() else " " for each in text).split())
