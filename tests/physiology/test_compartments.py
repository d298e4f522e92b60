"""Water between compartments."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.physiology.compartments import (
    EXTRACELLULAR_VOLUME,
    INTRACELLULAR_VOLUME,
    equilibrate,
    teaching_split,
)
from isofolio.physiology.tonicity import PLASMA_EFFECTIVE_OSMOLARITY

EFFECTIVE = st.floats(0.0, 3000.0)
VOLUME = st.floats(0.0, 10.0)


@given(EFFECTIVE, VOLUME)
def test_every_millilitre_is_somewhere(effective, volume):
    shift = equilibrate(effective, volume)
    assert shift.ecf_gain + shift.icf_gain == pytest.approx(1000.0 * volume, abs=1e-6)


@given(EFFECTIVE, VOLUME)
def test_both_sides_end_at_one_osmolarity(effective, volume):
    shift = equilibrate(effective, volume)
    outside = EXTRACELLULAR_VOLUME + shift.ecf_gain / 1000.0
    inside = INTRACELLULAR_VOLUME + shift.icf_gain / 1000.0
    held = PLASMA_EFFECTIVE_OSMOLARITY * EXTRACELLULAR_VOLUME + effective * volume
    cells = PLASMA_EFFECTIVE_OSMOLARITY * INTRACELLULAR_VOLUME
    assert held / outside == pytest.approx(cells / inside)


@given(EFFECTIVE, st.floats(0.1, 100.0), st.floats(0.1, 10.0))
def test_stronger_fluids_put_less_into_cells(effective, more, volume):
    weaker, stronger = equilibrate(effective, volume), equilibrate(effective + more, volume)
    assert stronger.icf_gain < weaker.icf_gain
    assert stronger.plasma_gain > weaker.plasma_gain


@given(st.floats(0.1, 10.0))
def test_fluid_as_strong_as_plasma_leaves_cells_alone(volume):
    shift = equilibrate(PLASMA_EFFECTIVE_OSMOLARITY, volume)
    assert shift.icf_gain == pytest.approx(0.0, abs=1e-9)


@given(st.floats(0.0, 10.0))
def test_water_follows_the_teaching_rule_exactly(volume):
    exact, rule = equilibrate(0.0, volume), teaching_split(1.0, volume)
    assert exact.icf_gain == pytest.approx(rule.icf_gain, abs=1e-9)
    assert exact.ecf_gain == pytest.approx(rule.ecf_gain, abs=1e-9)


@given(st.floats(0.0, PLASMA_EFFECTIVE_OSMOLARITY))
def test_one_litre_by_the_rule_is_within_ten_millilitres_of_the_exact_figure(effective):
    free = 1.0 - effective / PLASMA_EFFECTIVE_OSMOLARITY
    difference = equilibrate(effective).ecf_gain - teaching_split(free).ecf_gain
    assert abs(difference) < 10.0


def test_no_volume_moves_nothing():
    assert vars(equilibrate(3000.0, 0.0)) == dict.fromkeys(
        ("ecf_gain", "icf_gain", "plasma_gain"), 0.0
    )


def test_unknown_spreads_and_many_come_at_once():
    shift = equilibrate(np.array([0.0, math.nan]))
    np.testing.assert_allclose(shift.icf_gain, [1000 * 2 / 3, math.nan])


@pytest.mark.parametrize("call", [equilibrate, teaching_split])
def test_negative_input_is_refused(call):
    with pytest.raises(ValueError, match="cannot be negative"):
        call(-0.1)
    with pytest.raises(ValueError, match=r"volume is -1\.0"):
        call(0.5, -1.0)
