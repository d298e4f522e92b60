"""Grams, millimoles, sums and mixtures."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.chemistry.composition import (
    NOT_WHOLE,
    Composition,
    dissolve,
    grams_from_millimoles,
    hydrate_factor,
    millimoles_from_grams,
    mix,
    sum_compositions,
    sum_particles,
)

KNOWN = st.dictionaries(st.sampled_from(["sodium", "chloride", "lactate"]), st.floats(0.0, 500.0))
UNKNOWN = st.dictionaries(st.sampled_from(["calcium", "lactate"]), st.just("declared as a range"))
VOLUME = st.floats(0.001, 5.0)


@st.composite
def compositions(draw):
    unknown = draw(UNKNOWN)
    known = {name: amount for name, amount in draw(KNOWN).items() if name not in unknown}
    return Composition(known, unknown, draw(st.booleans()))


@given(st.floats(0.0, 1000.0), st.floats(1.0, 1000.0))
def test_grams_to_millimoles_and_back(grams, molar_mass):
    there = millimoles_from_grams(grams, molar_mass)
    assert grams_from_millimoles(there, molar_mass) == pytest.approx(grams, rel=1e-14)


@given(st.floats(0.0, 500.0), st.floats(0.001, 500.0))
def test_more_grams_are_more_millimoles(grams, more):
    assert millimoles_from_grams(grams + more, 58.44) > millimoles_from_grams(grams, 58.44)


def test_many_fluids_at_once_with_an_unknown_one():
    amounts = millimoles_from_grams(np.array([9.0, 0.0, math.nan]), 58.44)
    np.testing.assert_allclose(amounts, [154.0041, 0.0, math.nan], rtol=1e-6)


@pytest.mark.parametrize("convert", [millimoles_from_grams, grams_from_millimoles])
def test_negative_amounts_and_impossible_masses_are_refused(convert):
    with pytest.raises(ValueError, match="cannot be negative"):
        convert(-0.1, 58.44)
    with pytest.raises(ValueError, match="above zero"):
        convert(1.0, 0.0)


def test_hydrate_and_anhydrous_must_not_be_swapped():
    with pytest.raises(ValueError, match="lighter than its anhydrous form"):
        hydrate_factor(180.156, 198.171)


def test_anhydrous_is_its_own_hydrate_with_factor_one():
    assert hydrate_factor(58.44, 58.44) == 1.0


def test_colloid_releases_nothing():
    assert dissolve(1.3, {}) == {}


def test_particles_of_arrays_and_floats_add_up():
    total = sum_particles([{"chloride": np.array([1.0, math.nan])}, {"chloride": 2.0}])
    np.testing.assert_array_equal(total["chloride"], [3.0, math.nan])


@given(st.lists(compositions(), max_size=5), st.randoms(use_true_random=False))
def test_sum_does_not_depend_on_the_order_to_the_last_bit(parts, random):
    shuffled = list(parts)
    random.shuffle(shuffled)
    assert sum_compositions(shuffled) == sum_compositions(parts)


@given(st.lists(compositions(), min_size=1, max_size=5))
def test_nothing_unknown_ever_becomes_a_number(parts):
    total = sum_compositions(parts)
    for part in parts:
        assert not set(part.unknown) & set(total.known)
    assert not set(total.known) & set(total.unknown)
    assert total.complete == all(part.complete for part in parts)


def test_absent_from_an_incomplete_part_is_unknown_in_the_sum():
    partly = Composition({"sodium": 10.0}, complete=False)
    total = sum_compositions([partly, Composition({"potassium": 20.0})])
    assert total.known == {"sodium": 10.0}
    assert total.unknown == {"potassium": NOT_WHOLE}


def test_absent_from_a_complete_composition_is_zero_and_needs_no_reason():
    assert Composition({"sodium": 154.0}).reason("potassium") == ""


def test_sum_of_nothing_is_empty_and_complete():
    assert sum_compositions([]) == Composition()


@given(compositions(), VOLUME)
def test_a_fluid_mixed_with_nothing_is_itself(fluid, volume):
    mixed = mix([(fluid, volume), (Composition({"iron": 1.0}), 0.0)])
    assert mixed.known == pytest.approx(fluid.known)
    assert mixed.unknown == fluid.unknown


@given(compositions(), VOLUME, VOLUME)
def test_a_fluid_mixed_with_itself_is_itself(fluid, first, second):
    assert mix([(fluid, first), (fluid, second)]).known == pytest.approx(fluid.known)


@given(st.floats(0.0, 500.0), st.floats(0.0, 500.0), VOLUME, VOLUME)
def test_mixture_lies_between_its_parts(one, other, first, second):
    parts = [(Composition({"sodium": one}), first), (Composition({"sodium": other}), second)]
    mixed = mix(parts).known["sodium"]
    # The last term is for numbers so small that a float cannot halve them.
    slack = 1e-12 * max(one, other) + 1e-300
    assert min(one, other) - slack <= mixed <= max(one, other) + slack


def test_mixing_keeps_the_reason_of_an_unknown():
    bag = Composition({"sodium": 154.0}, {"lactate": "declared as a range"})
    assert mix([(bag, 1.0), (Composition(), 1.0)]).unknown == {"lactate": "declared as a range"}


@pytest.mark.parametrize(
    ("parts", "complaint"),
    [
        ([], "total volume is 0.0"),
        ([(Composition(), 0.0)], "total volume is 0.0"),
        ([(Composition(), -1.0)], "volume is -1.0, and it cannot be negative"),
    ],
)
def test_impossible_volumes_are_refused(parts, complaint):
    with pytest.raises(ValueError, match=complaint):
        mix(parts)


@pytest.mark.parametrize(
    ("convert", "arguments", "named"),
    [
        (millimoles_from_grams, (-1.0, 58.44), "mass is -1.0,"),
        (millimoles_from_grams, (1.0, 0.0), "molar mass is 0.0,"),
        (grams_from_millimoles, (-1.0, 58.44), "amount of substance is -1.0,"),
        (grams_from_millimoles, (1.0, 0.0), "molar mass is 0.0,"),
        (hydrate_factor, (1.0, 0.0), "molar mass of the anhydrous substance is 0.0,"),
    ],
)
def test_a_refusal_names_what_is_wrong(convert, arguments, named):
    with pytest.raises(ValueError, match="write it as") as caught:
        convert(*arguments)
    assert str(caught.value).startswith(named)


def test_a_nominal_volume_is_what_the_amounts_are_divided_by():
    """10 mL of potassium chloride 15 % (2012 mmol/L) in a litre bag, as labels of admixtures do."""
    parts = [(Composition({"potassium": 0.0}), 1.0), (Composition({"potassium": 2012.0}), 0.010)]
    assert mix(parts, total_volume=1.0).known["potassium"] == pytest.approx(20.12)
    assert mix(parts).known["potassium"] == pytest.approx(20.12 / 1.010)


def test_a_mixture_with_an_incomplete_part_is_incomplete():
    partly = Composition({"sodium": 154.0}, complete=False)
    assert mix([(partly, 1.0), (Composition(), 1.0)]).complete is False
    assert mix([(Composition(), 1.0), (Composition(), 1.0)]).complete is True


def test_two_reasons_are_both_told():
    parts = [Composition({}, {"lactate": "a trace"}), Composition({}, {"lactate": "not declared"})]
    assert sum_compositions(parts).unknown == {"lactate": "a trace; not declared"}
