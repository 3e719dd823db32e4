"""The mistake corpus: good rule files, each spoilt in one place that is known.

Every function yields the mistakes of one kind in one file. `meant` is the good text where the
mistake has exactly one repair; whether it has is decided here, before any reader has seen it.
"""

import re
from collections.abc import Iterator, Sequence
from functools import cache

from tactics.model.names import fold
from tactics.model.standard import STANDARD
from tactics.model.trait import Kind, Trait
from tests.reading.good_files import BELOW, shipped_pieces, small_files, whole_set
from tests.reading.mistakes import Maker, Mistake, at
from tests.reading.natural_mistakes import NATURAL
from tests.reading.spots import Good, Spot

OTHER_FILES = {"below.yaml": BELOW}


# --- letters --------------------------------------------------------------------------------


def slips(word: str) -> tuple[str, ...]:
    """Return a word with one letter too few, doubled, wrong, or two changed over."""
    middle = len(word) // 2
    there = next(
        (index for index in range(middle, 0, -1) if word[index - 1 : index + 1].isalpha()
         and word[index - 1] != word[index]),
        0,
    )  # fmt: skip
    swapped = word[: there - 1] + word[there] + word[there - 1] + word[there + 1 :]
    return (
        word[:middle] + word[middle + 1 :],
        word[:middle] + word[middle] + word[middle:],
        word[:middle] + ("x" if word[middle] != "x" else "y") + word[middle + 1 :],
        swapped if there else word[:-1],
    )


def slip(word: str, number: int) -> str:
    return slips(word)[number % 4]


def is_a_name(written: str, good: Good) -> bool:
    known = {fold(spot.text) for spot in good.names}
    return STANDARD.find(written) is not None or fold(written) in known


def misspelt_names(good: Good) -> Iterator[Mistake]:
    fixed = (spot for spot in good.names if not declares(spot) and len(spot.text) > 3)
    for number, spot in enumerate(fixed):
        spoilt = slip(spot.text, number)
        if not is_a_name(spoilt, good):
            yield at("misspelt name", good, good.with_spot(spot, spoilt), spot.line)


def declares(spot: Spot) -> bool:
    """Say whether a name is new here, so that nobody else can know how it is spelt."""
    is_second = len(spot.road) == 2 and spot.road[0] in ("facts", "terms", "rules", "mixes")
    return is_second or (spot.road[0] == "facts" and len(spot.road) > 3)


def misspelt_words(good: Good) -> Iterator[Mistake]:
    wordy = (spot for spot in good.words if re.fullmatch(r"[A-Za-z][a-z -]{3,}", spot.text))
    fixed = (spot for spot in wordy if spot.key not in ("drills", "beats", "builds on", "bands"))
    for number, spot in enumerate(each for each in fixed if each.road != ("precedence",)):
        spoilt = slip(spot.text, number)
        trait = STANDARD.find(spot.key)
        if trait is None or trait.word_named(spoilt) is None:
            yield at("misspelt word", good, good.with_spot(spot, spoilt), spot.line)


def misspelt_ids(good: Good) -> Iterator[Mistake]:
    ids = (spot for spot in good.words if spot.key in ("beats", "builds on"))
    for spot in ids:
        for spoilt in slips(spot.text.removesuffix(".yaml")):
            ending = ".yaml" if spot.text.endswith(".yaml") else ""
            one = spot.key == "beats"
            text = good.with_spot(spot, spoilt + ending)
            yield at(f"misspelt id behind {spot.key}", good, text, spot.line, one_repair=one)


def misspelt_ids_turned_off(good: Good) -> Iterator[Mistake]:
    for spot in good.words:
        if spot.text == "off" and len(spot.road) == 2:
            name = next(each for each in good.names if each.road == spot.road)
            for spoilt in slips(name.text):
                yield at("unknown id off", good, good.with_spot(name, spoilt), spot.line)


def wrong_case_ids(good: Good) -> Iterator[Mistake]:
    rules = (spot for spot in good.names if len(spot.road) == 2 and spot.road[0] == "rules"
             and good.line(spot.line).endswith(":"))  # fmt: skip
    spellings = (str.capitalize, str.upper, lambda name: name.replace("-", " "),
                 lambda name: name.replace("-", "_"))  # fmt: skip
    for number, spot in enumerate(rules):
        for turn in range(2):
            spoilt = spellings[(number + turn) % 4](spot.text)
            yield at("id not in small words", good, good.with_spot(spot, spoilt), spot.line)
        if spot.text in {each.text for each in good.words}:
            continue
        numbered = good.with_spot(spot, f"{spot.text}-2")
        yield at("id with a number", good, numbered, spot.line, one_repair=False)


