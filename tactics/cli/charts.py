"""Charts on disk -> balls: the one way in which every command reads csv, xlsx and ods."""

import argparse
from collections.abc import Iterable
from pathlib import Path

from tactics.cli import files, messages
from tactics.model.ball import Chart
from tactics.model.vocabulary import Vocabulary
from tactics.problem import Problem, Reading
from tactics.reading.charts import read_chart_bytes
from tactics.reading.column_map import read_column_map
from tactics.reading.decoding import RULE_FILE_LIMIT, decode
from tactics.reading.own_names import NO_MAP, ColumnMap
from tactics.reading.sheet_codes import SheetCode

CHART_FILES = "charts: csv, xlsx or ods"


def add_columns(parser: argparse.ArgumentParser) -> None:
    """Declare the option for a coach's own headings."""
    parser.add_argument(
        "--columns", metavar="FILE",
        help="what your own headings and words stand for (YAML); audit proposes such a file",
    )  # fmt: skip


def own_columns(options: argparse.Namespace, words: Vocabulary) -> ColumnMap | None:
    """Return what the headings stand for, or None with the problems of the file shown."""
    written = getattr(options, "columns", None)
    if written is None:
        return NO_MAP
    path = Path(written)
    decoded = decode(files.shown(path), files.read_bytes(path, RULE_FILE_LIMIT + 1))
    if decoded.value is None:
        messages.show_problems(decoded.problems, ())
        return None
    read = read_column_map(decoded.value, words)
    messages.show_problems(read.problems, (decoded.value,))
    return read.value if read.is_usable else None


def read_chart_file(path: Path, words: Vocabulary, own: ColumnMap = NO_MAP) -> Reading[Chart]:
    """Return the balls of a file; OSError where it cannot be opened."""
    return read_chart_bytes(files.shown(path), files.read_bytes(path), words, own)


def show_proposals(problems: Iterable[Problem]) -> None:
    """Print the maps of columns that reading proposed, ready to be saved."""
    messages.show_problems(
        [each for each in problems if each.code == SheetCode.COLUMNS_PROPOSED], ()
    )
