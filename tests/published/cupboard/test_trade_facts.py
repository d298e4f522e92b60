"""Facts that every practitioner of the trade knows: common practice, no source.

Label readings as a pharmacist or a nurse would say them, each against the computed catalogue.
"""

import pytest

from isofolio.handbook import interval_of, millilitres


def test_saline_has_308_milliosmoles_a_litre(handbook):
    # Common practice, no source.
    assert round(handbook.value("sodium-chloride-0-9", "osmolarity").number) == 308


@pytest.mark.parametrize(
    ("fluid", "volume", "quantity", "holds"),
    [
        # Common practice, no source: all of them.
        ("glucose-5", 250, "glucose_mass", 12.5),
        ("glucose-20", 500, "glucose_mass", 100.0),
        ("glucose-50", 50, "glucose_mass", 25.0),
    ],
)
def test_grams_of_glucose_in_a_container(handbook, fluid, volume, quantity, holds):
    assert handbook.in_container(fluid, quantity, volume).number == pytest.approx(holds, rel=1e-9)


@pytest.mark.parametrize(
    ("fluid", "volume", "quantity", "holds"),
    [
        # Common practice, no source: all of them, as whole millimoles.
        ("potassium-chloride-0-3-glucose-5", 500, "potassium", 20),
        ("potassium-chloride-0-3-sodium-chloride-0-9", 500, "potassium", 20),
        ("potassium-chloride-0-3-sodium-chloride-0-18-glucose-4", 500, "potassium", 20),
        ("potassium-chloride-0-3-sodium-chloride-0-45-glucose-5", 500, "potassium", 20),
        ("potassium-chloride-0-3-sodium-chloride-0-9-glucose-5", 500, "potassium", 20),
        ("sodium-bicarbonate-8-4", 100, "sodium", 100),
        ("sodium-bicarbonate-8-4", 100, "bicarbonate", 100),
    ],
)
def test_millimoles_in_a_container(handbook, fluid, volume, quantity, holds):
    assert round(handbook.in_container(fluid, quantity, volume).number) == holds


def test_glucose_50_percent_is_about_2770(handbook):
    # Common practice, no source: "about", hence within one percent.
    assert handbook.value("glucose-50", "osmolarity").number == pytest.approx(2770, rel=0.01)


def test_bicarbonate_8_4_percent_is_2000(handbook):
    # Common practice, no source.
    assert round(handbook.value("sodium-bicarbonate-8-4", "osmolarity").number) == 2000


def test_balanced_acetate_solution(handbook):
    # Common practice, no source: sodium 140 and chloride 98 mmol/L.
    assert round(handbook.value("multiple-electrolytes-type-1", "sodium").number) == 140
    assert round(handbook.value("multiple-electrolytes-type-1", "chloride").number) == 98


def test_mannitol_in_500_millilitres(handbook):
    # Common practice, no source: 50 g in 500 mL of 10 %, twice that of 20 %.
    ten, twenty = (handbook.solution(f"mannitol-{n}").masses["mannitol"] / 2 for n in (10, 20))
    assert ten == pytest.approx(50.0)
    assert twenty == pytest.approx(2 * ten)


@pytest.mark.parametrize(("ion", "common"), [("sodium", 145), ("chloride", 109)])
def test_upper_limits_of_plasma(handbook, ion, common):
    # Common practice, no source: up to about 145 and about 109 mmol/L. The interval printed beside
    # the fluids is the Australasian one, 135-145 and 95-110 (EJIFCC 2016, table 3, read).
    low, high = interval_of(handbook.beside[ion])
    assert low < common
    assert high == pytest.approx(common, abs=1.0)


def test_these_sizes_are_sold(handbook):
    # Common practice, no source: the sizes named above are among the containers.
    sizes = {fluid.id: {millilitres(c) for c in fluid.containers} for fluid in handbook.fluids}
    assert 250 in sizes["glucose-5"]
    assert 50 in sizes["glucose-50"]
    assert 100 in sizes["sodium-bicarbonate-8-4"]
    assert all(500 in sizes[f] for f in ("glucose-20", "mannitol-10", "mannitol-20"))
