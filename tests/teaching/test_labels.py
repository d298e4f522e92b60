"""Practice labels: what they print is the handbook's, and a fault is one line and no other."""

import re
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.teaching.labels import BLANK, NOT_REAL, fault_of, label_of, labelled
from isofolio.teaching.question import APART

CATALOGUE = Path(__file__).parents[2] / "catalogue"


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


def label(handbook, fluid_id):
    return label_of(handbook, handbook.catalogue.fluids[fluid_id])


def test_most_of_the_cupboard_has_a_label(handbook):
    ids = {fluid.id for fluid in labelled(handbook)}
    assert len(ids) >= 50
    assert "sodium-chloride-0-9" in ids
    assert not ids & {"hydroxyethyl-starch-6", "albumin-20", "water-for-injections"}


def test_saline_as_a_label_prints_it(handbook):
    """9 g/L, 154 and 154 mmol/L, 308 mOsm/L: the figures of every label of this title."""
    texts = [line.text() for line in label(handbook, "sodium-chloride-0-9").lines]
    assert texts == [
        "1000 mL contain: sodium chloride 9 g",
        "mmol in 1000 mL: sodium 154, chloride 154",
        "mmol in this 500 mL: sodium 77, chloride 77",
        "Osmolarity 308 mOsm/L",
    ]


def test_a_concentrate_counts_by_its_ampoule_and_says_so(handbook):
    made = label(handbook, "potassium-chloride-15")
    assert made.volume == 10
    assert made.route == "Concentrate: dilute before use"
    assert made.lines[1].text() == "mmol in 10 mL: potassium 20.1, chloride 20.1"


def test_a_blank_label_holds_no_figure_to_copy(handbook):
    for line in label(handbook, "sodium-chloride-0-9").lines[1:]:
        text = line.text(blank=True).removeprefix(line.before).removesuffix(line.after)
        assert BLANK in text
        assert not any(letter.isdigit() for letter in text)


def test_every_fault_is_one_line_that_differs_and_is_answered(handbook):
    """Over all fluids: the wrong line is of the label, and a figure in it is clearly another."""
    kinds = set()
    for fluid in labelled(handbook):
        made = label_of(handbook, fluid)
        fault = fault_of(handbook, fluid, made)
        if fault is None:
            continue
        line = next(line for line in made.lines if line.kind == fault.kind)
        pairs = zip(line.figures, fault.line.figures, strict=True)
        apart = [abs(a[1] - b[1]) > APART * max(a[1], b[1]) for a, b in pairs]
        assert any(apart), fluid.id
        assert fault.line.text() != line.text()
        assert fault.answer.endswith(".")
        assert fault == fault_of(handbook, fluid, made)
        kinds.add(fault.slip)
    assert len(kinds) == 4


@pytest.mark.parametrize(
    ("fluid", "shown"),
    [
        # United Kingdom and United States labels and NICE agree on 4.5 to 7.0; a review's 5 lies in
        # it (PMC6237920).
        ("sodium-chloride-0-9", "pH 4.5–7.0"),
        # Product texts of 2019 and 2023: 3.5 to 6.5 and 3.5 to 5.5.
        ("glucose-10", "pH 3.5–6.5 (sources differ)"),
        # Labels of one title from 4.0 to 8.0.
        ("multiple-electrolytes-type-1", "pH 4.0–8.0 (sources differ)"),
        ("compound-sodium-lactate", "pH 5.0–7.0"),
        # NICE CG174 prints one figure, two product texts a span round it.
        ("sodium-chloride-0-18-glucose-4", "pH 3.5–6.5"),
    ],
)
def test_the_ph_spans_the_sources_that_differ(handbook, fluid, shown):
    assert label(handbook, fluid).ph == shown


def test_no_ph_is_that_of_one_source_against_another(handbook):
    """Over all labels: the figure printed holds every figure that a source declares."""
    differing = 0
    for fluid in labelled(handbook):
        found = [float(one) for one in re.findall(r"\d+(?:\.\d+)?", label(handbook, fluid.id).ph)]
        declared = [group.values["ph"] for group in fluid.declared if "ph" in group.values]
        assert bool(found) is bool(declared), fluid.id
        for amount in declared:
            if amount.low is not None and amount.high is not None:
                assert min(found) - 0.05 <= amount.low <= amount.high <= max(found) + 0.05, fluid.id
        differing += "sources differ" in label(handbook, fluid.id).ph
    assert differing >= 10


def test_the_label_says_that_it_is_none():
    assert "Not a real label" in NOT_REAL
