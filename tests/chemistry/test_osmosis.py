"""Osmolarity, osmotic coefficients, the osmolality estimate and its limits."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.chemistry.osmosis import (
    all_tabulated,
    freezing_point_depression,
    ionic_strength,
    osmolality,
    osmolality_applies,
    osmolality_error,
    osmolality_from_freezing_point,
    osmolarity_from_masses,
    osmotic_coefficient,
    theoretical_osmolarity,
    water_content,
)
from isofolio.chemistry.solutes import (
    FixedCoefficient,
    LinearCoefficient,
    PitzerParameters,
    Solute,
)

SALT = PitzerParameters(0.0765, 0.2664, 0.00127)
SOLUTES = {
    "salt": Solute(2, 1.0, SALT),
    "calcium-chloride": Solute(3, 3.0, PitzerParameters(0.3159, 1.614, -0.00034, 0.0, 1, 2, 2, 1)),
    "lactate": Solute(2, 1.0, SALT, tabulated=False),
    "citrate": Solute(4, 6.0, FixedCoefficient(0.80), tabulated=False),
    "glucose": Solute(1, 0.0, LinearCoefficient(0.022)),
}
MIXTURE = st.dictionaries(st.sampled_from(sorted(SOLUTES)), st.floats(0.0, 300.0), min_size=1)
VOLUMES = {"sodium": -1.21, "chloride": 17.83, "glucose": 111.9}


@given(MIXTURE, st.randoms(use_true_random=False))
def test_osmolality_does_not_depend_on_the_order_to_the_last_bit(mixture, random):
    names = list(mixture)
    random.shuffle(names)
    shuffled = {name: mixture[name] for name in names}
    assert osmolality(SOLUTES, shuffled, 0.99) == osmolality(SOLUTES, mixture, 0.99)


@given(MIXTURE, st.sampled_from(["salt", "glucose"]), st.floats(0.01, 10.0))
def test_more_of_a_solute_is_more_osmolality(mixture, name, more):
    stronger = {**mixture, name: mixture.get(name, 0.0) + more}
    assert osmolality(SOLUTES, stronger, 0.99) > osmolality(SOLUTES, mixture, 0.99)


@given(st.lists(MIXTURE, min_size=1, max_size=4))
def test_array_form_equals_one_fluid_at_a_time(fluids):
    table = {name: np.array([fluid.get(name, 0.0) for fluid in fluids]) for name in SOLUTES}
    one_by_one = [osmolality(SOLUTES, fluid, 0.99) for fluid in fluids]
    np.testing.assert_allclose(osmolality(SOLUTES, table, 0.99), one_by_one, rtol=1e-14)


def test_water_has_no_osmolality():
    assert osmolality(SOLUTES, {}, 0.99705) == osmolality(SOLUTES, {"salt": 0.0}, 0.997) == 0.0


@given(st.sampled_from(sorted(SOLUTES)))
def test_very_dilute_solutions_are_ideal(name):
    particles = SOLUTES[name].particles
    ideal = particles * 1e-6
    if name == "citrate":  # a fixed ratio does not become 1
        ideal *= 0.80
    assert osmolality(SOLUTES, {name: 1e-6}, 1.0) == pytest.approx(ideal, rel=2e-4)


def test_unknown_amount_and_unlisted_substance_are_unknown():
    assert math.isnan(osmolality(SOLUTES, {"salt": math.nan}, 0.99))
    assert math.isnan(osmolality(SOLUTES, {"salt": 154.0, "mystery": 1.0}, 0.99))
    assert math.isnan(osmolality(SOLUTES, {"salt": 154.0}, math.nan))


def test_coefficient_at_no_ionic_strength_is_one_and_below_is_refused():
    assert osmotic_coefficient(0.0, SALT) == 1.0
    assert math.isnan(osmotic_coefficient(math.nan, SALT))
    with pytest.raises(ValueError, match=r"ionic strength is -0\.1"):
        osmotic_coefficient(-0.1, SALT)


def test_ions_alone_behave_as_the_salt_they_are_taken_to_be():
    ions = {"sodium": Solute(1, 0.5, SALT), "chloride": Solute(1, 0.5, SALT)}
    as_ions = osmolality(ions, {"sodium": 154.0, "chloride": 154.0}, 0.9945)
    assert as_ions == pytest.approx(osmolality(SOLUTES, {"salt": 154.0}, 0.9945))


def test_sugar_adds_no_ionic_strength():
    assert ionic_strength(SOLUTES, {"salt": 0.15, "glucose": 0.3}) == 0.15


def test_third_parameter_counts_for_two_two_salts_only():
    with_it = PitzerParameters(0.221, 3.343, 0.025, -37.23, 1, 1, 2, 2)
    without = PitzerParameters(0.221, 3.343, 0.025, 0.0, 1, 1, 2, 2)
    assert osmotic_coefficient(0.1, with_it) < osmotic_coefficient(0.1, without)


def test_osmolarity_counts_every_particle_once():
    assert theoretical_osmolarity({}) == 0.0
    assert math.isnan(theoretical_osmolarity({"sodium": math.nan, "chloride": 1.0}))
    many = theoretical_osmolarity({"sodium": np.array([154.0, 0.0]), "chloride": 154.0})
    np.testing.assert_array_equal(many, [308.0, 154.0])


def test_osmolarity_from_masses_refuses_an_impossible_molar_mass():
    with pytest.raises(ValueError, match=r"molar mass is 0\.0"):
        osmolarity_from_masses([(9.0, 0.0, 2)])


@given(st.floats(0.0, 3000.0), st.floats(1.0, 50.0))
def test_more_sugar_leaves_less_water(glucose, more):
    def water(amount):
        return water_content({"glucose": amount}, VOLUMES)

    assert water(glucose + more) < water(glucose) <= water(0.0) == 0.99705


def test_particle_without_a_volume_is_unknown_where_it_is_present():
    assert math.isnan(water_content({"malate": 5.0}, VOLUMES))
    assert water_content({"malate": 0.0}, VOLUMES) == 0.99705


@given(st.floats(0.0, 5000.0))
def test_freezing_point_and_back(osmoles):
    depression = freezing_point_depression(osmoles)
    assert osmolality_from_freezing_point(depression) == pytest.approx(osmoles)


@pytest.mark.parametrize(
    ("strength", "tabulated", "bicarbonate", "error"),
    [
        (0.15, True, 0.0, 3.0),
        (0.15, False, 0.0, 5.0),
        (1.0, True, 0.0, 5.0),
        (0.15, True, 150.0, 5.0),
        (1.03, True, 1000.0, 8.0),
        (1.01, False, 0.0, math.nan),
        (6.01, True, 0.0, math.nan),
        (math.nan, True, 0.0, math.nan),
        (0.15, True, math.nan, math.nan),
    ],
)
def test_error_of_the_estimate(strength, tabulated, bicarbonate, error):
    assert osmolality_error(strength, tabulated, bicarbonate) == pytest.approx(error, nan_ok=True)


def test_estimate_applies_element_by_element():
    strength, own = np.array([0.15, 1.5, 1.5, math.nan]), np.array([False, False, True, True])
    np.testing.assert_array_equal(osmolality_applies(strength, own), [True, False, True, False])


def test_a_likened_salt_counts_only_where_it_is_present():
    table = {"salt": np.array([154.0, 100.0]), "lactate": np.array([0.0, 28.0])}
    np.testing.assert_array_equal(all_tabulated(SOLUTES, table), [True, False])
    assert all_tabulated(SOLUTES, {"lactate": math.nan}) is False


def test_the_short_range_of_a_two_two_salt_falls_off_as_published():
    """exp(-1.4 sqrt I) and exp(-12 sqrt I): Pitzer and Mayorga, J Phys Chem 1974;78:2698 (memory).

    With b1 and c left out, the coefficient at a known ionic strength gives b2's factor back.
    """
    strength, b2 = 0.04, -37.23
    with_it = PitzerParameters(0.0, 0.0, 0.0, b2, 1, 1, 2, 2)
    without = PitzerParameters(0.0, 0.0, 0.0, 0.0, 1, 1, 2, 2)
    share = osmotic_coefficient(strength, with_it) - osmotic_coefficient(strength, without)
    assert share / (b2 * strength / 4.0) == pytest.approx(math.exp(-12.0 * 0.2))


def test_osmolarity_from_masses_is_a_thousand_times_moles():
    """A mole of a sugar in a litre is 1000 mOsm/L by definition."""
    assert osmolarity_from_masses([(180.156, 180.156, 1)]) == 1000.0


def test_a_single_fluid_of_tabulated_substances_is_told_as_true():
    assert all_tabulated(SOLUTES, {"salt": 154.0}) is True


def test_a_trace_of_bicarbonate_already_widens_the_error():
    assert osmolality_error(0.15, True, 0.5) == 5.0


def test_a_refusal_names_the_water_content():
    with pytest.raises(ValueError, match=r"^water content is 0\.0,"):
        osmolality(SOLUTES, {"salt": 154.0}, 0.0)


def test_the_answer_for_one_fluid_is_a_plain_truth_value():
    assert osmolality_applies(0.15, False) is True
    assert osmolality_applies(6.01, True) is False
