"""A value is a number or a reason, and never a silent zero."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.measures.values import Value

NUMBERS = st.floats(allow_nan=False, allow_infinity=False, min_value=-1e9, max_value=1e9)


def test_never_both_and_never_neither():
    with pytest.raises(ValueError, match="never both and never neither"):
        Value(1.0, "declared as a range")
    with pytest.raises(ValueError, match="never both and never neither"):
        Value(None)


def test_zero_is_a_number():
    assert Value(0.0).number == 0.0
    assert Value(0.0).reason == ""


@given(NUMBERS, st.floats(0.0, 10.0))
def test_a_share_of_a_number(number, share):
    assert Value(number).times(share) == Value(number * share)


@given(st.floats(0.0, 10.0))
def test_a_share_of_the_unknown_is_unknown_for_the_same_reason(share):
    unknown = Value(None, "not declared")
    assert unknown.times(share) == unknown


def test_a_value_cannot_be_changed():
    with pytest.raises(dataclasses.FrozenInstanceError):
        Value(1.0).number = 2.0
