"""`name=value` on the command line, or a file of facts -> a situation and a choice."""

from collections.abc import Iterator, Sequence

from tactics.model.choice import Choice
from tactics.model.known import Known
from tactics.model.situation import Situation
from tactics.model.trait import Role, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem, Reading, by_place
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.complaint import Complaint
from tactics.reading.fields import texts
from tactics.reading.notes import Entry, Notes
from tactics.reading.sections import section
from tactics.reading.suggest import can_be, did_you_mean, meant
from tactics.reading.values import empty_value, known
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Scalar, read_yaml
from tactics.source import Source, Span

Asked = tuple[Situation, Choice]
"""What is known of a situation, and the parts of a choice to be judged (perhaps none)."""

NAME_AND_VALUE = "name-and-value"
"""The code of an argument that is no pair; it has its page."""

_CHOOSE, _GIVEN = "choose", "given"


def arguments_source(written: Sequence[str], chosen: Sequence[str] = ()) -> Source:
    """Return the arguments as a text with one on each line, so that each has a place."""
    lines = (*written, *(f"{_CHOOSE}.{each}" for each in chosen))
    return Source(name="arguments", text="\n".join(" ".join(line.split()) for line in lines))


def read_arguments(source: Source, words: Vocabulary) -> Reading[Asked]:
    """Return what `name=value` on each line says; several values are parted by commas."""
    notes = Notes()
    entries = [entry for entry in _entries(source, notes) if entry is not None]
    return _asked(entries, words, notes)


def read_facts(source: Source, words: Vocabulary) -> Reading[Asked]:
    """Return what a YAML file of facts says: `fact: value`, with parts under `choose` if any."""
    read = read_yaml(source)
    if read.value is None:
        return Reading(value=None, problems=read.problems)
    notes = Notes(problems=list(read.problems))
    entries: list[Entry] = []
    for entry in section(read.value, source.start(), "the file of facts", notes):
        if entry.name in (_CHOOSE, _GIVEN):
            entries += section(entry.value, entry.key.span, quoted(entry.key.text), notes)
        else:
            entries.append(entry)
    return _asked(entries, words, notes)


def combined(first: Asked, second: Asked) -> Asked:
    """Return both together; where they differ the second counts."""
    return (
        first[0].with_facts(second[0].as_dict()),
        Choice.of({**first[1].as_dict(), **second[1].as_dict()}),
    )


def _entries(source: Source, notes: Notes) -> Iterator[Entry | None]:
    for number, line in enumerate(source.lines, start=1):
        yield _entry(source.name, number, line, notes)


def _name_and_value(line: str) -> str:
    """Return how to write it here; `wing: forehand` is how a rule file has it."""
    name, _, value = (each.strip() for each in line.partition(":"))
    if name and value:
        return f'here it is written "{name}={value}"'
    return 'write name=value, in quotes where there is a space: "contact height=above"'


def _entry(file: str, number: int, line: str, notes: Notes) -> Entry | None:
    name, equals, value = line.partition("=")
    if not equals:
        notes.problems.append(
            Problem(
                code=NAME_AND_VALUE,
                span=Span(file=file, line=number, width=max(1, len(line))),
                sentence=f"{quoted(line)} says neither a fact nor its value",
                hint=_name_and_value(line),
            )
        )
        return None
    start = len(f"{_CHOOSE}.") if name.startswith(f"{_CHOOSE}.") else 0
    key = _scalar(file, number, start, name[start:])
    pieces = tuple(_pieces(file, number, len(name) + 1, value))
    return Entry(name=key.text, key=key, value=yaml_text.Sequence(items=pieces, span=key.span))


def _pieces(file: str, number: int, start: int, value: str) -> Iterator[Scalar]:
    for piece in value.split(","):
        yield _scalar(file, number, start, piece)
        start += len(piece) + 1


def _scalar(file: str, line: int, start: int, text: str) -> Scalar:
    inner = text.strip()
    column = start + len(text) - len(text.lstrip()) + 1
    return Scalar(
        text=inner, span=Span(file=file, line=line, column=column, width=max(1, len(inner)))
    )


def _asked(entries: Sequence[Entry], words: Vocabulary, notes: Notes) -> Reading[Asked]:
    facts: dict[str, Known] = {}
    parts: dict[str, Known] = {}
    for entry in entries:
        trait = _trait(entry, words, notes)
        value = _value(entry, trait, words, notes) if trait else None
        if trait is None or value is None:
            continue
        told = parts if trait.role is Role.PART else facts
        if told.setdefault(trait.folded, value) != value:
            notes.add(
                Code.DUPLICATE_KEY,
                entry.key.span,
                f"{quoted(entry.key.text)} stands here twice, with two values",
                'keep one, or part values that may both be true by a comma: "balance=set, moving"',
            )
    problems: tuple[Problem, ...] = by_place(notes.problems)
    return Reading(value=(Situation.of(facts), Choice.of(parts)), problems=problems)


def _trait(entry: Entry, words: Vocabulary, notes: Notes) -> Trait | None:
    trait = words.find(entry.key.text)
    if trait is not None and trait.role in (Role.FACT, Role.PART):
        return trait
    if trait is not None:
        notes.add(
            Code.OUTCOME_IN_RULE,
            entry.key.span,
            f"{quoted(entry.key.text)} is noted around the ball, and advice does not look at it",
            "take it out",
        )
        return None
    traits = words.of_role(Role.FACT, Role.PART)
    found = meant(entry.key.text, [scalar.text for scalar in texts(entry, Notes())], traits)
    names = [each.name for each in found]
    more = f" It can be {can_be(found[0])}" if len(found) == 1 else ""
    notes.add(
        Code.UNKNOWN_FACT,
        entry.key.span,
        f"{quoted(entry.key.text)} is neither a fact about a situation nor a part of a choice",
        f"{did_you_mean(names)}{more}" if names else "all names: tactics explain words",
        replacement=names[0] if len(names) == 1 else "",
    )
    return None


def _value(entry: Entry, trait: Trait, words: Vocabulary, notes: Notes) -> Known | None:
    if _is_empty(entry):
        notes.complain(empty_value(trait), entry.key.span)
        return None
    written = texts(entry, notes)
    if not written:
        return None
    found = [known(scalar.text, trait, words) for scalar in written]
    for scalar, value in zip(written, found, strict=True):
        if isinstance(value, Complaint):
            notes.complain(value, scalar.span)
    if any(isinstance(value, Complaint) for value in found):
        return None
    # each is fine by itself: read them as "one or the other"
    together = known(" or ".join(scalar.text for scalar in written), trait, words)
    if isinstance(together, Complaint):
        notes.complain(together, entry.key.span)
        return None
    return together


def _is_empty(entry: Entry) -> bool:
    """Say whether nothing stands behind the name, not even in a list."""
    if isinstance(entry.value, yaml_text.Sequence):
        return all(isinstance(item, Scalar) and not item.text for item in entry.value.items)
    return entry.is_empty
