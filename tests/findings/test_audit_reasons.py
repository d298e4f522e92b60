"""Why a true label may print another figure than its contents give: where each reason ends.

What may be added without standing in the contents, 15 mmol/L of calcium saccharate and 1 mmol/L of
acid or base, are limits of the catalogue; sources stand there. Half a printed step is added.
"""

from dataclasses import replace

import pytest

from isofolio.findings import audit_reasons as reasons
from isofolio.findings.audit_lines import Line
from isofolio.measures.values import Value

GLUCONATE = [("calcium-gluconate-monohydrate", "100 g/L")]  # 223.03 mmol/L of calcium
SEEN = {"source": "a-label", "at": "table 1", "seen": "read", "on": "2026-11-25"}


def plain(text):
    return text.replace("\u00a0", " ").replace("\u202f", " ")


def ions(**amounts):
    """Contents declared in ions, in mmol/L."""
    return [(ion, f"{amount} mmol/L") for ion, amount in amounts.items()]


def mmol(**amounts):
    """What a source prints of them."""
    return {ion: f"{amount} mmol/L" for ion, amount in amounts.items()}


@pytest.fixture
def reason(bench):
    """What a function of the fluid says of the last printed figure of an invented fluid."""

    def say(function, contents, values):
        made, groups = bench(fluid=(contents, values))
        line = groups["fluid"][0][-1]
        return plain(function(line, made.catalogue.fluids["fluid"], made))

    return say


@pytest.fixture
def balance(bench):
    """What a function of the group says of the last printed figure of one source."""

    def say(function, contents, values):
        made, groups = bench(fluid=(contents, values))
        (group,) = groups["fluid"]
        return plain(function(group[-1], group, made))

    return say


# Two ions of like charge, one rounded down and one up.


@pytest.mark.parametrize(
    ("contents", "values", "beside"),
    [
        # 140.6 and 4.4 printed as 140 and 5: 0.6 mEq/L less and 0.6 more.
        (
            ions(sodium="140.6", potassium="4.4", chloride="145"),
            mmol(potassium="5", chloride="145", sodium="140"),
            "potassium 5 mmol/L",
        ),
        # The second of two, and an anion beside an anion.
        (
            ions(sodium="140", lactate="28.4", chloride="111.6"),
            mmol(sodium="140", chloride="111", lactate="29"),
            "chloride 111 mmol/L",
        ),
        # 0.31 and 0.6: more than half is left; 0.29 of 0.6 is less than half.
        (
            ions(sodium="140.6", potassium="4.09", chloride="144.69"),
            mmol(potassium="5", chloride="145", sodium="140"),
            "",
        ),
        (
            ions(sodium="140.6", potassium="4.11", chloride="144.71"),
            mmol(potassium="5", chloride="145", sodium="140"),
            "potassium 5 mmol/L",
        ),
        # Exactly half is not less than half: 1.0 less and 0.5 more.
        (
            ions(sodium="160.5", lactate="50.5", chloride="110"),
            mmol(sodium="160", lactate="51.0", chloride="109"),
            "",
        ),
        # What is printed beside the ions and is none of them carries no charge.
        (
            ions(sodium="140.6", potassium="4.4", chloride="145"),
            {"osmolarity": "290 mOsm/L", **mmol(potassium="5", chloride="145", sodium="140")},
            "potassium 5 mmol/L",
        ),
        # An ion without a figure has not been rounded.
        (
            ions(sodium="140.6", potassium="4.4", chloride="140"),
            mmol(sodium="140", chloride="140") | {"potassium": "trace"},
            "",
        ),
        # Both rounded up do not balance each other.
        (
            ions(sodium="139.4", potassium="4.4", chloride="143.8"),
            mmol(potassium="5", chloride="145", sodium="140"),
            "",
        ),
        # An anion rounded down does not make up for a cation that is rounded down ...
        (
            ions(sodium="140.6", potassium="5", chloride="145.6"),
            mmol(potassium="5", chloride="145", sodium="140"),
            "",
        ),
        # ... nor one rounded up for a cation that is rounded up, though the signs would fit.
        (
            ions(sodium="140.6", lactate="4.4", chloride="136.2"),
            mmol(lactate="5", chloride="135", sodium="140"),
            "",
        ),
        # Printed charges that do not balance are balanced by nobody.
        (
            ions(sodium="140.6", potassium="4.4", chloride="145"),
            mmol(potassium="5", chloride="144", sodium="140"),
            "",
        ),
        # An ion that is exact beside it has not been rounded.
        (
            ions(sodium="140.6", potassium="4.6", chloride="145.2"),
            mmol(potassium="5", chloride="145", sodium="140"),
            "",
        ),
        # What carries no charge balances nothing.
        (
            [*ions(sodium="140", chloride="140"), ("glucose", "10 g/L")],
            {**mmol(sodium="140", chloride="140"), "glucose": "56 mmol/L"},
            "",
        ),
        # An exact figure needs no reason.
        (
            ions(sodium="140", potassium="4.4", chloride="144.4"),
            mmol(potassium="5", chloride="145", sodium="140"),
            "",
        ),
    ],
)
def test_rounded_so_that_the_printed_ions_balance(balance, contents, values, beside):
    told = balance(reasons.against_another, contents, values)
    assert told.startswith(f"Rounded so that the printed ions balance, beside {beside};") is bool(
        beside
    )
    assert bool(told) is bool(beside)


