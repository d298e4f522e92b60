"""Energy: three conventions that must not be mixed up."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.chemistry.energy import energy, energy_organic, energy_us, kilojoules


@given(st.floats(0.0, 700.0), st.floats(0.001, 50.0))
def test_more_sugar_is_more_energy(grams, more):
    assert energy(grams + more) > energy(grams)
    assert energy_us(grams + more) > energy_us(grams)


@pytest.mark.parametrize("convert", [energy, energy_us])
def test_edges(convert):
    assert convert(0.0) == 0.0
    assert math.isnan(convert(math.nan))
    with pytest.raises(ValueError, match="cannot be negative"):
        convert(-1.0)


def test_no_organic_anion_no_energy():
    assert energy_organic(0.0, 0.0, 0.0) == 0.0


def test_one_unknown_anion_makes_the_energy_unknown():
    many = energy_organic(np.array([28.0, math.nan]), 0.0, 0.0)
    np.testing.assert_allclose(many, [8.988, math.nan])


def test_a_kilocalorie_is_4184_joules():
    assert kilojoules(1.0) == 4.184


@pytest.mark.parametrize(
    ("convert", "named"),
    [(energy, "mass of glucose is -1.0,"), (energy_us, "mass of glucose monohydrate is -1.0,")],
)
def test_a_refusal_names_the_form_of_the_sugar(convert, named):
    with pytest.raises(ValueError, match="write it as") as caught:
        convert(-1.0)
    assert str(caught.value).startswith(named)
