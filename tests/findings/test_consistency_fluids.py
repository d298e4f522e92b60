"""Amounts that cannot be what they say, and charge that does not close, in one fluid."""

import pytest

from isofolio.findings.consistency_fluids import charge_closes, units_fit
from isofolio.vocabulary.quantities import DECLARABLE

IONS = "fluids/declared-ions.yml"
GELATIN = "fluids/gelatin-4.yml"
GLUCOSE = "fluids/glucose-5.yml"
SALINE = "fluids/sodium-chloride-0-9.yml"

MISSING_ION = "Look for a missing ion, a wrong amount, or a base that was left out."
PER_VOLUME = "Write grams of a substance, or millimoles of a particle, per volume."
A_VOLUME = "Write it as in 500 mL."
NO_CHARGE_HERE = "Delete the key: the charge of a particle stands in particles.yml."


@pytest.fixture
def judged(told):
    """What both checks say of the fluids of a folder."""
    return lambda folder: told(folder, of_fluids=(units_fit, charge_closes))


def test_the_sound_catalogue_is_consistent(catalogue, judged):
    assert judged(catalogue) == []


# The ions of the sound fluid close exactly: 131 + 5 + 2 x 2 = 111 + 29. Half the last digit of
# each, times its charge, is (1 + 1 + 2 + 1 + 1) / 2 = 3 mEq/L. Arithmetic.
@pytest.mark.parametrize("chloride", ["108", "110", "114"])
def test_rounding_of_a_label_explains_a_gap(spoil, judged, chloride):
    assert judged(spoil(IONS, "111 mmol/L", f"{chloride} mmol/L")) == []


@pytest.mark.parametrize(
    ("chloride", "more"),
    [("107", "cations than of anions"), ("115", "anions than of cations")],
)
def test_a_gap_beyond_rounding_is_a_missing_ion(spoil, judged, chloride, more):
    assert judged(spoil(IONS, "111 mmol/L", f"{chloride} mmol/L")) == [
        f"{IONS}:6:3: the charge does not close: 4.00 mEq/L more of {more}, "
        f"and rounding explains 3.00 | {MISSING_ION}"
    ]


def test_more_digits_on_a_label_explain_less(spoil, judged):
    folder = spoil(IONS, "131 mmol/L", "131.0 mmol/L")
    spoil(IONS, "111 mmol/L", "108.0 mmol/L")
    # (0.1 + 1 + 2 + 0.1 + 1) / 2 = 2.1
    (line,) = judged(folder)
    assert "rounding explains 2.10" in line


def test_milliequivalents_of_an_ion_are_divided_by_its_charge(spoil, judged):
    assert judged(spoil(IONS, "2 mmol/L", "4 mEq/L")) == []


@pytest.mark.parametrize("amount", ["trace", "not declared", "1 to 3 mmol/L", "at most 2 mmol/L"])
def test_what_is_not_one_figure_leaves_the_charge_open(spoil, judged, amount):
    assert judged(spoil(IONS, "2 mmol/L", amount)) == []


def test_an_incomplete_fluid_is_not_expected_to_close(spoil, judged):
    folder = spoil(IONS, "  - {particle: lactate, amount: 29 mmol/L}\n", "")
    (line,) = judged(folder)
    assert line.startswith(f"{IONS}:6:3: the charge does not close: 29.00 mEq/L more of cations")
    assert judged(spoil(IONS, "review:", "complete: no\nreview:")) == []


@pytest.mark.parametrize(
    ("base", "gap", "more"),
    [
        ("35 mmol/L", "1.00", "cations than of anions"),
        ("33 mmol/L", "1.00", "anions than of cations"),
        ("34.006 mmol/L", "0.01", "cations than of anions"),
        ("34.004 mmol/L", "less than 0.01", "cations than of anions"),
        ("33.99999 mmol/L", "less than 0.01", "anions than of cations"),
    ],
)
def test_weighed_salts_close_exactly_and_leave_no_room(spoil, judged, base, gap, more):
    assert judged(spoil(GELATIN, "amount: 34 mmol/L", f"amount: {base}")) == [
        f"{GELATIN}:6:3: the charge does not close: {gap} mEq/L more of {more}, "
        f"and rounding explains none of it | {MISSING_ION}"
    ]


