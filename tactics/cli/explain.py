"""`tactics explain`: the page of a rule, a mix, a term, a fact, a word, a drill or a problem."""

import argparse
import sys
from collections.abc import Iterable

from tactics.cli import files, messages
from tactics.cli.main import Exit
from tactics.cli.rule_files import load_drills, load_rules
from tactics.cli.terminal import heading_for
from tactics.model.drill import Catalogue
from tactics.model.names import fold, slug
from tactics.model.rule import RuleSet
from tactics.model.standard import STANDARD
from tactics.model.vocabulary import Vocabulary
from tactics.reading.suggest import did_you_mean, near
from tactics.report.layout import Section, text_of
from tactics.report.legality_page import CANNOT_HAPPEN, legality_page, line_ids, line_page
from tactics.report.rule_book_text import mix_sections
from tactics.report.rule_page import drill_page, rule_page, term_page
from tactics.report.verdicts import find_rule
from tactics.report.word_pages import trait_page, word_page, words_page

WORDS = "words"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "name", nargs="+", metavar="NAME",
        help="a rule, mix, term, fact, part, word, drill or problem code; or: words, cannot happen",
    )  # fmt: skip
    parser.add_argument(
        "--rules", action="append", default=[], metavar="FILE",
        help="a rule file or the name of a shipped rule set; may be given several times",
    )  # fmt: skip


def run(options: argparse.Namespace) -> int:
    """Print the page; return 2 where there is none of that name."""
    name = " ".join(options.name)
    page = _problem_page(name) or _page(name, options.rules)
    if page is None:
        return Exit.COULD_NOT_RUN
    print(page, end="")
    return Exit.FINE


def _problem_page(name: str) -> str | None:
    path = files.find_shipped(files.PAGES, name, ".md")
    return None if path is None else files.read_text(path)


def _page(name: str, written: list[str]) -> str | None:
    """Return the page of a name in the rule set, or None with what was probably meant."""
    loaded = load_rules(written, with_drills=False)
    rules = loaded.reading.value
    words = STANDARD if rules is None else rules.vocabulary
    if rules is None:
        messages.show_problems(loaded.reading.problems, loaded.sources)
    drills = load_drills()
    sections = _sections(name, words, rules, drills)
    if not sections:
        print(_nothing(name, words, rules, drills), file=sys.stderr)
        return None
    return text_of(sections, heading_for(sys.stdout))


def _sections(
    name: str, words: Vocabulary, rules: RuleSet | None, drills: Catalogue
) -> tuple[Section, ...]:
    if fold(name) == WORDS:
        return words_page(words)
    if fold(name) == CANNOT_HAPPEN:
        return legality_page(words, () if rules is None else rules.cannot_happen)
    rule = None if rules is None else find_rule(rules, name)
    if rules is not None and rule is not None:
        return rule_page(rule, rules, drills)
    if rules is not None:
        for mix in rules.mixes:
            if slug(mix.id) == slug(name) or fold(mix.title) == fold(name):
                return mix_sections(mix, rules, drills)
        for term in rules.terms:
            if fold(term.name) == fold(name):
                return term_page(term, rules)
    trait = words.find(name)
    if trait is not None:
        return trait_page(trait)
    drill = next((each for each in drills.drills if fold(each.id) == fold(name)), None)
    if drill is not None:
        return drill_page(drill)
    return line_page(slug(name), words) or word_page(name, words)


def _nothing(name: str, words: Vocabulary, rules: RuleSet | None, drills: Catalogue) -> str:
    found = near(name, _names(words, rules, drills))
    hint = did_you_mean(found) if found else "all names: tactics explain words"
    return f'tactics: nothing here is called "{name}"; {hint}'


def _names(words: Vocabulary, rules: RuleSet | None, drills: Catalogue) -> Iterable[str]:
    yield from (WORDS, CANNOT_HAPPEN)
    yield from line_ids()
    for trait in words.traits:
        yield trait.name
        yield from (word.name for word in trait.words)
    if rules is not None:
        yield from (rule.id for rule in rules.rules)
        yield from (mix.id for mix in rules.mixes)
        yield from (term.name for term in rules.terms)
    yield from (drill.id for drill in drills.drills)
    yield from (path.stem for path in files.shipped(files.PAGES, ".md"))
