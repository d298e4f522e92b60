"""Sodium change: the evidence's worked examples.

Method: Adrogué and Madias, N Engl J Med 2000;342:1493 and 1581. Their patients and plans were not
read, so that the examples below are arithmetic with infusate values from labels.
"""

import pytest

from isofolio.physiology.sodium import (
    BODY_WATER_FACTORS,
    sodium_change,
    sodium_change_linear,
    total_body_water,
)


@pytest.mark.parametrize(
    ("serum", "water", "sodium", "potassium", "change", "digits"),
    [
        (168.0, 34.0, 0.0, 0.0, -4.8, 1),
        (158.0, 31.5, 77.0, 0.0, -2.49, 2),
        (156.0, 51.0, 0.0, 0.0, -3.0, 1),
        (112.0, 23.0, 513.0, 0.0, 16.7, 1),
        (108.0, 36.0, 513.0, 0.0, 10.9, 1),
        (106.0, 27.0, 154.0, 0.0, 1.7, 1),
        (106.0, 27.0, 154.0, 30.0, 2.8, 1),
    ],
)
def test_worked_examples_per_litre(serum, water, sodium, potassium, change, digits):
    assert round(sodium_change(sodium, potassium, serum, water), digits) == change


def test_small_volume_of_three_percent():
    # Source: Chen et al., Kidney360 2021;2:365 for the exact form (read); figures arithmetic:
    # serum 115, 35 L, 150 mL of 3 %: exact +1.70, linear +1.66.
    assert round(sodium_change(513.0, 0.0, 115.0, 35.0, 0.150), 2) == 1.70
    assert round(sodium_change_linear(513.0, 0.0, 115.0, 35.0, 0.150), 2) == 1.66


@pytest.mark.parametrize(
    ("who", "water"), [("man", 42.0), ("woman", 35.0), ("older man", 35.0), ("older woman", 31.5)]
)
def test_body_water_of_seventy_kilograms(who, water):
    # Source: a teaching text, cut-off 65 years; a pharmacy lecture of 2020 for two of them (copy).
    assert total_body_water(70.0, BODY_WATER_FACTORS[who]) == pytest.approx(water)
