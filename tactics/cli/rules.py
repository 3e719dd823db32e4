"""`tactics rules`: the rules of a set as a readable page, or as a hand-out."""

import argparse
import sys
from pathlib import Path

from tactics.cli import files, messages
from tactics.cli.main import Exit
from tactics.cli.rule_files import load_drills, load_rules
from tactics.cli.terminal import can_draw, heading_for
from tactics.engine.compile import compile_rules
from tactics.model.rule import RuleSet
from tactics.report.rule_book import RuleBook, rule_book

_BY_ENDING = {".md": "markdown", ".html": "html", ".htm": "html"}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "rules", nargs="*", metavar="RULES",
        help="rule files, or names of rule sets that come with the program; several are read as "
        "one set, each built on those before it (default: singles-club)",
    )  # fmt: skip
    parser.add_argument(
        "--format", choices=("terminal", "markdown", "html"), dest="style",
        help="how the page is set (default: by the ending of -o, else for the terminal)",
    )  # fmt: skip
    parser.add_argument(
        "-o", "--output", metavar="FILE", help="write the page to a file instead of the screen"
    )
    parser.add_argument("--ascii", action="store_true", help="draw courts with plain characters")


def run(options: argparse.Namespace) -> int:
    """Show or write the page; return 2 where the rules could not be read."""
    loaded = load_rules(options.rules, with_drills=False)
    rules = loaded.reading.value
    if rules is None or not loaded.reading.is_usable:
        messages.show_problems(loaded.reading.problems, loaded.sources)
        return Exit.COULD_NOT_RUN
    path = Path(options.output) if options.output else None
    style = options.style or (_BY_ENDING.get(path.suffix.lower()) if path else None)
    text = _text(rules, style or "terminal", plain=options.ascii, to_file=path is not None)
    if path is None:
        print(text, end="")
    else:
        files.write_atomic(path, text.encode("utf-8"))
        print(f"wrote {files.shown(path)}", file=sys.stderr)
    return Exit.FINE


def _text(rules: RuleSet, style: str, *, plain: bool, to_file: bool) -> str:
    book = rule_book(compile_rules(rules, engine="matcher"), load_drills())
    if style == "html":
        from tactics.report.html.rule_book import rule_book_html

        return rule_book_html(book)
    if style == "markdown":
        from tactics.report.rule_book_markdown import rule_book_markdown

        return rule_book_markdown(book)
    return _for_terminal(book, plain=plain, to_file=to_file)


def _for_terminal(book: RuleBook, *, plain: bool, to_file: bool) -> str:
    from tactics.report.court_text import ASCII, DRAWN
    from tactics.report.layout import text_of
    from tactics.report.rule_book_text import rule_book_sections

    marks = ASCII if plain or not (to_file or can_draw(sys.stdout)) else DRAWN
    heading = str if to_file else heading_for(sys.stdout)
    return text_of(rule_book_sections(book, marks), heading)
