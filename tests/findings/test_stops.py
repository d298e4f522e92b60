"""What stops a fluid from being ranked beside another: at its limit, above it, and in words."""

import numpy as np
import pytest

from isofolio.entries.scalars import parse_amount
from isofolio.findings.alternatives import alternatives_of
from isofolio.findings.body import classes_of
from isofolio.findings.stops import STOPS, first_above, first_reached, side_of, stopped

NAN = float("nan")
SUGAR = {"glucose_mass": 50.0}
NOT_HUNG = "one of the two is not hung as it is"
COLLOID = "a colloid in one of the two only"
UNKNOWN = "not every figure that is compared is known of both"


def sides_of(catalogue, table):
    """Each fluid of a catalogue as a side of its own."""
    return [side_of([fluid], catalogue, table) for fluid in catalogue.fluids.values()]


def stops_between(catalogue, table):
    """What stops the second fluid of a catalogue in the place of the first, in words."""
    mine, theirs = sides_of(catalogue, table)
    limits = catalogue.limits
    applied = [stop for stop in STOPS if stop.applies(mine, theirs, limits).item()]
    assert stopped(mine, theirs, limits).item() == bool(applied)
    return [stop.words(mine, theirs, limits) for stop in applied]


@pytest.mark.parametrize(
    ("here", "there", "words"),
    [
        ({"potassium": 0.0}, {"potassium": 6.0}, []),
        ({"potassium": 20.0}, {"potassium": 26.4}, []),  # 6 at the precision of "6 mmol/L"
        (
            {"potassium": 0.0},
            {"potassium": 6.5},
            ["potassium 6.5 beside 0 mmol/L: more than 6 mmol/L apart"],
        ),
        (
            {"potassium": 27.0},
            {"potassium": 20.0},
            ["potassium 20 beside 27 mmol/L: more than 6 mmol/L apart"],
        ),
        ({}, {"glucose_mass": 0.1}, ["glucose in one of the two only"]),
        (SUGAR, {"glucose_mass": 77.4}, []),
        (SUGAR, {"glucose_mass": 32.3}, []),
        (
            SUGAR,
            {"glucose_mass": 77.5},
            ["glucose 78 beside 50 g/L: more than 1.5 times as much"],
        ),
        (
            SUGAR,
            {"glucose_mass": 32.2},
            ["glucose 32 beside 50 g/L: more than 1.5 times as much"],
        ),
        (
            {"glucose_mass": 0.5},
            {"glucose_mass": 0.9},
            ["glucose 0.9 beside 0.5 g/L: more than 1.5 times as much"],
        ),
        ({}, {"mannitol": 0.1}, ["mannitol in one of the two only"]),
        ({"mannitol": 549.0}, {"mannitol": 823.0}, []),
        ({"bicarbonate_yield": 28.0}, {"bicarbonate_yield": 100.4}, []),
        ({"bicarbonate_yield": 150.0}, {"bicarbonate_yield": 1000.0}, []),
        (
            {"bicarbonate_yield": 28.0},
            {"bicarbonate_yield": 100.5},
            ["base 101 beside 28 mEq/L: only one of the two above 100 mEq/L"],
        ),
        ({"osmolarity": 308.0}, {"osmolarity": 600.4}, []),
        (
            {"osmolarity": 308.0},
            {"osmolarity": 600.5},
            ["in the bag 601 beside 308 mOsm/L: not ranked above 600 mOsm/L"],
        ),
        # The cap would call glucose 20 % and 30 % a small difference: 2.5 steps for 100 g a litre.
        (
            {"osmolarity": 1110.0, "glucose_mass": 200.0},
            {"osmolarity": 1665.0, "glucose_mass": 300.0},
            ["in the bag 1665 beside 1110 mOsm/L: not ranked above 600 mOsm/L"],
        ),
        ({"effective_osmolarity": 249.5}, {"effective_osmolarity": 375.4}, []),
        ({"effective_osmolarity": 249.4}, {"effective_osmolarity": 0.0}, []),
        ({"effective_osmolarity": 375.5}, {"effective_osmolarity": 2000.0}, []),
        (
            {"effective_osmolarity": 308.0},
            {"effective_osmolarity": 249.4},
            ["in the body 249 beside 308 mOsm/L: on the two sides of 250 mOsm/L"],
        ),
        (
            {"effective_osmolarity": 308.0},
            {"effective_osmolarity": 375.5},
            ["in the body 376 beside 308 mOsm/L: on the two sides of 375 mOsm/L"],
        ),
        (
            {"effective_osmolarity": 80.0},
            {"effective_osmolarity": 1027.0},
            ["in the body 1027 beside 80 mOsm/L: on the two sides of 250 mOsm/L and 375 mOsm/L"],
        ),
        ({}, {"sodium": NAN}, [UNKNOWN]),
        # Which quantities are known decides which stops are asked: a colloid has no ratio.
        ({}, {"tonicity_ratio": NAN, "effective_osmolarity": 0.0}, [UNKNOWN]),
        # Albumin whose glucose is not declared is no fluid "without glucose".
        (SUGAR, {"glucose_mass": NAN}, [UNKNOWN]),
        ({"potassium": 40.0}, {"potassium": NAN}, [UNKNOWN]),
        ({}, {"role": "concentrate"}, [NOT_HUNG]),
        ({}, {"role": "diluent"}, [NOT_HUNG]),
        ({"role": "concentrate"}, {"role": "concentrate"}, [NOT_HUNG]),
        ({}, {"role": "colloid"}, [COLLOID]),
        ({}, {"role": "blood-product"}, [COLLOID]),
        ({}, {"colloid_mass": 40.0}, [COLLOID]),
        ({}, {"colloid_mass": NAN}, [COLLOID]),  # unknown is not none
        ({"colloid_mass": 40.0}, {"role": "colloid"}, []),
        (
            {"role": "concentrate", "potassium": 2000.0},
            {"colloid_mass": 40.0},
            [
                NOT_HUNG,
                COLLOID,
                "potassium 0 beside 2000 mmol/L: more than 6 mmol/L apart",
            ],
        ),
    ],
)
def test_what_stops_is_said_above_its_limit_and_not_at_it(make, here, there, words):
    assert stops_between(*make(here, there)) == words
    assert len(stops_between(*make(there, here))) == len(words)


