"""Limits no rule can read: missing, no single figure, of another unit or another quantity."""

import re
from itertools import pairwise

import pytest

from isofolio.entries.reading import read_catalogue
from isofolio.findings.consistency_limits import (
    limits_are_of_their_quantity,
    limits_are_there,
    limits_ascend,
    limits_fit,
)
from isofolio.vocabulary.terms import LIMITS_ASCENDING, LIMITS_READ

FILE = "limits.yml"
# The second copy of a limit stands in the last line of the file: it is the one that is read.
SECOND = (
    "  - {id: vein-glucose, quantity: colloid_mass, value: 100 g/L, stricter: lower, text: Copy., "
    "cite: {source: a-journal, at: abstract, seen: read, on: 2026-11-25}}\n"
)


@pytest.fixture
def judged(told):
    """What the three checks say of a folder."""
    return lambda folder: told(folder, limits_fit, limits_are_there, limits_are_of_their_quantity)


def test_the_sound_catalogue_is_consistent(catalogue, judged):
    assert judged(catalogue) == []


@pytest.mark.parametrize(
    "value",
    [
        "trace",
        "at most 900 mOsm/L",
        "600 to 900 mOsm/L",
        "900 mOsm/kg",
        "0.9 mOsm/mL",
        "450 mOsm per 500 mL",
        "900 mmol/L",
    ],
)
def test_a_limit_is_one_figure_in_the_unit_it_is_compared_in(spoil, judged, value):
    assert judged(spoil(FILE, "    value: 900 mOsm/L", f"    value: {value}")) == [
        f'{FILE}:4:12: "{value}" is not a limit of osmolarity | Write one figure, as in 40 mOsm/L.'
    ]


@pytest.mark.parametrize("value", ["9 mmol/L", "8 to 9", "9 g"])
def test_a_limit_of_a_quantity_without_a_unit_has_none(spoil, judged, value):
    assert judged(spoil(FILE, "value: 9,", f"value: {value},")) == [
        f'{FILE}:16:45: "{value}" is not a limit of ph | Write one figure, as in 40.'
    ]


def test_a_limit_may_be_a_weight_without_a_unit(spoil, judged):
    assert judged(spoil(FILE, "    value: 900 mOsm/L", "    value: 900")) == []


@pytest.mark.parametrize("value", ["10 mL/h", "0.5 mmol/kg"])
def test_a_limit_of_no_quantity_of_plasma_has_any_unit(spoil, judged, value):
    """Rates are compared by hand: the program does not know their unit."""
    assert judged(spoil(FILE, "value: 10 mmol/h", f"value: {value}")) == []


@pytest.mark.parametrize("value", ["8 to 10 mmol/h", "trace", "5 mmol per 30 mL"])
def test_but_it_is_one_figure_too(spoil, judged, value):
    assert judged(spoil(FILE, "value: 10 mmol/h", f"value: {value}")) == [
        f'{FILE}:10:12: "{value}" is not a limit of potassium_rate | Write one figure, as in 40.'
    ]


@pytest.mark.parametrize("limit", sorted(LIMITS_READ))
def test_each_limit_that_a_rule_reads_is_missed(spoil, judged, limit):
    end = "\n" if limit == "vein-central-preferred" else ","
    folder = spoil(FILE, f"id: {limit}{end}", f"id: other{end}")
    assert judged(folder) == [
        f"{FILE}:1:1: no {limit} among the limits "
        "| Put it back: a rule of the program reads it, and a warning hangs on it."
    ]


def test_every_missing_limit_is_named_in_one_problem(spoil, judged):
    spoil(FILE, "{id: water-half,", "{id: water-halves,")
    (line,) = judged(spoil(FILE, "{id: strong-potassium,", "{id: stronger-potassium,"))
    assert line.startswith(f"{FILE}:1:1: no strong-potassium and no water-half among the limits |")


def test_a_list_of_limits_that_is_gone_is_told_once(catalogue, judged):
    (catalogue / FILE).unlink()
    assert judged(catalogue) == [
        f"{FILE}:1:1: there is no {FILE} "
        "| Put the file back: entries and rules look up what it lists."
    ]


def test_a_catalogue_without_fluids_needs_no_limits(tmp_path, judged):
    assert judged(tmp_path) == []


def test_a_list_of_limits_that_cannot_be_read_is_told_by_the_reading_alone(catalogue):
    (catalogue / FILE).write_text("limits: 3\n", encoding="utf-8")
    reading = read_catalogue(catalogue)
    assert [problem.file for problem in reading.problems] == [FILE]
    assert list(limits_are_there(reading)) == []


