"""Osmotic coefficients at 25 °C against tables, a geochemical model and a second parameter set."""

import pytest
from phreeqpython import PhreeqPython

from isofolio.chemistry.osmosis import osmotic_coefficient
from isofolio.chemistry.solutes import electrolyte


def coefficient(salt, molality):
    per_mole = 0.5 * (salt.cations * salt.cation_charge**2 + salt.anions * salt.anion_charge**2)
    return osmotic_coefficient(per_mole * molality, salt)


@pytest.mark.parametrize(
    ("name", "molality", "expected"),
    [
        ("sodium-chloride", 0.1, 0.9324),
        ("sodium-chloride", 0.15, 0.927),
        ("sodium-chloride", 1.0, 0.936),
        ("sodium-chloride", 4.4, 1.145),
        ("potassium-chloride", 0.15, 0.919),
        ("calcium-chloride", 0.1, 0.855),
        ("magnesium-chloride", 0.1, 0.862),
        ("sodium-acetate", 0.1, 0.940),
        ("sodium-bicarbonate", 0.15, 0.902),
    ],
)
def test_specified_coefficients(bench, name, molality, expected):
    # Source: the project's check row. Graded memory except where the model below repeats them.
    assert coefficient(bench.pitzer(name), molality) == pytest.approx(expected, rel=2e-3)


def test_magnesium_sulfate_lies_between_the_two_specified_values(bench):
    # Source: the project's check row, 0.593 to 0.606 by different libraries (memory).
    assert 0.593 <= coefficient(bench.pitzer("magnesium-sulfate"), 0.1) <= 0.606


@pytest.fixture(scope="module")
def geochemical_model():
    """Osmotic coefficient by PHREEQC with the pitzer.dat that phreeqpython ships."""
    engine = PhreeqPython(database="pitzer.dat").ip

    def coefficient_of(ions, ph):
        lines = "\n".join(f" {element} {molality}" for element, molality in ions.items())
        engine.run_string(
            "SELECTED_OUTPUT 1\n -reset false\n"
            "USER_PUNCH 1\n -headings phi\n 10 PUNCH OSMOTIC\n"
            f"SOLUTION 1\n units mol/kgw\n temp 25\n pH {ph}\n{lines}\nEND\n"
        )
        return engine.get_selected_output_array()[1][0]

    return coefficient_of


INORGANIC = {
    "sodium-chloride": {"Na": 1, "Cl": 1},
    "potassium-chloride": {"K": 1, "Cl": 1},
    "calcium-chloride": {"Ca": 1, "Cl": 2},
    "magnesium-chloride": {"Mg": 1, "Cl": 2},
    "magnesium-sulfate": {"Mg": 1, "S(6)": 1},
}


@pytest.mark.parametrize("molality", [0.05, 0.1, 0.15, 0.3, 0.5, 1.0])
@pytest.mark.parametrize("name", INORGANIC)
def test_geochemical_model_agrees(bench, geochemical_model, name, molality):
    # Source: PHREEQC, pitzer.dat as shipped (read), whose parameters were refitted since 1973, so
    # that no single parameter is the same but the coefficients are: within 0.25 %, magnesium
    # sulfate 0.45 %.
    ions = {element: count * molality for element, count in INORGANIC[name].items()}
    tolerance = 4.5e-3 if name == "magnesium-sulfate" else 2.5e-3
    expected = geochemical_model(ions, 7)
    assert coefficient(bench.pitzer(name), molality) == pytest.approx(expected, rel=tolerance)


@pytest.mark.parametrize(
    ("molality", "difference"), [(0.05, -2.3), (0.15, 0.0), (0.5, 3.2), (1.0, 6.3)]
)
def test_bicarbonate_is_where_the_sources_disagree(bench, geochemical_model, molality, difference):
    # Source: as above (read). The model forms carbonate and dissolved carbon dioxide, and its
    # parameters were refitted to calcite; ours treat bicarbonate as the only anion. This spread,
    # and 0.926 at 0.15 mol/kg below, is why bicarbonate is printed with 5 and 8 %.
    expected = geochemical_model({"Na": molality, "C(4)": molality}, "8.3 charge")
    ours = coefficient(bench.pitzer("sodium-bicarbonate"), molality)
    assert 100.0 * (ours / expected - 1.0) == pytest.approx(difference, abs=0.1)


# Source: May, Rowland, Hefter, Königsberger, J Chem Eng Data 2011;56:5066, as a table in an
# open-source package gives it with permission (copy): b0, b1, C, b2.
SECOND_SET = {
    "sodium-chloride": (0.07831, 0.2677, 0.000864, 0.0),
    "potassium-chloride": (0.04874, 0.2215, -0.00098, 0.0),
    "calcium-chloride": (0.31, 1.618, -0.00125, 0.0),
    "magnesium-chloride": (0.3553, 1.644, 0.005098, 0.0),
    "magnesium-sulfate": (0.2153, 3.29, 0.02794, -40.15),
    "sodium-acetate": (0.1382, 0.3317, -0.00496, 0.0),
    "potassium-acetate": (0.1556, 0.3328, -0.00533, 0.0),
    "monosodium-phosphate": (-0.05135, 0.05496, 0.007441, 0.0),
    "monopotassium-phosphate": (-0.1231, 0.09124, 0.02453, 0.0),
    "disodium-phosphate": (-0.02266, 1.249, 0.00752, 0.0),
    "dipotassium-phosphate": (0.043, 1.147, 0.001486, 0.0),
    "sodium-bicarbonate": (-0.05876, 0.5535, 0.008285, 0.0),
}


def second(bench, name):
    first = bench.pitzer(name)
    b0, b1, c, b2 = SECOND_SET[name]
    return electrolyte(
        {"cation": first.cations, "anion": first.anions},
        {"cation": first.cation_charge, "anion": -first.anion_charge},
        b0=b0,
        b1=b1,
        c=c,
        b2=b2,
    )


@pytest.mark.parametrize("molality", [0.05, 0.1, 0.15, 0.3, 0.5])
@pytest.mark.parametrize("name", sorted(set(SECOND_SET) - {"sodium-bicarbonate"}))
def test_second_parameter_set_agrees_at_the_strength_of_infusions(bench, name, molality):
    ours, other = bench.pitzer(name), second(bench, name)
    assert coefficient(ours, molality) == pytest.approx(coefficient(other, molality), rel=0.0115)


def test_the_other_value_for_bicarbonate(bench):
    # 0.926 at 0.15 mol/kg, "another library" of the specification, is this second set.
    assert coefficient(second(bench, "sodium-bicarbonate"), 0.15) == pytest.approx(0.926, abs=5e-4)


@pytest.mark.parametrize(
    ("name", "strength"),
    [
        ("monopotassium-phosphate", 2.2),
        ("disodium-phosphate", 4.0),
        ("dipotassium-phosphate", 3.8),
        ("sodium-acetate", 6.0),
        ("calcium-chloride", 6.0),
        ("magnesium-sulfate", 6.0),
    ],
)
def test_how_far_the_two_sets_stay_within_three_percent(bench, name, strength):
    ours = osmotic_coefficient(strength, bench.pitzer(name))
    assert ours == pytest.approx(osmotic_coefficient(strength, second(bench, name)), rel=0.0305)


def test_concentrated_phosphates_are_beyond_the_fit(bench):
    # At 6 mol/kg of ionic strength the sets differ by 13 %: no estimate is better than that there.
    ours = osmotic_coefficient(6.0, bench.pitzer("disodium-phosphate"))
    assert ours / osmotic_coefficient(6.0, second(bench, "disodium-phosphate")) > 1.10
