"""Quiz files -> scenarios written by hand. What the rules make of them is found in `quiz`."""

import re
from collections.abc import Iterator, Mapping

from tactics.model.names import fold
from tactics.model.quiz_file import Named, QuizFile
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Reading, by_place
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.fields import one_text, one_word, texts
from tactics.reading.keywords import SET_KEYS
from tactics.reading.notes import Entry, Notes, of
from tactics.reading.quiz_codes import QuizCode
from tactics.reading.quiz_scenarios import note, read_scenarios, text_of
from tactics.reading.repairs import without_layout_echoes
from tactics.reading.sections import known_keys, missing_keys, section
from tactics.reading.suggest import near
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import Scalar, read_yaml
from tactics.source import Source

FILE_KEYS = ("quiz", "author", "about", "for", "hand", "draw", "rules", "topics", "scenarios")
HANDS = ("right", "left")
MOST_DRAWN = 60
_WANTED = {"quiz": "Low balls"}
_FIRST_NAME = re.compile(r"(?m)^\s*(?![#%-])([^:#\n]+?)\s*(?::|$)")


def is_quiz_file(source: Source) -> bool:
    """Say whether a file means to be a quiz: by its first name, misspelt or not."""
    found = _FIRST_NAME.search(source.text.lstrip("\ufeff"))
    first = found[1] if found else ""
    return fold(first) == "quiz" or near(first, (*SET_KEYS, "quiz", "drills")) == ("quiz",)


def made_for(source: Source) -> tuple[Named, ...]:
    """Return the rule sets a quiz file says it is for; problems in it are told by `read_quiz`."""
    found = read_yaml(source).value
    if not isinstance(found, yaml_text.Mapping):
        return ()
    return tuple(
        Named(text=" ".join(item.text.split()), span=item.span)
        for key, value in found.pairs
        if fold(key.text) == "for"
        for item in (value.items if isinstance(value, yaml_text.Sequence) else (value,))
        if isinstance(item, Scalar) and item.text.strip()
    )


def read_quiz(source: Source, vocabulary: Vocabulary) -> Reading[QuizFile]:
    """Return the scenarios of a file and every problem; a scenario with one is left out."""
    reading = read_yaml(source)
    notes = Notes(problems=list(reading.problems), whose="the quiz file")
    value = None
    if reading.value is not None:
        lines = section(reading.value, source.start(), "the quiz file", notes)
        if isinstance(reading.value, yaml_text.Mapping):
            value = _file(lines, source, vocabulary, notes)
    return Reading(value=value, problems=by_place(without_layout_echoes(notes.problems)))


def _file(
    lines: tuple[Entry, ...], source: Source, vocabulary: Vocabulary, notes: Notes
) -> QuizFile:
    keys = known_keys(lines, FILE_KEYS, "the quiz file", notes, _WANTED)
    missing_keys(keys, _WANTED, "the quiz file", source.start(), notes)
    if not {"scenarios", "draw"} & keys.keys():
        place = next((keys[name].key.span for name in ("rules", "topics", "quiz") if name in keys),
                     source.start())  # fmt: skip
        sentence = 'the quiz file has neither "scenarios" nor "draw"'
        notes.add(Code.MISSING_KEY, place, sentence, "add draw: 10")
    hand = one_word(keys["hand"], HANDS, notes) if "hand" in keys else None
    return QuizFile(
        name=text_of(keys, "quiz", notes),
        author=text_of(keys, "author", notes),
        about=text_of(keys, "about", notes),
        made_for=tuple(each.text for each in _named(keys, "for", notes)),
        hand=hand or HANDS[0],
        draw=_how_many(keys["draw"], notes) if "draw" in keys else 0,
        rules=tuple(_named(keys, "rules", notes)),
        topics=tuple(_named(keys, "topics", notes)),
        scenarios=read_scenarios(keys["scenarios"], vocabulary, notes)
        if "scenarios" in keys
        else (),
        span=source.start(),
    )


def _named(keys: Mapping[str, Entry], name: str, notes: Notes) -> Iterator[Named]:
    for each in texts(keys[name], notes) if name in keys else ():
        yield Named(text=" ".join(each.text.split()), span=each.span)


def _how_many(entry: Entry, notes: Notes) -> int:
    written = one_text(entry, notes)
    if written is None:
        return 0
    if written.text.strip().isdecimal() and 0 < int(written.text) <= MOST_DRAWN:
        return int(written.text)
    note(
        notes,
        QuizCode.HOW_MANY,
        written.span,
        f"{of(notes, entry)} is {quoted(written.text)}",
        f"write how many questions to draw, from 1 to {MOST_DRAWN}: draw: 10",
    )
    return 0
