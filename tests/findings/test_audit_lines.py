"""One printed figure beside ours: what is compared, in how many decimals, and with what else."""

from dataclasses import replace

import pytest

from isofolio.entries.scalars import parse_amount
from isofolio.findings.audit_figures import (
    EXACT,
    NOMINAL,
    OFF,
    ROUNDED,
    nearness,
    printed,
    thresholds,
)
from isofolio.findings.audit_lines import (
    Bench,
    Line,
    agrees,
    computed,
    lines_of,
    ours,
    said,
)
from isofolio.measures.table import table_of
from isofolio.measures.values import Value


@pytest.fixture
def line(chemistry):
    """A function that makes the line of a printed text beside a figure of ours."""
    catalogue = chemistry
    limits = thresholds(catalogue)

    def made(quantity, text, number):
        figure = printed(quantity, parse_amount(text), catalogue)
        near = "" if figure is None else nearness(figure, number, limits)
        return Line(quantity, text, figure, Value(number), near)

    return made


@pytest.mark.parametrize(
    ("quantity", "text", "number", "near", "words"),
    [
        # An exact figure is told as everywhere.
        ("sodium", "154 mmol/L", 154.3, EXACT, "154 mmol/L"),
        ("calcium", "1.36 mmol/L", 1.3604, EXACT, "1.4 mmol/L"),
        # One step away, a decimal more than the label prints tells the two apart.
        ("sodium", "155 mmol/L", 154.3, ROUNDED, "154.3 mmol/L"),
        ("sodium", "155 mmol/L", 154.0, ROUNDED, "154 mmol/L"),
        ("calcium", "2.26 mmol/L", 2.2518, ROUNDED, "2.252 mmol/L"),
        # Farther away, as many as the label prints do.
        ("sodium", "151 mmol/L", 154.3, NOMINAL, "154 mmol/L"),
        ("sodium", "154.0 mmol/L", 155.72, NOMINAL, "155.7 mmol/L"),
        ("calcium", "2.20 mmol/L", 2.2518, NOMINAL, "2.25 mmol/L"),
        ("calcium", "2 mmol/L", 5.36, OFF, "5.4 mmol/L"),
        # A figure rounded to ten has no decimals, and one step away it has one.
        ("osmolarity", "1030 mOsm/L", 1060.2, NOMINAL, "1060 mOsm/L"),
        ("osmolarity", "1030 mOsm/L", 1037.2, ROUNDED, "1037.2 mOsm/L"),
        # A step that is no power of ten, since the label counts in milliequivalents.
        ("calcium", "2.6 mEq/L", 1.3604, OFF, "1.36 mmol/L"),
        ("calcium", "5 mEq/L", 2.0, ROUNDED, "2 mmol/L"),
        ("calcium", "5 mEq/L", 2.003, ROUNDED, "2.00 mmol/L"),
        ("osmolality_measured", "270 mOsm/kg", 286.8, OFF, "287 mOsm/kg"),
        ("sodium", "trace", 154.3, "", "154 mmol/L"),
        ("sodium", "1 mmol/L", 0.0, OFF, "0 mmol/L"),
    ],
)
def test_our_figure_in_as_many_decimals_as_tell_it_apart(line, quantity, text, number, near, words):
    made = line(quantity, text, number)
    assert made.near == near
    assert ours(made).replace("\u00a0", " ") == words


def test_a_figure_that_is_not_known_is_told_as_nought(line):
    made = replace(line("sodium", "1 mmol/L", 1.0), ours=Value(None, "not declared"))
    assert ours(made).replace("\u00a0", " ") == "0 mmol/L"


@pytest.mark.parametrize(
    ("number", "quantity", "words"),
    [
        (154.0, "sodium", "154 mmol/L"),
        (5.36, "potassium", "5.4 mmol/L"),
        (286.8, "osmolality_measured", "287 mOsm/kg"),
        (286.8, "osmolality", "287 mOsm/kg"),
    ],
)
def test_a_figure_with_its_unit(number, quantity, words):
    assert said(number, quantity).replace("\u00a0", " ") == words


def test_a_measured_osmolality_stands_beside_our_estimate(real):
    table = real[1]
    estimate = table.value("glucose-5", "osmolality")
    assert estimate.number is not None
    assert computed(table, "glucose-5", "osmolality_measured") == estimate
    assert computed(table, "glucose-5", "sodium") == Value(0.0)
    assert computed(table, "glucose-5", "ph").reason.startswith("the pH of a bag follows from")


