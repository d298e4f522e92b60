"""From what a salt releases to how it behaves osmotically."""

import pytest

from isofolio.chemistry.solutes import (
    FixedCoefficient,
    LinearCoefficient,
    PitzerParameters,
    electrolyte,
    solute,
)

CHARGES = {"sodium": 1, "magnesium": 2, "chloride": -1, "sulfate": -2, "citrate": -3, "glucose": 0}


@pytest.mark.parametrize(
    ("releases", "particles", "ionic_strength"),
    [
        ({"sodium": 1, "chloride": 1}, 2.0, 1.0),
        ({"magnesium": 1, "chloride": 2}, 3.0, 3.0),
        ({"magnesium": 1, "sulfate": 1}, 2.0, 4.0),
        ({"sodium": 3, "citrate": 1}, 4.0, 6.0),
        ({"glucose": 1}, 1.0, 0.0),
        ({"sodium": 1}, 1.0, 0.5),
        ({}, 0.0, 0.0),
    ],
)
def test_particles_and_ionic_strength_per_formula_unit(releases, particles, ionic_strength):
    made = solute(releases, CHARGES, FixedCoefficient(0.9))
    assert (made.particles, made.ionic_strength) == (particles, ionic_strength)


def test_electrolyte_reads_its_stoichiometry_from_the_salt():
    made = electrolyte({"magnesium": 1, "chloride": 2}, CHARGES, b0=0.35, b1=1.68, c=0.005)
    assert made == PitzerParameters(0.35, 1.68, 0.005, 0.0, 1, 2, 2, 1)


@pytest.mark.parametrize(
    "releases",
    [{}, {"sodium": 1}, {"glucose": 1}, {"sodium": 1, "magnesium": 1, "chloride": 3}],
)
def test_only_one_cation_with_one_anion_is_an_electrolyte(releases):
    with pytest.raises(ValueError, match="is not one cation and one anion: give it a fixed ratio"):
        electrolyte(releases, CHARGES, b0=0.1, b1=0.2, c=0.0)


def test_a_particle_without_a_charge_number_is_an_error_of_the_caller():
    with pytest.raises(KeyError, match="lithium"):
        solute({"lithium": 1}, CHARGES, LinearCoefficient(0.0))


@pytest.mark.parametrize(
    ("releases", "named"),
    [
        ({}, "nothing"),
        ({"sodium": 1, "glucose": 1}, "glucose, sodium"),
        ({"chloride": 1, "glucose": 1}, "chloride, glucose"),
        ({"sodium": 1, "magnesium": 1}, "magnesium, sodium"),
        ({"sodium": 1, "chloride": 1, "glucose": 1}, "chloride, glucose, sodium"),
        ({"magnesium": 2, "chloride": 2, "sulfate": 1}, "chloride, magnesium, sulfate"),
    ],
)
def test_what_is_no_electrolyte_is_told_by_what_it_releases(releases, named):
    with pytest.raises(ValueError, match="not one cation") as caught:
        electrolyte(releases, CHARGES, b0=0.1, b1=0.2, c=0.0)
    assert str(caught.value) == (
        f"a salt that releases {named} is not one cation and one anion: "
        "give it a fixed ratio, or the substance it is like."
    )


def test_a_solute_has_coefficients_of_its_own_unless_told_otherwise():
    releases, behaviour = {"sodium": 1, "chloride": 1}, FixedCoefficient(0.93)
    assert solute(releases, CHARGES, behaviour).tabulated is True
    assert solute(releases, CHARGES, behaviour, tabulated=False).tabulated is False