@pytest.mark.parametrize(
    ("contents", "values", "holds"),
    [
        # 71 is nominally 69 where sodium and potassium are printed as 30 and 39.
        (
            ions(sodium="30.8", potassium="40", chloride="70.8"),
            mmol(sodium="30", potassium="39", chloride="69"),
            True,
        ),
        # It is one of the rounded ones itself, or off.
        (
            ions(sodium="30.8", potassium="40", chloride="70.8"),
            mmol(sodium="30", potassium="40", chloride="70"),
            False,
        ),
        (
            ions(sodium="30.8", potassium="40", chloride="70.8"),
            mmol(sodium="25", potassium="39", chloride="64"),
            False,
        ),
        # None of the others is rounded, or one of them is farther away than that.
        (
            ions(sodium="100", potassium="100", chloride="200"),
            mmol(sodium="100", potassium="95", chloride="195"),
            False,
        ),
        (
            ions(sodium="100", potassium="40", chloride="140"),
            mmol(sodium="99", potassium="38", chloride="137"),
            False,
        ),
        # The printed charges do not balance.
        (
            ions(sodium="30.8", potassium="40", chloride="70.8"),
            mmol(sodium="30", potassium="38.9", chloride="69"),
            False,
        ),
        (
            ions(sodium="30.8", potassium="40", chloride="70.8"),
            mmol(sodium="30", potassium="40", chloride="69"),
            False,
        ),
        # It carries no charge.
        (
            [*ions(sodium="30.8", chloride="30.8"), ("glucose", "10 g/L")],
            {**mmol(sodium="30", chloride="30"), "glucose": "54.3 mmol/L"},
            False,
        ),
    ],
)
def test_an_ion_that_balances_the_others(balance, contents, values, holds):
    told = balance(reasons.balancing, contents, values)
    assert told.startswith("It balances the other ions as they are printed;") is holds
    assert bool(told) is holds


def test_what_carries_no_charge_is_no_other_ion(balance):
    """A glucose that is off says nothing of the ions beside it."""
    contents = [*ions(sodium="30.8", potassium="40", chloride="70.8"), ("glucose", "10 g/L")]
    values = {"glucose": "90 mmol/L", **mmol(sodium="30", potassium="39", chloride="69")}
    assert balance(reasons.balancing, contents, values)
    values = {
        "glucose": "trace",
        "lactate": "trace",
        **mmol(sodium="30", potassium="39", chloride="69"),
    }
    assert not balance(reasons.balancing, contents, values)


# What is added and not in the contents.


@pytest.mark.parametrize(
    ("contents", "values", "holds"),
    [
        # 15 mmol/L and half of the last digit: 223.03 + 15.5 for a figure without decimals.
        (GLUCONATE, {"calcium": "224 mmol/L"}, True),
        (GLUCONATE, {"calcium": "238 mmol/L"}, True),
        (GLUCONATE, {"calcium": "239 mmol/L"}, False),
        (GLUCONATE, {"calcium": "238.0 mmol/L"}, True),
        (GLUCONATE, {"calcium": "238.2 mmol/L"}, False),
        # Only above, and only of calcium, or twice of all particles: 669.1 + 30.5.
        (GLUCONATE, {"calcium": "222 mmol/L"}, False),
        (GLUCONATE, {"calcium": "220 to 225 mmol/L"}, False),
        (GLUCONATE, {"gluconate": "450 mmol/L"}, False),
        (GLUCONATE, {"osmolarity": "699 mOsm/L"}, True),
        (GLUCONATE, {"osmolarity": "700 mOsm/L"}, False),
        (GLUCONATE, {"calcium": "trace"}, False),
        # Another salt of calcium keeps in solution by itself.
        ([("calcium-chloride-dihydrate", "30 g/L")], {"calcium": "210 mmol/L"}, False),
    ],
)
def test_saccharate_beside_the_gluconate(reason, contents, values, holds):
    assert bool(reason(reasons.saccharate, contents, values)) is holds


