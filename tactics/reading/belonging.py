"""Which line belongs into which section of a rule file, told by its name."""

from tactics.model.names import fold
from tactics.model.standard import STANDARD
from tactics.model.trait import Role
from tactics.model.vocabulary import Vocabulary
from tactics.reading import yaml_text
from tactics.reading.fields import Notes
from tactics.reading.keywords import (
    EXAMPLE_KEYS,
    LOGIC,
    OWN_FACT_KEYS,
    RULE_KEYS,
    RULE_MUSTS,
    SET_KEYS,
    is_top_name,
)
from tactics.reading.slipped import Pair, settled
from tactics.reading.suggest import near
from tactics.reading.yaml_text import Node, Scalar

_SECTIONS = ("facts", "terms", "rules", "mixes")
_ROLES = {
    "when": Role.FACT, "unless": Role.FACT, "given": Role.FACT,
    "if choosing": Role.PART, "advise": Role.PART, "aim": Role.PART, "usual mistake": Role.PART,
    "choose": Role.PART,
}  # fmt: skip
_NEVER_A_WORD = ("words", "unit", "bands", "says", "question", "by eye", "ordinary")
_CONDITIONS = ("when", "unless", "if choosing")


def settled_file(node: Node, notes: Notes) -> Node:
    """Return the lines of a file: what is no top-level name belongs to the section above."""

    def inside(section: Scalar, pair: Pair) -> bool:
        opener = fold(section.text)
        if opener == "applies to":
            return STANDARD.find(pair[0].text) is not None
        is_body = isinstance(pair[1], yaml_text.Mapping) or _is_off(pair)
        return is_body and opener in _SECTIONS

    def stays(pair: Pair) -> bool:
        name = pair[0].text
        return is_top_name(name) or ("-" not in name and bool(near(name, SET_KEYS)))

    return settled(node, stays, inside, notes)


def settled_rules(node: Node, notes: Notes) -> Node:
    """Return rules without the lines of a rule that stand among their ids, and the reverse."""

    def inside(_section: Scalar, pair: Pair) -> bool:
        return fold(pair[0].text) in RULE_KEYS

    def stays(pair: Pair) -> bool:
        return _is_off(pair) or _has_any(pair[1], RULE_MUSTS)

    return settled(node, stays, inside, notes)


def settled_facts(node: Node, notes: Notes) -> Node:
    """Return own facts without the lines of one that stand among their names."""

    def inside(_section: Scalar, pair: Pair) -> bool:
        return fold(pair[0].text) in OWN_FACT_KEYS

    def stays(pair: Pair) -> bool:
        return _has_any(pair[1], OWN_FACT_KEYS)

    return settled(node, stays, inside, notes)


def settled_fact(node: Node, notes: Notes) -> Node:
    """Return the lines of an own fact without its words or bands, and these without its lines."""

    def inside(section: Scalar, pair: Pair) -> bool:
        is_free = fold(pair[0].text) not in _NEVER_A_WORD
        return bool(near(section.text, ("words", "bands"))) and is_free

    def stays(pair: Pair) -> bool:
        return bool(near(pair[0].text, ("from", *_NEVER_A_WORD))) or fold(pair[0].text) == "to"

    return settled(node, stays, inside, notes)


def settled_terms(node: Node, vocabulary: Vocabulary, notes: Notes) -> Node:
    """Return terms without the lines of one that stand among their names."""

    def inside(_section: Scalar, pair: Pair) -> bool:
        name, value = pair
        is_line = fold(name.text) in (*LOGIC, "means") or vocabulary.find(name.text) is not None
        return is_line or (isinstance(value, Scalar) and fold(value.text) in ("yes", "no"))

    def stays(pair: Pair) -> bool:
        return isinstance(pair[1], yaml_text.Mapping)

    return settled(node, stays, inside, notes)


def settled_rule(
    node: Node, vocabulary: Vocabulary, terms: frozenset[str], notes: Notes, keys: tuple[str, ...]
) -> Node:
    """Return the lines of a rule, or of an example: `keys` are the names it may have."""

    def inside(section: Scalar, pair: Pair) -> bool:
        opener, name = fold(section.text), fold(pair[0].text)
        trait = vocabulary.find(name)
        if trait is not None:
            return trait.role is _ROLES.get(opener)
        is_logic = name in LOGIC and opener in _CONDITIONS
        return is_logic or (name in terms and _ROLES.get(opener) is Role.FACT)

    def stays(pair: Pair) -> bool:
        return fold(pair[0].text) in keys

    return settled(node, stays, inside, notes)


def settled_example(
    node: Node, vocabulary: Vocabulary, terms: frozenset[str], notes: Notes
) -> Node:
    """Return the lines of an example."""
    return settled_rule(node, vocabulary, terms, notes, EXAMPLE_KEYS)


def _is_off(pair: Pair) -> bool:
    return isinstance(pair[1], Scalar) and fold(pair[1].text) == "off"


def _has_any(node: Node, names: tuple[str, ...]) -> bool:
    return isinstance(node, yaml_text.Mapping) and any(
        fold(key.text) in names for key, _ in node.pairs
    )
