"""Which line belongs into which section of a rule file, told by its name."""

from dataclasses import replace

from tactics.model.names import fold
from tactics.model.standard import STANDARD
from tactics.model.trait import Role
from tactics.model.vocabulary import Vocabulary
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.keywords import (
    EXAMPLE_KEYS,
    LOGIC,
    OWN_FACT_KEYS,
    RULE_KEYS,
    RULE_MUSTS,
    SET_KEYS,
    is_top_name,
)
from tactics.reading.notes import Notes
from tactics.reading.slipped import Pair, settled
from tactics.reading.suggest import near
from tactics.reading.wording import quoted
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
        is_like_top = "-" not in name and fold(name) not in RULE_KEYS
        return is_top_name(name) or (is_like_top and bool(near(name, SET_KEYS)))

    return _with_rules_apart(settled(node, stays, inside, notes), notes)


def _with_rules_apart(node: Node, notes: Notes) -> Node:
    """Return a file with the rules that stand below its facts or terms under "rules"."""
    if not isinstance(node, yaml_text.Mapping):
        return node
    pairs: list[Pair] = []
    strays: tuple[Pair, ...] = ()
    for name, section in node.pairs:
        stop = _first_rule(section) if fold(name.text) in ("facts", "terms") else None
        if stop is None or not isinstance(section, yaml_text.Mapping):
            pairs.append((name, section))
            continue
        strays = section.pairs[stop:]
        pairs.append((name, replace(section, pairs=section.pairs[:stop])))
    if not strays:
        return node
    there = next((index for index, pair in enumerate(pairs) if fold(pair[0].text) == "rules"), None)
    first = strays[0][0]
    start = first.span.column - 1
    notes.add(
        Code.INDENTATION,
        replace(first.span, column=1, width=start + first.span.width),
        f"the rule {quoted(first.text)} stands where no rule can, and "
        + ("there is no line with rules:" if there is None else "the line with rules: comes later"),
        "write rules: on a line of its own above it, at the very left"
        if there is None
        else 'move it below "rules"',
        replacement=f"rules:\n{' ' * start}{first.text}" if there is None else "",
    )
    body = yaml_text.Mapping(pairs=strays, span=first.span)
    if there is None:
        return replace(node, pairs=(*pairs, (Scalar(text="rules", span=first.span), body)))
    name, rules = pairs[there]
    if isinstance(rules, yaml_text.Mapping):
        pairs[there] = name, replace(rules, pairs=(*strays, *rules.pairs))
    return replace(node, pairs=tuple(pairs))


def _first_rule(section: Node) -> int | None:
    """Return the index of the first rule in a section, told by its lines, or None."""
    pairs = section.pairs if isinstance(section, yaml_text.Mapping) else ()
    return next(
        (index for index, pair in enumerate(pairs) if _is_off(pair) or _is_rule(pair[1])), None
    )


def _is_rule(node: Node) -> bool:
    lines = node.pairs if isinstance(node, yaml_text.Mapping) else ()
    names = {fold(key.text) for key, _ in lines}
    return "advise" in names or len(names & set(RULE_MUSTS)) > 2


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