def test_saccharate_beside_a_gluconate_that_is_not_the_first(reason):
    contents = [("sodium-chloride", "9 g/L"), *GLUCONATE]
    assert reason(reasons.saccharate, contents, {"calcium": "230 mmol/L"}) == (
        "The label may also count the calcium saccharate that keeps it in solution; the gluconate "
        "alone gives 223 mmol/L."
    )


@pytest.mark.parametrize(
    ("values", "agent"),
    [
        ({"chloride": "40.9 mmol/L"}, "hydrochloric acid"),
        ({"sodium": "41.0 mmol/L"}, "sodium hydroxide"),
        ({"sodium": "41.05 mmol/L"}, ""),
        ({"sodium": "41.1 mmol/L"}, ""),
        ({"sodium": "39.9 mmol/L"}, ""),
        ({"sodium": "trace"}, ""),
        ({"osmolarity": "81 mOsm/L"}, ""),
        ({"potassium": "0.5 mmol/L"}, ""),
        ({"calcium": "0.9 mmol/L"}, ""),
    ],
)
def test_acid_or_base_that_sets_the_ph(reason, values, agent):
    told = reason(reasons.acid_or_base, ions(sodium="40.0", chloride="40.0"), values)
    assert (f"may count {agent} that sets the pH; the contents give 40 mmol/L." in told) is bool(
        agent
    )
    assert bool(told) is bool(agent)


@pytest.mark.parametrize("values", [{"sodium": "0.9 mmol/L"}, {"chloride": "0.9 mmol/L"}])
def test_no_acid_or_base_where_the_contents_hold_none_of_its_ion(reason, values):
    assert reason(reasons.acid_or_base, ions(potassium="40", lactate="40"), values) == ""


def test_an_addition_of_nothing_explains_nothing(bench):
    """Where a catalogue sets the limit to nought, half a digit above ours is no acid."""
    contents = ions(sodium="40.0", chloride="40.0")
    made, groups = bench(fluid=(contents, {"sodium": "40.4 mmol/L"}, {"sodium": "41 mmol/L"}))
    none = replace(made, limits=replace(made.limits, acid_or_base=0.0, exact=5.0))
    fluid = made.catalogue.fluids["fluid"]
    assert reasons.acid_or_base(groups["fluid"][0][0], fluid, made)
    assert not reasons.acid_or_base(groups["fluid"][0][0], fluid, none)


# Milliequivalents, rounded and then divided by the charge.


@pytest.mark.parametrize(
    ("contents", "values", "whole"),
    [
        # 1.3604 mmol/L are 2.72 mEq/L, which labels print as 3.
        ([("calcium-chloride-dihydrate", "0.200 g/L")], {"calcium": "1.5 mmol/L"}, "3"),
        ([("calcium-chloride-dihydrate", "0.200 g/L")], {"calcium": "1 mmol/L"}, ""),
        ([("calcium-chloride-dihydrate", "0.200 g/L")], {"calcium": "2.0 mmol/L"}, ""),
        ([("calcium-chloride-dihydrate", "0.200 g/L")], {"calcium": "1.52 mmol/L"}, ""),
        ([("calcium-chloride-dihydrate", "0.200 g/L")], {"calcium": "1.5 to 2.5 mmol/L"}, ""),
        ([("calcium-chloride-dihydrate", "0.200 g/L")], {"calcium": "3 mEq/L"}, ""),
        ([("calcium-chloride-dihydrate", "0.200 g/L")], {"calcium": "trace"}, ""),
        # Half a milliequivalent is what rounding explains.
        (ions(calcium="1.25"), {"calcium": "1.5 mmol/L"}, "3"),
        (ions(calcium="1.75"), {"calcium": "1.5 mmol/L"}, "3"),
        (ions(calcium="1.24"), {"calcium": "1.5 mmol/L"}, ""),
        (ions(calcium="1.76"), {"calcium": "1.5 mmol/L"}, ""),
        (ions(calcium="0.6"), {"calcium": "0.5 mmol/L"}, "1"),
        # Nothing is no half of a rounded figure, and an ion of one charge is divided by nothing.
        (ions(calcium="0.2"), {"calcium": "0 mmol/L"}, ""),
        (ions(sodium="0"), {"calcium": "0.5 mmol/L"}, ""),
        (ions(sodium="2.6"), {"sodium": "3 mmol/L"}, ""),
        (ions(sodium="2.6"), {"osmolarity": "3 mOsm/L"}, ""),
    ],
)
def test_milliequivalents_rounded_and_then_divided(reason, contents, values, whole):
    told = reason(reasons.halved, contents, values)
    assert told.startswith(f"It is {whole} mEq/L, which labels print for ") is bool(whole)
    assert bool(told) is bool(whole)


