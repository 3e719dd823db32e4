"""What keeps a text from being read as YAML at all, looked for before YAML sees it."""

import re
from functools import cache

from tactics.problem import Problem
from tactics.reading.codes import Code
from tactics.source import Source, Span

# what YAML cannot hold, what nobody can see, and what makes a line look other than it is
_STRANGE = (
    "[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
    "|[\xad\u200b\u202a-\u202e\u2060\u2066-\u2069]"
)
_LAYOUT = str.maketrans(dict.fromkeys("\t\n\r"))
_INDENT = re.compile(r"[^\S\n]*")
_COMMENT = re.compile(r"(^|\s)#")
_BRACKET = re.compile(r"[\[\]{}]")
_SPACES_FOR_TAB = "  "
_PLAIN_SPACES = str.maketrans(
    dict.fromkeys(
        "\t\xa0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000",
        " ",
    )
)


def plain_spaces(text: str) -> str:
    """Return the text, as long as before, with plain spaces for all that only look like one.

    Those that set a line in are an obstacle of their own; others mean nothing and can stay.
    """
    return text.translate(_PLAIN_SPACES)


def first_obstacle(source: Source, limit: int) -> Problem | None:
    """Return the problem that keeps the text from being read at all, if there is one."""
    if len(source.text) > limit:
        return Problem(
            code=Code.FILE_TOO_LARGE,
            span=source.start(),
            sentence=f"the file has {len(source.text):,} characters, and {limit:,} is the most "
            "that is read as one file",
            hint='a large rule set can be split with "builds on"',
        )
    return _strange_character(source) or _tab(source)


def strange_in(text: str) -> str:
    """Return the name of the first character that cannot stand in a rule file, or nothing."""
    if text.isascii() and text.isprintable():
        return ""
    found = _strange().search(text)
    return f"U+{ord(found.group()):04X}" if found else ""


def too_deep(span: Span, levels: int) -> Problem:
    """Return the problem of a section inside a section inside a section ..."""
    return Problem(
        code=Code.TOO_DEEP,
        span=span,
        sentence=f"this lies more than {levels} levels deep, and no rule needs that many",
        hint="look for brackets that were opened and never closed; a long condition can be cut "
        "up into terms",
    )


def deepest_bracket(source: Source, stop: tuple[int, int], levels: int) -> Problem | None:
    """Return the problem of more open brackets than levels allowed before a place, or None."""
    depth = 0
    for number, line in enumerate(source.lines[: stop[0]], start=1):
        for found in _BRACKET.finditer(line):
            depth = depth + 1 if found.group() in "[{" else max(0, depth - 1)
            if depth > levels:
                column = found.start() + 1
                return too_deep(Span(file=source.name, line=number, column=column), levels)
    return None


@cache
def _strange() -> re.Pattern[str]:
    """Return the pattern of a strange character: seldom asked, and slow to make."""
    return re.compile(_STRANGE)


def _strange_character(source: Source) -> Problem | None:
    if source.text.isascii() and source.text.translate(_LAYOUT).isprintable():
        return None  # as nearly every file
    for number, line in enumerate(source.lines, start=1):
        found = _strange().search(line)
        if found is not None:
            return strange_character(
                Span(file=source.name, line=number, column=found.start() + 1),
                f"U+{ord(found.group()):04X}",
            )
    found = _strange().search(source.text)
    return None if found is None else strange_character(source.start(), "a line break")


def strange_character(span: Span, name: str) -> Problem:
    """Return the problem of a character that nobody can see."""
    return Problem(
        code=Code.STRANGE_CHARACTER,
        span=span,
        sentence=f"a character that cannot be seen stands here ({name})",
        hint="delete it and type the words around it again; it often comes along with copied text",
    )


def _tab(source: Source) -> Problem | None:
    """Return the problem of the first tab or odd space where plain spaces belong."""
    if source.text.isascii() and "\t" not in source.text:
        return None
    places = [
        (number, line, column)
        for number, line in enumerate(source.lines, start=1)
        if (column := _odd_space(line)) is not None
    ]
    if not places:
        return None
    number, line, column = places[0]
    indent = _INDENT.match(line)
    leading = indent.group() if indent else ""
    in_front = column < len(leading)
    what = "a tab" if line[column] == "\t" else "a space that only looks like one"
    more = f" ({len(places)} lines of this file have one)" if len(places) > 1 else ""
    where = "sets this line in" if in_front else "stands here"
    start, width = (0, len(leading)) if in_front else (column, 1)
    return Problem(
        code=Code.TAB,
        span=Span(file=source.name, line=number, column=start + 1, width=width),
        sentence=f"{what} {where}, and only plain spaces say what belongs to what{more}",
        hint='put two spaces for each step in; most editors do it for you under "convert '
        'tabs to spaces" or "indent using spaces"',
        replacement=_SPACES_FOR_TAB * width if in_front else " ",
    )


def _odd_space(line: str) -> int | None:
    """Return the index of the first tab or odd space that matters to the layout.

    At the end of a line, in a comment or in an empty line it changes nothing.
    """
    comment = _COMMENT.search(line)
    seen = (line[: comment.start()] if comment else line).rstrip()
    indent = _INDENT.match(seen)
    stop = indent.end() if indent else 0
    odd = next((index for index in range(stop) if seen[index] != " "), seen.find("\t", stop))
    return None if odd < 0 else odd
