"""What an alternative is not for: each case, on both sides of what it looks for."""

import pytest

from isofolio.findings.conditions import Subject
from isofolio.findings.not_instead import CASES
from isofolio.vocabulary.terms import NOT_INSTEAD_CASES


def test_every_case_has_a_function_and_the_catalogue_uses_every_case(real):
    assert set(CASES) == set(NOT_INSTEAD_CASES)
    assert {entry.case for entry in real[0].not_instead} == set(NOT_INSTEAD_CASES)


@pytest.mark.parametrize(
    ("case", "here", "there", "raised"),
    [
        ("calcium-added", {}, {"calcium": 0.1}, True),
        ("calcium-added", {"calcium": 1.0}, {"calcium": 2.0}, False),
        ("calcium-added", {"calcium": 1.0}, {}, False),
        ("blood-line", {}, {"calcium": 1.0}, True),
        ("blood-line", {}, {"glucose_mass": 50.0}, True),
        ("blood-line", {}, {"tonicity_ratio": 0.94}, True),
        ("blood-line", {}, {"tonicity_ratio": 0.95}, False),
        ("blood-line", {"calcium": 1.0}, {"calcium": 1.0}, False),
        ("raised-pressure", {}, {"tonicity_ratio": 0.94}, True),
        ("raised-pressure", {}, {"tonicity_ratio": 0.95}, False),
        ("raised-pressure", {"tonicity_ratio": 0.9}, {"tonicity_ratio": 0.88}, False),
        ("brain-injury", {}, {"lactate": 28.0}, True),
        ("brain-injury", {}, {"acetate": 27.0}, True),
        ("brain-injury", {"acetate": 27.0}, {"lactate": 28.0}, False),
        ("high-potassium", {"potassium": 4.0}, {"potassium": 5.0}, False),
        ("high-potassium", {"potassium": 4.0}, {"potassium": 5.1}, True),
        ("high-potassium", {"potassium": 5.1}, {"potassium": 4.0}, False),
        ("diluting-drugs", {}, {}, True),
    ],
)
def test_a_case_is_raised_by_what_it_says(make, case, here, there, raised):
    standard = {"tonicity_ratio": 1.0}
    catalogue, table = make(standard | here, standard | there)
    mine, theirs = (
        Subject(fluid.model_copy(update={"with_blood": None}), catalogue, table)
        for fluid in catalogue.fluids.values()
    )
    assert CASES[case](mine, theirs) is raised
