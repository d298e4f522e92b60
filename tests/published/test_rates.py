"""Drops, glucose load and maintenance: published examples and plain arithmetic."""

import pytest

from isofolio.physiology.rates import (
    drops_per_minute,
    glucose_rate,
    maintenance_ions,
    maintenance_per_day,
    maintenance_per_hour,
    pump_rate,
)


def test_holliday_segar_32_kilograms():
    # Source: Holliday and Segar, Pediatrics 1957;19:823, worked example (read): 1740 mL a day with
    # Na 52.2, K 34.8, Cl 34.8 mEq.
    volume = maintenance_per_day(32.0)
    assert volume == 1740.0
    ions = {name: round(amount, 1) for name, amount in maintenance_ions(volume).items()}
    assert ions == {"sodium": 52.2, "potassium": 34.8, "chloride": 34.8}


@pytest.mark.parametrize(
    ("weight", "volume"),
    [
        (3.0, 300),
        (8.0, 800),  # summary of NICE NG29 (copy)
        (10.0, 1000),
        (15.0, 1250),
        (20.0, 1500),
        (25.0, 1600),  # summary of NICE NG29 (copy)
        (30.0, 1700),
        (70.0, 2500),
    ],
)
def test_daily_rule(weight, volume):
    # Source: the bands of Holliday and Segar (copy); the volumes are arithmetic.
    assert maintenance_per_day(weight) == volume


def test_two_conventions_at_thirty_kilograms():
    # Common practice, no source: 4-2-1 gives 70 mL/h, 1680 mL a day, beside 1700 by the daily rule.
    assert maintenance_per_hour(30.0) == 70.0
    assert 24.0 * maintenance_per_hour(30.0) == 1680.0
    assert maintenance_per_day(30.0) == 1700.0


@pytest.mark.parametrize(
    ("volume", "hours", "drops_per_ml", "exact", "rounded"),
    [(1000.0, 8.0, 20.0, 41.7, 42), (1000.0, 12.0, 20.0, 27.8, 28), (60.0, 1.0, 60.0, 60.0, 60)],
)
def test_drops(volume, hours, drops_per_ml, exact, rounded):
    # Arithmetic; 20 and 60 drops per mL: ISO 8536-4:2020, 7.8 (read).
    drops = drops_per_minute(volume, 60.0 * hours, drops_per_ml)
    assert round(drops, 1) == exact
    assert round(drops) == rounded


def test_glucose_ten_percent_at_a_hundred_an_hour():
    # Arithmetic: 10 g/h for 70 kg.
    assert round(glucose_rate(100.0, 100.0, 70.0), 2) == 2.38


def test_maximum_rate_of_a_uk_product_text():
    # Source: UK product text, at most 5 mL/kg/h of 5 % (read); 4.2 mg/kg/min is arithmetic.
    assert round(glucose_rate(50.0, 5.0 * 70.0, 70.0), 1) == 4.2


def test_a_litre_in_eight_hours_on_a_pump():
    assert pump_rate(1000.0, 8.0) == 125.0
