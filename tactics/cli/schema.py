"""`tactics schema`: a JSON Schema of rule files, for completion in editors."""

import argparse
import json
import sys
from pathlib import Path

from tactics.cli import files, messages
from tactics.cli.main import Exit
from tactics.cli.rule_files import load_drills, load_rules
from tactics.model.rule import RuleSet
from tactics.report.json_schema import drill_file_schema, rule_file_schema
from tactics.report.json_schema_values import Schema
from tactics.report.quiz_schema import quiz_file_schema


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument(
        "--for", action="append", default=[], metavar="FILE", dest="written",
        help="a rule file (or the name of a shipped rule set) whose own facts, terms and concerns "
        "belong into it; may be given several times",
    )  # fmt: skip
    kinds = parser.add_mutually_exclusive_group()
    kinds.add_argument(
        "--drills", action="store_true", help="the schema of drill files instead of rule files"
    )
    kinds.add_argument(
        "--quiz", action="store_true", help="the schema of quiz files instead of rule files"
    )
    parser.add_argument(
        "-o", "--output", metavar="FILE", help="write it to a file instead of the screen"
    )


def run(options: argparse.Namespace) -> int:
    """Show or write the schema; return 2 where the rule file cannot be read at all."""
    rules: RuleSet | None = None
    if options.written:
        loaded = load_rules(options.written, with_drills=False)
        rules = loaded.reading.value
        # a file that is being written may well have problems; its words can be known all the same
        if rules is None:
            messages.show_problems(loaded.reading.problems, loaded.sources)
            return Exit.COULD_NOT_RUN
    text = json.dumps(_schema(options, rules), ensure_ascii=False, indent=1) + "\n"
    if options.output:
        path = Path(options.output)
        files.write_atomic(path, text.encode("utf-8"))
        print(f"wrote {files.shown(path)}", file=sys.stderr)
    else:
        print(text, end="")
    return Exit.FINE


def _schema(options: argparse.Namespace, rules: RuleSet | None) -> Schema:
    if options.drills:
        return drill_file_schema(rules)
    return quiz_file_schema(rules) if options.quiz else rule_file_schema(rules, load_drills())
