"""Mistakes that come from plain English: another word, a sign of a text processor, half a line."""

import re
from collections.abc import Iterator

from tactics.model.standard import STANDARD
from tests.reading.mistakes import Maker, Mistake, at
from tests.reading.spots import Good, Spot

OTHER_KEYS = {
    "when": ("if", "condition"), "unless": ("except", "exceptions"), "advise": ("advice", "then"),
    "aim": ("target", "goal"), "because": ("why", "reason"), "cue": ("reminder",),
    "usual mistake": ("common mistake",), "drills": ("exercises",), "examples": ("tests",),
    "choose": ("choice", "played"), "grade": ("verdict", "expected"), "note": ("comment",),
    "builds on": ("extends",), "any": ("or", "either"), "all": ("and", "all of"),
    "beats": ("overrules",),
}  # fmt: skip


def other_words_for_keys(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        for written in OTHER_KEYS.get(spot.key, ()):
            is_key = spot.road[0] != "facts" and STANDARD.find(spot.text) is None
            if is_key:
                text = good.with_spot(spot, written)
                yield at("another word for a key", good, text, spot.line)


def terms_of(good: Good) -> Iterator[Spot]:
    """Yield the lines `low ball: yes` and `low ball: no` of conditions."""
    names = {spot.text for spot in good.names if len(spot.road) == 2 and spot.road[0] == "terms"}
    for spot in good.names:
        line, end = good.line(spot.line), spot.span.column - 1 + spot.span.width
        starts = not line[: spot.span.column - 1].strip()
        is_whole = re.fullmatch(r": (yes|no)\s*(#.*)?", line[end:])
        if spot.text in names and len(spot.road) > 2 and starts and is_whole:
            yield spot


def terms_alone(good: Good) -> Iterator[Mistake]:
    for spot in terms_of(good):
        line, end = good.line(spot.line), spot.span.column - 1 + spot.span.width
        is_not = line[end:].startswith(": no")
        bare = f"{line[: spot.span.column - 1]}{'not ' if is_not else ''}{spot.text}"
        yield at("term without a value", good, good.with_line(spot.line, bare), spot.line)


def not_before_the_name(good: Good) -> Iterator[Mistake]:
    for spot in terms_of(good):
        line, start = good.line(spot.line), spot.span.column - 1
        said = "yes" if ": no" in line else "no"
        spoilt = f"{line[:start]}not {spot.text}: {said}"
        yield at("not before a name", good, good.with_line(spot.line, spoilt), spot.line)
    for spot in good.names:
        line, start = good.line(spot.line), spot.span.column - 1
        found = re.fullmatch(r": not ([a-z -]+)", line[start + spot.span.width :])
        if found and not line[:start].strip() and spot.key != "not":
            spoilt = f"{line[:start]}not {spot.text}: {found[1]}"
            yield at("not before a name", good, good.with_line(spot.line, spoilt), spot.line)


def words_for_lines(good: Good) -> Iterator[Mistake]:
    """Yield `when: {low ball: yes}` as `when: low ball`, and answers of one part alike."""
    parts = STANDARD.parts
    for spot in good.names:
        line, end = good.line(spot.line), spot.span.column - 1 + spot.span.width
        found = re.fullmatch(r": \{(?P<name>[a-z ]+): (?P<word>[a-z -]+)\}", line[end:])
        if not found or spot.key not in ("when", "advise", "aim", "if choosing"):
            continue
        owners = [part for part in parts if part.word_named(found["word"])]
        is_part = len(owners) == 1 and spot.key != "when" and owners[0].name == found["name"]
        is_term = found["word"] == "yes" and STANDARD.find(found["name"]) is None
        if is_part or is_term:
            bare = found["word"] if is_part else found["name"]
            text = good.with_line(spot.line, f"{line[:end]}: {bare}")
            yield at("a word for a line", good, text, spot.line)


def other_bullets(good: Good) -> Iterator[Mistake]:
    for number, line in enumerate(good.lines, start=1):
        if line.lstrip().startswith("- ") and number not in good.in_brackets:
            mark = "\u2013\u2022*"[number % 3]
            text = good.with_line(number, line.replace("- ", f"{mark} ", 1))
            yield at("another bullet", good, text, number)


def notes_behind_values(good: Good) -> Iterator[Mistake]:
    for number, spot in enumerate(good.words):
        trait = STANDARD.find(spot.key)
        line = good.line(spot.line)
        ends = spot.span.column - 1 + spot.span.width == len(line)
        if trait is not None and ends and not spot.in_list and spot.road[0] != "facts":
            note = ("(so I think)", "// so I think", "- so I think")[number % 3]
            text = good.with_spot(spot, f"{spot.text} {note}")
            yield at("a note behind a value", good, text, spot.line)


def other_words_for_not(good: Good) -> Iterator[Mistake]:
    others = ("no", "never", "without", "anything but")
    for number, spot in enumerate(good.words):
        found = re.fullmatch(r"not ([a-z -]+)", spot.text)
        if found and STANDARD.find(spot.key) and spot.road[0] != "facts":
            text = good.with_spot(spot, f"{others[number % 4]} {found[1]}")
            yield at("another word for not", good, text, spot.line)


def numbers_in_words(good: Good) -> Iterator[Mistake]:
    for spot in good.words:
        found = re.fullmatch(r"((?:at least |at most )?)([1-5]) (m|steps)", spot.text)
        if found and STANDARD.find(spot.key):
            name = ("one", "two", "three", "four", "five")[int(found[2]) - 1]
            text = good.with_spot(spot, f"{found[1]}{name} {found[3]}")
            yield at("a number in words", good, text, spot.line)


def texts_in_brackets(good: Good) -> Iterator[Mistake]:
    for spot in good.spots:
        is_text = spot.key in ("title", "cue") and not spot.is_name and not spot.quoted
        plain = re.fullmatch(r"[A-Z][A-Za-z ]*(?:, [a-z][A-Za-z ]*)?", spot.text)
        if is_text and plain and spot.road[0] == "rules":
            text = good.with_spot(spot, f"[{spot.text}]")
            yield at("a text in brackets", good, text, spot.line)


def names_without_brackets(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        line, end = good.line(spot.line), spot.span.column - 1 + spot.span.width
        found = re.fullmatch(r": \[([a-z -]+(?:, [a-z -]+)+)\]", line[end:])
        if found and spot.key in ("beats", "drills", "evidence", "precedence"):
            text = good.with_line(spot.line, f"{line[:end]}: {found[1]}")
            yield at("names without brackets", good, text, spot.line)


def other_words_for_off(good: Good) -> Iterator[Mistake]:
    for spot in good.words:
        if spot.text == "off" and len(spot.road) == 2:
            for written in ("no", "false", "none", "of"):
                text = good.with_spot(spot, written)
                yield at("another word for off", good, text, spot.line)


def first_hyphens_missing(good: Good) -> Iterator[Mistake]:
    for number, line in enumerate(good.lines, start=1):
        above = good.lines[number - 2] if number > 1 else ""
        later = good.lines[number:]
        indent = line[: len(line) - len(line.lstrip())]
        goes_on = any(each.startswith(f"{indent}- ") for each in later[:6])
        is_name = re.match(r"\s*- [a-z ]+:", line)
        if above.strip() == "examples:" and is_name and goes_on:
            text = good.with_line(number, line.replace("- ", "  ", 1))
            yield at("first hyphen missing", good, text, number)


def hyphens_too_many(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        line = good.line(spot.line)
        if spot.key == "grade" and re.fullmatch(r"\s+grade: [a-z]+", line):
            text = good.with_line(spot.line, line.replace("  grade", "- grade", 1))
            yield at("a hyphen too many", good, text, spot.line)


def no_line_with_rules(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        above = [each for each in good.names if len(each.road) == 1 and each.line < spot.line]
        if spot.road == ("rules",) and above and above[-1].key in ("facts", "terms"):
            text = good.with_line(spot.line)
            yield at("no line with rules:", good, text, spot.line)


def hashes_in_texts(good: Good) -> Iterator[Mistake]:
    for spot in good.spots:
        line, start = good.line(spot.line), spot.span.column - 1
        ends = start + spot.span.width == len(line)
        is_text = spot.key in ("title", "cue") and not spot.is_name and not spot.quoted
        if is_text and ends and " " in spot.text:
            first, rest = spot.text.split(" ", maxsplit=1)
            spoilt = good.with_spot(spot, f"{first} #{rest}")
            wanted = good.with_spot(spot, f'"{first} #{rest}"')
            yield Mistake(
                kind="hash in a text", spoilt=spoilt, lines=frozenset({spot.line}), meant=wanted
            )


NATURAL: tuple[tuple[Maker, int], ...] = (
    (other_words_for_keys, 24), (terms_alone, 4), (not_before_the_name, 4), (words_for_lines, 4),
    (other_bullets, 6), (notes_behind_values, 4), (other_words_for_not, 4), (numbers_in_words, 3),
    (texts_in_brackets, 4), (names_without_brackets, 3), (other_words_for_off, 4),
    (first_hyphens_missing, 2), (hyphens_too_many, 3), (no_line_with_rules, 1),
    (hashes_in_texts, 3),
)  # fmt: skip
