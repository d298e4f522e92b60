"""Strong ion difference in the bag and in the body."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.physiology.strong_ions import (
    bicarbonate_yield,
    sid_in_bag,
    sid_in_body,
    sid_in_body_low,
)
from isofolio.physiology.traits import Trait

TRAITS = {
    "sodium": Trait(1, True, "stays"),
    "potassium": Trait(1, True, "stays"),
    "calcium": Trait(2, True, "stays"),
    "chloride": Trait(-1, True, "stays"),
    "sulfate": Trait(-2, True, "stays"),
    "lactate": Trait(-1, True, "becomes-bicarbonate"),
    "citrate": Trait(-3, True, "becomes-bicarbonate"),
    "gluconate": Trait(-1, True, "may-become-bicarbonate"),
    "bicarbonate": Trait(-1, False, "stays"),
    "phosphate": Trait(-2, False, "stays"),
    "glucose": Trait(0, False, "burnt"),
}
SALTS = {
    "salt": {"sodium": 1, "chloride": 1},
    "potash": {"potassium": 1, "chloride": 1},
    "lime": {"calcium": 1, "chloride": 2},
    "lactate": {"sodium": 1, "lactate": 1},
    "gluconate": {"sodium": 1, "gluconate": 1},
    "citrate": {"sodium": 3, "citrate": 1},
    "soda": {"sodium": 1, "bicarbonate": 1},
    "glauber": {"sodium": 2, "sulfate": 1},
    "sugar": {"glucose": 1},
}
AMOUNTS = st.dictionaries(st.sampled_from(sorted(SALTS)), st.floats(0.0, 300.0))


def dissolved(amounts):
    particles = {}
    for salt, amount in amounts.items():
        for particle, count in SALTS[salt].items():
            particles[particle] = particles.get(particle, 0.0) + count * amount
    return particles


@given(AMOUNTS)
def test_neutral_fluid_without_weak_acids_yields_its_difference_as_bicarbonate(amounts):
    fluid = dissolved(amounts)
    expected = sid_in_body(fluid, TRAITS)
    assert bicarbonate_yield(fluid, TRAITS) == pytest.approx(expected, abs=1e-9)


@given(AMOUNTS)
def test_difference_in_the_bag_is_what_weak_acids_balance(amounts):
    fluid = dissolved(amounts)
    balanced = fluid.get("bicarbonate", 0.0)
    assert sid_in_bag(fluid, TRAITS) == pytest.approx(balanced, abs=1e-9)


@given(AMOUNTS)
def test_low_estimate_lacks_the_gluconate_and_nothing_else(amounts):
    fluid = dissolved(amounts)
    low, high = sid_in_body_low(fluid, TRAITS), sid_in_body(fluid, TRAITS)
    assert high - low == pytest.approx(fluid.get("gluconate", 0.0), abs=1e-9)


@given(AMOUNTS, st.floats(0.1, 9.0))
def test_strong_acid_lowers_it_and_glucose_does_not_touch_it(amounts, more):
    fluid = dissolved(amounts)
    sweeter = {**fluid, "glucose": 278.0}
    acid = {**fluid, "chloride": fluid.get("chloride", 0.0) + more}
    assert sid_in_body(sweeter, TRAITS) == sid_in_body(fluid, TRAITS)
    assert sid_in_body(acid, TRAITS) == pytest.approx(sid_in_body(fluid, TRAITS) - more)


def test_phosphate_is_a_weak_acid_and_left_out():
    assert sid_in_body({"potassium": 2.0, "phosphate": 1.0}, TRAITS) == 2.0
    assert bicarbonate_yield({"potassium": 2.0, "phosphate": 1.0}, TRAITS) == 0.0


def test_polyanion_counts_as_a_fixed_anion_where_it_is_given():
    gelatin = {"sodium": 154.0, "chloride": 120.0}
    assert sid_in_body(gelatin, TRAITS) == 34.0
    assert sid_in_body(gelatin, TRAITS, polyanion=34.0) == 0.0
    assert sid_in_bag(gelatin, TRAITS, polyanion=34.0) == 0.0
    assert math.isnan(sid_in_body(gelatin, TRAITS, polyanion=math.nan))


@pytest.mark.parametrize("figure", [sid_in_bag, sid_in_body, sid_in_body_low, bicarbonate_yield])
def test_edges(figure):
    assert figure({}, TRAITS) == 0.0
    assert math.isnan(figure({"xenon": 1.0}, TRAITS))
    many = figure({"bicarbonate": np.array([0.0, math.nan])}, TRAITS)
    assert many[0] == 0.0


def test_unknown_sodium_is_an_unknown_difference():
    table = {"sodium": np.array([154.0, math.nan]), "chloride": np.array([154.0, 154.0])}
    np.testing.assert_array_equal(sid_in_body(table, TRAITS), [0.0, math.nan])
