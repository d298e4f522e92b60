"""What stays effective in the body, and when free water may be spoken of."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.physiology.tonicity import (
    PLASMA_CATIONS,
    PLASMA_EFFECTIVE_OSMOLARITY,
    PLASMA_WATER_CATIONS,
    effective_osmolarity,
    effective_particles,
    free_water,
    free_water_applies,
    tonicity_ratio,
)
from isofolio.physiology.traits import Trait
from isofolio.vocabulary.terms import FATES

TRAITS = {
    "sodium": Trait(1, True, "stays"),
    "chloride": Trait(-1, True, "stays"),
    "lactate": Trait(-1, True, "becomes-bicarbonate"),
    "gluconate": Trait(-1, True, "may-become-bicarbonate"),
    "citrate": Trait(-3, True, "becomes-bicarbonate"),
    "phosphate": Trait(-2, False, "stays"),
    "glucose": Trait(0, False, "burnt"),
    "mannitol": Trait(0, False, "stays"),
}
FLUID = st.dictionaries(st.sampled_from(sorted(TRAITS)), st.floats(0.0, 300.0))


@given(FLUID, st.floats(0.0, 3000.0))
def test_glucose_never_changes_what_is_effective(fluid, glucose):
    without = {name: amount for name, amount in fluid.items() if name != "glucose"}
    sweetened = {**without, "glucose": glucose}
    assert effective_osmolarity(sweetened, TRAITS) == effective_osmolarity(without, TRAITS)


@given(FLUID, st.sampled_from(["sodium", "lactate", "gluconate", "mannitol"]), st.floats(0.1, 9.0))
def test_lactate_and_gluconate_count_like_any_ion(fluid, name, more):
    stronger = {**fluid, name: fluid.get(name, 0.0) + more}
    before = effective_osmolarity(fluid, TRAITS)
    assert effective_osmolarity(stronger, TRAITS) == pytest.approx(before + more)


def test_citrate_is_replaced_by_three_bicarbonates():
    assert effective_osmolarity({"citrate": 10.0}, TRAITS) == 30.0


def test_malate_counts_by_the_charge_that_it_has_in_the_bag():
    traits = {"malate": Trait(np.array([-1.0, -2.0]), True, "becomes-bicarbonate")}
    particles = {"malate": np.array([5.0, 5.0])}
    np.testing.assert_array_equal(effective_osmolarity(particles, traits), [5.0, 10.0])


def test_nothing_is_nothing_and_unknown_is_unknown():
    assert effective_osmolarity({}, TRAITS) == 0.0
    assert math.isnan(effective_osmolarity({"sodium": math.nan}, TRAITS))
    assert math.isnan(effective_osmolarity({"xenon": 1.0}, TRAITS))


@pytest.mark.parametrize("fate", FATES)
def test_every_fate_of_the_vocabulary_has_a_count(fate):
    assert effective_particles(Trait(-1, True, fate)) in (0.0, 1.0)


def test_reference_figures_belong_together():
    # 144 mmol of sodium and potassium in plasma that is 93 % water, and as many anions.
    assert round(PLASMA_CATIONS / 0.93, 2) == PLASMA_WATER_CATIONS
    assert round(2 * PLASMA_WATER_CATIONS, 1) == PLASMA_EFFECTIVE_OSMOLARITY
    assert tonicity_ratio(PLASMA_EFFECTIVE_OSMOLARITY) == 1.0


@given(st.floats(0.0, 1000.0), st.floats(0.001, 100.0))
def test_more_cations_are_less_free_water(cations, more):
    assert free_water(cations + more, 0.0) < free_water(cations, 0.0) <= 1.0


@given(st.floats(0.0, 500.0), st.floats(0.0, 500.0))
def test_potassium_counts_as_sodium(one, other):
    assert free_water(one, other) == free_water(other, one)


def test_free_water_may_be_negative_but_is_never_guessed():
    assert free_water(513.3, 0.0) < -2.0
    assert math.isnan(free_water(math.nan, 0.0))


@pytest.mark.parametrize(
    ("sodium", "potassium", "effective", "applies"),
    [
        (0.0, 0.0, 0.0, True),  # water, glucose
        (154.0, 0.0, 308.0, True),
        (95.0, 0.0, 200.0, True),  # 95 % exactly
        (94.9, 0.0, 200.0, False),
        (0.0, 0.0, 549.0, False),  # mannitol
        (math.nan, 0.0, 308.0, False),
        (154.0, 0.0, math.nan, False),
    ],
)
def test_free_water_applies_from_95_percent_on(sodium, potassium, effective, applies):
    assert free_water_applies(sodium, potassium, effective) is applies


def test_limit_of_the_rule_comes_in_as_an_argument():
    assert free_water_applies(90.0, 0.0, 200.0, minimum_share=0.9) is True
