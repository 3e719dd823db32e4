"""The names a rule file may use before a colon."""

from functools import cache

from tactics.model.names import fold
from tactics.model.standard import STANDARD

SET_KEYS = (
    "rule set", "author", "about", "applies to", "builds on", "precedence", "facts", "terms",
    "rules", "mixes", "cannot happen", "always says",
)  # fmt: skip
RULE_KEYS = (
    "title", "concern", "strength", "when", "unless", "if choosing", "advise", "aim",
    "alternatives", "beats", "because", "cue", "usual mistake", "drills", "evidence", "note",
    "author", "examples",
)  # fmt: skip
RULE_MUSTS = ("title", "concern", "strength", "advise", "because", "cue")
OWN_FACT_KEYS = (
    "words", "unit", "from", "to", "bands", "says", "question", "by eye", "ordinary",
)  # fmt: skip
EXAMPLE_KEYS = ("given", "choose", "grade")
MIX_KEYS = (
    "title", "concern", "strength", "of", "share of", "at most", "at least", "for each",
    "over at least", "because", "cue", "drills", "evidence", "note", "author", "examples",
)  # fmt: skip
MIX_EXAMPLE_KEYS = ("seen", "says")
DRILL_KEYS = (
    "title", "minutes", "trains", "set up", "scoring", "harder", "easier", "safety", "strains",
)  # fmt: skip
DRILL_MUSTS = ("title", "minutes", "trains", "set up", "scoring", "harder", "easier")
IMPOSSIBLE_KEYS = ("when", "if choosing", "because")
SECTION_KEYS = (
    "applies to", "when", "unless", "if choosing", "advise", "aim", "alternatives", "usual mistake",
    "given", "choose", "of", "share of", "not", "bands",
)  # fmt: skip
TEXT_KEYS = (
    "rule set", "author", "about", "title", "because", "cue", "note", "means", "says", "question",
    "by eye", "set up", "scoring", "harder", "easier", "safety",
)  # fmt: skip
LOGIC = ("all", "any", "not")
_FAMILIES = (
    SET_KEYS, RULE_KEYS, MIX_KEYS, OWN_FACT_KEYS, EXAMPLE_KEYS, DRILL_KEYS, (*LOGIC, "means"),
)  # fmt: skip


@cache
def _known() -> frozenset[str]:
    keys = {
        *SET_KEYS, *RULE_KEYS, *OWN_FACT_KEYS, *EXAMPLE_KEYS, *MIX_KEYS, *MIX_EXAMPLE_KEYS,
        *DRILL_KEYS, *LOGIC, "means",
    }  # fmt: skip
    traits = (*STANDARD.facts, *STANDARD.parts)
    names = {fold(name) for trait in traits for name in (trait.name, *trait.also)}
    return frozenset(keys | names)


def are_siblings(one: str, other: str) -> bool:
    """Say whether two names can stand below each other in one section."""
    names = {fold(one), fold(other)}
    if any(names <= set(family) for family in _FAMILIES):
        return True
    rows = [STANDARD.find(name) for name in names if name not in LOGIC]
    return len({row.role for row in rows if row is not None}) == 1 and None not in rows


def is_row(written: str) -> bool:
    """Say whether a name is a standard fact or part, or another row of the table."""
    return STANDARD.find(written) is not None


def is_top_name(written: str) -> bool:
    """Say whether a name is one that a file of rules or drills has at the very left."""
    return fold(written) in (*SET_KEYS, "drills")


def is_known_name(written: str) -> bool:
    """Say whether a name is one of the format's keys or a fact or part."""
    return fold(written) in _known()


def known_start(words: str) -> str:
    """Return the longest run of words at the start that is a name of the format, or nothing."""
    parts = words.split(" ")
    for count in range(min(4, len(parts)), 0, -1):
        candidate = " ".join(parts[:count])
        if is_known_name(candidate):
            return candidate
    return ""
