"""The tidy table: one row a fluid and a quantity, safe to open in a spreadsheet."""

import csv
import io
import math

import pytest

from isofolio.exports.csv_text import COLUMNS, csv_export, inert
from isofolio.exports.figures import exported
from isofolio.vocabulary.quantities import QUANTITY_BY_ID


def rows_of(text):
    return list(csv.DictReader(io.StringIO(text, newline="")))


@pytest.fixture(scope="module")
def text(handbook):
    return csv_export(handbook)


@pytest.fixture(scope="module")
def rows(text):
    return rows_of(text)


def test_one_row_a_fluid_and_a_quantity(handbook, rows):
    pairs = [(row["id"], row["quantity"]) for row in rows]
    assert pairs == [(f.id, q) for f in handbook.fluids for q in handbook.quantities]
    assert tuple(rows[0]) == COLUMNS


def test_value_or_reason(handbook, rows):
    for row in rows:
        value = handbook.value(row["id"], row["quantity"])
        assert row["reason"] == value.reason
        if value.number is None:
            assert row["value"] == ""
        else:
            assert float(row["value"]) == exported(value.number)


def test_same_numbers_as_the_frame(handbook, rows):
    frame = handbook.table()
    for row in rows:
        number = frame.loc[row["id"], row["quantity"]]
        if row["value"] == "":
            assert math.isnan(number)
        else:
            assert float(row["value"]) == pytest.approx(number, rel=1e-11, abs=1e-9)


def test_every_row_says_unit_state_and_origin(handbook, rows):
    for row in rows:
        assert row["unit"] == QUANTITY_BY_ID[row["quantity"]].unit != ""
        assert row["review"] == "draft"
        assert handbook.digest in row["built_from"]


def test_ranges_stand_in_their_own_columns(rows):
    sodium = next(r for r in rows if (r["id"], r["quantity"]) == ("albumin-5", "sodium"))
    assert (sodium["value"], sodium["low"], sodium["high"]) == ("", "130", "160")
    assert sodium["reason"] == "declared as a range"
    potassium = next(r for r in rows if (r["id"], r["quantity"]) == ("albumin-5", "potassium"))
    assert (potassium["low"], potassium["high"]) == ("0", "2")


def test_absent_is_zero_and_unknown_is_empty(rows):
    by_pair = {(row["id"], row["quantity"]): row["value"] for row in rows}
    assert by_pair["glucose-5", "sodium"] == "0"
    assert by_pair["albumin-4", "potassium"] == ""


def test_lines_end_with_a_line_feed_and_there_is_no_negative_zero(text):
    assert "\r" not in text
    assert text.endswith("\n")
    assert ",-0," not in text


def test_same_handbook_same_bytes(handbook, text):
    assert csv_export(handbook) == text


# Source: OWASP, "CSV Injection": the signs, tab, carriage return, line feed, full-width forms. From
# memory.
STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


@pytest.mark.parametrize("start", STARTS)
def test_a_text_that_a_spreadsheet_would_run_is_inert(handbook_of_one, start):
    hostile = f'{start}HYPERLINK("x")'
    assert inert(hostile) == f"'{hostile}"
    if start.isspace():
        return  # a name loses its outer spaces when it is read
    rows = rows_of(csv_export(handbook_of_one(name=hostile, contents=[])))
    assert {row["name"] for row in rows} == {f"'{hostile}"}


def test_no_text_cell_of_the_real_table_starts_a_formula(rows):
    for row in rows:
        for column in ("id", "name", "quantity", "unit", "reason", "review", "built_from"):
            assert not row[column].startswith(STARTS)


def test_a_negative_number_stays_a_number(handbook_of_one):
    # Ions that do not balance: the gap is below zero, and no apostrophe turns it into a text.
    contents = [{"particle": "chloride", "amount": "10 mmol/L"}]
    rows = rows_of(csv_export(handbook_of_one(contents=contents)))
    gap = next(row for row in rows if row["quantity"] == "charge_gap")
    assert gap["value"] == "-10"


def test_commas_quotes_and_line_feeds_survive(handbook_of_one):
    name = 'Ringer\'s, "lactated"'
    rows = rows_of(csv_export(handbook_of_one(name=name, contents=[])))
    assert {row["name"] for row in rows} == {name}


def test_the_table_is_tidy(rows):
    """Each variable a column, each observation a row, one kind of thing a table (Wickham, Tidy
    data, J Stat Softw 2014;59(10), section 2.3; from memory): read by pandas, it pivots to the
    frame of the handbook without a key that stands twice."""
    import pandas

    frame = pandas.DataFrame(rows)
    wide = frame.pivot(index="id", columns="quantity", values="value")
    assert wide.shape == (frame["id"].nunique(), frame["quantity"].nunique())
    assert frame.groupby("quantity")["unit"].nunique().eq(1).all()
    assert frame.groupby("id")["name"].nunique().eq(1).all()
    assert ((frame["value"] == "") == (frame["reason"] != "")).all()


def test_every_column_is_documented_on_the_downloads_page():
    from isofolio.pages.downloads import CSV_COLUMNS

    named = [name for names, meaning in CSV_COLUMNS if meaning for name in names.split(", ")]
    assert tuple(named) == COLUMNS
