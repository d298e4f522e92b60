"""The handbook as a spreadsheet workbook (Office Open XML), the same bytes every time."""

import datetime
import io
import zipfile
from typing import Any

from openpyxl import Workbook
from openpyxl.cell import Cell as Written
from openpyxl.cell import WriteOnlyCell
from openpyxl.packaging.core import DocumentProperties
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter
from openpyxl.xml.functions import tostring

from isofolio.exports.figures import exported
from isofolio.exports.sheets import Column, Sheet, sheets
from isofolio.handbook import UNDATED, Handbook

# A zip archive cannot be older; no clock is read.
OLDEST = (1980, 1, 1, 0, 0, 0)
PROPERTIES = "docProps/core.xml"
# The header and the first two columns stay in view when a reader scrolls.
FROZEN = "C2"
HEADER = Font(bold=True)
WRAPPED = Alignment(wrap_text=True, vertical="top")


def workbook_export(handbook: Handbook) -> bytes:
    """Every sheet as the bytes of an .xlsx file; text is never a formula."""
    return workbook_of(sheets(handbook), handbook.date)


def workbook_of(pages: tuple[Sheet, ...], date: str) -> bytes:
    """A workbook of the given sheets, dated as the catalogue is."""
    book = Workbook(write_only=True)
    for page in pages:
        _write(book.create_sheet(page.title), page)
    made = io.BytesIO()
    book.save(made)
    return _steady(made.getvalue(), _properties(date))


def _write(into: Any, page: Sheet) -> None:
    """Write a sheet, row by row; `into` is openpyxl's write-only worksheet."""
    into.freeze_panes = FROZEN if len(page.columns) > 2 else "A2"
    for number, column in enumerate(page.columns, start=1):
        into.column_dimensions[get_column_letter(number)].width = column.width
    into.append([_heading(into, column) for column in page.columns])
    pens = [_pen(into, column) for column in page.columns]
    for row in page.rows:
        pairs = zip(row, pens, strict=True)
        into.append([None if value is None else _filled(pen, value) for value, pen in pairs])
    last = get_column_letter(len(page.columns))
    into.auto_filter.ref = f"A1:{last}{len(page.rows) + 1}"


def _heading(into: Any, column: Column) -> Written:
    cell = _filled(WriteOnlyCell(into), column.header)
    cell.font, cell.alignment = HEADER, WRAPPED
    return cell


def _pen(into: Any, column: Column) -> Written:
    """The one cell that writes a column: each row is on its way before the next is set."""
    pen = WriteOnlyCell(into)
    pen.number_format = number_format(column.decimals)
    return pen


def _filled(pen: Written, value: str | float) -> Written:
    """The pen with a value; a text is a text, whatever it begins with ("=" is no formula)."""
    if isinstance(value, str):
        pen.value = value
        pen.data_type = "s"
    else:
        pen.value = exported(value)
    return pen


def number_format(decimals: int | None) -> str:
    """How a spreadsheet shows a figure; the cell itself keeps 12 digits.

    >>> number_format(2), number_format(0), number_format(None)
    ('0.00', '0', 'General')
    """
    if decimals is None:
        return "General"
    return f"0.{'0' * decimals}" if decimals else "0"


def _properties(date: str) -> bytes:
    """Who made the workbook and when: the catalogue's date, never the clock's."""
    day = datetime.datetime(*OLDEST)
    if date != UNDATED:
        day = datetime.datetime.fromisoformat(date)
    told = DocumentProperties(creator="Isofolio", title="Isofolio handbook")
    told.created = told.modified = day
    return bytes(tostring(told.to_tree()))


def _steady(archive: bytes, properties: bytes) -> bytes:
    """The same archive without a trace of when it was written."""
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(archive)) as old, zipfile.ZipFile(made, "w") as new:
        for name in old.namelist():
            entry = zipfile.ZipInfo(name, OLDEST)
            entry.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(entry, properties if name == PROPERTIES else old.read(name))
    return made.getvalue()
