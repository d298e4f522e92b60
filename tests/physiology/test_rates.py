"""Drops, pumps, glucose and published needs."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.physiology.rates import (
    drops_per_minute,
    glucose_rate,
    maintenance_ions,
    maintenance_per_day,
    maintenance_per_hour,
    pump_rate,
    running_time,
)

WEIGHT = st.floats(0.5, 120.0)


@given(st.floats(1.0, 3000.0), st.floats(0.1, 24.0))
def test_volume_over_its_own_rate_is_the_time(volume, hours):
    assert running_time(volume, pump_rate(volume, hours)) == pytest.approx(hours)


@given(st.floats(1.0, 3000.0), st.floats(0.1, 24.0))
def test_sixty_drops_a_millilitre_make_drops_equal_to_the_pump_rate(volume, hours):
    drops = drops_per_minute(volume, 60.0 * hours, 60.0)
    assert drops == pytest.approx(pump_rate(volume, hours))


@given(WEIGHT, st.floats(0.01, 20.0))
def test_heavier_children_need_more(weight, more):
    assert maintenance_per_day(weight + more) > maintenance_per_day(weight)
    assert maintenance_per_hour(weight + more) > maintenance_per_hour(weight)


@given(WEIGHT)
def test_hourly_rule_stays_within_a_fifth_of_the_daily_one(weight):
    # 4 mL/kg/h is 96 and not 100 mL/kg/day; 1 mL/kg/h is 24 and not 20.
    ratio = 24.0 * maintenance_per_hour(weight) / maintenance_per_day(weight)
    assert 0.95 <= ratio <= 1.2


@pytest.mark.parametrize("boundary", [10.0, 20.0])
def test_bands_meet_without_a_step(boundary):
    for rule in (maintenance_per_day, maintenance_per_hour):
        assert rule(boundary + 1e-9) == pytest.approx(rule(boundary - 1e-9), abs=1e-5)


def test_many_at_once_with_an_unknown():
    np.testing.assert_array_equal(
        maintenance_per_day(np.array([5.0, 15.0, 25.0, math.nan])), [500, 1250, 1600, math.nan]
    )


@pytest.mark.parametrize(
    ("call", "complaint"),
    [
        (lambda: drops_per_minute(100.0, 0.0, 20.0), r"time is 0\.0"),
        (lambda: drops_per_minute(100.0, 60.0, 0.0), r"drops per mL is 0\.0"),
        (lambda: drops_per_minute(-1.0, 60.0, 20.0), r"volume is -1\.0"),
        (lambda: pump_rate(100.0, 0.0), r"time is 0\.0"),
        (lambda: running_time(100.0, 0.0), r"rate is 0\.0"),
        (lambda: glucose_rate(50.0, 100.0, 0.0), r"weight is 0\.0"),
        (lambda: glucose_rate(-1.0, 100.0, 70.0), r"glucose is -1\.0"),
        (lambda: maintenance_per_day(0.0), r"weight is 0\.0"),
        (lambda: maintenance_per_hour(-3.0), r"weight is -3\.0"),
        (lambda: maintenance_ions(-1.0), r"volume is -1\.0"),
    ],
)
def test_impossible_input_is_refused(call, complaint):
    with pytest.raises(ValueError, match=complaint):
        call()
