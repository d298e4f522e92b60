"""Theoretical osmolarity: what labels and the pharmacopoeia print."""

import pytest

from isofolio.chemistry.osmosis import osmolarity_from_masses


def test_usp_785_worked_example():
    # Source: USP <785>, osmolarity text: 1 g of vancomycin (relative mass 1468, 3 particles) in
    # 100 mL of 0.9 % saline (read); it takes 58.5 for sodium chloride.
    assert round(osmolarity_from_masses([(10.0, 1468.0, 3), (9.0, 58.5, 2)])) == 328


# (printed, ingredients in g/L). Sources: labels as graded in the comments.
LABELS = [
    (308, {"sodium_chloride": 9.0}),  # US and UK labels (read)
    (154, {"sodium_chloride": 4.5}),  # US label (read)
    (1027, {"sodium_chloride": 30.0}),  # US label (read); another prints 1030 (copy)
    (278, {"glucose": 50.0}),  # UK product text (read)
    (252, {"glucose_monohydrate": 50.0}),  # US label (read)
    (555, {"glucose": 100.0}),  # UK (copy)
    (586, {"sodium_chloride": 9.0, "glucose": 50.0}),  # UK product text (read)
    (560, {"sodium_chloride": 9.0, "glucose_monohydrate": 50.0}),  # US label (copy)
    (432, {"sodium_chloride": 4.5, "glucose": 50.0}),  # New Zealand data sheet 2015 (copy)
    (406, {"sodium_chloride": 4.5, "glucose_monohydrate": 50.0}),  # US label (copy)
    (280, {"sodium_chloride": 4.5, "glucose_monohydrate": 25.0}),  # US label (copy)
    (813, {"sodium_chloride": 9.0, "glucose_monohydrate": 100.0}),  # US label (copy)
    (1000, {"sodium_bicarbonate": 42.0}),  # US label (read)
    (2000, {"sodium_bicarbonate": 84.0}),  # US label (read)
    (549, {"mannitol": 100.0}),  # UK product text (read)
    (823, {"mannitol": 150.0}),  # UK product text (read)
    (
        309,  # Ringer's injection, US FDA listing for the recipe (read), label line (copy)
        {"sodium_chloride": 8.6, "potassium_chloride": 0.3, "calcium_chloride": 0.33},
    ),
    (
        273,  # lactated Ringer's (copy)
        {
            "sodium_chloride": 6.0,
            "sodium_lactate": 3.1,
            "potassium_chloride": 0.3,
            "calcium_chloride": 0.2,
        },
    ),
    (
        525,  # the same with 50 g of hydrous dextrose (copy)
        {
            "sodium_chloride": 6.0,
            "sodium_lactate": 3.1,
            "potassium_chloride": 0.3,
            "calcium_chloride": 0.2,
            "glucose_monohydrate": 50.0,
        },
    ),
    (
        294,  # multiple electrolytes type 1, recipe (copy), label 294 or 295 (copy)
        {
            "sodium_chloride": 5.26,
            "sodium_gluconate": 5.02,
            "sodium_acetate": 2.22,
            "potassium_chloride": 0.37,
            "magnesium_chloride": 0.30,
        },
    ),
    (
        294,  # the same with the acetate weighed as trihydrate, US FDA listing (read)
        {
            "sodium_chloride": 5.26,
            "sodium_gluconate": 5.02,
            "sodium_acetate_trihydrate": 3.68,
            "potassium_chloride": 0.37,
            "magnesium_chloride": 0.30,
        },
    ),
]


@pytest.mark.parametrize(("printed", "recipe"), LABELS)
def test_labels(bench, printed, recipe):
    assert bench.osmolarity(**recipe) == pytest.approx(printed, abs=0.6)


def test_bicarbonate_7_5_percent_is_printed_rounded_to_ten(bench):
    # Source: US label prints 1790 (read); 1785.6 by the salt.
    assert round(bench.osmolarity(sodium_bicarbonate=75.0), -1) == 1790


def test_acetate_without_its_hydrate_misses_by_12_percent(bench):
    # Source: US FDA listing says "sodium acetate 368 mg" (read). Taken as anhydrous it gives
    # 330 mOsm/L and sodium 158 instead of 294 and 140: arithmetic.
    recipe = {
        "sodium_chloride": 5.26,
        "sodium_gluconate": 5.02,
        "sodium_acetate": 3.68,
        "potassium_chloride": 0.37,
        "magnesium_chloride": 0.30,
    }
    assert round(bench.osmolarity(**recipe)) == 330
    assert round(bench.particles(**recipe)["sodium"]) == 158


@pytest.mark.parametrize(("grams", "printed"), [(50, 275), (100, 550), (150, 825), (250, 1375)])
def test_us_mannitol_labels_are_a_rounded_strength(bench, grams, printed):
    # Source: US labels (read). They print 5.5 mOsm/L per gram; the sum of particles is 5.489, so
    # that labels stand 0.2 % high, at every strength alike.
    assert bench.osmolarity(mannitol=grams) == pytest.approx(printed / 1.002, abs=0.6)


def test_strong_potassium_chloride(bench):
    # Source: UK, KCl 15 % holds 20 mmol in 10 mL (read). 2.012 mol/L, 4024 mOsm/L: arithmetic.
    particles = bench.particles(potassium_chloride=150.0)
    assert round(particles["potassium"] / 100.0) == 20
    assert round(bench.osmolarity(potassium_chloride=150.0)) == 4024
