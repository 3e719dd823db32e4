"""Every kind of mistake that a chart can hold beyond a value its column does not take."""

from enum import StrEnum


class ChartCode(StrEnum):
    """Codes of problems in charts; each has its page."""

    EMPTY_CHART = "empty-chart"
    NOT_A_CHART = "not-a-chart"
    CHART_ENCODING = "chart-encoding"
    NUL_CHARACTER = "nul-character"
    UNKNOWN_COLUMN = "unknown-column"
    COLUMN_WITHOUT_NAME = "column-without-name"
    COLUMN_TWICE = "column-twice"
    MISSING_COLUMN = "missing-column"
    RAGGED_ROW = "ragged-row"
    OPEN_QUOTE = "open-quote"
    LONG_CELL = "long-cell"
    FORMULA_IN_CELL = "formula-in-cell"
    ONE_WORD_ONLY = "one-word-only"
    UNCLEAR_DATE = "unclear-date"
