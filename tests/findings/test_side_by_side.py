"""Fluids side by side: the volume that a basis asks for, and what it holds. Figures by hand."""

from types import SimpleNamespace

import pytest

from isofolio.entries.scalars import parse_amount
from isofolio.findings.side_by_side import HOLDS_NONE, rows_of, unit_of
from isofolio.measures.values import Value

NAN = float("nan")


def asked(*show, fluids=(), volume=None, quantity=None, amount=None):
    """A question of a situation: what all fluids have in common, and what is shown of each."""
    basis = SimpleNamespace(
        volume=volume and parse_amount(volume),
        quantity=quantity,
        amount=amount and parse_amount(amount),
    )
    return SimpleNamespace(basis=basis, fluids=list(fluids), show=list(show))


def one_row(make, question, **figures):
    """The row of one made-up fluid."""
    (row,) = rows_of(question, ("fluid-0000",), *make(figures))
    return row


@pytest.mark.parametrize(
    ("volume", "millilitres"), [("2100 mL", 2100.0), ("1 L", 1000.0), ("0.5 L", 500.0)]
)
def test_a_volume_is_the_same_for_all_and_holds_its_share(make, volume, millilitres):
    """154 mmol and 308 mOsm a litre; of a litre 249 mL stay in plasma."""
    question = asked("volume", "sodium", "osmolarity", "plasma_gain", volume=volume)
    found = one_row(make, question, sodium=154.0, osmolarity=308.0, plasma_gain=249.0)
    assert found.volume == Value(millilitres)
    assert found.figures == (
        ("sodium", Value(pytest.approx(154.0 * millilitres / 1000.0))),
        ("osmolarity", Value(308.0)),
        ("plasma_gain", Value(pytest.approx(249.0 * millilitres / 1000.0))),
    )


def test_a_share_is_in_the_unit_of_a_container(make):
    """Free water is a fraction of a litre, 0.5; of 500 mL it is 250 mL."""
    question = asked("free_water", volume="500 mL")
    assert one_row(make, question, free_water=0.5).figures == (("free_water", Value(250.0)),)


@pytest.mark.parametrize(
    ("quantity", "amount", "litre", "millilitres"),
    [
        ("glucose_mass", "20 g", 50.0, 400.0),
        ("glucose_mass", "20000 mg", 50.0, 400.0),
        ("potassium", "20 mmol", 40.0, 500.0),
        ("potassium", "20 mmol", 0.5, 40_000.0),
    ],
)
def test_an_amount_asks_for_the_volume_that_holds_it(make, quantity, amount, litre, millilitres):
    question = asked("sodium", quantity=quantity, amount=amount)
    found = one_row(make, question, sodium=100.0, **{quantity: litre})
    assert found.volume == Value(pytest.approx(millilitres))
    assert found.figures == (("sodium", Value(pytest.approx(millilitres / 10.0))),)


@pytest.mark.parametrize(("litre", "reason"), [(0.0, HOLDS_NONE), (NAN, "not declared")])
def test_without_a_volume_what_scales_has_its_reason_and_the_rest_stands(make, litre, reason):
    question = asked("sodium", "osmolarity", quantity="glucose_mass", amount="20 g")
    found = one_row(make, question, sodium=154.0, osmolarity=308.0, glucose_mass=litre)
    assert found.volume == Value(None, reason)
    assert found.figures == (("sodium", Value(None, reason)), ("osmolarity", Value(308.0)))


def test_the_reason_is_told_as_a_reader_needs_it():
    assert HOLDS_NONE == "it holds none of it"


def test_the_fluids_of_the_question_go_before_those_of_the_situation(make):
    catalogue, table = make({}, {}, {})
    chosen = asked(volume="1 L", fluids=["fluid-0002", "fluid-0001"])
    rows = rows_of(chosen, ("fluid-0000",), catalogue, table)
    assert [row.fluid.id for row in rows] == ["fluid-0002", "fluid-0001"]
    rows = rows_of(asked(volume="1 L"), ("fluid-0000",), catalogue, table)
    assert [row.fluid.id for row in rows] == ["fluid-0000"]


@pytest.mark.parametrize(
    ("question", "message"),
    [
        ({"volume": "20 mmol"}, "a basis in mmol is not mL: check the catalogue."),
        ({"volume": "20"}, "a basis in 1 is not mL: check the catalogue."),
        ({"volume": "not declared"}, "a basis in no unit is not mL: check the catalogue."),
        (
            {"quantity": "glucose_mass", "amount": "20 mmol"},
            "a basis in mmol is not g: check the catalogue.",
        ),
    ],
)
def test_a_basis_in_another_dimension_is_refused(make, question, message):
    with pytest.raises(ValueError, match=f"^{message}$"):
        one_row(make, asked(**question), glucose_mass=50.0)


@pytest.mark.parametrize(
    ("quantity", "unit"),
    [
        ("sodium", "mmol"),
        ("glucose_mass", "g"),
        ("osmolarity", "mOsm/L"),
        ("plasma_gain", "mL"),
        ("free_water", "mL"),
    ],
)
def test_the_unit_is_that_of_the_figure(quantity, unit):
    assert unit_of(quantity) == unit
