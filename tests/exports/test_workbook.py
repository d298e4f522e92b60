"""The workbook: what other readers find in it, and that nothing in it runs or depends on a clock.

Read again by openpyxl and by pandas. The rule that a text cell is no formula is that of the format
itself: ECMA-376 part 1, 18.3.1.4 (the type of a cell) and 18.3.1.40 (formula). From memory.
"""

import io
import zipfile
from xml.etree import ElementTree

import openpyxl
import pandas
import pytest

from isofolio.exports.figures import exported
from isofolio.exports.sheets import Column, Sheet, sheets
from isofolio.exports.workbook import number_format, workbook_export, workbook_of
from isofolio.vocabulary.purpose import PURPOSE
from isofolio.vocabulary.quantities import QUANTITY_BY_ID

TITLES = ["read me", "fluids", "contents", "containers", "unknown", "cautions"]
TITLES += ["label audit", "sources"]
MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"


@pytest.fixture(scope="module")
def data(handbook):
    return workbook_export(handbook)


@pytest.fixture(scope="module")
def book(data):
    return openpyxl.load_workbook(io.BytesIO(data))


@pytest.fixture(scope="module")
def frames(data):
    return pandas.read_excel(io.BytesIO(data), sheet_name=None)


def heading(quantity, unit):
    return f"{QUANTITY_BY_ID[quantity].label} [{unit}]"


def test_every_sheet_is_there_with_header_and_rows(handbook, book, frames):
    assert book.sheetnames == list(frames) == TITLES
    for page in sheets(handbook):
        sheet = book[page.title]
        assert [cell.value for cell in sheet[1]] == [column.header for column in page.columns]
        assert sheet.max_row == len(page.rows) + 1 > 1
        assert all(cell.font.bold for cell in sheet[1])
        assert sheet.freeze_panes.endswith("2")
        assert sheet.auto_filter.ref == sheet.dimensions
        alike = sheet.column_dimensions.values()
        widths = [one.width for one in alike for _ in range(one.min, one.max + 1)]
        # A spreadsheet adds room for the margins of a cell: five pixels of a seven-pixel digit.
        assert widths == pytest.approx([column.width for column in page.columns], abs=0.8)


def test_the_fluids_are_the_table_of_the_handbook(handbook, frames):
    table, frame = handbook.table(), frames["fluids"].set_index("id")
    assert list(frame.index) == list(table.index)
    for quantity in handbook.quantities:
        ours = frame[heading(quantity, QUANTITY_BY_ID[quantity].unit)].astype(float)
        assert ours.isna().tolist() == table[quantity].isna().tolist()
        assert ours.sum() == pytest.approx(table[quantity].sum(), rel=1e-11, abs=1e-8)
        assert ours.tolist() == pytest.approx(table[quantity].tolist(), rel=1e-11, nan_ok=True)


def test_what_containers_hold(handbook, frames):
    frame = frames["containers"]
    assert len(frame) == sum(len(fluid.containers) for fluid in handbook.fluids)
    checked = 0
    for _, row in frame.iterrows():
        for quantity in ("sodium", "glucose_mass", "free_water"):
            unit = QUANTITY_BY_ID[quantity].container_unit
            held = handbook.in_container(row["id"], quantity, row["volume [mL]"]).number
            if held is None:
                assert pandas.isna(row[heading(quantity, unit)])
            else:
                assert row[heading(quantity, unit)] == exported(held)
                checked += 1
    assert checked > 300


def test_contents_and_what_is_unknown(handbook, frames):
    contents = frames["contents"]
    saline = contents[contents["id"] == "sodium-chloride-0-9"]
    assert saline[["content", "amount", "unit"]].values.tolist() == [["sodium-chloride", 9, "g/L"]]
    albumin = contents[(contents["id"] == "albumin-5") & (contents["content"] == "sodium")]
    assert albumin[["low", "high"]].values.tolist() == [[130, 160]]
    assert albumin["amount"].isna().all()
    assert albumin["reason"].tolist() == ["declared as a range"]
    assert len(frames["unknown"]) == len(handbook.measures.reasons)
    assert frames["unknown"]["reason"].notna().all()


