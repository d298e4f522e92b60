"""Charge of ions, of weighed salts, of acids and of colloids."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.chemistry.charge import (
    anion_charge,
    cation_charge,
    charge_from_base,
    charge_gap,
    charge_left_to,
    label_tolerance,
    milliequivalents,
    phosphate_charge,
    polyanion_charge,
)
from isofolio.chemistry.composition import dissolve, millimoles_from_grams, sum_particles
from isofolio.chemistry.formula import molar_mass

CHARGES = {
    "sodium": 1,
    "potassium": 1,
    "calcium": 2,
    "magnesium": 2,
    "chloride": -1,
    "lactate": -1,
    "sulfate": -2,
    "citrate": -3,
    "glucose": 0,
}
SALTS = {
    "NaCl": {"sodium": 1, "chloride": 1},
    "KCl": {"potassium": 1, "chloride": 1},
    "CaCl2(H2O)2": {"calcium": 1, "chloride": 2},
    "MgCl2(H2O)6": {"magnesium": 1, "chloride": 2},
    "MgSO4(H2O)7": {"magnesium": 1, "sulfate": 1},
    "C3H5O3Na": {"sodium": 1, "lactate": 1},
    "Na3C6H5O7": {"sodium": 3, "citrate": 1},
    "C6H12O6": {"glucose": 1},
}
RECIPE = st.dictionaries(st.sampled_from(sorted(SALTS)), st.floats(0.0, 300.0))


def gap(particles):
    return charge_gap(cation_charge(particles, CHARGES), anion_charge(particles, CHARGES))


@given(RECIPE)
def test_any_mix_of_weighed_salts_is_neutral(recipe):
    particles = sum_particles(
        dissolve(millimoles_from_grams(grams, molar_mass(salt)), SALTS[salt])
        for salt, grams in recipe.items()
    )
    assert abs(gap(particles)) < 1e-6


@given(st.floats(0.0, 500.0), st.floats(0.001, 10.0))
def test_more_of_a_cation_is_more_charge(amount, more):
    def charge(calcium):
        return cation_charge({"calcium": calcium}, CHARGES)

    assert charge(amount + more) > charge(amount)


def test_no_ions_no_charge():
    assert cation_charge({}, CHARGES) == anion_charge({}, CHARGES) == gap({}) == 0.0


def test_sugar_has_no_charge():
    assert cation_charge({"glucose": 278.0}, CHARGES) == 0.0


def test_ion_without_a_charge_number_is_unknown_not_zero():
    assert math.isnan(cation_charge({"lithium": 1.0}, CHARGES))
    assert cation_charge({"lithium": 0.0, "sodium": 1.0}, CHARGES) == 1.0


def test_charge_that_differs_between_fluids():
    charges = {**CHARGES, "malate": np.array([-1.0, -2.0, math.nan])}
    particles = {"sodium": np.full(3, 10.0), "malate": np.array([5.0, 5.0, 0.0])}
    np.testing.assert_array_equal(anion_charge(particles, charges), [5.0, 10.0, 0.0])


def test_milliequivalents_are_magnitudes():
    assert milliequivalents(2.0, -3) == milliequivalents(2.0, 3) == 6.0


def test_gap_is_unknown_where_the_colloid_is():
    assert math.isnan(charge_gap(154.0, 120.0, math.nan))


@given(st.floats(0.1, 20.0), st.floats(0.0, 60.0))
def test_acid_never_carries_more_than_it_can_give(acid, base):
    charge = charge_from_base(base, acid, up_to=2)
    assert -2.0 <= charge <= 0.0
    assert milliequivalents(acid, charge) <= base * (1 + 1e-12) + 1e-300


@given(st.floats(0.1, 20.0), st.floats(0.0, 60.0))
def test_base_beyond_the_acid_is_left_for_the_colloid(acid, base):
    taken = milliequivalents(acid, charge_from_base(base, acid, up_to=2))
    assert taken + polyanion_charge(base, taken) == pytest.approx(base)


def test_no_acid_has_no_charge_and_counts_for_nothing():
    charge = charge_from_base(np.array([0.0, 5.0]), np.array([0.0, 5.0]))
    np.testing.assert_array_equal(charge, [math.nan, -1.0])
    np.testing.assert_array_equal(
        anion_charge({"malate": np.array([0.0, 5.0])}, {"malate": charge}), [0.0, 5.0]
    )


@pytest.mark.parametrize(("cations", "charge"), [(1, -1.0), (2, -2.0)])
def test_phosphate_takes_its_charge_from_its_salt(cations, charge):
    releases = {"potassium": cations, "phosphate": 1}
    assert charge_left_to("phosphate", releases, {"potassium": 1}) == charge


def test_salt_without_that_anion_is_refused():
    with pytest.raises(ValueError, match="releases chloride, sodium and no phosphate"):
        charge_left_to("phosphate", SALTS["NaCl"], CHARGES)


@given(st.floats(5.0, 9.0), st.floats(0.01, 1.0))
def test_phosphate_charge_falls_from_minus_one_to_minus_two(ph, step):
    assert -2.0 < phosphate_charge(ph + step) < phosphate_charge(ph) < -1.0


def test_label_tolerance_of_a_balanced_fluid():
    # Na 131, K 5, Ca 2, Cl 111, lactate 29 in whole millimoles: half of 1+1+2+1+1.
    ions = ("sodium", "potassium", "calcium", "chloride", "lactate")
    assert label_tolerance(dict.fromkeys(ions, 1.0), CHARGES) == 3.0


def test_an_acid_of_one_millimole_has_a_charge_like_any_other():
    """Charge and amount of base are equal there; 0 alone stands for no acid."""
    assert charge_from_base(1.0, 1.0) == -1.0
    assert math.isnan(charge_from_base(1.0, 0.0, up_to=2))


def test_the_charge_left_is_shared_by_all_anions_of_the_formula():
    """Calcium phosphate, Ca3(PO4)2: two anions carry six charges, three each (textbook formula)."""
    releases = {"calcium": 3, "phosphate": 2}
    assert charge_left_to("phosphate", releases, {"calcium": 2}) == -3.0


@pytest.mark.parametrize(
    ("releases", "named"), [({"sodium": 1, "chloride": 1}, "chloride, sodium"), ({}, "nothing")]
)
def test_the_refusal_says_what_the_salt_does_release(releases, named):
    with pytest.raises(ValueError, match="releases") as caught:
        charge_left_to("phosphate", releases, CHARGES)
    assert str(caught.value) == (
        f"the salt releases {named} and no phosphate: name one of its own particles."
    )


def test_a_label_with_decimals_must_close_more_closely():
    """Potassium printed as 5.4: half of a tenth."""
    assert label_tolerance({"potassium": 0.1}, CHARGES) == 0.05
