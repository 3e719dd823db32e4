"""A coach's own headings and words -> those of the program, from a small YAML file."""

from tactics.model.trait import Kind, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem, Reading, by_place
from tactics.reading import yaml_text
from tactics.reading.chart_columns import meaning_of
from tactics.reading.fields import one_text
from tactics.reading.notes import Entry, Notes
from tactics.reading.own_names import ColumnMap
from tactics.reading.repairs import without_layout_echoes
from tactics.reading.sections import known_keys, section
from tactics.reading.sheet_codes import SheetCode
from tactics.reading.suggest import did_you_mean, near, near_traits, unknown_word
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Node, Scalar, read_yaml
from tactics.source import Source, Span

KEYS = ("columns", "words")


def read_column_map(source: Source, words: Vocabulary) -> Reading[ColumnMap]:
    """Return what the headings stand for, and every problem in the file."""
    reading = read_yaml(source)
    notes = Notes(problems=list(reading.problems))
    value = None
    if reading.value is not None:
        value = _map(reading.value, source.start(), words, notes)
    return Reading(value=value, problems=by_place(without_layout_echoes(notes.problems)))


def _map(node: Node, start: Span, words: Vocabulary, notes: Notes) -> ColumnMap | None:
    lines = section(node, start, "a file of columns", notes)
    if not isinstance(node, yaml_text.Mapping):
        return None
    keys = known_keys(lines, KEYS, "the file of columns", notes)
    columns: dict[str, str] = {}
    own_words: dict[str, dict[str, str]] = {}
    if "columns" in keys:
        entry = keys["columns"]
        for line in section(entry.value, entry.key.span, '"columns"', notes):
            name = _column(line, words, notes.inside(entry.key.span.line))
            if name:
                columns[line.name] = name
    if "words" in keys:
        entry = keys["words"]
        for line in section(entry.value, entry.key.span, '"words"', notes):
            _add_words(line, own_words, words, notes.inside(entry.key.span.line))
    return ColumnMap(columns=columns, words=own_words)


def _column(line: Entry, words: Vocabulary, notes: Notes) -> str:
    written = one_text(line, notes)
    if written is None:
        return ""
    if meaning_of(written.text, words) is None:
        notes.problems.append(_no_column(written, words, notes.opener))
        return ""
    return written.text


def _no_column(written: Scalar, words: Vocabulary, opener: int) -> Problem:
    close = tuple(trait.name for trait in near_traits(written.text, words.traits))
    return Problem(
        code=SheetCode.NOT_A_COLUMN,
        span=written.span,
        sentence=f"{quoted(written.text)} is not a name of a column",
        hint=did_you_mean(close) if close else "see all names with: tactics explain words",
        opener=opener,
        replacement=close[0] if len(close) == 1 and written.is_whole else "",
    )


def _add_words(
    line: Entry, found: dict[str, dict[str, str]], words: Vocabulary, notes: Notes
) -> None:
    trait = words.find(line.key.text)
    if trait is None or not trait.words:
        notes.problems.append(_no_words(line.key, trait, words, notes.opener))
        return
    inner = notes.inside(line.key.span.line)
    for each in section(line.value, line.key.span, quoted(line.key.text), inner):
        written = one_text(each, inner)
        if written is None:
            continue
        if trait.word_named(written.text) is None and trait.kind is not Kind.NUMBER:
            inner.complain(unknown_word(written.text, trait, words), written)
            continue
        found.setdefault(trait.folded, {})[each.name] = written.text


def _no_words(key: Scalar, trait: Trait | None, words: Vocabulary, opener: int) -> Problem:
    if trait is not None:
        return Problem(
            code=SheetCode.NOT_A_COLUMN,
            span=key.span,
            sentence=f"{quoted(trait.name)} has no words of its own, so none can stand for them",
            hint="take the line out",
            opener=opener,
        )
    names = [each.name for each in words.traits if each.words]
    close = near(key.text, names)
    return Problem(
        code=SheetCode.NOT_A_COLUMN,
        span=key.span,
        sentence=f"{quoted(key.text)} is not a name of a column",
        hint=did_you_mean(close)
        if close
        else 'under "words" stand names of columns such as "intent", and below each the words',
        opener=opener,
        replacement=close[0] if len(close) == 1 else "",
    )
