"""Conditions: facts or parts with their values, `all`, `any`, `not` and terms."""

from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test
from tactics.model.names import fold
from tactics.model.trait import Trait
from tactics.reading import yaml_text
from tactics.reading.answers import read_values
from tactics.reading.bare_words import lines_for, without_not
from tactics.reading.codes import Code
from tactics.reading.fields import items_of, one_text
from tactics.reading.keywords import LOGIC
from tactics.reading.notes import Entry, Notes
from tactics.reading.scope import Scope, named_traits
from tactics.reading.sections import section
from tactics.reading.suggest import meant_yes_or_no
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Node, words_of
from tactics.source import Span


def read_condition(
    node: Node, what: str, span: Span, scope: Scope, notes: Notes, *, is_item: bool = False
) -> Condition:
    """Return what a section asks for: all of its lines have to hold."""
    meant = lines_for(node, what, scope, notes, is_item=is_item)
    if meant is None:
        return All(())
    if isinstance(meant, yaml_text.Sequence) and _are_sections(meant):
        _list_of_conditions(meant, what, notes)
        return All(tuple(read_condition(each, what, span, scope, notes) for each in meant.items))
    return joined(section(meant, span, what, notes), scope, notes)


def _are_sections(node: yaml_text.Sequence) -> bool:
    return all(isinstance(item, yaml_text.Mapping) and item.pairs for item in node.items)


def _list_of_conditions(node: yaml_text.Sequence, what: str, notes: Notes) -> None:
    """Note hyphens in front of conditions that all have to hold."""
    notes.add(
        Code.SECTION_WANTED,
        node.span,
        f"{what} is made of lines with a name and a value, and a list stands there",
        "take the hyphens out: all lines of a condition have to hold; where any one of them is "
        'enough, write "any:" above the list',
    )


def joined(entries: tuple[Entry, ...], scope: Scope, notes: Notes) -> Condition:
    """Return the condition that every one of these lines holds."""
    entries = tuple(without_not(entry, scope, notes) for entry in entries)
    tests = {
        entry.name: _test(entry, trait, scope, notes)
        for entry, trait in named_traits(
            tuple(entry for entry in entries if _names_a_trait(entry, scope)), scope, notes
        )
    }
    found = [
        tests.get(entry.name) if _names_a_trait(entry, scope) else _other(entry, scope, notes)
        for entry in entries
    ]
    inside = tuple(each for each in found if each is not None)
    return inside[0] if len(inside) == 1 else All(inside)


def _names_a_trait(entry: Entry, scope: Scope) -> bool:
    return entry.name not in LOGIC and entry.name not in scope.terms


def read_conditions(entry: Entry, what: str, scope: Scope, notes: Notes) -> tuple[Condition, ...]:
    """Return the members of a list of conditions; one section counts as a list of one."""
    members = items_of(entry)
    in_list = isinstance(entry.value, yaml_text.Sequence)
    found = []
    for member in members:
        if isinstance(member, yaml_text.Mapping) and not member.pairs:
            empty_section(what, member.span, notes)
        else:
            found.append(
                read_condition(member, what, entry.key.span, scope, notes, is_item=in_list)
            )
    return tuple(found)


def empty_section(what: str, span: Span, notes: Notes) -> None:
    """Note a list or section in which nothing stands."""
    notes.add(
        Code.EMPTY_VALUE, span, f"{what} is empty", "write a fact and its values, or take it out"
    )


def _other(entry: Entry, scope: Scope, notes: Notes) -> Condition | None:
    return _logic(entry, scope, notes) if entry.name in LOGIC else _term(entry, notes)


def _test(entry: Entry, trait: Trait, scope: Scope, notes: Notes) -> Condition | None:
    value = read_values(entry, trait, scope.vocabulary, notes)
    if value is None:
        return None
    return Test(
        name=trait.folded, allowed=value, text=_as_written(entry.value), span=entry.key.span
    )


def _logic(entry: Entry, scope: Scope, notes: Notes) -> Condition:
    what = f"{quoted(entry.name)} in {notes.whose}"
    inner = notes.inside(entry.key.span.line)
    if entry.name == "not":
        return Not(read_condition(entry.value, what, entry.key.span, scope, inner))
    if entry.is_empty or not items_of(entry):
        empty_section(what, entry.key.span, notes)
    inside = read_conditions(entry, what, scope, inner) if not entry.is_empty else ()
    return All(inside) if entry.name == "all" else AnyOf(inside)


def _term(entry: Entry, notes: Notes) -> Condition | None:
    written = one_text(entry, notes)
    if written is None:
        return None
    if fold(written.text) not in ("yes", "no"):
        wanted = meant_yes_or_no(written.text)
        notes.add(
            Code.YES_OR_NO,
            written,
            f"{notes.whose} asks for {quoted(entry.key.text)} to be {quoted(written.text)}, and a "
            "term holds or does not",
            f"write {entry.key.text}: {wanted}"
            if wanted
            else f"write {entry.key.text}: yes, or {entry.key.text}: no",
            replacement=wanted,
        )
        return None
    return TermTest(term=entry.name, wanted=fold(written.text) == "yes", span=entry.key.span)


def _as_written(node: Node) -> str:
    return " or ".join(word.text for word in words_of(node))
