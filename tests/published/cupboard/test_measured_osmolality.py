"""The catalogue's osmolality estimate beside what was measured, within the error it prints.

An estimate is never reported as a measurement: where it does not apply it is null.
"""

import pytest


@pytest.mark.parametrize(
    ("fluid", "measured"),
    [
        ("sodium-chloride-0-9", 286.0),  # Anesth Analg 1999, letter, freezing point (read)
        ("ringer-lactate-usp", 256.0),  # Zander, abstract, lactated and acetated Ringer's (copy)
    ],
)
def test_within_the_printed_error(figures, fluid, measured):
    number_of = figures(fluid)
    assert number_of("osmolality") == pytest.approx(
        measured, rel=number_of("osmolality_error") / 100.0
    )


@pytest.mark.parametrize("acetate", ["4.08", "4.1"])
def test_acetated_ringer_by_its_recipes(variant, acetate):
    # Zander, abstract: 256 mOsm/kg (copy). The entry itself is declared as ions, so its recipes
    # are compared.
    number_of = variant("ringer-acetate", f"sodium acetate trihydrate {acetate} g/L")
    assert number_of("osmolality") == pytest.approx(
        256.0, rel=number_of("osmolality_error") / 100.0
    )


def test_glucose_5_percent(figures):
    # Handbook tables, 0.28 to 0.29 Osm/kg (memory); a UK text says "approximately 300" (read).
    assert 280.0 <= figures("glucose-5")("osmolality") <= 290.0


def test_water_has_none(figures):
    # UK leaflet: osmolality 0 (read).
    assert figures("water-for-injections")("osmolality") == 0.0


def test_saline_is_the_same_by_either_figure_only_in_name(figures):
    # 308 mOsm/L is the theoretical figure that labels print; 286 mOsm/kg is measured.
    number_of = figures("sodium-chloride-0-9")
    assert number_of("osmolarity") - number_of("osmolality") == pytest.approx(21.2, abs=0.1)


def test_concentrated_lactate_is_not_estimated(solved):
    # A printed compatibility handbook: 5 mEq/mL measured at 10 665 and 11 490 mOsm/kg (copy), while
    # the sum of particles is 10 000. No coefficients of its own: no estimate.
    number_of = solved(("sodium-lactate", "560.3 g/L"))
    assert number_of("osmolarity") == pytest.approx(10_000.0, rel=1e-3)
    assert number_of("osmolality") is None
    assert number_of("osmolality_error") is None


def test_no_estimate_beside_a_colloid_or_for_ions_alone(handbook):
    # Colloids do not obey the coefficients, and of bare ions it is not known which salts they were.
    for fluid in ("succinylated-gelatin-4", "dextran-40-10", "albumin-5", "hydroxyethyl-starch-6"):
        assert handbook.value(fluid, "osmolality").reason == (
            "never estimated for a fluid with a colloid"
        )
    assert "declared as ions" in handbook.value("ringer-acetate", "osmolality").reason
