"""Spreadsheets made for tests: xlsx through XlsxWriter, ods by hand."""

import io
import zipfile
from collections.abc import Sequence
from datetime import date
from xml.sax.saxutils import escape, quoteattr

import xlsxwriter

_SPACES = (
    'xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
    'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
    'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"'
)
KIND = "application/vnd.oasis.opendocument.spreadsheet"


def xlsx(**sheets: Sequence[Sequence[object]]) -> bytes:
    """Return a book with these sheets; a str is written as a string, a date with a format."""
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True})
    day, percent = (book.add_format({"num_format": each}) for each in ("yyyy-mm-dd", "0%"))
    for name, rows in sheets.items():
        sheet = book.add_worksheet(name)
        for number, row in enumerate(rows):
            for index, cell in enumerate(row):
                match cell:
                    case "" | None:
                        pass
                    case str():
                        sheet.write_string(number, index, cell)
                    case bool():
                        sheet.write_boolean(number, index, cell)
                    case date():
                        sheet.write_datetime(number, index, cell, day)
                    case float() if 0 < cell < 1:
                        sheet.write_number(number, index, cell, percent)
                    case _:
                        sheet.write(number, index, cell)
    book.close()
    return out.getvalue()


def ods(rows: str, manifest: str = "") -> bytes:
    """Return a book of one sheet from the XML of its rows."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("mimetype", KIND, zipfile.ZIP_STORED)
        archive.writestr("META-INF/manifest.xml", (
            '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"'
            f' manifest:version="1.2"><manifest:file-entry manifest:full-path="/" '
            f'manifest:media-type="{KIND}"/>{manifest}</manifest:manifest>'))  # fmt: skip
        archive.writestr("content.xml", (
            f'<?xml version="1.0" encoding="UTF-8"?><office:document-content {_SPACES}>'
            '<office:body><office:spreadsheet><table:table table:name="balls">'
            f"{rows}</table:table></office:spreadsheet></office:body>"
            "</office:document-content>"))  # fmt: skip
    return out.getvalue()


def ods_row(*cells: str, times: int = 1) -> str:
    return (
        f'<table:table-row table:number-rows-repeated="{times}">{"".join(cells)}</table:table-row>'
    )


def ods_text(text: str, times: int = 1) -> str:
    lines = "".join(f"<text:p>{escape(line)}</text:p>" for line in text.split("\n"))
    return (
        f'<table:table-cell office:value-type="string" table:number-columns-repeated="{times}">'
        f"{lines}</table:table-cell>"
    )


def ods_value(kind: str, value: str, shown: str) -> str:
    name = {"date": "date-value", "boolean": "boolean-value", "time": "time-value"}.get(
        kind, "value"
    )
    return (
        f'<table:table-cell office:value-type="{kind}" office:{name}={quoteattr(value)}>'
        f"<text:p>{escape(shown)}</text:p></table:table-cell>"
    )


ODS_REST = '<table:table-cell table:number-columns-repeated="16384"/>'