def test_the_sentence_of_a_division_has_both_units(reason):
    assert reason(reasons.halved, ions(magnesium="1.4"), {"magnesium": "1.5 mmol/L"}) == (
        "It is 3 mEq/L, which labels print for 2.8, divided by 2; the contents give 1.4 mmol/L."
    )


# Masses that are themselves rounded.

ROUGH = [("calcium-chloride-dihydrate", "0.2 g/L")]  # 0.15 to 0.25 g/L: 1.020 to 1.701 mmol/L


@pytest.mark.parametrize(
    ("contents", "values", "holds"),
    [
        (ROUGH, {"calcium": "1.70 mmol/L"}, True),
        (ROUGH, {"calcium": "1.71 mmol/L"}, False),
        (ROUGH, {"calcium": "1.02 mmol/L"}, True),
        (ROUGH, {"calcium": "1.01 mmol/L"}, False),
        # Half a digit of what is printed is added.
        (ROUGH, {"calcium": "1.7 mmol/L"}, True),
        (ROUGH, {"calcium": "1.8 mmol/L"}, False),
        (ROUGH, {"calcium": "1.0 mmol/L"}, True),
        (ROUGH, {"calcium": "0.9 mmol/L"}, False),
        (ROUGH, {"calcium": "2 mmol/L"}, True),
        # A range or a bound that reaches what they allow.
        (ROUGH, {"calcium": "1.75 to 2.00 mmol/L"}, False),
        (ROUGH, {"calcium": "1.70 to 2.00 mmol/L"}, True),
        (ROUGH, {"calcium": "0.50 to 1.02 mmol/L"}, True),
        (ROUGH, {"calcium": "at most 1.02 mmol/L"}, True),
        (ROUGH, {"calcium": "at most 0.50 mmol/L"}, False),
        (ROUGH, {"calcium": "trace", "chloride": "trace"}, False),
        # Nothing that is rough is in it, or nothing of what is printed.
        ([("calcium-chloride-dihydrate", "0.200 g/L")], {"calcium": "1.64 mmol/L"}, False),
        ([*ROUGH, ("sodium-chloride", "9 g/L")], {"sodium": "140 mmol/L"}, False),
    ],
)
def test_what_rounded_masses_allow(reason, contents, values, holds):
    told = reason(reasons.rounded_masses, contents, values)
    words = "The masses of the recipe are rounded too: they allow 1 mmol/L to 1.7 mmol/L."
    assert told == (words if holds else "")


def test_a_bound_below_one_reaches_what_they_allow(reason):
    """0.015 to 0.025 g/L are 0.10 to 0.17 mmol/L; "at most" has no lower end."""
    contents = [("calcium-chloride-dihydrate", "0.02 g/L")]
    told = reason(reasons.rounded_masses, contents, {"calcium": "at most 0.12 mmol/L"})
    assert told.endswith("they allow 0.1 mmol/L to 0.2 mmol/L.")


# A colloid that is counted as well.

GELATIN = [
    ("succinylated-gelatin", "40 g/L"),
    ("sodium-chloride", "7.01 g/L"),
    ("sodium-hydroxide", "1.36 g/L"),
]  # ions of 273.9 mOsm/L
THIN = [("succinylated-gelatin", "40 g/L"), *ions(sodium="10.0", chloride="10.0")]


@pytest.mark.parametrize(
    ("contents", "values", "ions_alone"),
    [
        (GELATIN, {"osmolarity": "279 mOsm/L"}, "274 mOsm/L"),
        (GELATIN, {"osmolarity": "282 mOsm/L"}, "274 mOsm/L"),
        (GELATIN, {"osmolarity": "283 mOsm/L"}, ""),
        (GELATIN, {"osmolarity": "267 mOsm/L"}, ""),
        (GELATIN, {"osmolarity": "trace"}, ""),
        (GELATIN, {"sodium": "157 mmol/L"}, ""),
        (THIN, {"osmolarity": "20.5 mOsm/L"}, "20 mOsm/L"),
        (THIN, {"osmolarity": "20.0 mOsm/L"}, ""),
        # Without a colloid nothing else is counted.
        (ions(sodium="10.0", chloride="10.0"), {"osmolarity": "20.5 mOsm/L"}, ""),
    ],
)
def test_a_colloid_that_may_be_counted(reason, contents, values, ions_alone):
    told = reason(reasons.colloid, contents, values)
    words = f"The ions alone make {ions_alone}; the label may count the colloid."
    assert told == (words if ions_alone else "")