# --- values ---------------------------------------------------------------------------------


def trait_of(spot: Spot) -> Trait | None:
    """Return the standard fact or part whose value a spot is."""
    return None if spot.is_name or spot.road[0] == "facts" else STANDARD.find(spot.key)


def valued(good: Good) -> Iterator[tuple[Spot, Trait]]:
    for spot in good.words:
        trait = trait_of(spot)
        if trait is not None:
            yield spot, trait


QUANTITY = re.compile(r"(?P<start>.*\d)\s*(?P<unit>m|%|ft|scatter)")
WRONG_UNITS = {"m": ("mm", "met", "metr", "km", "kg"), "%": ("%%", "per cent", "prct"),
               "ft": ("ftt",), "scatter": ("scater", "scattr")}  # fmt: skip
ONE_UNIT = {"met", "metr", "per cent", "prct", "scater", "scattr", "ftt", "%%"}


def wrong_units(good: Good) -> Iterator[Mistake]:
    for number, (spot, _) in enumerate(valued(good)):
        found = QUANTITY.fullmatch(spot.text)
        if found:
            units = WRONG_UNITS[found["unit"]]
            unit = units[number % len(units)]
            text = good.with_spot(spot, f"{found['start']} {unit}")
            yield at("wrong unit", good, text, spot.line, one_repair=unit in ONE_UNIT)


def unit_of_another_kind(good: Good) -> Iterator[Mistake]:
    units = {"m": "%", "%": "m", "ft": "s", "scatter": "km/h"}
    for spot, _ in valued(good):
        found = QUANTITY.fullmatch(spot.text)
        if found:
            text = good.with_spot(spot, f"{found['start']} {units[found['unit']]}")
            yield at("unit of another kind", good, text, spot.line, one_repair=False)


def reversed_ranges(good: Good) -> Iterator[Mistake]:
    for spot, _ in valued(good):
        found = re.fullmatch(r"([\d.]+) to ([\d.]+)( \S+)?", spot.text)
        if found:
            spoilt = f"{found[2]} to {found[1]}{found[3] or ''}"
            yield at("reversed range", good, good.with_spot(spot, spoilt), spot.line)


def out_of_range(good: Good) -> Iterator[Mistake]:
    for spot, trait in valued(good):
        has_number = trait.kind is Kind.NUMBER and re.search(r"\d", spot.text)
        if has_number and "scatter" not in spot.text:
            spoilt = re.sub(r"[\d.]+", "999", spot.text, count=1)
            text = good.with_spot(spot, re.sub(r"999 to .*", "999 to 9999", spoilt))
            yield at("out of range", good, text, spot.line, one_repair=False)


def decimal_commas(good: Good) -> Iterator[Mistake]:
    for spot, _ in valued(good):
        if re.search(r"\d\.\d", spot.text) and "[" not in good.line(spot.line)[: spot.span.column]:
            in_braces = "{" in good.line(spot.line)[: spot.span.column]
            if not in_braces:
                text = good.with_spot(spot, spot.text.replace(".", ",", 1))
                yield at("decimal comma", good, text, spot.line)


SIGNS = (("at least ", ">= "), ("at most ", "<= "), ("more than ", "> "), ("less than ", "< "),
         ("at least ", "min "), ("at most ", "up to "), ("more than ", "over "),
         ("at least ", "minimum "))  # fmt: skip


def other_words_for_bounds(good: Good) -> Iterator[Mistake]:
    for spot, trait in valued(good):
        for words, sign in SIGNS:
            if spot.text.startswith(words) and trait.kind is Kind.NUMBER:
                text = good.with_spot(spot, spot.text.replace(words, sign, 1))
                yield at(f"{sign.strip()} for {words.strip()}", good, text, spot.line)


def misspelt_bounds(good: Good) -> Iterator[Mistake]:
    for number, (spot, _) in enumerate(valued(good)):
        found = re.match(r"at least|at most|more than|less than", spot.text)
        if found:
            text = good.with_spot(spot, slip(found.group(), number) + spot.text[found.end() :])
            yield at("misspelt bound", good, text, spot.line)


