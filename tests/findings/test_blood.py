"""Whether a fluid may share a line with blood, asserted by id on the real cupboard."""

import pytest

from isofolio.findings.blood import NOT_LOOKED_UP, blood_of
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