def test_the_lines_of_one_source(chemistry, invented):
    """Each value as written, in our unit, beside ours; nothing is near what is not compared."""
    fluid = invented(
        [("sodium-chloride", "9 g/L")],
        {"sodium": "155 mmol/L", "ph": "4.5 to 7.0", "chloride": "trace"},
    )
    catalogue = replace(chemistry, fluids={fluid.id: fluid})
    limits = thresholds(catalogue)
    found = lines_of(fluid, fluid.declared[0], catalogue, table_of(catalogue), limits)
    assert [(line.quantity, line.text, line.near) for line in found] == [
        ("sodium", "155 mmol/L", ROUNDED),
        ("ph", "4.5 to 7.0", ""),
        ("chloride", "trace", ""),
    ]
    assert [line.figure and line.figure.high for line in found] == [155.0, 7.0, None]
    assert found[0].ours.number == pytest.approx(154.0, abs=0.01)


# Other readings are computed only where a figure is not exact.


GLUCOSE = [("glucose", "50 g/L")]


def test_readings_are_those_of_fluids_with_a_figure_that_is_not_exact(bench):
    made, _ = bench(
        exact=(GLUCOSE, {"osmolarity": "278 mOsm/L"}),
        none=(GLUCOSE, {"osmolarity": "trace"}),
        off=(GLUCOSE, {"osmolarity": "278 mOsm/L", "glucose": "200 mmol/L"}),
    )
    assert set(made.recipes) == {"off"}
    assert set(made.catalogue.fluids) == {"exact", "none", "off"}
    assert made.table.value("exact", "osmolarity").number == pytest.approx(277.5, abs=0.1)
    assert made.limits.nominal == 0.03
    (monohydrate,) = made.recipes["off"]
    assert made.reading(monohydrate, "osmolarity") == pytest.approx(252.3, abs=0.1)
    assert made.reading(monohydrate, "glucose") == pytest.approx(252.3, abs=0.1)
    # Nobody asked for its sodium, and an osmolality is never read in another way.
    assert made.reading(monohydrate, "sodium") is None
    assert set(made.readings.numbers) == {"osmolarity", "glucose"}


def test_of_what_has_no_other_reading_none_is_computed(bench):
    made, _ = bench(salt=([("sodium-chloride", "9 g/L")], {"sodium": "140 mmol/L"}))
    assert made.readings is None
    assert made.recipes == {"salt": ()}


def test_one_fluid_with_another_reading_is_enough(bench):
    made, _ = bench(
        salt=([("sodium-chloride", "9 g/L")], {"sodium": "140 mmol/L"}),
        sugar=(GLUCOSE, {"glucose": "200 mmol/L"}),
    )
    assert set(made.recipes) == {"salt", "sugar"}
    assert made.reading(made.recipes["sugar"][0], "glucose") == pytest.approx(252.3, abs=0.1)


@pytest.mark.parametrize(
    ("values", "wanted"),
    [
        ({"glucose": "200 mmol/L"}, {"glucose"}),
        (
            {"energy": "150 kcal/L"},
            {"energy", "energy_us", "energy_organic", "glucose_mass"},
        ),
        (
            {"energy_organic": "150 kcal/L", "osmolality": "250 mOsm/kg"},
            {"energy", "energy_us", "energy_organic", "glucose_mass"},
        ),
    ],
)
def test_an_energy_may_be_worked_out_from_others(bench, values, wanted):
    """And an estimate of the osmolality is not read in another way."""
    made, _ = bench(sugar=(GLUCOSE, values))
    assert set(made.readings.numbers) == wanted


def test_a_figure_of_the_same_source_agrees_with_a_reading_or_not(bench):
    made, groups = bench(
        sugar=(GLUCOSE, {"osmolarity": "252 mOsm/L", "glucose": "278 mmol/L", "sodium": "trace"})
    )
    osmolarity, glucose, sodium = groups["sugar"][0]
    (monohydrate,) = made.recipes["sugar"]
    assert agrees(osmolarity, monohydrate, made)
    assert not agrees(glucose, monohydrate, made)
    # Nominal is not off, and what cannot be compared speaks against nothing.
    near = replace(glucose, figure=replace(glucose.figure, low=258.0, high=258.0))
    assert agrees(near, monohydrate, made)
    assert agrees(sodium, monohydrate, made)
    assert agrees(replace(glucose, quantity="potassium"), monohydrate, made)
    assert agrees(glucose, monohydrate, Bench(made.catalogue, made.table, made.limits, {}, None))