def words_of_other_facts(good: Good) -> Iterator[Mistake]:
    foreign = ("late", "wide forehand", "slice", "doubles", "red", "still", "improver")
    for number, (spot, trait) in enumerate(valued(good)):
        word = foreign[number % len(foreign)]
        if trait.word_named(word) is None:
            text = good.with_spot(spot, word)
            yield at("word of another fact", good, text, spot.line, one_repair=False)


def nonsense_words(good: Good) -> Iterator[Mistake]:
    for spot in good.words:
        if spot.key in ("strength", "grade", "evidence") or trait_of(spot) is not None:
            text = good.with_spot(spot, "qqqqq")
            yield at("word nobody knows", good, text, spot.line, one_repair=False)


CHOICES = {
    "strength": (("always", False), ("shuold", True), ("Must not", False)),
    "concern": (("tactics", False),),
    "grade": (("good", False), ("undecidd", True), ("bad", False)),
    "evidence": (("youtube", False),),
}


def unknown_choices(good: Good) -> Iterator[Mistake]:
    for spot in good.words:
        for written, _ in CHOICES.get(spot.key, ()):
            text = good.with_spot(spot, written)
            yield at(f"unknown {spot.key}", good, text, spot.line, one_repair=False)


def yes_and_no(good: Good) -> Iterator[Mistake]:
    other = {"yes": ("on", "true", "ja", "maybe"), "no": ("off", "false", "never")}
    for spot in good.words:
        for number, written in enumerate(other.get(spot.text, ())):
            one = number < 2
            text = good.with_spot(spot, written)
            yield at(f"{written} for {spot.text}", good, text, spot.line, one_repair=one)


# --- names in the wrong place ---------------------------------------------------------------


def last_of(good: Good, *roads: str) -> Iterator[Spot]:
    for spot in good.names:
        if len(spot.road) > 3 and spot.road[-2] in roads and spot.road[0] == "rules":
            yield spot


def facts_and_parts(good: Good) -> Iterator[Mistake]:
    for spot in last_of(good, "when", "given"):
        text = good.with_spot(spot, "direction")
        yield at("part among facts", good, text, spot.line, one_repair=False)
    for spot in last_of(good, "advise", "choose", "aim"):
        yield at("fact among parts", good, good.with_spot(spot, "balance"), spot.line,
                 one_repair=False)  # fmt: skip
        yield at("outcome among parts", good, good.with_spot(spot, "landed"), spot.line,
                 one_repair=False)  # fmt: skip


def unknown_names(good: Good) -> Iterator[Mistake]:
    for spot in last_of(good, "when", "given", "advise", "choose", "aim"):
        text = good.with_spot(spot, "qqqqq wwww")
        yield at("name nobody knows", good, text, spot.line, one_repair=False)


# --- what is there twice, or not at all ------------------------------------------------------


def is_alone(good: Good, spot: Spot) -> bool:
    """Say whether a name and its value stand on one line that holds nothing else."""
    line = good.line(spot.line)
    after = good.lines[spot.line] if spot.line < len(good.lines) else ""
    deeper = len(after) - len(after.lstrip()) > indent_of(line)
    is_whole = all(line.count(one) == line.count(other) for one, other in ("[]", "{}"))
    return bool(re.fullmatch(r"\s*[a-z -]+:\s+\S.*", line)) and is_whole and not deeper


def indent_of(line: str) -> int:
    return len(line) - len(line.lstrip())


