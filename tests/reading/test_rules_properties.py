"""Laws of the rule reader: it never raises, points into the file, and its repairs repair."""

import re

from hypothesis import HealthCheck, assume, example, given, settings
from hypothesis import strategies as st

from tactics.model.rule import RuleSet
from tactics.problem import Problem, Reading, Severity
from tactics.reading.decoding import decode
from tactics.reading.drills import read_drills
from tactics.reading.rules import combine, read_rules
from tactics.report.problems import as_dict, render_problems, render_short
from tactics.source import Source, Span
from tests.reading.rule_texts import FULL, NAMES

patient = settings(suppress_health_check=[HealthCheck.too_slow])
PIECES = st.one_of(
    st.sampled_from(
        [":", ": ", " ", "  ", "\n", "\n  ", "- ", "\t", "[", "]", "{", "}", ",", ", ", '"', "'",
         "&a ", "*a", "!x ", "<<: ", "---\n", "#", " # ", "|", "> ", "%", "@", "\\", "\0", "\x1b",
         "\N{LINE SEPARATOR}", "\x85", "\r", "\r\n", "\ufeff", "é", "日本", "off", "yes", "not ",
         "at least ", " to ", "0,8 m", "-3 m", "1e9", "9" * 400, "rules", "balance"]
    ),
    st.text(max_size=5),
)  # fmt: skip


@st.composite
def spoilt(draw: st.DrawFn) -> str:
    """A good rule file with up to four pieces cut out of it or put into it."""
    text = FULL
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        stop = min(len(text), start + draw(st.sampled_from([0, 0, 1, 2, 5, 40])))
        text = text[:start] + draw(PIECES) + text[stop:]
    return text


@st.composite
def misspelt(draw: st.DrawFn) -> str:
    """A good rule file in which one name or word has one letter too few, too many or wrong."""
    name = draw(st.sampled_from(NAMES))
    places = [found.start() for found in re.finditer(re.escape(name), FULL)]
    at = draw(st.sampled_from(places)) + draw(st.integers(0, len(name) - 1))
    letter = draw(st.sampled_from(["", "x", FULL[at] * 2, "e"]))
    return FULL[:at] + letter + FULL[at + 1 :]


def read(text: str) -> tuple[Source, Reading[RuleSet]]:
    source = Source(name="club.yaml", text=text)
    return source, read_rules(source, {source.name: source}.get)


def lies_inside(span: Span, source: Source) -> bool:
    line = max(1, len(source.line(span.line)))
    is_line = 1 <= span.line <= max(1, len(source.lines))
    return is_line and span.column >= 1 and span.width >= 1 and span.column + span.width - 1 <= line


def is_plain(text: str) -> bool:
    return all(letter == "\n" or letter.isprintable() for letter in text)


def hold_the_laws(text: str) -> None:
    source, reading = read(text)
    places = [problem.span for problem in reading.problems]
    places += [also.span for problem in reading.problems for also in problem.also]
    has_errors = any(problem.severity is Severity.ERROR for problem in reading.problems)

    assert all(lies_inside(place, source) for place in places)
    assert all(0 <= problem.opener < problem.span.line for problem in reading.problems)
    assert list(reading.problems) == sorted(reading.problems, key=lambda each: each.order)
    assert reading.is_usable == (reading.value is not None and not has_errors)
    assert reading.value is not None or has_errors
    assert is_plain(render_problems(reading.problems, [source]))
    assert is_plain(render_short(reading.problems))
    assert all(as_dict(problem)["code"] == problem.code for problem in reading.problems)


@patient
@given(st.text())
@example("a: '\n")
@example("{" * 2000)
@example('a: "\\UFFFFFFFF"\n')
@example("%YAML " + "9" * 5000 + ".1\n--- a\n")
@example("\N{LINE SEPARATOR}: a: b\n")
@example("rules:\n  ?\n    - [x\n")
@example("\N{NO-BREAK SPACE}0")
def test_no_text_makes_the_reader_raise(text: str) -> None:
    hold_the_laws(text)


@patient
@given(spoilt())
def test_no_spoilt_rule_file_makes_the_reader_raise(text: str) -> None:
    hold_the_laws(text)


@patient
@given(st.binary())
@example(b"\xff\xfe\x00\xd8")
@example(b"PK\x03\x04" + bytes(range(256)))
def test_no_bytes_make_the_reader_raise(data: bytes) -> None:
    decoded = decode("club.yaml", data)

    if decoded.value is not None:
        hold_the_laws(decoded.value.text)
    else:
        assert decoded.problems


@patient
@given(spoilt())
def test_no_text_makes_the_drill_reader_raise(text: str) -> None:
    source = Source(name="drills.yaml", text=text)

    reading = read_drills(source)

    assert all(lies_inside(problem.span, source) for problem in reading.problems)


@patient
@given(st.one_of(spoilt(), misspelt()))
def test_pasting_a_replacement_takes_its_problem_away(text: str) -> None:
    source, reading = read(text)
    mendable = [problem for problem in reading.problems if problem.replacement]
    assume(mendable)
    problem = mendable[0]

    _, again = read(pasted(source, problem))

    assert not [
        other
        for other in again.problems
        if (other.code, other.span) == (problem.code, problem.span)
        and other.sentence == problem.sentence
    ]


def pasted(source: Source, problem: Problem) -> str:
    """Return the text with the replacement in place of the marked words."""
    lines = source.text.splitlines(keepends=True)
    line, span = lines[problem.span.line - 1], problem.span
    start = span.column - 1
    lines[span.line - 1] = line[:start] + problem.replacement + line[start + span.width :]
    return "".join(lines)


@patient
@given(misspelt())
def test_one_letter_wrong_is_at_most_one_problem_in_one_place(text: str) -> None:
    _, reading = read(text)

    assert len({problem.span.line for problem in reading.problems}) <= 1


SIGNS = [index for index, sign in enumerate(FULL) if sign in ':"[]{},-']


@given(st.sampled_from(SIGNS))
def test_one_sign_too_few_is_hardly_more_than_one_problem(at: int) -> None:
    _, reading = read(FULL[:at] + FULL[at + 1 :])

    assert len(reading.problems) <= 2


@given(st.permutations(["first.yaml", "second.yaml", "club.yaml"]), st.booleans())
def test_a_file_named_twice_counts_once(names: list[str], again: bool) -> None:
    files = [Source(name=name, text=FULL) for name in names]

    once = combine(files)
    twice = combine([*files, *files] if again else [files[0], *files])

    assert once.value == twice.value
    assert not once.problems and not twice.problems