def test_a_limit_is_of_the_quantity_that_its_rule_reads(spoil, judged):
    limit = "{id: vein-glucose, quantity: glucose_mass"
    assert judged(spoil(FILE, limit, limit.replace("glucose_mass", "colloid_mass"))) == [
        f"{FILE}:15:34: vein-glucose is a limit of glucose_mass: a rule of the program reads it "
        "as one | Write  quantity: glucose_mass."
    ]


def test_a_limit_that_no_rule_reads_may_be_of_anything(spoil, judged):
    assert judged(spoil(FILE, "quantity: potassium_rate", "quantity: sodium_rate")) == []


def test_a_second_copy_of_a_limit_is_another_fault(catalogue, judged):
    """The id that stands twice is told elsewhere; what the copy is of is not told as well."""
    path = catalogue / FILE
    path.write_text(path.read_text(encoding="utf-8") + SECOND, encoding="utf-8")
    assert judged(catalogue) == []


def test_of_two_copies_the_last_is_the_one_that_counts(catalogue, judged):
    path = catalogue / FILE
    second = SECOND.replace("100 g/L", "100 mmol/L")
    path.write_text(path.read_text(encoding="utf-8") + second, encoding="utf-8")
    assert judged(catalogue) == [
        f'{FILE}:29:55: "100 mmol/L" is not a limit of colloid_mass '
        "| Write one figure, as in 40 g/L."
    ]


CAUTION = """\
id: strong-sugar
name: Strong sugar
signal: warning
imperative: Use a large vein.
text: It is strong.
applies:
  - {when: role, roles: [ready]}
  - {when: above, quantity: glucose_mass, limit: vein-glucose}
unless:
  - {when: above, quantity: osmolarity, limit: strong-solution}
cite: common practice
raised_by: glucose-5
not_by: sodium-chloride-0-9
review: {state: draft}
"""


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("a", "a", None),
        (
            "limit: vein-glucose",
            "limit: vein-watch-site",
            "8:50: vein-watch-site is a limit of osmolarity, not of glucose_mass",
        ),
        (
            "limit: strong-solution",
            "limit: strong-potassium",
            "10:48: strong-potassium is a limit of potassium, not of osmolarity",
        ),
    ],
)
def test_a_condition_compares_a_quantity_with_a_limit_of_it(catalogue, judged, old, new, line):
    path = catalogue / "cautions" / "strong-sugar.yml"
    path.parent.mkdir()
    path.write_text(CAUTION.replace(old, new), encoding="utf-8")
    fix = "Name a limit of the quantity that the condition compares."
    assert judged(catalogue) == ([f"cautions/strong-sugar.yml:{line} | {fix}"] if line else [])


@pytest.mark.parametrize("higher", ["0.94", "0.95"])
def test_limits_that_divide_a_scale_ascend(spoil, told, higher):
    limit = "{id: tonicity-slightly-hypertonic, quantity: tonicity_ratio, value: "
    assert told(spoil(FILE, f"{limit}1.05", f"{limit}{higher}"), limits_ascend) == [
        f"{FILE}:25:73: tonicity-slightly-hypertonic is not above tonicity-slightly-hypotonic, "
        "which is 0.95 | Write a higher figure here, or a lower one there."
    ]


@pytest.mark.parametrize("scale", LIMITS_ASCENDING.values())
def test_every_scale_is_looked_at_from_end_to_end(catalogue, told, scale):
    """Each limit but the last is lifted above all: only what stands next above it is told."""
    path = catalogue / FILE
    text = path.read_text(encoding="utf-8")
    for lower, higher in pairwise(scale):
        unit = " mOsm/L" if "osmolarity" in lower else ""
        value = rf"(id: {lower}, .*? value: )[^,]+"
        path.write_text(re.sub(value, rf"\g<1>999{unit}", text), encoding="utf-8")
        (problem,) = told(catalogue, limits_ascend)
        assert f": {higher} is not above {lower}, which is 999{unit} |" in problem


@pytest.mark.parametrize("value", ["trace", "at most 0.2"])
def test_what_is_no_figure_is_not_told_to_be_out_of_order(spoil, told, value):
    limit = "{id: water-nearly, quantity: free_water, value: "
    assert told(spoil(FILE, f"{limit}0.9", f"{limit}{value}"), limits_ascend) == []


def test_a_limit_that_is_missing_leaves_no_gap(spoil, told):
    limit = "{id: tonicity-slightly-hypotonic, quantity"
    renamed = "{id: something-else, quantity"
    assert told(spoil(FILE, limit, renamed), limits_ascend) == []
    high = "{id: tonicity-slightly-hypertonic, quantity: tonicity_ratio, value: "
    assert told(spoil(FILE, f"{high}1.05", f"{high}0.80"), limits_ascend) == [
        f"{FILE}:25:73: tonicity-slightly-hypertonic is not above tonicity-hypotonic, "
        "which is 0.80 | Write a higher figure here, or a lower one there."
    ]
