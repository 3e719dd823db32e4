"""A fact or a term that nothing asks for is a remark; what builds on the file is not blamed."""

import re
from pathlib import Path

import tactics
from tactics.checks.unused_names import unused_names
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.reading.rules import read_rules
from tactics.source import Source

PAGE = Path(tactics.__file__).parent / "pages" / "unused-name.md"
HEAD = """\
rule set: Below
precedence: [safety]
facts:
  sun:
    words: {elsewhere: nobody squints, in our eyes: everybody does}
    ordinary: elsewhere
  stand depth:
    unit: m
    from: 0
    to: 22
"""
RULE = """\
rules:
  lift-it:
    title: Lift it
    concern: safety
    strength: should
    advise: {height over net: at least 0.5 m}
    because: The net is in the way.
    cue: Lift
"""


def advisor_of(text: str, **below: str) -> Advisor:
    files = {name: Source(name=name, text=other) for name, other in below.items()}
    reading = read_rules(Source(name="own.yaml", text=text), files.get)
    assert reading.problems == ()
    return compile_rules(reading.value, "matcher")


def test_the_page_shows_one_and_none() -> None:
    wrong, right = re.findall(r"(?s)```yaml\n(.*?)```", PAGE.read_text("utf-8"))

    assert [each.code for each in unused_names(advisor_of(wrong))] == ["unused-name"]
    assert unused_names(advisor_of(right)) == ()


def test_a_fact_of_words_is_named_where_it_stands_and_a_number_may_be_for_charts() -> None:
    found = unused_names(advisor_of(HEAD + RULE))

    assert [(each.span.line, each.sentence) for each in found] == [
        (4, 'no rule asks for the fact "sun"')
    ]


def test_what_a_file_below_brings_along_is_not_this_files_doing() -> None:
    above = "rule set: Above\nbuilds on: [below]\n"

    assert unused_names(advisor_of(above, below=HEAD + RULE)) == ()
