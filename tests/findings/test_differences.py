"""How far two fluids are apart, and how it is told. Figures are worked out by hand beside them."""

import numpy as np
import pytest

from isofolio.entries.scalars import parse_amount
from isofolio.findings.differences import (
    LARGE,
    MODERATE,
    SMALL,
    Scale,
    Term,
    contribution,
    difference_words,
    differences,
    not_described,
    scale_of,
    score,
    word_for,
)
from isofolio.findings.stops import side_of
from isofolio.vocabulary.quantities import QUANTITY_BY_ID

SODIUM, CHLORIDE = Term("sodium", 10.0, 1.0), Term("chloride", 8.0, 0.5)
NAN = float("nan")


def side(**figures):
    return {quantity: np.array([figure]) for quantity, figure in figures.items()}


@pytest.mark.parametrize(
    ("mine", "theirs", "points"),
    [
        (154.0, 150.0, 0.25),  # 4 of 8 is half a step, which counts half
        (150.0, 154.0, 0.25),
        (154.0, 154.0, 0.0),
        (0.0, 39.0, 2.4375),  # 4.875 steps
        (0.0, 154.0, 2.5),  # the cap: five steps of half a point
    ],
)
def test_a_difference_counts_in_steps_up_to_the_cap(mine, theirs, points):
    found = contribution(CHLORIDE, side(chloride=mine), side(chloride=theirs), 5.0)
    assert found.tolist() == [points]


def test_the_score_adds_what_every_quantity_counts():
    """(154 - 131) / 10 = 2.3 and half of (154 - 112) / 8 capped at 5 = 2.5."""
    scale = Scale((SODIUM, CHLORIDE), cap=5.0, small=5.0, large=12.0)
    saline, lactated = side(sodium=154.0, chloride=154.0), side(sodium=131.0, chloride=112.0)
    assert score(saline, lactated, scale).tolist() == pytest.approx([4.8])
    assert score(saline, saline, scale).tolist() == [0.0]
    assert np.isnan(score(saline, side(sodium=NAN, chloride=154.0), scale)).all()


def test_every_fluid_is_at_no_distance_from_itself(real, limits):
    catalogue, table = real
    fluids = [f for f in catalogue.fluids.values() if table.value(f.id, "tonicity_ratio").number]
    every = side_of(fluids, catalogue, table)
    assert np.all(score(every, every, scale_of(limits)) == 0.0)


def test_the_scale_is_what_limits_say(limits):
    scale = scale_of(limits)
    assert (scale.cap, scale.small, scale.large) == (5.0, 5.0, 12.0)
    assert scale.terms == (
        Term("sodium", 10.0, 1.0),
        Term("potassium", 1.5, 1.0),
        Term("chloride", 8.0, 1.0),
        Term("sid_in_body", 4.0, 1.0),
        Term("effective_osmolarity", 20.0, 1.0),
        Term("calcium", 0.4, 0.5),
        Term("magnesium", 0.3, 0.5),
        Term("glucose_mass", 10.0, 0.5),
    )


@pytest.mark.parametrize(
    ("points", "word"),
    [
        (0.0, SMALL),
        (4.94, SMALL),
        (4.96, MODERATE),
        (5.0, MODERATE),
        (12.04, MODERATE),
        (12.06, LARGE),
        (32.5, LARGE),
    ],
)
def test_the_words_change_at_the_limits_as_printed(limits, points, word):
    assert word_for(points, scale_of(limits)) == word


def test_the_words_are_what_a_reader_sees():
    words = ("small difference", "moderate difference", "large difference")
    assert words == (SMALL, MODERATE, LARGE)


# What keeps limits.yml from describing a ranking ------------------------------------------------


def without(limits, *names):
    return {name: limit for name, limit in limits.items() if name not in names}


def with_width(limits, **change):
    name = "substitute-width-sodium"
    return {**limits, name: limits[name].model_copy(update=change)}


def test_the_real_limits_describe_it(limits):
    assert not_described(limits, ("class-osmolarity-low",)) == ""


@pytest.mark.parametrize(
    ("gone", "told"),
    [
        (["substitute-cap"], "substitute-cap"),
        (["class-osmolarity-low"], "class-osmolarity-low"),
        (["substitute-weight-calcium"], "substitute-weight-calcium"),
        (["substitute-large", "substitute-small"], "substitute-small, substitute-large"),
    ],
)
def test_a_missing_limit_is_named_with_what_to_do(limits, gone, told):
    found = not_described(without(limits, *gone), ("class-osmolarity-low",))
    assert found == f"limits.yml does not hold {told}: add it"


