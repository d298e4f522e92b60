"""Where a litre goes, beside the fractions of textbooks."""

import pytest

from isofolio.physiology.compartments import equilibrate, teaching_split


@pytest.mark.parametrize(
    ("name", "free_water", "plasma", "interstitial", "cells"),
    [
        ("isotonic saline", 0.0, 250, 750, 0),
        ("glucose 5 %", 1.0, 83, 250, 667),
        ("0.45 %", 0.5, 167, 500, 333),
        ("0.18 % in glucose 4 %", 0.8, 117, 350, 533),
    ],
)
def test_teaching_rule(name, free_water, plasma, interstitial, cells):
    # Source: textbook fractions: first two rows memory (the rule of 1/4 and 1/12), the others
    # arithmetic from them.
    shift = teaching_split(free_water)
    assert round(shift.plasma_gain) == plasma, name
    assert round(shift.ecf_gain - shift.plasma_gain) == interstitial, name
    assert round(shift.icf_gain) == cells, name


@pytest.mark.parametrize(
    ("name", "effective", "plasma", "cells"),
    [
        ("glucose 5 %", 0.0, 83, 667),
        ("0.18 % in glucose 4 %", 61.6, 117, 532),
        ("0.45 %", 154.0, 167, 331),
        ("0.9 %", 308.0, 249, 4),
        ("3 %", 1026.7, 608, -1431),
    ],
)
def test_exact_equilibrium_of_one_litre(name, effective, plasma, cells):
    # Arithmetic with a pencil, for 3 %: (309.7 x 42 + 1026.7) / 43 = 326.4; 28 x 309.7 / 326.4 =
    # 26.57 L in cells. The weak fluids stay within 4 mL of the teaching rule.
    shift = equilibrate(effective)
    assert round(shift.plasma_gain) == plasma, name
    assert round(shift.icf_gain) == cells, name


def test_plasma_share_of_saline_beside_a_textbook():
    # Source: a text says 20-25 % of isotonic saline stays intravascular (copy).
    assert 200.0 <= equilibrate(308.0).plasma_gain <= 250.0


def test_plasma_share_of_glucose_beside_texts_that_disagree():
    # Source: 8 % by textbook fractions (memory), "about 10 %" in one text (copy): both stand.
    assert 80.0 <= equilibrate(0.0).plasma_gain <= 100.0
