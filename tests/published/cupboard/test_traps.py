"""Errors that circulate in print. Each of them would have changed a figure of the cupboard."""

import pytest


def test_gelatin_in_saline_closes_only_with_its_sodium_hydroxide(handbook, figures, solved):
    # Recipe NaCl 7.01 and NaOH 1.36 g/L: Hong Kong prescribing text (copy). Label Na 154, Cl 120:
    # UK product text, 26 Oct 2023 (read).
    number_of = figures("succinylated-gelatin-4")
    assert number_of("sodium") == pytest.approx(154.0, abs=0.5)
    assert number_of("chloride") == pytest.approx(120.0, abs=0.5)
    assert number_of("polyanion_charge") == pytest.approx(34.0, abs=0.05)
    assert number_of("charge_gap") == pytest.approx(0.0, abs=1e-6)
    # Without the base, sodium is 34 short of the label and the charge of the gelatin is unknown.
    without = solved(("succinylated-gelatin", "40 g/L"), ("sodium-chloride", "7.01 g/L"))
    assert without("sodium") == pytest.approx(120.0, abs=0.5)
    assert without("polyanion_charge") is None
    assert without("charge_gap") is None


def test_balanced_gelatin_carries_sodium_that_its_salts_do_not_show(figures, variant):
    # UK product texts of 2015 and 2023 (read): salts give Na 119, the label says 151. The 32 are
    # the gelatin's own; its charge is not declared and none is invented from the gap.
    salts = variant("succinylated-gelatin-4-balanced", "weighed salts")
    label = figures("succinylated-gelatin-4-balanced")
    assert salts("sodium") == pytest.approx(119.0, abs=0.5)
    assert salts("chloride") == pytest.approx(103.0, abs=0.5)
    assert label("sodium") - salts("sodium") == pytest.approx(32.0, abs=0.5)
    assert label("charge_gap") is None


def test_mannitol_20_percent_is_1098_and_not_1369(figures, solved):
    # A published summary prints 1369 for 20 % (copy): near the 1372 of 25 %. US labels print 1100
    # for 20 % and 1375 for 25 % (read).
    assert figures("mannitol-20")("osmolarity") == pytest.approx(1097.9, abs=0.1)
    assert solved(("mannitol", "250 g/L"))("osmolarity") == pytest.approx(1372.3, abs=0.1)


def test_acetate_of_368_milligrams_is_the_trihydrate(figures, variant, solved):
    # US FDA listing, "sodium acetate 368 mg" in 100 mL without its hydrate (read).
    as_trihydrate = variant("multiple-electrolytes-type-1", "sodium acetate as the trihydrate")
    for quantity in ("sodium", "acetate", "osmolarity"):
        ours = figures("multiple-electrolytes-type-1")(quantity)
        assert as_trihydrate(quantity) == pytest.approx(ours, abs=0.05)
    as_anhydrous = solved(
        ("sodium-chloride", "5.26 g/L"),
        ("sodium-gluconate", "5.02 g/L"),
        ("sodium-acetate", "3.68 g/L"),
        ("potassium-chloride", "0.37 g/L"),
        ("magnesium-chloride-hexahydrate", "0.30 g/L"),
    )
    assert round(as_anhydrous("sodium")) == 158  # the label says 140
    assert round(as_anhydrous("osmolarity")) == 330  # the label says 294 or 295


def test_calcium_3_on_a_label_is_milliequivalents(figures, solved):
    # US labels of lactated Ringer's print calcium 3 or 2.7 mEq (copy). Read as 3 mmol the charge
    # fails by 3 mEq/L and more.
    number_of = figures("ringer-lactate-usp")
    assert round(number_of("calcium") * 2) == 3
    assert number_of("calcium") == pytest.approx(1.36, abs=0.005)
    label = [("sodium", "130 mmol/L"), ("potassium", "4 mmol/L")]
    label += [("chloride", "109 mmol/L"), ("lactate", "28 mmol/L")]
    in_millimoles = solved(*label, ("calcium", "3 mmol/L"))
    in_equivalents = solved(*label, ("calcium", "3 mEq/L"))
    assert in_millimoles("charge_gap") == pytest.approx(3.0)
    assert in_equivalents("charge_gap") == pytest.approx(0.0)
    assert in_equivalents("calcium") == 1.5


