"""Calories that labels print."""

import pytest

from isofolio.chemistry.composition import hydrate_factor
from isofolio.chemistry.energy import (
    KCAL_PER_G_ANHYDROUS,
    KCAL_PER_G_MONOHYDRATE,
    energy,
    energy_organic,
    energy_us,
    kilojoules,
)
from isofolio.chemistry.formula import molar_mass


@pytest.mark.parametrize(
    ("grams", "printed"),
    [(50.0, 200), (100.0, 400), (40.0, 160)],  # UK texts: read, copy, read
)
def test_uk_product_texts(grams, printed):
    assert energy(grams) == printed


def test_uk_kilojoules_lie_in_the_printed_range():
    # Source: UK product texts print 835 to 840 kJ/L for 5 % (read).
    assert 835.0 <= kilojoules(energy(50.0)) <= 840.0


def test_us_label():
    # Source: US label, 5 % dextrose (hydrous), 170 kcal/L (read).
    assert energy_us(50.0) == 170.0


def test_the_two_conventions_are_different_chemistry():
    # 3.4 kcal per gram of monohydrate is 3.74 per gram anhydrous, not 4.0 (arithmetic).
    factor = hydrate_factor(molar_mass("C6H12O6(H2O)"), molar_mass("C6H12O6"))
    assert round(KCAL_PER_G_MONOHYDRATE * factor, 2) == 3.74
    assert KCAL_PER_G_MONOHYDRATE * factor < KCAL_PER_G_ANHYDROUS


def test_organic_anions_on_us_labels(bench):
    # Source: US labels, 9 kcal/L for lactated Ringer's and 21 kcal/L for the acetate-gluconate
    # fluid (read). Two of the three factors were fitted to these very figures, so that this is a
    # check of the arithmetic, not of the factors.
    lactate = bench.particles(sodium_lactate=3.1)["lactate"]
    acetate = bench.particles(sodium_acetate=2.22)["acetate"]
    gluconate = bench.particles(sodium_gluconate=5.02)["gluconate"]
    assert round(energy_organic(lactate, 0.0, 0.0)) == 9
    assert round(energy_organic(0.0, acetate, gluconate)) == 21


def test_lactated_ringer_with_dextrose_on_its_label(bench):
    # Source: US label prints 179 or 180 kcal/L (copy): glucose and lactate together.
    lactate = bench.particles(sodium_lactate=3.1)["lactate"]
    assert round(energy_us(50.0) + energy_organic(lactate, 0.0, 0.0)) == 179
