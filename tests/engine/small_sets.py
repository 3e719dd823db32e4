"""A few rules written into a test -> an advisor, and verdicts from plain words.

`advisor("lift-it: {concern: feasibility, strength: must, advise: {...}}")`: what a rule needs and
a test does not care about (title, because, cue) is added. Concerns, first to decide first:
feasibility, court position, pattern.
"""

import re
from textwrap import dedent, indent

from tactics.engine.advise import Advice, advise
from tactics.engine.advisor import Advisor
from tactics.engine.compile import compile_rules
from tactics.engine.judge import judge
from tactics.model.choice import Choice
from tactics.model.known import NOT_APPLICABLE, NOT_SEEN, Known, OneOf, Within
from tactics.model.names import fold
from tactics.model.rule import RuleSet
from tactics.model.situation import Situation
from tactics.model.standard import STANDARD
from tactics.model.verdict import Finding, Grade, Verdict
from tactics.model.vocabulary import Vocabulary
from tactics.reading.rules import read_rules
from tactics.reading.values import known
from tactics.source import Source

_HEAD = """\
rule set: Written into a test
precedence: [feasibility, court position, pattern]
"""
_SPARE = "title: Said, because: So it is, cue: Go, "


def rules(written: str, more: str = "") -> RuleSet:
    """Return a rule set; `more` holds further sections, such as terms."""
    body = re.sub(
        r"^([a-z-]+): \{", rf"\1: {{{_SPARE}", dedent(written).strip(), flags=re.MULTILINE
    )
    text = f"{_HEAD}{dedent(more).strip()}\nrules:\n{indent(body, '  ')}\n"
    reading = read_rules(Source(name="small.yaml", text=text))
    assert reading.problems == (), [problem.sentence for problem in reading.problems]
    assert reading.value is not None
    return reading.value


def advisor(written: str, more: str = "") -> Advisor:
    """Return an advisor on the plain matcher, which states the meaning."""
    return compile_rules(rules(written, more), "matcher")


def situation(written: str = "", words: Vocabulary = STANDARD) -> Situation:
    """Return a situation from `balance: set; court depth: 12 m`: a rally unless it says so."""
    return Situation.of({"game situation": OneOf(frozenset(("baseline rally",)))}).with_facts(
        _values(written, words)
    )


def choice(written: str, words: Vocabulary = STANDARD) -> Choice:
    """Return a choice from `direction: straight; height over net: 1 m`."""
    return Choice.of(_values(written, words))


def _values(written: str, words: Vocabulary) -> dict[str, Known]:
    pairs = [pair.split(":") for pair in written.split(";") if pair.strip()]
    return {fold(name): value(name.strip(), text.strip(), words) for name, text in pairs}


def value(name: str, written: str, words: Vocabulary = STANDARD) -> Known:
    """Return what a chart cell of this fact or part means."""
    read = known(written, words.trait(name), words)
    assert isinstance(read, OneOf | Within) or read in (NOT_SEEN, NOT_APPLICABLE), read
    return read


def advice(club: Advisor, facts: str = "") -> Advice:
    """Return what the rules say in a situation."""
    return advise(club, situation(facts, club.vocabulary))


def verdict(club: Advisor, chosen: str, facts: str = "") -> Verdict:
    """Return the verdict on a choice in a situation."""
    return judge(choice(chosen, club.vocabulary), advice(club, facts))


def finding(club: Advisor, part: str, chosen: str, facts: str = "") -> Finding:
    """Return what was found for one part of a choice."""
    return next(each for each in verdict(club, chosen, facts).findings if each.part == part)


def grades(club: Advisor, chosen: str, facts: str = "") -> dict[str, Grade]:
    """Return part -> grade of its finding."""
    return {each.part: each.grade for each in verdict(club, chosen, facts).findings}


def ids(club: Advisor, places: tuple[int, ...]) -> set[str]:
    """Return the ids of rules that are given as numbers of the program."""
    return {club.program.ready[place].rule.id for place in places}
