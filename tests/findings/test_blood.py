"""Whether a fluid may share a line with blood, asserted by id on the real cupboard."""

import pytest

from isofolio.findings.blood import NOT_LOOKED_UP, BloodStatement, blood_of
from isofolio.findings.cautions import cautions_of


@pytest.fixture
def blood(about):
    """A function from the id of a real fluid to what is said of blood."""
    return lambda fluid: blood_of(about(fluid).fluid, cautions_of(about(fluid)))


@pytest.mark.parametrize(
    ("fluid", "beginning"),
    [
        ("sodium-chloride-0-9", "May share the line"),
        ("compound-sodium-lactate", "Not in the same line: contains calcium"),
        ("glucose-5", "Not in the same line: contains glucose"),
        ("sodium-chloride-0-45", "Not in the same line: hypotonic"),
        ("potassium-chloride-15", "No added drug in a line with blood"),
        ("multiple-electrolytes-type-1", NOT_LOOKED_UP),
    ],
)
def test_blood(blood, fluid, beginning):
    assert blood(fluid).text.startswith(beginning)


def test_blood_is_never_a_bare_yes_or_no(real, blood):
    for statement in map(blood, real[0].fluids):
        assert statement.text.lower().strip(".") not in {"yes", "no"}
        assert statement.cite is not None or statement.text == NOT_LOOKED_UP


def test_the_first_caution_that_speaks_of_blood_answers(real, about):
    """Cautions come most severe first; the line, its source and its id go together."""
    every = real[0].cautions
    silent, calcium, glucose = (
        every[name]
        for name in ("potassium-at-small-vein-limit", "calcium-with-blood", "glucose-with-blood")
    )
    saline = about("sodium-chloride-0-9").fluid
    assert blood_of(saline, (silent, calcium, glucose)) == BloodStatement(
        "Not in the same line: contains calcium. Flush with sodium chloride 0.9 % between.",
        calcium.cite,
        "calcium-with-blood",
    )
    assert blood_of(saline, (glucose, calcium)).caution == "glucose-with-blood"


def test_without_a_caution_the_entry_answers_and_names_none(about):
    fluid = about("sodium-chloride-0-9").fluid
    note = fluid.with_blood
    assert note is not None
    assert blood_of(fluid, ()) == BloodStatement(note.text, note.cite, "")
    silent = fluid.model_copy(update={"with_blood": None})
    assert blood_of(silent, ()) == BloodStatement(NOT_LOOKED_UP, None, "")
