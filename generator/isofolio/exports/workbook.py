"""The handbook as a spreadsheet workbook (Office Open XML), the same bytes every time."""

import datetime
import io
from typing import Any

import xlsxwriter

from isofolio.exports.figures import exported
from isofolio.exports.sheets import Sheet, sheets
from isofolio.handbook import UNDATED, Handbook

# Where no day is told: the oldest that a zip archive can hold. No clock is read.
OLDEST = datetime.datetime(1980, 1, 1)
# A row is written down when the next one begins, so that memory does not grow with the sheet.
OPTIONS = {"constant_memory": True}
# How many columns stay in view beside the header when a reader scrolls: id and name.
FROZEN = 2


def workbook_export(handbook: Handbook) -> bytes:
    """Every sheet as the bytes of an .xlsx file; text is never a formula."""
    return workbook_of(sheets(handbook), handbook.date)


def workbook_of(pages: tuple[Sheet, ...], date: str) -> bytes:
    """A workbook of the given sheets, dated as the catalogue is."""
    made = io.BytesIO()
    day = OLDEST if date == UNDATED else datetime.datetime.fromisoformat(date)
    with xlsxwriter.Workbook(made, OPTIONS) as book:
        told = {"title": "Isofolio handbook", "author": "Isofolio", "created": day}
        book.set_properties(told)
        for page in pages:
            _write(book, page)
    return made.getvalue()


def _write(book: Any, page: Sheet) -> None:
    """Write a sheet, row by row: texts as texts, whatever they begin with ("=" is no formula)."""
    into = book.add_worksheet(page.title)
    into.freeze_panes(1, FROZEN if len(page.columns) > FROZEN else 0)
    into.autofilter(0, 0, len(page.rows), len(page.columns) - 1)
    heading = book.add_format({"bold": True, "text_wrap": True, "valign": "top"})
    shown = [book.add_format({"num_format": number_format(c.decimals)}) for c in page.columns]
    for number, column in enumerate(page.columns):
        into.set_column(number, number, column.width)
        into.write_string(0, number, column.header, heading)
    for line, row in enumerate(page.rows, start=1):
        for number, value in enumerate(row):
            if isinstance(value, str):
                into.write_string(line, number, value)
            elif value is not None:
                into.write_number(line, number, exported(value), shown[number])


def number_format(decimals: int | None) -> str:
    """How a spreadsheet shows a figure; the cell itself keeps 12 digits.

    >>> number_format(2), number_format(0), number_format(None)
    ('0.00', '0', 'General')
    """
    if decimals is None:
        return "General"
    return f"0.{'0' * decimals}" if decimals else "0"