def test_cautions_audit_and_sources_are_all_there(handbook, frames):
    raised = sum(len(judgement.cautions) for judgement in handbook.judgements.values())
    assert len(frames["cautions"]) == raised
    assert len(frames["label audit"]) == sum(len(lines) for lines in handbook.audit.values())
    assert set(frames["sources"]["id"]) == {fluid.id for fluid in handbook.fluids}


def test_it_says_what_it_is(handbook, frames):
    told = dict(frames["read me"].values.tolist())
    assert told["purpose"] == PURPOSE
    assert "Not for deciding the treatment of an individual" in PURPOSE
    assert handbook.digest in told["built from"]
    assert told["catalogue of"] == handbook.date


def test_figures_are_shown_with_the_decimals_of_the_pages(book, handbook):
    row = {cell.value: cell.column for cell in book["fluids"][1]}
    for quantity in handbook.quantities:
        column = row[heading(quantity, QUANTITY_BY_ID[quantity].unit)]
        shown = {
            cell.number_format
            for (cell,) in book["fluids"].iter_rows(2, None, column, column)
            if cell.value is not None
        }
        assert shown == {number_format(QUANTITY_BY_ID[quantity].decimals)}


def cells(data):
    """Every cell as it stands in the file, by sheet."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for name in archive.namelist():
            if name.startswith("xl/worksheets/"):
                yield from ElementTree.fromstring(archive.read(name)).iter(f"{MAIN}c")


def test_no_cell_of_the_workbook_is_a_formula(data):
    count = 0
    for cell in cells(data):
        assert cell.find(f"{MAIN}f") is None
        assert cell.get("t", "n") in ("n", "inlineStr")
        count += 1
    assert count > 10_000


@pytest.mark.parametrize(
    "hostile",
    [
        '=HYPERLINK("x")',
        "=1+1",
        "+1",
        "-1",
        "@SUM(A1)",
        "#N/A",
        "\t=1",
        "{=1}",
        "<b>&amp;</b>",
        "1",
    ],
)
def test_a_hostile_text_is_a_text_and_comes_back_as_it_was(hostile):
    page = Sheet("one", (Column(hostile), Column("figure", decimals=1)), ((hostile, -1.5),))
    data = workbook_of((page,), "2026-11-25")
    assert all(cell.find(f"{MAIN}f") is None for cell in cells(data))
    sheet = openpyxl.load_workbook(io.BytesIO(data))["one"]
    for cell in (sheet["A1"], sheet["A2"]):
        assert (cell.data_type, cell.value) == ("s", hostile)
    assert (sheet["B2"].data_type, sheet["B2"].value) == ("n", -1.5)


def test_a_name_that_looks_like_a_formula_is_none(handbook_of_one):
    data = workbook_export(handbook_of_one(name="=1+1", contents=[]))
    sheet = openpyxl.load_workbook(io.BytesIO(data))["fluids"]
    assert (sheet["B2"].data_type, sheet["B2"].value) == ("s", "=1+1")


def test_the_same_bytes_every_time(handbook, data):
    assert workbook_export(handbook) == data


def test_no_clock_in_it(handbook, data, book):
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 31, 0, 0, 0)}
        assert archive.testzip() is None
    assert {str(day)[:10] for day in (book.properties.created, book.properties.modified)} == {
        handbook.date
    }
    assert (book.properties.modified.hour, book.properties.modified.second) == (0, 0)


def test_a_catalogue_without_a_date_has_the_oldest_one(handbook_of_one):
    data = workbook_export(handbook_of_one(contents=[]))
    assert openpyxl.load_workbook(io.BytesIO(data)).properties.created.year == 1980
