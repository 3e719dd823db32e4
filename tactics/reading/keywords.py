"""The names a rule file may use before a colon."""

from functools import cache

from tactics.model.names import fold
from tactics.model.standard import STANDARD

SET_KEYS = (
    "rule set", "author", "about", "applies to", "builds on", "precedence", "facts", "terms",
    "rules",
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
DRILL_KEYS = (
    "title", "minutes", "trains", "set up", "scoring", "harder", "easier", "safety", "strains",
)  # fmt: skip
DRILL_MUSTS = ("title", "minutes", "trains", "set up", "scoring", "harder", "easier")
LOGIC = ("all", "any", "not")


@cache
def _known() -> frozenset[str]:
    keys = {*SET_KEYS, *RULE_KEYS, *OWN_FACT_KEYS, *EXAMPLE_KEYS, *DRILL_KEYS, *LOGIC, "means"}
    traits = {fold(name) for trait in STANDARD.traits for name in (trait.name, *trait.also)}
    return frozenset(keys | traits)


def is_known_name(written: str) -> bool:
    """Say whether a name is one of the format's keys or a fact, part or outcome."""
    return fold(written) in _known()
