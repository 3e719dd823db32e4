"""What an author says never comes together, as `cannot happen` of a rule file."""

from collections.abc import Iterator

from tactics.model.condition import All, Condition
from tactics.model.legality import Impossible
from tactics.model.trait import Role
from tactics.model.vocabulary import Vocabulary
from tactics.reading import yaml_text
from tactics.reading.conditions import read_condition
from tactics.reading.fields import items_of, one_text
from tactics.reading.keywords import IMPOSSIBLE_KEYS
from tactics.reading.notes import Entry, Notes
from tactics.reading.scope import Scope
from tactics.reading.sections import known_keys, missing_keys, section
from tactics.reading.yaml_text import Node
from tactics.source import Span

_WHAT = 'a line of "cannot happen"'
_WANTED = {"when": "{game situation: serving}", "because": "why it cannot be"}


def read_impossible(entry: Entry, vocabulary: Vocabulary, notes: Notes) -> tuple[Impossible, ...]:
    """Return the lines of a file; a line with an error is left out."""
    inner = notes.inside(entry.key.span.line, _WHAT)
    found = []
    for item in items_of(entry):
        before = inner.errors()
        line = _line(item, entry.key.span, vocabulary, inner)
        if inner.errors() == before:
            found.append(line)
    return tuple(found)


def _line(node: Node, span: Span, vocabulary: Vocabulary, notes: Notes) -> Impossible:
    keys = known_keys(section(node, span, _WHAT, notes), IMPOSSIBLE_KEYS, _WHAT, notes)
    place = next((each.key.span for each in keys.values()), node.span)
    if isinstance(node, yaml_text.Mapping):  # else there is a problem already
        missing_keys(keys, _WANTED, _WHAT, place, notes)
    reason = one_text(keys["because"], notes) if "because" in keys else None
    return Impossible(
        id=f"line {place.line}",
        when=All(tuple(_conditions(keys, vocabulary, notes))),
        because=" ".join(reason.text.split()) if reason else "",
        span=place,
    )


def _conditions(
    keys: dict[str, Entry], vocabulary: Vocabulary, notes: Notes
) -> Iterator[Condition]:
    scopes = {
        "when": Scope(vocabulary=vocabulary, role=Role.FACT, other='under "if choosing"'),
        "if choosing": Scope(vocabulary=vocabulary, role=Role.PART, other='under "when"'),
    }
    for name, scope in scopes.items():
        if name in keys:
            entry = keys[name]
            yield read_condition(entry.value, f'"{name}" of {_WHAT}', entry.key.span, scope, notes)