def test_the_charge_of_a_gelatin_follows_from_its_base(spoil, judged):
    folder = spoil(GELATIN, ", charge: 34 mEq/L", "")
    assert judged(folder) == []
    spoil(GELATIN, "amount: 34 mmol/L", "amount: 1.36 g/L")
    assert judged(folder) == []


def test_an_acid_takes_its_charge_from_the_base_beside_it(catalogue, spoil, judged):
    """5 mmol/L of an acid with 5 of base carry 5 mEq/L, with 10 as much again, and no more."""
    text = "id: lactic-acid\nname: An acid\nformula: C3H6O3\nhydrate: anhydrous\n"
    text += "releases: {lactate: 1}\nacid: {particle: lactate, up_to: 2}\n"
    (catalogue / "substances" / "lactic-acid.yml").write_text(text, encoding="utf-8")
    contents = "- {substance: lactic-acid, amount: 5 mmol/L}\n  - {substance: sodium-hydroxide, "
    spoil(SALINE, "- {substance: sodium-chloride, ", contents)
    before = "0.9 % w/v"
    for base, gaps in (("5.0 mmol/L", 0), ("10 mmol/L", 0), ("11 mmol/L", 1)):
        spoil(SALINE, before, base)
        assert len(judged(catalogue)) == gaps
        before = base


@pytest.mark.parametrize("amount", ["9 g", "9", "9 mOsm/L", "9 mEq/L", "9 mL/L", "9 g/kg", "9 L"])
def test_a_weighed_salt_is_grams_or_millimoles_in_a_volume(spoil, judged, amount):
    """And nothing is said of the charge of what cannot be computed."""
    assert judged(spoil(SALINE, "0.9 % w/v", amount)) == [
        f'{SALINE}:6:42: "{amount}" cannot be a concentration of sodium-chloride | {PER_VOLUME}'
    ]


def test_a_declared_particle_is_millimoles(spoil, judged):
    assert judged(spoil(IONS, "131 mmol/L", "3 g/L")) == [
        f'{IONS}:6:32: "3 g/L" cannot be a concentration of sodium | {PER_VOLUME}'
    ]


@pytest.mark.parametrize(
    "amount",
    ["9 g/L", "9000 mg/L", "0.9 g/100 mL", "154 mmol/L", "77 mmol per 500 mL", "1 to 2 g/L"],
)
def test_ways_to_write_a_concentration(spoil, judged, amount):
    assert judged(spoil(SALINE, "0.9 % w/v", amount)) == []


def test_a_colloid_has_no_millimoles(spoil, judged):
    assert judged(spoil(GELATIN, "40 g/L", "40 mmol/L")) == [
        f'{GELATIN}:6:47: "40 mmol/L" cannot be a concentration of succinylated-gelatin '
        f"| {PER_VOLUME}"
    ]


def test_the_contents_of_a_variant_are_judged_as_well(spoil, judged):
    assert judged(spoil(GLUCOSE, "55 g/L", "55 kcal/L")) == [
        f'{GLUCOSE}:14:57: "55 kcal/L" cannot be a concentration of glucose-monohydrate '
        f"| {PER_VOLUME}"
    ]


@pytest.mark.parametrize(
    ("file", "old", "place", "what"),
    [
        (SALINE, "amount: 0.9 % w/v", "6:61", "154 mEq/L"),
        (IONS, "particle: sodium, amount: 131 mmol/L", "6:52", "131 mEq/L"),
    ],
)
def test_only_a_colloid_has_its_charge_declared(spoil, judged, file, old, place, what):
    assert judged(spoil(file, old, f"{old}, charge: {what}")) == [
        f"{file}:{place}: only a colloid has its charge declared here | {NO_CHARGE_HERE}"
    ]


