"""Drill files -> a catalogue."""

import re
from collections.abc import Iterable

from tactics.model.drill import Catalogue, Drill
from tactics.model.names import slug
from tactics.problem import Reading, by_place
from tactics.reading import yaml_text
from tactics.reading.codes import Code
from tactics.reading.fields import one_text, texts
from tactics.reading.keywords import DRILL_KEYS
from tactics.reading.notes import Entry, Notes, of
from tactics.reading.repairs import without_layout_echoes
from tactics.reading.sections import known_keys, missing_keys, section
from tactics.reading.wording import quoted
from tactics.reading.yaml_text import read_yaml
from tactics.source import Source

_WANTED = {
    "title": "a few words that say it",
    "minutes": "15",
    "trains": "[id-of-a-rule]",
    "set up": "who stands where, and who feeds",
    "scoring": "what earns a point",
    "harder": "what to change when it is easy",
    "easier": "what to change when it is hard",
}
_MINUTES = re.compile(r"(?P<number>[1-9]\d{0,2})\s*(?:min|minutes?)?", re.IGNORECASE)


def read_drills(source: Source) -> Reading[Catalogue]:
    """Return the drills of one file, and every problem found; a drill with one is left out."""
    reading = read_yaml(source)
    notes = Notes(problems=list(reading.problems))
    drills: list[Drill] = []
    if reading.value is not None:
        lines = section(reading.value, source.start(), "a drill file", notes)
        if isinstance(reading.value, yaml_text.Mapping):
            keys = known_keys(lines, ("drills", "author", "about"), "the drill file", notes)
            missing_keys(keys, {"drills": ""}, "the drill file", source.start(), notes)
            drills = _drills(keys["drills"], notes) if "drills" in keys else []
    return Reading(
        value=Catalogue(drills=tuple(drills)) if reading.value is not None else None,
        problems=by_place(without_layout_echoes(notes.problems)),
    )


def one_catalogue(catalogues: Iterable[Catalogue]) -> Catalogue:
    """Return the drills of several files as one catalogue; of two with one id the later counts."""
    found = {drill.id: drill for catalogue in catalogues for drill in catalogue.drills}
    return Catalogue(drills=tuple(found.values()))


def _drills(entry: Entry, notes: Notes) -> list[Drill]:
    inner = notes.inside(entry.key.span.line)
    found = []
    for line in section(entry.value, entry.key.span, '"drills"', inner, Code.DUPLICATE_DRILL):
        before = notes.errors()
        drill = _drill(line, inner.inside(line.key.span.line, f"drill {quoted(line.key.text)}"))
        if notes.errors() == before:
            found.append(drill)
    return found


def _drill(entry: Entry, notes: Notes) -> Drill:
    what = notes.whose
    keys = known_keys(
        section(entry.value, entry.key.span, what, notes), DRILL_KEYS, what, notes, _WANTED
    )
    if isinstance(entry.value, yaml_text.Mapping):
        missing_keys(keys, _WANTED, what, entry.key.span, notes)
    return Drill(
        id=slug(entry.key.text),
        title=_text(keys, "title", notes),
        minutes=_minutes(keys, notes),
        trains=tuple(slug(each) for each in _texts(keys, "trains", notes)),
        set_up=_text(keys, "set up", notes),
        scoring=_text(keys, "scoring", notes),
        harder=_text(keys, "harder", notes),
        easier=_text(keys, "easier", notes),
        safety=_text(keys, "safety", notes),
        strains=tuple(_texts(keys, "strains", notes)),
        span=entry.key.span,
    )


def _text(keys: dict[str, Entry], name: str, notes: Notes) -> str:
    written = one_text(keys[name], notes) if name in keys else None
    return "" if written is None else " ".join(written.text.split())


def _texts(keys: dict[str, Entry], name: str, notes: Notes) -> list[str]:
    return [each.text.strip() for each in texts(keys[name], notes)] if name in keys else []


def _minutes(keys: dict[str, Entry], notes: Notes) -> int:
    written = one_text(keys["minutes"], notes) if "minutes" in keys else None
    if written is None:
        return 0
    found = _MINUTES.fullmatch(written.text.strip())
    if found:
        return int(found["number"])
    notes.add(
        Code.WORD_FOR_NUMBER,
        written.span,
        f"{of(notes, keys['minutes'])} is {quoted(written.text)}, and not a number of minutes",
        "write a whole number, for example 15",
    )
    return 0