def test_ringer_and_lactated_ringer_are_two_fluids(figures):
    # A teaching page prints the recipe of Ringer's injection under the name lactated Ringer's
    # (copy, weak). Recipe: US FDA listing (read).
    plain, lactated = figures("ringer-injection-usp"), figures("ringer-lactate-usp")
    assert plain("lactate") == 0.0
    assert round(plain("chloride")) == 156
    assert round(lactated("lactate")) == 28
    assert round(lactated("chloride")) == 109


def test_potassium_phosphates_hold_4_4_and_not_4_7_milliequivalents(solved):
    # US FDA listings: 224 mg KH2PO4 and 236 mg K2HPO4 per mL, labelled 4.4 mEq K and 3 mmol P
    # (read). 4.7 fits 175 and 300 mg, in no listing found (memory).
    number_of = solved(
        ("potassium-dihydrogen-phosphate", "224 mg/mL"),
        ("dipotassium-hydrogen-phosphate", "236 mg/mL"),
    )
    assert number_of("phosphate") / 1000.0 == pytest.approx(3.00, abs=0.005)
    assert number_of("potassium") / 1000.0 == pytest.approx(4.36, abs=0.005)
    assert number_of("charge_gap") == pytest.approx(0.0, abs=1e-6)


def test_sodium_phosphates(solved):
    # US FDA listings: 276 mg NaH2PO4.H2O and 142 mg Na2HPO4 per mL, 3 mmol P, 4 mEq Na (read).
    number_of = solved(
        ("sodium-dihydrogen-phosphate-monohydrate", "276 mg/mL"),
        ("disodium-hydrogen-phosphate", "142 mg/mL"),
    )
    assert number_of("phosphate") / 1000.0 == pytest.approx(3.00, abs=0.005)
    assert number_of("sodium") / 1000.0 == pytest.approx(4.00, abs=0.005)


def test_malate_carries_one_charge_and_the_base_brings_the_sodium(figures, variant):
    # Recipe with malic acid 0.67 and sodium hydroxide 0.2 g/L; label Na 145, malate 5: UK product
    # text (copy).
    recipe = variant("acetate-malate-balanced", "as weighed")
    label = figures("acetate-malate-balanced")
    for ion in ("sodium", "potassium", "calcium", "magnesium", "chloride", "acetate", "malate"):
        assert recipe(ion) == pytest.approx(label(ion), abs=0.5)
    assert recipe("charge_gap") == pytest.approx(0.0, abs=1e-6)
    assert recipe("sodium") - 5.0 == pytest.approx(140.4, abs=0.1)  # without the base
    assert label("cation_charge") == label("anion_charge") == 156.0


def test_gluconate_of_ten_millilitres_is_not_its_figure_per_millilitre(handbook):
    # A page prints "0.465 mEq" for 10 mL of calcium gluconate 10 % (copy, weak): that is per mL.
    calcium = handbook.in_container("calcium-gluconate-10", "calcium", 10).number
    assert calcium * 2 == pytest.approx(4.46, abs=0.01)


def test_title_strength_of_dextrose_is_a_tenth_less_glucose(figures):
    # USP counts the monohydrate (read), Ph. Eur. and BP the anhydrous form (read).
    usp, european = figures("dextrose-5-usp"), figures("glucose-5")
    assert european("glucose") / usp("glucose") == pytest.approx(1.1, abs=1e-4)
    assert usp("glucose_mass_monohydrate") == pytest.approx(50.0)
    assert european("glucose_mass_monohydrate") == pytest.approx(55.0, abs=0.001)
    # Energy: 50 x 180.16/198.17 x 3.75 is about 170, almost the same chemistry (arithmetic).
    assert usp("glucose_mass") * 3.75 == pytest.approx(usp("energy_us"), abs=0.6)