@pytest.mark.parametrize("charge", ["34 g/L", "34 mmol/L", "34 mEq", "at most 34 g/L"])
def test_the_charge_of_a_colloid_is_milliequivalents(spoil, judged, charge):
    assert judged(spoil(GELATIN, "34 mEq/L", charge)) == [
        f'{GELATIN}:6:63: "{charge}" cannot be a concentration of charge | Write it as in 34 mEq/L.'
    ]


@pytest.mark.parametrize(
    "charge", ["0.034 mEq/mL", "17 mEq per 500 mL", "not declared", "30 to 38 mEq/L"]
)
def test_ways_to_declare_the_charge_of_a_colloid(spoil, judged, charge):
    assert judged(spoil(GELATIN, "34 mEq/L", charge)) == []


@pytest.mark.parametrize("key", sorted(DECLARABLE))
def test_a_quantity_is_declared_in_its_unit_and_in_no_other_dimension(spoil, judged, key):
    unit = DECLARABLE[key].unit
    plain = {"1": "", "%": " % w/v"}.get(unit, f" {unit}")
    spoil(GLUCOSE, "osmolarity: 278 mOsm/L\n      energy: 200 kcal/L\n      ph: ", f"{key}: ")
    assert judged(spoil(GLUCOSE, "3.5 to 6.5", f"37{plain}")) == []
    (line,) = judged(spoil(GLUCOSE, f"37{plain}", "37 mL/h"))
    how = "as a number without a unit" if unit == "1" else f"in {unit}, or in a unit that"
    assert line.startswith(f"{GLUCOSE}:22:")
    assert f'"37 mL/h" is not a value of {key} | Write it {how}' in line


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        (
            "278 mOsm/L",
            "278 mmol/L",
            '22:19: "278 mmol/L" is not a value of osmolarity '
            "| Write it in mOsm/L, or in a unit that converts to it.",
        ),
        (
            "200 kcal/L",
            "200 mEq/L",
            '23:15: "200 mEq/L" is not a value of energy '
            "| Write it in kcal/L, or in a unit that converts to it.",
        ),
        (
            "ph: 3.5 to 6.5",
            "ph: 3.5 to 6.5 g/L",
            '24:11: "3.5 to 6.5 g/L" is not a value of ph | Write it as a number without a unit.',
        ),
    ],
)
def test_a_declared_value_in_another_dimension(spoil, judged, old, new, line):
    assert judged(spoil(GLUCOSE, old, new)) == [f"{GLUCOSE}:{line}"]


@pytest.mark.parametrize("value", ["278 mEq/L", "not declared", "trace"])
def test_an_ion_may_be_declared_in_milliequivalents_or_not_at_all(spoil, judged, value):
    assert judged(spoil(GLUCOSE, "osmolarity: 278 mOsm/L", f"sodium: {value}")) == []


@pytest.mark.parametrize(
    "volume", ["500", "500 g", "0.5 mL/L", "0 mL", "1 to 2 L", "5 mL per 10 mL"]
)
def test_a_container_has_a_volume(spoil, judged, volume):
    """The last of two is told at its own line."""
    assert judged(spoil(GLUCOSE, "volume: 1 L", f"volume: {volume}")) == [
        f'{GLUCOSE}:27:14: "{volume}" is not the volume of a container | {A_VOLUME}'
    ]


def test_every_fault_of_a_fluid_is_told(spoil, judged):
    """The first that is found hides none that come after it."""
    spoil(GLUCOSE, "50 g/L", "50 g")
    spoil(GLUCOSE, "278 mOsm/L", "278 g/L")
    spoil(GLUCOSE, "200 kcal/L", "200 g/L")
    folder = spoil(GLUCOSE, "500 mL", "500 g")
    assert [line.partition(": ")[0] for line in judged(folder)] == [
        f"{GLUCOSE}:{place}" for place in ("10:34", "22:19", "23:15", "26:14")
    ]
