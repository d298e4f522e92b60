"""The closed table of units: what converts, by how much, and what never does."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.vocabulary.units import DENOMINATORS, NUMERATORS, UNITS, factor

UNIT = st.sampled_from([*UNITS, "%"])
# The dimension of each numerator, and how many of its smallest unit it is.
KINDS = {
    "g": ("mass", 1000.0),
    "mg": ("mass", 1.0),
    "mmol": ("substance", 1.0),
    "mEq": ("charge", 1.0),
    "mOsm": ("osmoles", 1.0),
    "kcal": ("heat", 4.184),
    "kJ": ("heat", 1.0),
    "mL": ("volume", 1.0),
    "L": ("volume", 1000.0),
    "unit": ("activity", 1.0),
    "mmHg": ("pressure", 1.0),
    "1": ("number", 1.0),
}


def test_the_table_is_every_numerator_over_every_denominator():
    assert len(UNITS) == len(set(UNITS)) == len(NUMERATORS) * len(DENOMINATORS)
    assert set(KINDS) == set(NUMERATORS)


@pytest.mark.parametrize("top", NUMERATORS)
@pytest.mark.parametrize("other", NUMERATORS)
def test_numerators_convert_within_their_kind_alone(top, other):
    (kind, size), (other_kind, other_size) = KINDS[top], KINDS[other]
    ratio = factor(top, other)
    if kind == other_kind:
        assert ratio == pytest.approx(size / other_size, rel=1e-9)
    else:
        assert ratio is None


@pytest.mark.parametrize("top", NUMERATORS)
def test_volumes_below_the_line_convert(top):
    assert factor(f"{top}/mL", f"{top}/L") == pytest.approx(1000.0)
    assert factor(f"{top}/100 mL", f"{top}/L") == pytest.approx(10.0)
    assert factor(f"{top}/day", f"{top}/h") == pytest.approx(1 / 24)
    assert factor(f"{top}/L", f"{top}/kg") is None
    assert factor(f"{top}/L", f"{top}/h") is None


def test_per_cent_is_grams_in_a_hundred_millilitres():
    """Of the solution (% w/v), as labels mean it. Common practice, no source."""
    assert factor("%", "g/L") == pytest.approx(10.0)
    assert factor("%", "mg/mL") == pytest.approx(10.0)
    assert factor("%", "mmol/L") is None


def test_a_calorie_is_the_thermochemical_one():
    """4.184 J: the thermochemical calorie, by definition. From memory."""
    assert factor("kcal/L", "kJ/L") == pytest.approx(4.184)


def test_counted_things_never_convert_into_each_other():
    for one in ("mmol/L", "mEq/L", "mOsm/L", "g/L", "unit/L"):
        for other in ("mmol/L", "mEq/L", "mOsm/L", "g/L", "unit/L"):
            assert (factor(one, other) is not None) == (one == other)


@given(UNIT, UNIT)
def test_there_and_back_is_where_one_started(one, other):
    there, back = factor(one, other), factor(other, one)
    assert (there is None) == (back is None)
    if there is not None and back is not None:
        assert math.isfinite(there)
        assert there * back == pytest.approx(1.0, rel=1e-6)


@given(UNIT)
def test_a_unit_is_itself(unit):
    assert factor(unit, unit) == 1.0
