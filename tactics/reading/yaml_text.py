"""YAML -> nodes that keep every word as text, with its place. The only module that knows yaml."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Protocol

import yaml

from tactics.problem import Problem, Reading, by_place
from tactics.reading.codes import Code
from tactics.reading.decoding import RULE_FILE_LIMIT
from tactics.reading.obstacles import (
    deepest_bracket,
    first_obstacle,
    plain_spaces,
    strange_character,
    strange_in,
    too_deep,
)
from tactics.reading.repairs import fitted, repaired_with
from tactics.reading.stumble import Line, Trouble
from tactics.reading.word_slips import hyphen_slip, slip_in_name, slip_in_value
from tactics.source import Source, Span

MOST_LEVELS = 40
_MOST_REPAIRS = 20
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scalar:
    """A word, number or text exactly as written; empty where nothing follows a name.

    is_whole: the span holds all of it (a text over several lines has a span in its first).
    """

    text: str
    span: Span
    quoted: bool = False
    is_whole: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Sequence:
    """A list."""

    items: tuple["Node", ...]
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Mapping:
    """A section: names and what stands behind them, in order; a name may stand there twice."""

    pairs: tuple[tuple[Scalar, "Node"], ...]
    span: Span
    in_braces: bool = False


Node = Scalar | Sequence | Mapping


def read_yaml(source: Source) -> Reading[Node]:
    """Return the one document of a text as nodes.

    Where the layout is broken in a way that has one repair, the repaired text is read on, so
    that the problems behind the first one are found too.
    """
    obstacle = first_obstacle(source, RULE_FILE_LIMIT)
    if obstacle is not None:
        return Reading(value=None, problems=(obstacle,))
    problems: list[Problem] = []
    attempt = replace(source, text=plain_spaces(source.text))
    seen: set[tuple[str, int]] = set()
    for _ in range(_MOST_REPAIRS):
        node, found = _read_once(attempt, source)
        if any((problem.code, problem.span.line) in seen for problem in found):
            break  # the repair did not help: nothing behind it can be trusted
        seen |= {(problem.code, problem.span.line) for problem in found}
        problems += (fitted(problem, attempt, source) for problem in found)
        repaired = repaired_with(attempt, found)
        if repaired is None:
            return Reading(value=node, problems=by_place(problems))
        attempt = repaired
    return Reading(value=None, problems=by_place(problems))


class _Mark(Protocol):
    """A place as YAML counts it, from 0."""

    line: int
    column: int


@dataclass(slots=True)
class _Open:
    """A list or section whose end has not come yet."""

    span: Span
    is_section: bool
    in_brackets: bool
    children: list[Node] = field(default_factory=list)


@dataclass(slots=True)
class _Builder:
    """Builds nodes from events without calling itself, so no depth of nesting can hurt it."""

    source: Source
    attempt: Source
    stack: list[_Open] = field(default_factory=list)
    roots: list[Node] = field(default_factory=list)
    problems: dict[Code, Problem] = field(default_factory=dict)
    slip: Problem | None = None
    last_quoted: yaml.ScalarEvent | None = None

    def place(self, event: yaml.Event) -> Span:
        first, last = _marks(event)
        line = self.source.line(first.line + 1)
        column = max(1, min(first.column + 1, len(line)))
        stop = last.column if last.line == first.line else len(line.rstrip())
        width = max(1, min(stop, len(line)) - column + 1)
        return Span(file=self.source.name, line=first.line + 1, column=column, width=width)

    def refuse(self, code: Code, span: Span, sentence: str, hint: str) -> None:
        self.problems.setdefault(code, Problem(code=code, span=span, sentence=sentence, hint=hint))

    def take(self, node: Node) -> None:
        if self.stack:
            self.stack[-1].children.append(node)
        else:
            self.roots.append(node)

    def take_word(self, event: yaml.ScalarEvent) -> None:
        quoted = event.style in ("'", '"')
        if quoted:
            self.last_quoted = event
        elif event.style not in ("|", ">"):
            self.slip = self.slip or self.slip_in(event)
        span = self.place(event)
        strange = strange_in(event.value)
        if strange:
            problem = strange_character(span, strange)
            self.problems.setdefault(Code.STRANGE_CHARACTER, problem)
        is_whole = span.line == _marks(event)[1].line + 1
        self.take(Scalar(text=event.value, span=span, quoted=quoted, is_whole=is_whole))

    def slip_in(self, event: yaml.ScalarEvent) -> Problem | None:
        """Return what is wrong with a word that YAML takes as it stands."""
        first, last = _marks(event)
        if first.line != last.line:
            below = (Line(self.attempt, each + 1, 1) for each in range(first.line, last.line + 1))
            slips = (hyphen_slip(each, each.indent) for each in below)
            return next((slip for slip in slips if slip is not None), None)
        inner = self.stack[-1] if self.stack else None
        is_name = inner is not None and inner.is_section and len(inner.children) % 2 == 0
        look = slip_in_name if is_name else slip_in_value
        line = Line(self.attempt, first.line + 1, first.column + 1)
        return look(line, first.column, last.column)

    def close(self, event: yaml.Event) -> None:
        done = self.stack.pop()
        last, end = _place(event.end_mark)
        line = self.source.line(done.span.line)
        stop = end if last == done.span.line else len(line.rstrip()) + 1
        begun = done.span
        width = max(1, min(stop, len(line) + 1) - begun.column)
        span = Span(file=begun.file, line=begun.line, column=begun.column, width=width)
        if done.is_section:
            pairs = self.pairs_of(done.children)
            self.take(Mapping(pairs=pairs, span=span, in_braces=done.in_brackets))
        else:
            self.take(Sequence(items=tuple(done.children), span=span))

    def pairs_of(self, children: list[Node]) -> tuple[tuple[Scalar, Node], ...]:
        pairs = []
        for key, value in zip(children[::2], children[1::2], strict=True):
            if isinstance(key, Scalar):
                self.check_merge(key)
                pairs.append((key, value))
            else:
                self.refuse(
                    Code.NAME_WANTED,
                    key.span,
                    "a list or a section stands where a name belongs",
                    "write one word or a few before the colon; text in braces needs quotes",
                )
        return tuple(pairs)

    def check_merge(self, key: Scalar) -> None:
        if key.text == "<<" and not key.quoted:
            self.refuse(
                Code.MERGE_KEY,
                key.span,
                '"<<" copies another section in, and a rule file has to show every word',
                "write the lines out where they are needed",
            )


def _read_once(attempt: Source, source: Source) -> tuple[Node | None, list[Problem]]:
    builder = _Builder(source=source, attempt=attempt)
    trouble = None
    try:
        for event in yaml.parse(attempt.text, Loader=_LOADER):
            if not _step(builder, event):
                break
    except yaml.MarkedYAMLError as error:
        met = _trouble(error, builder.last_quoted)
        trouble = deepest_bracket(attempt, met.met, MOST_LEVELS) or _explained(attempt, met)
    except ValueError:  # plain-Python YAML on numbers no machine can hold
        trouble = _explained(attempt, _NOWHERE)
    problems = list(builder.problems.values())
    first = builder.slip or trouble
    if first is not None and not problems:
        problems.append(first)
    if not problems and not builder.roots:
        problems.append(_empty(source))
    root = builder.roots[0] if builder.roots and not problems else None
    return root, problems


def _explained(attempt: Source, trouble: Trouble) -> Problem:
    from tactics.reading.layout import explain  # a file without mistakes does not wait for it

    return explain(attempt, trouble)


def _step(builder: _Builder, event: yaml.Event) -> bool:
    """Take in one event; False ends the reading."""
    _check_extras(builder, event)
    match event:
        case yaml.DocumentStartEvent() if builder.roots:
            builder.refuse(
                Code.SECOND_DOCUMENT,
                builder.place(event),
                "a second document starts here, and a file holds one rule set",
                'take the line "---" out, or put what follows in a file of its own',
            )
            return False
        case yaml.ScalarEvent():
            builder.take_word(event)
        case yaml.AliasEvent():
            builder.take(Scalar(text="", span=builder.place(event)))
        case yaml.SequenceStartEvent() | yaml.MappingStartEvent():
            is_section = isinstance(event, yaml.MappingStartEvent)
            opened = _Open(
                span=builder.place(event),
                is_section=is_section,
                in_brackets=bool(event.flow_style),
            )
            builder.stack.append(opened)
        case yaml.SequenceEndEvent() | yaml.MappingEndEvent():
            builder.close(event)
        case _:
            pass
    if len(builder.stack) > MOST_LEVELS:
        problem = too_deep(builder.stack[-1].span, MOST_LEVELS)
        builder.problems.setdefault(Code.TOO_DEEP, problem)
        return False
    return True


def _check_extras(builder: _Builder, event: yaml.Event) -> None:
    """Refuse what would make a word mean something that does not stand where it is read."""
    anchor = getattr(event, "anchor", None)
    tag = getattr(event, "tag", None)
    if anchor:
        builder.refuse(
            Code.SHORTCUT,
            builder.place(event),
            f'"&{anchor}" and "*{anchor}" are shortcuts to another place, and a rule file has '
            "to show every word where it counts",
            'write the words out here; a text that starts with "*" or "&" needs quotes, and '
            "a situation used often can be a term",
        )
    if tag:
        builder.refuse(
            Code.TAG,
            builder.place(event),
            'a word that starts with "!" is an order to the computer, and a rule file gives none',
            'take it out, or put the text in quotes if the "!" belongs to it',
        )


_NOWHERE = Trouble(context="", problem="", opened=(1, 1), met=(1, 1))


def _trouble(error: yaml.MarkedYAMLError, last_quoted: yaml.ScalarEvent | None) -> Trouble:
    opened = _place(error.context_mark or error.problem_mark)
    met = _place(error.problem_mark or error.context_mark)
    long_quote = None
    if last_quoted is not None:
        start, end = _place(last_quoted.start_mark), _place(last_quoted.end_mark)
        if start[0] < end[0] == met[0]:
            long_quote = start
    return Trouble(
        context=error.context or "",
        problem=error.problem or "",
        opened=opened,
        met=met,
        long_quote=long_quote,
    )


def _marks(event: yaml.Event) -> tuple[_Mark, _Mark]:
    """Return where an event starts and ends."""
    first, last = event.start_mark, event.end_mark
    assert first is not None and last is not None
    return first, last


def _place(mark: _Mark | None) -> tuple[int, int]:
    return (1, 1) if mark is None else (mark.line + 1, mark.column + 1)


def _empty(source: Source) -> Problem:
    return Problem(
        code=Code.EMPTY_FILE,
        span=source.start(),
        sentence="the file is empty",
        hint="start with a name, for example rule set: My singles rules",
    )


def words_of(node: Node) -> Iterator[Scalar]:
    """Yield the words below a node that stand for values, not the names before colons."""
    match node:
        case Scalar():
            yield node
        case Sequence(items=items):
            for item in items:
                yield from words_of(item)
        case Mapping(pairs=pairs):
            for _, value in pairs:
                yield from words_of(value)
