"""Charts on disk -> balls: the one way in which every command reads csv, xlsx and ods."""

import argparse
import gc
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
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

_SEASON_BYTES = 2_000_000
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
    data = files.read_bytes(path)
    with _unswept(len(data)):
        return read_chart_bytes(files.shown(path), data, words, own)


@contextmanager
def _unswept(size: int) -> Iterator[None]:
    """Keep Python from looking for rubbish while a season is read, and later in its balls.

    Reading makes millions of small things that all stay; going through them costs a third of it.
    """
    if size < _SEASON_BYTES or not gc.isenabled():
        yield
        return
    gc.disable()
    try:
        yield
        gc.freeze()
    finally:
        gc.enable()


def show_proposals(problems: Iterable[Problem]) -> None:
    """Print the maps of columns that reading proposed, ready to be saved."""
    messages.show_problems(
        [each for each in problems if each.code == SheetCode.COLUMNS_PROPOSED], ()
    )
