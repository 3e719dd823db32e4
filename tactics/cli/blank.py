"""`tactics chart --blank FILE.xlsx`: a chart to fill in, with drop-down lists."""

import argparse
import sys
from pathlib import Path

from tactics.cli import files, messages
from tactics.cli.main import Exit
from tactics.cli.rule_files import load_rules

_ENDING = ".xlsx"


def write_blank(options: argparse.Namespace) -> int:
    """Write the spreadsheet named by `options.blank`, with the facts of `options.rules`.

    Return 2 where the rules cannot be read or a file of that name is there already: it may hold
    balls that somebody charted.
    """
    from tactics.report.blank_sheet import blank_sheet

    path = Path(options.blank)
    if path.suffix.casefold() != _ENDING:
        print(
            f"tactics: a blank chart is a spreadsheet, so its name ends in {_ENDING}: "
            f"{files.shown(path.with_suffix(_ENDING))}",
            file=sys.stderr,
        )
        return Exit.COULD_NOT_RUN
    if path.exists():
        print(
            f'tactics: "{files.shown(path)}" is there already and may hold balls; name another '
            "file",
            file=sys.stderr,
        )
        return Exit.COULD_NOT_RUN
    loaded = load_rules(options.rules, with_drills=False)
    if loaded.reading.value is None:
        messages.show_problems(loaded.reading.problems, loaded.sources)
        return Exit.COULD_NOT_RUN
    files.write_atomic(path, blank_sheet(loaded.reading.value.vocabulary))
    shown = files.shown(path)
    print(f"wrote {shown}: one row a ball on the first sheet; then: tactics audit {shown}")
    return Exit.FINE