def test_the_ions_of_a_published_recipe_beside_its_colloid(lines):
    """274 by the contents; 0.59 g/L more of sodium chloride are 20 mOsm/L more."""
    other = [
        {"substance": "succinylated-gelatin", "amount": "40 g/L"},
        {"substance": "sodium-chloride", "amount": "7.60 g/L"},
        {"substance": "sodium-hydroxide", "amount": "1.36 g/L"},
    ]
    variant = {"name": "stronger", "contents": other, "cite": SEEN}
    (line,) = lines(GELATIN, {"osmolarity": "300 mOsm/L"}, variants=[variant])
    assert line.verdict == "explained"
    assert plain(line.explanation) == (
        "The ions alone make 294 mOsm/L; the label may count the colloid."
    )
    (line,) = lines(GELATIN, {"osmolarity": "286 mOsm/L"}, variants=[variant])
    assert line.verdict == "error"


# Osmolality and osmolarity under each other's name.


@pytest.mark.parametrize(
    ("contents", "values", "words"),
    [
        (
            [("glucose", "50 g/L")],
            {"osmolarity": "286 mOsm/L"},
            "It fits an osmolality (our estimate is 289 mOsm/kg ± 3 %), not the osmolarity, "
            "278 mOsm/L.",
        ),
        ([("glucose", "50 g/L")], {"osmolarity": "298 mOsm/L"}, ""),
        ([("glucose", "50 g/L")], {"osmolarity": "trace"}, ""),
        ([("glucose", "50 g/L")], {"glucose": "286 mmol/L"}, ""),
        (
            [("sodium-chloride", "9 g/L")],
            {"osmolality": "308 mOsm/kg"},
            "It fits the osmolarity, 308 mOsm/L, not an osmolality (our estimate is 287 mOsm/kg "
            "± 3 %).",
        ),
        (
            [("sodium-chloride", "9 g/L")],
            {"osmolality_measured": "300 mOsm/kg"},
            "It fits the osmolarity, 308 mOsm/L, not an osmolality (our estimate is 287 mOsm/kg "
            "± 3 %).",
        ),
        ([("sodium-chloride", "9 g/L")], {"osmolality": "320 mOsm/kg"}, ""),
        ([("sodium-chloride", "9 g/L")], {"osmolality": "trace"}, ""),
        ([("sodium-chloride", "9 g/L")], {"chloride": "308 mmol/L"}, ""),
        # Of a composition that is not known there is no osmolarity to fit.
        ([("sodium", "not declared")], {"osmolality": "308 mOsm/kg"}, ""),
        ([("sodium", "not declared")], {"osmolarity": "308 mOsm/L"}, ""),
    ],
)
def test_one_under_the_name_of_the_other(reason, contents, values, words):
    assert reason(reasons.osmolality_word, contents, values) == words


@pytest.mark.parametrize(
    ("printed", "inside"), [("280.5", True), ("297.7", True), ("280.4", False), ("297.8", False)]
)
def test_the_error_of_our_estimate(bench, printed, inside):
    """289.096 mOsm/kg with 3 per cent: 280.42 to 297.77."""
    made, groups = bench(fluid=([("glucose", "50 g/L")], {"osmolality": f"{printed} mOsm/kg"}))
    figure = groups["fluid"][0][0].figure
    estimate = made.table.value("fluid", "osmolality").number
    error = made.table.value("fluid", "osmolality_error").number
    assert (round(estimate, 1), error) == (289.1, 3.0)
    assert reasons.within_estimate(figure, "fluid", made) is inside


def test_where_there_is_no_estimate_nothing_is_within_it(bench):
    made, groups = bench(fluid=(ions(sodium="154", chloride="154"), {"osmolality": "286 mOsm/kg"}))
    assert not reasons.within_estimate(groups["fluid"][0][0].figure, "fluid", made)
    assert plain(reasons.estimate("fluid", made)) == "0 mOsm/kg ± 0 %"


def test_a_line_without_our_figure_has_no_reason(bench):
    made, groups = bench(fluid=(GLUCONATE, {"calcium": "230 mmol/L"}))
    (line,) = groups["fluid"][0]
    unknown = replace(line, ours=Value(None, "not declared"))
    fluid = made.catalogue.fluids["fluid"]
    assert isinstance(unknown, Line)
    for why in (*reasons.WHY, *reasons.WHY_ELSE):
        assert why(unknown, fluid, made) == ""
