"""What a label prints, in our unit, and how near a computed figure comes: at each threshold."""

from dataclasses import replace

import pytest

from isofolio.entries.scalars import parse_amount
from isofolio.findings.audit_figures import (
    EXACT,
    LIMITS,
    NOMINAL,
    OFF,
    ROUNDED,
    Printed,
    Thresholds,
    coarse,
    distance,
    last_digit,
    nearness,
    printed,
    thresholds,
    within,
)

# Half a step, one step or 1 %, 3 %; 15 and 1 mmol/L of what is not in the contents.
THRESHOLDS = Thresholds(0.5, 1.0, 0.01, 0.03, 15.0, 1.0)


def figure(low, high, step=1.0):
    return Printed(low, high, step, equivalents=False)


@pytest.mark.parametrize(
    ("text", "step"),
    [
        ("154 mmol/L", 1.0),
        ("5.0 mmol/L", 0.1),
        ("2.04 mOsm/mL", 0.01),
        ("990 mOsm/L", 1.0),
        ("1000 mOsm/L", 10.0),
        ("1030 mOsm/L", 10.0),
        ("1031 mOsm/L", 1.0),
        ("1030.0 mOsm/L", 0.1),
        ("900 to 1000 mOsm/L", 10.0),
        ("at most 2000 mOsm/L", 10.0),
        ("0 mmol/L", 1.0),
        ("trace", 1.0),
    ],
)
def test_the_last_printed_digit(text, step):
    """A whole number of 1000 and more that ends in zero is taken as rounded to ten."""
    assert last_digit(parse_amount(text)) == pytest.approx(step)


@pytest.mark.parametrize(
    ("quantity", "text", "low", "high", "step", "equivalents"),
    [
        ("sodium", "154 mmol/L", 154.0, 154.0, 1.0, False),
        ("sodium", "154 mEq/L", 154.0, 154.0, 1.0, True),
        ("calcium", "4 mEq/L", 2.0, 2.0, 0.5, True),
        ("calcium", "0.45 to 0.5 mmol/mL", 450.0, 500.0, 10.0, False),
        ("potassium", "at most 0.5 mmol per 50 mL", None, 10.0, 2.0, False),
        ("osmolarity", "1.02 mOsm/mL", 1020.0, 1020.0, 10.0, False),
        ("energy", "836.8 kJ/L", 200.0, 200.0, 0.1 / 4.184, False),
    ],
)
def test_a_printed_amount_in_our_unit(chemistry, quantity, text, low, high, step, equivalents):
    found = printed(quantity, parse_amount(text), chemistry)
    assert found.low == (None if low is None else pytest.approx(low))
    assert found.high == pytest.approx(high)
    assert found.step == pytest.approx(step)
    assert found.equivalents is equivalents


@pytest.mark.parametrize(
    ("quantity", "text"),
    [
        ("sodium", "trace"),
        ("sodium", "not declared"),
        ("sodium", "154 g/L"),
        ("glucose", "154 mEq/L"),
        ("phosphate", "10 mEq/L"),
        ("osmolarity", "308 mOsm/kg"),
    ],
)
def test_what_is_no_figure_in_our_unit(chemistry, quantity, text):
    assert printed(quantity, parse_amount(text), chemistry) is None


@pytest.mark.parametrize(
    ("low", "high", "one"), [(5.0, 5.0, True), (4.0, 5.0, False), (None, 5.0, False)]
)
def test_a_range_or_a_bound_is_not_one_figure(low, high, one):
    assert figure(low, high).one is one


@pytest.mark.parametrize(
    ("low", "high", "computed", "away"),
    [
        (154.0, 154.0, 150.0, 4.0),
        (154.0, 154.0, 154.0, 0.0),
        (154.0, 154.0, 160.0, -6.0),
        (130.0, 160.0, 120.0, 10.0),
        (130.0, 160.0, 140.0, 0.0),
        (130.0, 160.0, 165.0, -5.0),
        (None, 160.0, 0.0, 0.0),
        (None, 160.0, 161.0, -1.0),
    ],
)
def test_how_far_a_printed_figure_lies_above_ours(low, high, computed, away):
    """Below ours it is negative; inside a range, and at its ends, it is nothing."""
    assert distance(figure(low, high), computed) == away


@pytest.mark.parametrize(
    ("difference", "computed", "kept"),
    [
        (0.5, 1.0, True),
        (-0.5, 1.0, True),
        # What floating-point sums miss a threshold by: a billionth, or that share of ours.
        (0.5 + 0.9e-9, 1.0, True),
        (0.5 + 1.1e-9, 1.0, False),
        (0.5 + 1.1e-9, 0.1, False),
        (-0.5 - 1.1e-9, 1.0, False),
        (0.5 + 0.9e-6, 1000.0, True),
        (0.5 + 0.9e-6, -1000.0, True),
        (0.5 + 1.1e-6, 1000.0, False),
    ],
)
def test_a_threshold_itself_is_kept(difference, computed, kept):
    assert within(difference, 0.5, computed) is kept


@pytest.mark.parametrize(
    ("low", "high", "step", "computed", "near"),
    [
        (154.0, 154.0, 1.0, 154.5, EXACT),
        (154.0, 154.0, 1.0, 154.51, ROUNDED),
        (154.0, 154.0, 1.0, 153.49, ROUNDED),
        # One step, or 1 % of ours, whichever is more.
        (4.0, 4.0, 1.0, 5.0, ROUNDED),
        (4.0, 4.0, 1.0, 5.01, OFF),
        (198.0, 198.0, 1.0, 200.0, ROUNDED),
        (197.9, 197.9, 0.1, 200.0, NOMINAL),
        (194.0, 194.0, 1.0, 200.0, NOMINAL),
        (193.9, 193.9, 0.1, 200.0, OFF),
        (-198.0, -198.0, 1.0, -200.0, ROUNDED),
        (-194.0, -194.0, 1.0, -200.0, NOMINAL),
        (-193.9, -193.9, 0.1, -200.0, OFF),
        # What is not there never rounds to something.
        (0.0, 0.0, 1.0, 0.0, EXACT),
        (1.0, 1.0, 1.0, 0.0, OFF),
        (130.0, 160.0, 10.0, 165.0, EXACT),
        (130.0, 160.0, 10.0, 166.0, ROUNDED),
    ],
)
def test_how_near_a_figure_comes(low, high, step, computed, near):
    assert nearness(figure(low, high, step), computed, THRESHOLDS) == near


@pytest.mark.parametrize(
    ("high", "step", "large"),
    [(100.0, 3.0, False), (100.0, 3.1, True), (-100.0, 3.0, False), (2.0, 1.0, True)],
)
def test_a_step_that_says_little(high, step, large):
    """Three per cent of the figure is the share from which a step is no fine one."""
    assert coarse(figure(high, high, step), THRESHOLDS) is large


def test_each_threshold_is_read_from_its_limit(chemistry):
    limits = chemistry.limits
    found = thresholds(chemistry)
    assert (found.exact, found.rounded_units) == (0.5, 1.0)
    assert (found.rounded, found.nominal) == (0.01, 0.03)
    assert (found.saccharate, found.acid_or_base) == (15.0, 1.0)
    assert set(LIMITS) <= set(limits)


@pytest.mark.parametrize("name", LIMITS)
def test_one_limit_that_is_missing_ends_the_audit(chemistry, name):
    limits = {key: limit for key, limit in chemistry.limits.items() if key != name}
    assert thresholds(replace(chemistry, limits=limits)) is None
