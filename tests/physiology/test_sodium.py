"""Sodium change for any volume."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.physiology.sodium import (
    BODY_WATER_FACTORS,
    sodium_change,
    sodium_change_linear,
    total_body_water,
)

SERUM = st.floats(100.0, 180.0)
WATER = st.floats(10.0, 60.0)
SODIUM = st.floats(0.0, 900.0)
VOLUME = st.floats(0.0, 5.0)


@given(SODIUM, SERUM, WATER, VOLUME)
def test_sodium_and_water_are_conserved(sodium, serum, water, volume):
    after = serum + sodium_change(sodium, 0.0, serum, water, volume)
    assert after * (water + volume) == pytest.approx(serum * water + sodium * volume)


@given(SODIUM, SERUM, WATER)
def test_one_litre_is_where_the_linear_rule_is_exact(sodium, serum, water):
    exact = sodium_change(sodium, 0.0, serum, water, 1.0)
    assert sodium_change_linear(sodium, 0.0, serum, water, 1.0) == exact


@given(SODIUM, SERUM, WATER, st.floats(1.01, 5.0))
def test_above_one_litre_the_linear_rule_overstates(sodium, serum, water, volume):
    exact = sodium_change(sodium, 0.0, serum, water, volume)
    linear = sodium_change_linear(sodium, 0.0, serum, water, volume)
    assert abs(linear) >= abs(exact)


@given(SERUM, WATER, VOLUME)
def test_fluid_of_the_same_sodium_changes_nothing(serum, water, volume):
    assert sodium_change(serum, 0.0, serum, water, volume) == 0.0


@given(SODIUM, SERUM, WATER, VOLUME)
def test_change_never_passes_the_fluid(sodium, serum, water, volume):
    change = sodium_change(sodium, 0.0, serum, water, volume)
    assert abs(change) <= abs(sodium - serum)


@given(SODIUM, st.floats(0.0, 100.0), SERUM, WATER)
def test_potassium_counts_as_sodium(sodium, potassium, serum, water):
    together = sodium_change(sodium + potassium, 0.0, serum, water)
    assert sodium_change(sodium, potassium, serum, water) == together


def test_edges():
    assert sodium_change(513.3, 0.0, 115.0, 35.0, 0.0) == 0.0
    assert math.isnan(sodium_change(math.nan, 0.0, 115.0, 35.0))
    np.testing.assert_allclose(sodium_change(np.array([0.0, 154.0]), 0.0, 154.0, 10.0), [-14, 0])
    with pytest.raises(ValueError, match=r"body water is 0\.0"):
        sodium_change(154.0, 0.0, 140.0, 0.0)
    with pytest.raises(ValueError, match=r"volume is -1\.0"):
        sodium_change(154.0, 0.0, 140.0, 42.0, -1.0)


def test_body_water_needs_a_weight_and_a_factor():
    with pytest.raises(ValueError, match=r"weight is 0\.0"):
        total_body_water(0.0, 0.6)
    with pytest.raises(ValueError, match="body water factor"):
        total_body_water(70.0, 0.0)


def test_factors_cannot_be_changed_by_accident():
    with pytest.raises(TypeError):
        BODY_WATER_FACTORS["man"] = 0.7
