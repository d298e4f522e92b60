"""What stops a fluid from being ranked beside another: at its limit, above it, and in words."""

import pytest

from isofolio.entries.scalars import parse_amount
from isofolio.findings.alternatives import alternatives_of
from isofolio.findings.body import classes_of


def alternative(ranking, missing, other):
    return next(one for one in ranking[missing] if one.id == other)


def first(ranking):
    return ranking["fluid-0000"][0]


SUGAR = {"glucose_mass": 50.0}


@pytest.mark.parametrize(
    ("here", "there", "words"),
    [
        ({"potassium": 0.0}, {"potassium": 6.0}, ""),
        ({"potassium": 0.0}, {"potassium": 6.4}, ""),  # 6 at the precision of "6 mmol/L"
        ({"potassium": 0.0}, {"potassium": 6.6}, "potassium"),
        (SUGAR, {"glucose_mass": 75.0}, ""),
        (SUGAR, {"glucose_mass": 34.0}, ""),
        (SUGAR, {"glucose_mass": 78.0}, "glucose"),
        (SUGAR, {"glucose_mass": 32.0}, "glucose"),
        ({}, {"glucose_mass": 0.1}, "glucose in one"),
        ({}, {"mannitol": 0.1}, "mannitol in one"),
        ({}, {"bicarbonate_yield": 100.0}, ""),
        ({}, {"bicarbonate_yield": 101.0}, "base"),
        ({}, {"osmolarity": 600.0}, ""),
        ({}, {"osmolarity": 601.0}, "in the bag"),
        ({"effective_osmolarity": 250.0}, {"effective_osmolarity": 260.0}, ""),
        ({"effective_osmolarity": 249.0}, {"effective_osmolarity": 240.0}, ""),
        ({"effective_osmolarity": 250.0}, {"effective_osmolarity": 249.0}, "in the body"),
        ({"effective_osmolarity": 375.0}, {"effective_osmolarity": 374.0}, ""),
        ({"effective_osmolarity": 375.0}, {"effective_osmolarity": 376.0}, "in the body"),
        ({}, {"tonicity_ratio": float("nan")}, "not every figure"),
        ({}, {"sodium": float("nan")}, "not every figure"),
        ({}, {"role": "concentrate"}, "one of the two is not hung"),
        ({}, {"role": "diluent"}, "one of the two is not hung"),
        ({}, {"role": "colloid"}, "a colloid"),
        ({}, {"role": "blood-product"}, "a colloid"),
        ({}, {"colloid_mass": 40.0}, "a colloid"),
        ({}, {"colloid_mass": float("nan")}, "a colloid"),
    ],
)
def test_a_stop_holds_above_its_limit_and_not_at_it(make, here, there, words):
    found = first(alternatives_of(*make(here, there)))
    assert len(found.stops) == (1 if words else 0)
    assert (found.score is None) == bool(words)
    assert all(stop.startswith(words) for stop in found.stops)


def test_two_fluids_above_the_osmolarity_limit_are_not_ranked_either(make):
    """The cap would call glucose 20 % and 30 % a small difference: 2.5 steps for 100 g a litre."""
    strong = [{"osmolarity": o, "glucose_mass": g} for o, g in ((1110.0, 200.0), (1665.0, 300.0))]
    (only,) = alternatives_of(*make(*strong))["fluid-0000"]
    assert only.stops == ("in the bag 1665 beside 1110 mOsm/L: not ranked above 600 mOsm/L",)


def test_an_unknown_figure_is_told_as_unknown_and_not_as_none(make):
    """Albumin whose glucose is not declared is no fluid "without glucose"."""
    found = first(alternatives_of(*make(SUGAR, {"glucose_mass": float("nan")})))
    assert found.stops == ("not every figure that is compared is known of both",)


def test_stops_tell_their_figures(real):
    ranking = alternatives_of(*real)
    stopped = alternative(ranking, "sodium-chloride-0-9", "potassium-chloride-0-3-glucose-5")
    assert stopped.stops == (
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
    assert first(alternatives_of(*make(*fluids))).score is not None
    assert first(alternatives_of(*make(*fluids, limits=tight))).score is None