def test_the_least_figure_above_a_limit_and_the_least_that_reaches_it(limits):
    """By hand: half of the last decimal in which "6 mmol/L", "1.5" and "250 mOsm/L" are written."""
    assert first_above(limits["substitute-stop-potassium"]) == 6.5
    assert first_above(limits["substitute-stop-glucose-ratio"]) == 1.55
    assert first_reached(limits["class-osmolarity-low"]) == 249.5


def test_a_crowd_is_stopped_as_its_pairs_are(make):
    """Rows against columns: every fluid beside every other one, in both directions at once."""
    catalogue, table = make(
        {}, {"potassium": 20.0}, SUGAR, {"role": "colloid"}, {"role": "diluent"}, {"sodium": NAN}
    )
    fluids = list(catalogue.fluids.values())
    crowd = side_of(fluids, catalogue, table)
    column = {key: figures[:, np.newaxis] for key, figures in crowd.items()}
    found = stopped(column, crowd, catalogue.limits)
    alone = sides_of(catalogue, table)
    expected = [[stopped(a, b, catalogue.limits).item() for b in alone] for a in alone]
    assert found.tolist() == expected
    assert np.array_equal(found, found.T)


def test_stops_tell_their_figures_on_the_real_shelf(real):
    ranking = alternatives_of(*real)
    listed = {one.id: one for one in ranking["sodium-chloride-0-9"]}
    assert listed["potassium-chloride-0-3-glucose-5"].stops == (
        "potassium 40 beside 0 mmol/L: more than 6 mmol/L apart",
        "glucose in one of the two only",
        "in the body 80 beside 308 mOsm/L: on the two sides of 250 mOsm/L",
    )


def test_the_body_stop_is_the_exported_class(real, about):
    ranking = alternatives_of(*real)
    classes = {fluid: classes_of(about(fluid))["tonicity_class"] for fluid in real[0].fluids}
    for missing in ranking:
        for one in ranking[missing]:
            if classes[one.id] is not None:
                told = any(stop.startswith("in the body") for stop in one.stops)
                assert told == (classes[missing] != classes[one.id]), (missing, one.id)


def test_a_stricter_limit_of_a_hospital_stops_more(make, limits):
    fluids = {}, {"potassium": 5.4}
    name = "substitute-stop-potassium"
    tight = {**limits, name: limits[name].model_copy(update={"value": parse_amount("4 mmol/L")})}
    assert stops_between(*make(*fluids)) == []
    assert stops_between(*make(*fluids, limits=tight)) == [
        "potassium 5.4 beside 0 mmol/L: more than 4 mmol/L apart"
    ]


@pytest.mark.parametrize("written", ["1.2", "1.2 1"])
def test_a_ratio_is_told_without_a_unit(make, limits, written):
    """A pure number may be written with its unit, which is 1."""
    name = "substitute-stop-glucose-ratio"
    limit = {name: limits[name].model_copy(update={"value": parse_amount(written)})}
    assert stops_between(*make(SUGAR, {"glucose_mass": 100.0}, limits={**limits, **limit})) == [
        "glucose 100 beside 50 g/L: more than 1.2 times as much"
    ]
