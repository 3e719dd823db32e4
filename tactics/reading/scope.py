"""What a condition or an answer may speak about, and which row of the table a name means."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tactics.model.names import fold
from tactics.model.trait import Role, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Also
from tactics.reading.codes import Code
from tactics.reading.keywords import LOGIC
from tactics.reading.missing_colons import missing_colon
from tactics.reading.notes import Entry, Notes
from tactics.reading.other_names import named_otherwise
from tactics.reading.suggest import can_be, did_you_mean, meant, names_of, near
from tactics.reading.wording import either, quoted
from tactics.reading.yaml_text import Scalar, words_of


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


_KIND_OF_THING = {Role.FACT: "a fact about a situation", Role.PART: "a part of a choice"}


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


def _known_start(entry: Entry, scope: Scope) -> str:
    """Return the name at the start of a line without a colon, or nothing."""
    tight = entry.key.text.split(":", maxsplit=1)[0]
    parts = entry.key.text.split(" ") if tight == entry.key.text else [tight, ""]
    runs = (" ".join(parts[:count]) for count in range(len(parts) - 1, 0, -1))
    names = {*scope.terms, *(fold(name) for name in names_of(scope.traits))}
    return next((run for run in runs if fold(run) in names), "")


def _name_hint(entry: Entry, scope: Scope) -> tuple[str, str]:
    """Return the hint for an unknown name and the name to paste, where there is one."""
    otherwise = named_otherwise(entry.key.text, scope.keys)
    if otherwise:
        return did_you_mean((otherwise,)), otherwise
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
