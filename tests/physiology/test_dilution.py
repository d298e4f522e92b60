"""The dilution model: properties that must hold for any plasma."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.physiology.acid_base import bicarbonate, sid_effective
from isofolio.physiology.compartments import equilibrate
from isofolio.physiology.dilution import HIGHEST_PH, LOWEST_PH, Blood, acid_base, blood, infuse

PLASMA = st.builds(
    blood,
    ph=st.floats(7.0, 7.7),
    pco2=st.floats(15.0, 100.0),
    albumin=st.floats(0.0, 60.0),
    phosphate=st.floats(0.0, 4.0),
)
VOLUME = st.floats(0.1, 10.0)
SID = st.floats(-20.0, 150.0)


@given(PLASMA)
def test_charges_balance_at_the_ph_found(plasma):
    ph = acid_base(plasma).ph
    balanced = sid_effective(ph, plasma.pco2, plasma.albumin, plasma.phosphate)
    assert balanced == pytest.approx(plasma.strong_ions, abs=1e-9)


@given(PLASMA, VOLUME, SID, st.floats(0.1, 20.0))
def test_a_higher_difference_gives_a_higher_ph(plasma, volume, sid, more):
    lower = acid_base(infuse(plasma, sid, volume)).ph
    assert acid_base(infuse(plasma, sid + more, volume)).ph > lower or math.isnan(lower)


@given(PLASMA, SID)
def test_no_volume_no_change(plasma, sid):
    assert vars(infuse(plasma, sid, 0.0)) == pytest.approx(vars(plasma), rel=1e-14)


@given(PLASMA, st.floats(0.1, 5.0))
def test_mixing_plasma_with_the_same_plasma_changes_nothing(plasma, volume):
    same = infuse(
        plasma, plasma.strong_ions, volume, albumin=plasma.albumin, phosphate=plasma.phosphate
    )
    assert acid_base(same).ph == pytest.approx(acid_base(plasma).ph, abs=1e-9)


@given(PLASMA, VOLUME)
def test_gelatin_acts_as_the_saline_it_is_dissolved_in(plasma, volume):
    assert infuse(plasma, 34.0, volume, polyanion=34.0) == infuse(plasma, 0.0, volume)


@given(PLASMA, VOLUME)
def test_water_that_enters_cells_dilutes_less(plasma, volume):
    # 5 % glucose: the same fluid with and without the water shift, both less alkaline than before.
    shift = equilibrate(0.0, volume)
    at_first = acid_base(infuse(plasma, 0.0, volume)).ph
    later = acid_base(infuse(plasma, 0.0, volume, volume_after=14.0 + shift.ecf_gain / 1000.0)).ph
    assert at_first < later < acid_base(plasma).ph


def test_many_fluids_at_once_equal_one_at_a_time():
    sids = np.array([0.0, 24.5, 50.1, 1000.0])
    together = acid_base(infuse(blood(), sids)).ph
    alone = [acid_base(infuse(blood(), float(sid))).ph for sid in sids]
    np.testing.assert_array_equal(together, alone)


def test_unknown_difference_has_an_unknown_ph_and_spoils_no_other():
    together = acid_base(infuse(blood(), np.array([math.nan, 24.5])))
    assert math.isnan(together.ph[0])
    assert math.isnan(together.base_excess[0])
    assert together.ph[1] == pytest.approx(7.4, abs=1e-4)


@pytest.mark.parametrize("strong_ions", [-500.0, 1e9])
def test_no_ph_is_invented_where_no_ph_balances(strong_ions):
    assert math.isnan(acid_base(Blood(strong_ions, 40.0, 42.0, 1.1)).ph)


def test_one_patient_gets_plain_numbers():
    state = acid_base(blood())
    assert [type(part) for part in vars(state).values()] == [float, float, float]
    assert state.bicarbonate == pytest.approx(bicarbonate(40.0, 7.4))


@pytest.mark.parametrize(
    ("call", "complaint"),
    [
        (lambda: infuse(blood(), 0.0, -1.0), "volume is -1.0"),
        (lambda: infuse(blood(), 0.0, volume_before=0.0), "extracellular volume is 0.0"),
        (lambda: infuse(blood(), 0.0, volume_after=0.0), "after the infusion is 0.0"),
        (lambda: acid_base(Blood(38.0, 40.0, -1.0, 1.0)), "albumin is -1.0"),
        (lambda: acid_base(Blood(38.0, 40.0, 42.0, -1.0)), "phosphate is -1.0"),
    ],
)
def test_impossible_input_is_refused(call, complaint):
    with pytest.raises(ValueError, match=complaint):
        call()


def test_the_standard_adult_of_the_handbook():
    """Plasma as numbers of the model: albumin 42 g/L, phosphate 1.1 mmol/L, pCO2 40 mmHg."""
    state = blood()
    assert (state.pco2, state.albumin, state.phosphate) == (40.0, 42.0, 1.1)
    assert state == blood(7.4, 40.0, 42.0, 1.1)


@pytest.mark.parametrize("ph", [LOWEST_PH, HIGHEST_PH])
def test_a_ph_at_the_end_of_the_range_is_found_and_one_beyond_is_not(ph):
    assert acid_base(blood(ph)).ph == pytest.approx(ph, abs=1e-6)
    beyond = 2.0 * ph - 7.0
    assert math.isnan(acid_base(blood(beyond)).ph)


@pytest.mark.parametrize(("ph", "more"), [(LOWEST_PH, -0.5), (HIGHEST_PH, 0.5)])
def test_half_a_milliequivalent_beyond_the_range_is_not_found(ph, more):
    end = blood(ph)
    assert math.isnan(acid_base(replace(end, strong_ions=end.strong_ions + more)).ph)
