"""The values behind the name of a fact or a part, any of which will do, and whole answers."""

from dataclasses import replace

from tactics.model.known import Allowed, OneOf
from tactics.model.rule import Answer
from tactics.model.trait import Kind, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.reading import yaml_text
from tactics.reading.bare_words import lines_for
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.fields import items_of
from tactics.reading.notes import Entry, Notes
from tactics.reading.scope import Scope, named_traits
from tactics.reading.sections import section
from tactics.reading.suggest import can_be
from tactics.reading.values import allowed, empty_value, is_everything, union
from tactics.reading.wording import both, quoted
from tactics.reading.yaml_text import Node, Scalar, words_of
from tactics.source import Span


def read_answer(
    node: Node, what: str, span: Span, scope: Scope, notes: Notes, *, is_item: bool = False
) -> Answer:
    """Return the parts of an answer with their values, in the order written.

    is_item: the answer stands behind the hyphen of a list.
    """
    scope = replace(scope, keys=())
    meant = lines_for(node, what, scope, notes, is_item=is_item)
    if meant is None:
        return ()
    entries = section(meant, span, what, notes)
    if isinstance(node, yaml_text.Mapping) and not node.pairs:
        notes.add(
            Code.EMPTY_VALUE,
            span,
            f"{what} is empty",
            "write a part, for example direction: crosscourt",
        )
    found: list[tuple[str, Allowed]] = []
    for entry, trait in named_traits(entries, scope, notes):
        value = read_values(entry, trait, scope.vocabulary, notes, scatter=True)
        if value is not None:
            found.append((trait.folded, value))
    return tuple(found)


def read_values(
    entry: Entry, trait: Trait, vocabulary: Vocabulary, notes: Notes, *, scatter: bool = False
) -> Allowed | None:
    """Return the values behind a name, any of which will do, or None with problems."""
    if trait.kind is Kind.TEXT:  # an own fact that could not be read: its users are left out
        return OneOf(frozenset({""}))
    if entry.is_empty:
        notes.complain(empty_value(trait), entry.key.span)
        return None
    items = items_of(entry)
    if not items:
        notes.complain(empty_value(trait), entry.value.span)
        return None
    values = []
    for item in items:
        value = _one_value(entry, item, trait, vocabulary, notes, scatter)
        if value is not None:
            values.append(value)
    if len(values) < len(items):
        return None
    return _any_of(values, entry, trait, notes)


def _one_value(
    entry: Entry,
    item: Node,
    trait: Trait,
    vocabulary: Vocabulary,
    notes: Notes,
    scatter: bool,
) -> Allowed | None:
    if not isinstance(item, Scalar):
        _no_value(entry, item, trait, notes)
        return None
    value = allowed(item.text, trait, vocabulary, scatter=scatter)
    if not isinstance(value, Complaint):
        return value
    in_list = isinstance(entry.value, yaml_text.Sequence)
    notes.complain(_fit_into_list(value) if in_list else value, item)
    return None


def _fit_into_list(complaint: Complaint) -> Complaint:
    """Return a complaint whose replacement can stand between the commas of a list."""
    return Complaint(
        code=complaint.code,
        sentence=complaint.sentence,
        hint=complaint.hint,
        replacement=complaint.replacement.removeprefix("[").removesuffix("]"),
    )


def _no_value(entry: Entry, item: Node, trait: Trait, notes: Notes) -> None:
    found = "a list" if isinstance(item, yaml_text.Sequence) else "a section"
    notes.add(
        Code.ONE_VALUE,
        item.span,
        f"in {notes.whose}, {found} stands where a value of {quoted(entry.key.text)} belongs",
        f"{quoted(trait.name)} can be {can_be(trait)}",
    )


def _any_of(values: list[Allowed], entry: Entry, trait: Trait, notes: Notes) -> Allowed | None:
    value = union(list(values))
    if isinstance(value, Complaint):
        notes.complain(value, entry.value.span)
        return None
    written = [word.text for word in words_of(entry.value)]
    nots = [text.strip() for text in written if text.strip().lower().startswith("not ")]
    if len(written) > 1 and nots and is_everything(value, trait):
        _lets_everything_through(nots, entry, trait, notes)
        return None
    return value


def _lets_everything_through(nots: list[str], entry: Entry, trait: Trait, notes: Notes) -> None:
    shut_out = {trait.word_named(text[4:]) for text in nots}
    left = [word.name for word in trait.words if word not in shut_out]
    wanted = f"[{', '.join(left)}]"
    in_brackets = isinstance(entry.value, yaml_text.Sequence) and entry.value.span.width > 2
    one_line = in_brackets and all(
        word.span.line == entry.value.span.line for word in words_of(entry.value)
    )
    notes.add(
        Code.LIST_OF_NOTS,
        entry.value.span,
        f"in {notes.whose}, {both(quoted(text) for text in nots)} in one list let everything "
        "through: a list means any of them",
        f"write {entry.key.text}: {wanted}",
        replacement=wanted if one_line and trait.kind is Kind.WORDS and left else "",
    )
