"""The two small tools that everything else adds with."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.chemistry.amounts import of, require_not_negative, require_positive, weighted_sum

AMOUNT = st.floats(0.0, 5000.0)
PARTICLES = st.dictionaries(st.sampled_from("abcdefgh"), AMOUNT, min_size=1)


@given(PARTICLES, st.randoms(use_true_random=False))
def test_sum_does_not_depend_on_the_order_to_the_last_bit(particles, random):
    names = list(particles)
    random.shuffle(names)
    shuffled = {name: particles[name] for name in names}
    weights = dict.fromkeys(names, 1.0)
    assert weighted_sum(shuffled, weights) == weighted_sum(particles, weights)


@given(st.lists(PARTICLES, min_size=1, max_size=5))
def test_array_form_equals_one_fluid_at_a_time(fluids):
    names = sorted({name for fluid in fluids for name in fluid})
    weights = {name: number - 2.0 for number, name in enumerate(names)}
    table = {name: np.array([fluid.get(name, 0.0) for fluid in fluids]) for name in names}
    one_by_one = [weighted_sum(fluid, weights) for fluid in fluids]
    np.testing.assert_array_equal(weighted_sum(table, weights), one_by_one)


def test_nothing_sums_to_zero():
    assert weighted_sum({}, {}) == 0.0


def test_unknown_amount_spoils_the_sum_of_its_own_fluid_only():
    table = {"sodium": np.array([154.0, math.nan]), "chloride": np.array([154.0, 154.0])}
    total = weighted_sum(table, {"sodium": 1.0, "chloride": 1.0})
    np.testing.assert_array_equal(total, [308.0, math.nan])


def test_missing_weight_spoils_only_fluids_that_hold_the_particle():
    total = weighted_sum({"xenon": np.array([0.0, 1.0])}, {})
    np.testing.assert_array_equal(total, [0.0, math.nan])


def test_weight_may_differ_between_fluids():
    total = weighted_sum({"malate": 5.0}, {"malate": np.array([-1.0, -2.0])})
    np.testing.assert_array_equal(total, [-5.0, -10.0])


def test_absent_particle_is_zero_and_unknown_stays_unknown():
    assert of({}, "sodium") == 0.0
    assert math.isnan(of({"sodium": math.nan}, "sodium"))


@pytest.mark.parametrize("refuse", [require_not_negative, require_positive])
def test_refusal_names_the_culprit_among_many(refuse):
    with pytest.raises(ValueError, match=r"mass is -2\.0, and it .*: write it as .*0"):
        refuse(np.array([1.0, math.nan, -2.0]), "mass")


@pytest.mark.parametrize("refuse", [require_not_negative, require_positive])
def test_unknown_is_not_refused(refuse):
    refuse(math.nan, "mass")


def test_zero_is_refused_only_where_it_divides():
    require_not_negative(0.0, "mass")
    with pytest.raises(ValueError, match="above zero"):
        require_positive(0.0, "volume")


def refusal(refuse, *arguments):
    with pytest.raises(ValueError, match="write it as") as caught:
        refuse(*arguments)
    return str(caught.value)


def test_the_whole_sentence_of_a_refusal():
    assert refusal(require_not_negative, -1.0, "mass") == (
        "mass is -1.0, and it cannot be negative: write it as 0 or more."
    )
    assert refusal(require_positive, 0.0, "volume") == (
        "volume is 0.0, and it must be above zero: write it as more than 0."
    )


def test_the_culprit_is_told_as_a_number_with_its_decimals():
    """Whole numbers, as a table of counts holds them, are refused in the same words."""
    assert refusal(require_not_negative, np.array([1, -2]), "count").startswith("count is -2.0,")
