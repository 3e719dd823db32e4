"""Conditions and answers: facts or parts with their values, `all`, `any`, `not` and terms."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tactics.model.condition import All, AnyOf, Condition, Not, TermTest, Test
from tactics.model.known import Allowed, OneOf
from tactics.model.names import fold
from tactics.model.rule import Answer
from tactics.model.trait import Kind, Role, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Also
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.fields import Entry, Notes, items_of, missing_colon, one_text, section
from tactics.reading.keywords import LOGIC
from tactics.reading.suggest import can_be, did_you_mean, meant, meant_yes_or_no, names_of, near
from tactics.reading.values import allowed, empty_value, is_everything, union
from tactics.reading.wording import both, either, quoted
from tactics.reading.yaml_text import Node, Scalar, words_of
from tactics.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Scope:
    """What a condition may speak about: rows of one role, and the terms (folded names).

    other: where the things of the other role belong. keys: names that may stand here beside them.
    """

    vocabulary: Vocabulary
    role: Role
    terms: frozenset[str] = frozenset()
    other: str
    keys: tuple[str, ...] = LOGIC

    @property
    def traits(self) -> tuple[Trait, ...]:
        """Return the rows a condition may test."""
        return self.vocabulary.of_role(self.role)


_KIND_OF_THING = {Role.FACT: "a fact about a situation", Role.PART: "a part of a choice"}


def read_condition(node: Node, what: str, span: Span, scope: Scope, notes: Notes) -> Condition:
    """Return what a section asks for: all of its lines have to hold."""
    return joined(section(node, span, what, notes), scope, notes)


def joined(entries: tuple[Entry, ...], scope: Scope, notes: Notes) -> Condition:
    """Return the condition that every one of these lines holds."""
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
    found = []
    for member in members:
        if isinstance(member, yaml_text.Mapping) and not member.pairs:
            empty_section(what, member.span, notes)
        else:
            found.append(read_condition(member, what, entry.key.span, scope, notes))
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


# --- names ----------------------------------------------------------------------------------


def find_trait(entry: Entry, scope: Scope, notes: Notes) -> Trait | None:
    """Return the row a name means, or None with a problem that says what was meant."""
    trait = scope.vocabulary.find(entry.key.text)
    if trait is not None and trait.role is scope.role:
        return trait
    if trait is not None:
        _wrong_role(entry, trait, scope, notes)
        return None
    start = _known_start(entry, scope) if entry.is_empty else ""
    if start:
        missing_colon(entry.key, start, notes)
        return None
    code = Code.UNKNOWN_PART if scope.role is Role.PART else Code.UNKNOWN_FACT
    hint, replacement = _name_hint(entry, scope)
    notes.add(
        code,
        entry.key,
        f"{notes.whose} has {quoted(entry.key.text)}, which is not {_KIND_OF_THING[scope.role]}",
        hint,
        replacement=replacement,
    )
    return None


def _is_end_of_number(entry: Entry, above: Entry, notes: Notes) -> bool:
    """Note what is left of `{depth: 9,5 m}`, where braces take the comma for the end of a value."""
    value, end = above.value, entry.key
    is_number = entry.is_empty and end.text[:1].isdigit()
    if not is_number or not isinstance(value, Scalar) or not value.text[-1:].isdigit():
        return False
    width = end.span.column + end.span.width - value.span.column
    wanted = f"{value.text}.{end.text}"
    notes.add(
        Code.DECIMAL_COMMA,
        replace(value.span, width=width) if end.span.line == value.span.line else end.span,
        f"{notes.whose} has a comma in a number",
        f"write {wanted}",
        replacement=wanted if end.span.line == value.span.line else "",
    )
    return True


def _known_start(entry: Entry, scope: Scope) -> str:
    """Return the name at the start of a line without a colon, or nothing."""
    tight = entry.key.text.split(":", maxsplit=1)[0]
    parts = entry.key.text.split(" ") if tight == entry.key.text else [tight, ""]
    runs = (" ".join(parts[:count]) for count in range(len(parts) - 1, 0, -1))
    names = {*scope.terms, *(fold(name) for name in names_of(scope.traits))}
    return next((run for run in runs if fold(run) in names), "")


def _name_hint(entry: Entry, scope: Scope) -> tuple[str, str]:
    """Return the hint for an unknown name and the name to paste, where there is one."""
    values = [word.text for word in words_of(entry.value)]
    spelt = near(entry.key.text, (*scope.keys, *sorted(scope.terms), *names_of(scope.traits)))
    if spelt and not any(scope.vocabulary.find(name) for name in spelt):
        return did_you_mean(spelt), spelt[0] if len(spelt) == 1 else ""
    found = meant(entry.key.text, values, scope.traits)
    names = [trait.name for trait in found]
    if len(found) == 1:
        return f"{did_you_mean(names)} It can be {can_be(found[0])}", names[0]
    if found:
        return did_you_mean(names), ""
    return f"it can be {either(trait.name for trait in scope.traits)}", ""


_WRONG_ROLE = {
    Role.PART: (
        Code.PART_FOR_FACT,
        "is a part of the choice, and not a fact about the situation before it",
    ),
    Role.FACT: (
        Code.FACT_FOR_PART,
        "is a fact about the situation, and not a part of the choice",
    ),
}


def _wrong_role(entry: Entry, trait: Trait, scope: Scope, notes: Notes) -> None:
    """Note a part among facts, a fact among parts, or an outcome among either."""
    code, sentence = _WRONG_ROLE.get(
        trait.role, (Code.OUTCOME_IN_RULE, "says nothing about the ball before it is struck")
    )
    hint = f"it belongs {scope.other}"
    if code is Code.OUTCOME_IN_RULE:
        hint = "take it out: a choice is judged apart from how the ball came out"
    notes.add(
        code, entry.key.span, f"{notes.whose} has {quoted(entry.key.text)}, which {sentence}", hint
    )


# --- values ---------------------------------------------------------------------------------


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


def read_answer(node: Node, what: str, span: Span, scope: Scope, notes: Notes) -> Answer:
    """Return the parts of an answer with their values, in the order written."""
    entries = section(node, span, what, notes)
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


def named_traits(
    entries: tuple[Entry, ...], scope: Scope, notes: Notes
) -> Iterator[tuple[Entry, Trait]]:
    """Yield the lines of a section with the rows they name, each row once."""
    seen: dict[str, Entry] = {}
    before: Entry | None = None
    for entry in entries:
        above, before = before, entry
        if above is not None and _is_end_of_number(entry, above, notes):
            continue
        trait = find_trait(entry, scope, notes)
        if trait is None:
            continue
        first = seen.setdefault(trait.folded, entry)
        if first is entry:
            yield entry, trait
        else:
            notes.add(
                Code.DUPLICATE_KEY,
                entry.key.span,
                f"{quoted(entry.key.text)} and {quoted(first.key.text)} are one and the same",
                "keep one of the two; if both count, put the values in one list",
                also=(Also(span=first.key.span, text="the first one"),),
            )
