"""The list of quantities: one line each, with a unit of the closed table."""

import re

import pytest

from isofolio.vocabulary import quantities
from isofolio.vocabulary.units import UNITS, factor

ALL = (*quantities.QUANTITIES, *quantities.DECLARED_ONLY, *quantities.PLASMA_ONLY)


def test_every_id_stands_once():
    ids = [quantity.id for quantity in ALL]
    assert len(ids) == len(set(ids))
    assert list(quantities.QUANTITY_BY_ID) == [q.id for q in quantities.QUANTITIES]


@pytest.mark.parametrize("quantity", ALL, ids=lambda quantity: quantity.id)
def test_a_quantity_is_whole(quantity):
    assert re.fullmatch(r"[a-z0-9]+(_[a-z0-9]+)*", quantity.id)
    assert quantity.label
    assert quantity.unit in {*UNITS, "%", "mOsm/kg"}
    assert 0 <= quantity.decimals <= 3
    assert quantity.scales == bool(quantity.container_unit)


@pytest.mark.parametrize(
    "quantity", [q for q in ALL if q.scales and q.unit != "1"], ids=lambda quantity: quantity.id
)
def test_what_a_container_holds_is_the_unit_without_its_litre(quantity):
    assert quantity.unit == f"{quantity.container_unit}/L"
    assert factor(quantity.unit, f"{quantity.container_unit}/100 mL") == pytest.approx(0.1)


def test_classes_strengths_and_ph_never_scale():
    """A bag of two litres is no stronger than one of one."""
    for name in ("osmolarity", "osmolality", "sid_in_bag", "tonicity_ratio", "ph_1l", "charge_gap"):
        assert not quantities.QUANTITY_BY_ID[name].scales


def test_labels_declare_more_than_is_computed_and_plasma_more_than_labels():
    computed = set(quantities.QUANTITY_BY_ID)
    assert computed < set(quantities.DECLARABLE) < set(quantities.IN_PLASMA)
    assert set(quantities.DECLARABLE) - computed == {"ph", "osmolality_measured"}
