"""Every kind of mistake that only a spreadsheet can hold, or a file that names its columns."""

from enum import StrEnum

OWN_SHEETS = frozenset({"words", "on paper", "lists"})
"""Sheets that a blank chart carries beside its balls; nobody needs to hear that they are unread."""


class SheetCode(StrEnum):
    """Codes of problems in spreadsheets; each has its page."""

    DAMAGED_SPREADSHEET = "damaged-spreadsheet"
    LOCKED_SPREADSHEET = "locked-spreadsheet"
    LARGE_SPREADSHEET = "large-spreadsheet"
    OTHER_SPREADSHEET = "other-spreadsheet"
    MERGED_CELLS = "merged-cells"
    DATE_IN_CELL = "date-in-cell"
    UNREAD_SHEET = "unread-sheet"
    COLUMNS_PROPOSED = "columns-proposed"
    NOT_A_COLUMN = "not-a-column"