def test_a_ranking_by_nothing_asks_for_a_first_quantity(limits):
    few = {name: limit for name, limit in limits.items() if "substitute-w" not in name}
    assert not_described(few, ()) == (
        "limits.yml does not hold substitute-width-sodium, substitute-weight-sodium: add it"
    )


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (
            {"quantity": "colour"},
            "limits.yml, substitute-width-sodium: colour is not computed: name another",
        ),
        (
            {"value": parse_amount("0 mmol/L")},
            "limits.yml, substitute-width-sodium: a step of nothing: write how much one step is",
        ),
        ({"value": parse_amount("0.5 mmol/L")}, ""),
    ],
)
def test_a_step_that_cannot_be_counted_is_named(limits, change, told):
    assert not_described(with_width(limits, **change), ()) == told


# In words ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("quantity", "mine", "theirs", "words"),
    [
        ("sodium", 154.0, 130.96, "sodium 131 beside 154 mmol/L, 23 lower"),
        ("sodium", 130.96, 154.0, "sodium 154 beside 131 mmol/L, 23 higher"),
        ("sodium", 154.0, 134.0, "sodium 134 beside 154 mmol/L, 20 lower"),
        ("sodium", 154.4, 134.5, "sodium 134.5 beside 154.4 mmol/L, 19.9 lower"),
        ("sodium", 154.4, 134.4, "sodium 134 beside 154 mmol/L, 20 lower"),
        ("sodium", 154.0, 153.96, ""),
        ("sodium", 154.0, 153.94, "sodium 153.9 beside 154 mmol/L, 0.1 lower"),
        ("potassium", 5.366, 4.024, "potassium 4 beside 5.4 mmol/L, 1.4 lower"),
        ("potassium", 4.0, 5.0, "potassium 5 beside 4 mmol/L, 1 higher"),
        ("calcium", 0.0, 1.84, "calcium 1.8 mmol/L beside none"),
        ("calcium", 1.84, 0.0, "no calcium beside 1.8 mmol/L"),
        ("calcium", 1.0, 2.0, "calcium 2 beside 1 mmol/L, 1 higher"),
        ("calcium", 0.0, 0.0, ""),
        ("sodium", 0.0, 154.0, "sodium 154 mmol/L beside none"),
        ("sodium", 154.0, 0.0, "no sodium beside 154 mmol/L"),
        ("potassium", 0.0, 4.0, "potassium 4 mmol/L beside none"),
        ("potassium", 4.0, 0.0, "no potassium beside 4 mmol/L"),
        # What follows the comma of a name says how it is counted, not what it is.
        ("glucose_mass", 50.0, 45.455, "glucose 45.5 beside 50 g/L, 4.5 lower"),
        # Nothing is "none" of what does not scale, and a negative figure is subtracted as one.
        (
            "sid_in_body",
            0.0,
            28.0,
            "strong ion difference in the body 28 beside 0 mEq/L, 28 higher",
        ),
        (
            "sid_in_body",
            28.0,
            0.0,
            "strong ion difference in the body 0 beside 28 mEq/L, 28 lower",
        ),
        (
            "sid_in_body",
            2.0,
            -3.0,
            "strong ion difference in the body −3 beside 2 mEq/L, 5 lower",
        ),
    ],
)
def test_one_difference_in_words(quantity, mine, theirs, words):
    assert difference_words(QUANTITY_BY_ID[quantity], mine, theirs) == words


def test_what_counts_most_comes_first_and_what_does_not_show_is_left_out():
    """Points: chloride 0.5 x 5 (capped) = 2.5, sodium 2.3; calcium would print alike."""
    scale = Scale((SODIUM, Term("calcium", 0.4, 0.5), CHLORIDE), 5.0, 5.0, 12.0)
    mine = side(sodium=154.0, chloride=154.0, calcium=1.80)
    theirs = side(sodium=131.0, chloride=112.0, calcium=1.84)
    assert differences(mine, theirs, scale) == (
        "chloride 112 beside 154 mmol/L, 42 lower",
        "sodium 131 beside 154 mmol/L, 23 lower",
    )


def test_of_two_that_reach_the_cap_the_one_with_more_steps_comes_first():
    """Sodium 6 steps and chloride 10, both cut to 5 points; potassium 4 points."""
    terms = (Term("potassium", 1.0, 1.0), SODIUM, Term("chloride", 8.0, 1.0))
    mine = side(sodium=60.0, chloride=80.0, potassium=4.0)
    theirs = side(sodium=0.0, chloride=0.0, potassium=0.0)
    assert differences(mine, theirs, Scale(terms, 5.0, 5.0, 12.0)) == (
        "no chloride beside 80 mmol/L",
        "no sodium beside 60 mmol/L",
        "no potassium beside 4 mmol/L",
    )
