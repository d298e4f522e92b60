"""The pieces of the Stewart-Figge model."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.physiology.acid_base import (
    albumin_charge,
    bicarbonate,
    pco2_from_bicarbonate,
    ph_from_bicarbonate,
    phosphate_charge,
    sid_apparent,
    sid_effective,
    standard_base_excess,
    strong_ion_gap,
)

PH = st.floats(6.8, 7.8)
PCO2 = st.floats(10.0, 120.0)


@given(PH, PCO2)
def test_three_forms_of_henderson_hasselbalch_agree(ph, pco2):
    held = bicarbonate(pco2, ph)
    assert ph_from_bicarbonate(held, pco2) == pytest.approx(ph, abs=1e-12)
    assert pco2_from_bicarbonate(held, ph) == pytest.approx(pco2)


@given(PH, PCO2, st.floats(0.0, 60.0), st.floats(0.0, 5.0), st.floats(0.001, 0.2))
def test_effective_difference_rises_with_ph(ph, pco2, albumin, phosphate, step):
    before = sid_effective(ph, pco2, albumin, phosphate)
    assert sid_effective(ph + step, pco2, albumin, phosphate) > before


def test_without_weak_acids_it_is_bicarbonate_alone():
    assert sid_effective(7.4, 40.0, 0.0, 0.0) == bicarbonate(40.0, 7.4)


def test_base_excess_is_zero_where_it_is_defined_to_be():
    assert standard_base_excess(24.4, 7.4) == 0.0


def test_base_excess_away_from_zero():
    """Siggaard-Andersen's Van Slyke equation for extracellular fluid, its terms by hand:
    0.9287 x ((10 - 24.4) + 14.83 x (7.1 - 7.4)) = 0.9287 x (-14.4 - 4.449)."""
    assert standard_base_excess(10.0, 7.1) == pytest.approx(-17.5051, abs=1e-4)


def test_gap_of_plasma_without_unmeasured_anions_is_zero():
    effective = sid_effective(7.4, 40.0, 42.0, 1.1)
    assert strong_ion_gap(effective, effective) == 0.0


@pytest.mark.parametrize(("held", "pco2"), [(0.0, 40.0), (24.0, 0.0), (-1.0, 40.0)])
def test_no_ph_without_both_parts_of_the_buffer(held, pco2):
    with pytest.raises(ValueError, match="above zero"):
        ph_from_bicarbonate(held, pco2)


def test_unknown_spreads():
    assert math.isnan(bicarbonate(math.nan, 7.4))
    assert math.isnan(albumin_charge(42.0, math.nan))
    assert math.isnan(phosphate_charge(math.nan, 7.4))
    ions = dict.fromkeys(
        ("sodium", "potassium", "ionised_calcium", "magnesium", "chloride", "lactate"), 1.0
    )
    assert math.isnan(sid_apparent(**{**ions, "lactate": math.nan}))


def test_many_at_once():
    np.testing.assert_allclose(
        bicarbonate(np.array([40.0, 80.0]), 7.4), [24.502, 49.004], rtol=1e-4
    )