def duplicate_names(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        if is_alone(good, spot) and spot.span.column - 1 == indent_of(good.line(spot.line)):
            line = good.line(spot.line)
            text = good.with_line(spot.line, line, line)
            yield at("name twice", good, text, spot.line + 1)


def duplicate_rules(good: Good) -> Iterator[Mistake]:
    rules = [spot for spot in good.names if len(spot.road) == 2 and spot.road[0] == "rules"]
    for spot in rules[:1]:
        stop = rules[1].line - 1 if len(rules) > 1 else len(good.lines)
        block = good.lines[spot.line - 1 : stop]
        if len(block) > 1:
            text = good.with_line(stop, good.line(stop), *block)
            yield at("rule twice", good, text, stop + 1)


def duplicate_words(good: Good) -> Iterator[Mistake]:
    for spot in good.words:
        if spot.road == ("precedence",) and "[" in good.line(spot.line):
            line = good.line(spot.line)
            text = good.with_line(spot.line, f"{line[:-1]}, {spot.text}]")
            yield at("concern twice", good, text, spot.line, one_repair=False)


def duplicates_in_braces(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        line, start = good.line(spot.line), spot.span.column - 1
        inside = re.match(r"([a-z ]+: [a-z0-9 .%]+)(?=[,}])", line[start:])
        if inside and line[:start].endswith(("{", ", ")):
            spoilt = f"{line[:start]}{inside[0]}, {line[start:]}"
            yield at("name twice in braces", good, good.with_line(spot.line, spoilt), spot.line)


NEEDED = ("title", "concern", "strength", "because", "cue")


def missing_names(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        is_needed = spot.road[0] == "rules" and spot.key in NEEDED and len(spot.road) == 3
        if is_needed and is_alone(good, spot):
            above = next(each for each in good.names if each.road == spot.road[:2])
            text = good.with_line(spot.line)
            yield at(f"no {spot.key}", good, text, above.line, one_repair=False)
    for name in ("rule set", "precedence"):
        lines = [line for line in good.lines if line.startswith(f"{name}:")]
        if lines and "builds on: [below" not in good.text and not lines[0].endswith(":"):
            text = good.with_line(good.lines.index(lines[0]) + 1)
            yield at(f"no {name}", good, text, 1, one_repair=False)


def missing_advice(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        if spot.road[0] == "rules" and spot.key in ("advise",) and len(spot.road) == 3:
            above = next(each for each in good.names if each.road == spot.road[:2])
            if good.line(spot.line).endswith("}"):
                text = good.with_line(spot.line)
                yield at("no advise", good, text, above.line, one_repair=False)


def empty_values(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        if is_alone(good, spot) and spot.key not in ("when", "aim", "note") and not declares(spot):
            line = good.line(spot.line)
            text = good.with_line(spot.line, line[: line.index(":") + 1])
            yield at("nothing behind the colon", good, text, spot.line, one_repair=False)


# --- wrong shapes ---------------------------------------------------------------------------


def lists_for_words(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        line = good.line(spot.line)
        if spot.key in ("title", "concern", "strength", "because", "cue") and is_alone(good, spot):
            colon = line.index(":")
            text = good.with_line(spot.line, f"{line[: colon + 1]} [one, two]")
            yield at("list for a word", good, text, spot.line, one_repair=False)


def one_word_lists(good: Good) -> Iterator[Mistake]:
    for spot in good.words:
        if spot.key in ("concern", "strength", "grade") and re.fullmatch(r"[a-z ]+", spot.text):
            text = good.with_spot(spot, f"[{spot.text}]")
            yield at("list of one for a word", good, text, spot.line)


def words_for_sections(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        line = good.line(spot.line)
        if spot.key in ("when", "advise", "aim", "given", "choose") and line.endswith("}"):
            colon = line.index(":")
            if spot.span.column - 1 == indent_of(line):
                text = good.with_line(spot.line, f"{line[: colon + 1]} some words")
                yield at("words for a section", good, text, spot.line, one_repair=False)


def sections_for_words(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        if spot.key in ("concern", "strength", "grade") and is_alone(good, spot):
            line = good.line(spot.line)
            colon = line.index(":")
            text = good.with_line(spot.line, f"{line[: colon + 1]} {{a: b}}")
            yield at("section for a word", good, text, spot.line, one_repair=False)


# --- indentation ----------------------------------------------------------------------------


def shifted(good: Good, by: int) -> Iterator[Mistake]:
    """Yield the file with one line set in differently; lines below it stay as they are."""
    for spot in good.names:
        line = good.line(spot.line)
        indent = indent_of(line)
        starts = spot.span.column - 1 == indent and spot.line not in good.in_brackets
        if by > 0 and is_in_text(good, spot.line):
            continue
        if starts and indent + by >= 0 and not is_first_of_its_kind(good, spot, by):
            moved = " " * (indent + by) + line.lstrip()
            yield at(f"set in by {by:+d}", good, good.with_line(spot.line, moved), spot.line)


def is_in_text(good: Good, number: int) -> bool:
    """Say whether a line follows a text over several lines, which would take it in."""
    above = good.line(number - 1) if number > 1 else ""
    return above.startswith("  ") and ":" not in above


def is_first_of_its_kind(good: Good, spot: Spot, by: int) -> bool:
    """Say whether the lines below it would have to be the ones that are wrong, or none are.

    A lone line may be set in as it likes, and the first of several sets the measure.
    """
    siblings = [each for each in good.names if each.road[:-1] == spot.road[:-1]
                and spot.road[:-1] != ()]  # fmt: skip
    return bool(siblings) and siblings[0].line == spot.line


def shifted_right(good: Good) -> Iterator[Mistake]:
    yield from shifted(good, 1)


def shifted_left(good: Good) -> Iterator[Mistake]:
    yield from shifted(good, -1)


def shifted_far_right(good: Good) -> Iterator[Mistake]:
    yield from shifted(good, 2)


def shifted_far_left(good: Good) -> Iterator[Mistake]:
    yield from shifted(good, -2)


def tabs(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        line = good.line(spot.line)
        indent = indent_of(line)
        if indent and indent % 2 == 0 and spot.span.column - 1 == indent:
            spoilt = "\t" * (indent // 2) + line.lstrip()
            yield at("tabs in front", good, good.with_line(spot.line, spoilt), spot.line)


def tabs_behind_colons(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        line = good.line(spot.line)
        if is_alone(good, spot) and spot.span.column - 1 == indent_of(line):
            text = good.with_line(spot.line, line.replace(": ", ":\t", 1))
            yield at("tab behind a colon", good, text, spot.line)


# --- signs ----------------------------------------------------------------------------------


def plain_lines(good: Good, sign: str) -> Iterator[tuple[int, str]]:
    """Yield the lines that hold a sign outside quotes and comments."""
    for number, line in enumerate(good.lines, start=1):
        if sign in line and not re.search(r"[#\"']", line):
            yield number, line


def brackets_not_closed(good: Good) -> Iterator[Mistake]:
    for sign in "]}":
        for number, line in plain_lines(good, sign):
            at_sign = line.rindex(sign)
            if at_sign == len(line) - 1:
                yield at(f"no {sign} at the end", good, good.with_line(number, line[:-1]), number)
            elif line.count(sign) == 1 and "{" in line and line[at_sign + 1] in ",}":
                spoilt = line[:at_sign] + line[at_sign + 1 :]
                yield at(f"no {sign} inside", good, good.with_line(number, spoilt), number,
                         one_repair=line[at_sign + 1] == "}")  # fmt: skip


def brackets_not_opened(good: Good) -> Iterator[Mistake]:
    for sign in "[{":
        for number, line in plain_lines(good, sign):
            if line.count(sign) == 1:
                yield at(f"no {sign}", good, good.with_line(number, line.replace(sign, "")), number,
                         one_repair=sign == "{" or line.count("{") == 0)  # fmt: skip


def brackets_of_the_other_kind(good: Good) -> Iterator[Mistake]:
    other = {"]": "}", "}": "]"}
    for sign, wrong in other.items():
        for number, line in plain_lines(good, sign):
            at_sign = line.rindex(sign)
            spoilt = line[:at_sign] + wrong + line[at_sign + 1 :]
            yield at(f"{wrong} for {sign}", good, good.with_line(number, spoilt), number)


def one_bracket_too_many(good: Good) -> Iterator[Mistake]:
    for sign in "]}":
        for number, line in plain_lines(good, sign):
            if line.endswith(sign):
                yield at(f"one {sign} too many", good, good.with_line(number, line + sign), number)


def colons_missing(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        if spot.span.column - 1 == indent_of(good.line(spot.line)) and not declares(spot):
            line, end = good.line(spot.line), spot.span.column - 1 + spot.span.width
            if len(line) > end + 1 and line[end] == ":":
                spoilt = line[:end] + line[end + 1 :]
                yield at("no colon", good, good.with_line(spot.line, spoilt), spot.line)


def colons_missing_in_braces(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        line, end = good.line(spot.line), spot.span.column - 1 + spot.span.width
        if line[: spot.span.column - 1].endswith(("{", ", ")) and line[end : end + 1] == ":":
            spoilt = line[:end] + line[end + 1 :]
            yield at("no colon in braces", good, good.with_line(spot.line, spoilt), spot.line)


def colons_without_space(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        line, end = good.line(spot.line), spot.span.column - 1 + spot.span.width
        if line[end : end + 2] == ": " and spot.span.column - 1 == indent_of(line):
            spoilt = line[: end + 1] + line[end + 2 :]
            yield at("no space behind the colon", good, good.with_line(spot.line, spoilt),
                     spot.line)  # fmt: skip


def colons_in_texts(good: Good) -> Iterator[Mistake]:
    for spot in good.spots:
        if spot.key in ("title", "because", "cue", "note") and not spot.is_name and not spot.quoted:
            line, start = good.line(spot.line), spot.span.column - 1
            if " " in spot.text and is_alone(good, spot):
                spoilt = line[:start] + line[start:].replace(" ", ": ", 1)
                wanted = line[:start] + '"' + line[start:].replace(" ", ": ", 1) + '"'
                yield Mistake(
                    kind="colon in a text", lines=frozenset({spot.line}),
                    spoilt=good.with_line(spot.line, spoilt),
                    meant=good.with_line(spot.line, wanted),
                )  # fmt: skip


def commas_missing(good: Good) -> Iterator[Mistake]:
    for number, line in plain_lines(good, ", "):
        opened = line.find("{")
        comma = line.find(", ", opened)
        if opened >= 0 and re.match(r", [a-z ]+: ", line[comma:]):
            spoilt = line[:comma] + line[comma + 1 :]
            yield at("no comma", good, good.with_line(number, spoilt), number)


def commas_twice(good: Good) -> Iterator[Mistake]:
    for number, line in plain_lines(good, ", "):
        if "[" in line or "{" in line:
            comma = line.rindex(", ")
            if comma > min(line.find(sign) for sign in "[{" if sign in line):
                spoilt = line[:comma] + "," + line[comma:]
                yield at("comma twice", good, good.with_line(number, spoilt), number)


def quotes_not_closed(good: Good) -> Iterator[Mistake]:
    for spot in good.spots:
        if spot.key in ("title", "cue") and not spot.is_name and is_alone(good, spot):
            line, start = good.line(spot.line), spot.span.column - 1
            for mark in ('"', "'"):
                if not spot.quoted and "'" not in spot.text:
                    spoilt = line[:start] + mark + line[start:]
                    wanted = spoilt + mark
                    yield Mistake(
                        kind="quote not closed", lines=frozenset({spot.line}),
                        spoilt=good.with_line(spot.line, spoilt),
                        meant=good.with_line(spot.line, wanted),
                    )  # fmt: skip


def quotes_closed_early(good: Good) -> Iterator[Mistake]:
    for spot in good.spots:
        if spot.key in ("title", "cue") and not spot.is_name and is_alone(good, spot):
            line, start = good.line(spot.line), spot.span.column - 1
            words = line[start:].split(" ")
            if not spot.quoted and len(words) > 2 and "'" not in spot.text:
                spoilt = f'"{" ".join(words[:2])}" {" ".join(words[2:])}'
                yield Mistake(
                    kind="quote closed early", lines=frozenset({spot.line}),
                    spoilt=good.with_line(spot.line, line[:start] + spoilt),
                    meant=good.with_line(spot.line, f"{line[:start]}'{spoilt}'"),
                )  # fmt: skip


def texts_that_need_quotes(good: Good) -> Iterator[Mistake]:
    for number, spot in enumerate(good.spots):
        if spot.key in ("title", "cue") and not spot.is_name and is_alone(good, spot):
            line, start = good.line(spot.line), spot.span.column - 1
            mark = "@%`"[number % 3]
            if not spot.quoted:
                spoilt = mark + line[start:]
                yield Mistake(
                    kind=f"text that begins with {mark}", lines=frozenset({spot.line}),
                    spoilt=good.with_line(spot.line, line[:start] + spoilt),
                    meant=good.with_line(spot.line, f'{line[:start]}"{spoilt}"'),
                )  # fmt: skip


def shortcuts_and_orders(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        if spot.key in ("concern", "when", "advise") and spot.road[0] == "rules":
            line = good.line(spot.line)
            for mark in ("&same ", "!!str ", "!!python/object/apply:os.system "):
                colon = line.index(":")
                spoilt = f"{line[: colon + 1]} {mark.strip()}{line[colon + 1 :]}"
                text = good.with_line(spot.line, spoilt)
                yield at("shortcut or order", good, text, spot.line, one_repair=False)


def hidden_characters(good: Good) -> Iterator[Mistake]:
    for number, spot in enumerate(good.words):
        mark = "\u200b\u00ad\u2060\x07"[number % 4]
        text = good.with_spot(spot, spot.text[:1] + mark + spot.text[1:])
        yield at("hidden character", good, text, spot.line, one_repair=False)


# --- other ways to write it -----------------------------------------------------------------


def lists_without_brackets(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        line, end = good.line(spot.line), spot.span.column - 1 + spot.span.width
        found = re.match(r": \[([a-z -]+(?:, [a-z -]+)+)\]", line[end:])
        if found and STANDARD.find(spot.key) and spot.road[0] != "facts":
            for kind, between in (("or", " or "), ("semicolons", "; "), ("strokes", "/")):
                words = found[1].replace(", ", between)
                spoilt = f"{line[:end]}: {words}{line[end + found.end() :]}"
                yield at(f"list with {kind}", good, good.with_line(spot.line, spoilt), spot.line)


def ranges_with_dashes(good: Good) -> Iterator[Mistake]:
    for spot, _ in valued(good):
        found = re.fullmatch(r"([\d.]+) to ([\d.]+)( \S+)?", spot.text)
        if found:
            unit = found[3] or ""
            dashed = f"{found[1]}-{found[2]}{unit}"
            between = f"between {found[1]} and {found[2]}{unit}"
            yield at("range with a dash", good, good.with_spot(spot, dashed), spot.line)
            yield at("range with between", good, good.with_spot(spot, between), spot.line)


def bounds_with_words(good: Good) -> Iterator[Mistake]:
    for spot, _ in valued(good):
        found = re.fullmatch(r"([a-z ]+) or (higher|lower)", spot.text)
        if found:
            bound = "at least" if found[2] == "higher" else "at most"
            more = "or more" if found[2] == "higher" else "or less"
            for spoilt in (f"{bound} {found[1]}", f"{found[1]} {more}"):
                yield at("other order of words", good, good.with_spot(spot, spoilt), spot.line)


def curly_quotes(good: Good) -> Iterator[Mistake]:
    for spot in good.words:
        if re.fullmatch(r"[a-z ]{4,}", spot.text) and trait_of(spot) and not spot.in_list:
            text = good.with_spot(spot, f"\u201c{spot.text}\u201d")
            yield at("curly quotes", good, text, spot.line)


SECTIONS = ("when", "advise", "aim", "given", "choose", "if choosing", "usual mistake")


def braces_left_out(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        line, end = good.line(spot.line), spot.span.column - 1 + spot.span.width
        starts = not line[: spot.span.column - 1].replace("-", " ").strip()
        if starts and spot.key in SECTIONS and re.match(r": \{[^{}]*\}$", line[end:]):
            spoilt = f"{line[:end]}: {line[end + 3 : -1]}"
            yield at("no braces", good, good.with_line(spot.line, spoilt), spot.line)


def texts_not_set_in(good: Good) -> Iterator[Mistake]:
    for spot in good.names:
        next_line = good.lines[spot.line] if spot.line < len(good.lines) else ""
        starts = spot.span.column - 1 == indent_of(good.line(spot.line))
        if spot.key in ("because", "note") and starts and ":" not in next_line and next_line:
            spoilt = " " * (spot.span.column - 1) + next_line.lstrip()
            text = good.with_line(spot.line + 1, spoilt)
            yield at("text not set in", good, text, spot.line + 1)


def signs_for_colons(good: Good) -> Iterator[Mistake]:
    for number, spot in enumerate(good.names):
        line, end = good.line(spot.line), spot.span.column - 1 + spot.span.width
        starts = spot.span.column - 1 == indent_of(line) and not declares(spot)
        if starts and line[end : end + 2] == ": ":
            sign = (" =", ";", " -")[number % 3]
            text = good.with_line(spot.line, f"{line[:end]}{sign}{line[end + 1 :]}")
            yield at(f"{sign.strip()} for a colon", good, text, spot.line)


def hyphens_without_space(good: Good) -> Iterator[Mistake]:
    for number, line in enumerate(good.lines, start=1):
        if line.lstrip().startswith("- "):
            text = good.with_line(number, line.replace("- ", "-", 1))
            yield at("hyphen without a space", good, text, number)


# --- circles --------------------------------------------------------------------------------


def circles(good: Good) -> Iterator[Mistake]:
    rules = [spot for spot in good.names if len(spot.road) == 2 and spot.road[0] == "rules"
             and not good.line(spot.line).endswith("off")]  # fmt: skip
    for spot in rules:
        line = good.line(spot.line)
        itself = good.with_line(spot.line, line, f"    beats: {spot.text}")
        if not any(each.road == (*spot.road, "beats") for each in good.names):
            yield at("rule beats itself", good, itself, spot.line + 1, one_repair=False)
    terms = [spot for spot in good.names if len(spot.road) == 2 and spot.road[0] == "terms"]
    for spot in terms:
        line = good.line(spot.line)
        if line.endswith(":"):
            itself = good.with_line(spot.line, line, f"    {spot.text}: yes")
            yield at("term uses itself", good, itself, spot.line, spot.line + 1, one_repair=False)


def two_rules_in_a_circle(good: Good) -> Iterator[Mistake]:
    beaten = [spot for spot in good.words if spot.key == "beats" and len(spot.road) == 3]
    for spot in beaten:
        other = next((each for each in good.names if each.road == ("rules", spot.text)), None)
        if other is not None:
            rule = spot.road[1]
            line = good.line(other.line)
            text = good.with_line(other.line, line, f"    beats: [{rule}]")
            lines = (spot.line + (other.line < spot.line), other.line + 1)
            yield at("rules beat each other", good, text, *lines, one_repair=False)


# --- all of them ----------------------------------------------------------------------------

ALL: tuple[tuple[Maker, int], ...] = (
    (misspelt_names, 26), (misspelt_words, 20), (misspelt_ids, 8), (misspelt_ids_turned_off, 4),
    (wrong_case_ids, 5), (wrong_units, 4), (unit_of_another_kind, 3), (reversed_ranges, 4),
    (out_of_range, 4), (decimal_commas, 3), (other_words_for_bounds, 6), (misspelt_bounds, 3),
    (words_of_other_facts, 5), (nonsense_words, 3), (unknown_choices, 5), (yes_and_no, 6),
    (facts_and_parts, 6), (unknown_names, 3), (duplicate_names, 6), (duplicate_rules, 1),
    (duplicate_words, 1), (duplicates_in_braces, 3), (missing_names, 5), (missing_advice, 1),
    (empty_values, 5), (lists_for_words, 2), (one_word_lists, 2), (words_for_sections, 3),
    (sections_for_words, 2), (shifted_right, 6), (shifted_left, 6), (shifted_far_right, 5),
    (shifted_far_left, 5), (tabs, 3), (tabs_behind_colons, 2), (brackets_not_closed, 5),
    (brackets_not_opened, 5), (brackets_of_the_other_kind, 5), (one_bracket_too_many, 2),
    (colons_missing, 6), (colons_missing_in_braces, 3), (colons_without_space, 4),
    (colons_in_texts, 3), (commas_missing, 3), (commas_twice, 2), (quotes_not_closed, 2),
    (quotes_closed_early, 2), (texts_that_need_quotes, 2), (shortcuts_and_orders, 2),
    (hidden_characters, 2), (circles, 2), (two_rules_in_a_circle, 1),
    (lists_without_brackets, 5), (ranges_with_dashes, 3), (bounds_with_words, 3), (curly_quotes, 3),
    (braces_left_out, 5), (texts_not_set_in, 3), (signs_for_colons, 5), (hyphens_without_space, 4),
    *NATURAL,
)  # fmt: skip


def spread(found: Sequence[Mistake], most: int) -> tuple[Mistake, ...]:
    """Return so many of them, from all over the file."""
    step = max(1, len(found) // most)
    return tuple(found[step // 2 :: step][:most])


@cache
def corpus() -> tuple[Mistake, ...]:
    """Return every mistake of the corpus."""
    found: list[Mistake] = []
    for good in small_files():
        for make, most in ALL:
            found += spread(tuple(make(good)), max(1, most * 2 // 3))
    for turn, good in enumerate(shipped_pieces(10)):
        for make, most in ALL[turn % 3 :: 3]:
            found += spread(tuple(make(good)), max(1, most // 6))
    for make, _ in ALL[::5]:
        found += spread(tuple(make(whole_set())), 1)
    return tuple(found)
