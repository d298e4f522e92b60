"""What an alternative is not for: each case, on both sides of what it looks for."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from isofolio.entries.lists import NotInstead
from isofolio.entries.scalars import parse_amount
from isofolio.findings.conditions import Subject
from isofolio.findings.not_instead import CASES, anion_swap, raised
from isofolio.vocabulary.terms import NOT_INSTEAD_CASES

NAN = float("nan")
NOTE = SimpleNamespace(text="May share the line.")


@pytest.fixture
def pair(make):
    """A function that makes two subjects, the missing fluid and the other; plasma's tonicity."""

    def made(here, there, **fields):
        standard = {"tonicity_ratio": 1.0}
        catalogue, table = make(standard | here, standard | there, **fields)
        return [Subject(fluid, catalogue, table) for fluid in catalogue.fluids.values()]

    return made


def test_every_case_has_a_function_and_the_catalogue_uses_every_case(real):
    assert set(CASES) == set(NOT_INSTEAD_CASES)
    assert {entry.case for entry in real[0].not_instead} == set(NOT_INSTEAD_CASES)


@pytest.mark.parametrize(
    ("case", "here", "there", "expected"),
    [
        ("calcium-added", {}, {"calcium": 0.1}, True),
        ("calcium-added", {"calcium": 1.0}, {"calcium": 2.0}, False),
        ("calcium-added", {"calcium": 1.0}, {}, False),
        ("blood-line", {}, {}, False),
        ("blood-line", {}, {"calcium": 1.0}, True),
        ("blood-line", {}, {"glucose_mass": 50.0}, True),
        ("blood-line", {}, {"tonicity_ratio": 0.94}, True),
        ("blood-line", {}, {"tonicity_ratio": 0.95}, False),
        ("blood-line", {"calcium": 1.0}, {"calcium": 1.0}, False),
        ("blood-line", {"with_blood": NOTE}, {}, True),
        ("blood-line", {"with_blood": NOTE}, {"with_blood": NOTE}, False),
        ("blood-line", {}, {"with_blood": NOTE}, False),
        ("blood-line", {"with_blood": NOTE, "calcium": 1.0}, {}, False),
        ("raised-pressure", {}, {"tonicity_ratio": 0.94}, True),
        ("raised-pressure", {}, {"tonicity_ratio": 0.95}, False),
        ("raised-pressure", {"tonicity_ratio": 0.9}, {"tonicity_ratio": 0.88}, False),
        ("brain-injury", {}, {"lactate": 28.0}, True),
        ("brain-injury", {}, {"acetate": 27.0}, True),
        ("brain-injury", {"acetate": 27.0}, {"lactate": 28.0}, False),
        ("high-potassium", {"potassium": 4.0}, {"potassium": 5.0}, False),
        ("high-potassium", {"potassium": 4.0}, {"potassium": 5.1}, True),
        ("high-potassium", {"potassium": 5.1}, {"potassium": 4.0}, False),
        ("high-potassium", {"potassium": NAN}, {"potassium": 40.0}, False),
        ("high-potassium", {"potassium": 4.0}, {"potassium": NAN}, False),
        ("diluting-drugs", {}, {}, True),
    ],
)
def test_a_case_is_raised_by_what_it_says(pair, case, here, there, expected):
    assert CASES[case](*pair(here, there)) is expected


def test_a_hospital_may_call_less_potassium_more(pair, limits):
    name = "not-instead-potassium"
    half = {name: limits[name].model_copy(update={"value": parse_amount("0.5 mmol/L")})}
    mine, theirs = pair({"potassium": 4.0}, {"potassium": 4.6}, limits={**limits, **half})
    assert CASES["high-potassium"](mine, theirs)
    assert not CASES["high-potassium"](theirs, mine)


def test_the_sentences_that_hold_stand_in_the_order_of_the_file(make):
    backing = {"cite": "common practice"}
    cases = [("a", "diluting-drugs"), ("b", "calcium-added"), ("c", "raised-pressure")]
    entries = [NotInstead(id=name, case=case, text=name, **backing) for name, case in cases]
    catalogue, table = make({"tonicity_ratio": 1.0}, {"tonicity_ratio": 0.9, "calcium": 1.0})
    catalogue = replace(catalogue, not_instead=tuple(entries))
    mine, theirs = (Subject(fluid, catalogue, table) for fluid in catalogue.fluids.values())
    assert [entry.id for entry in raised(mine, theirs)] == ["a", "b", "c"]
    assert [entry.id for entry in raised(theirs, mine)] == ["a"]


@pytest.mark.parametrize(
    ("here", "there", "words"),
    [
        ({}, {}, ""),
        ({"lactate": 28.0}, {"lactate": 29.0}, ""),
        ({}, {"lactate": 28.0}, "a base, lactate 28 mmol/L, beside none"),
        ({"lactate": 28.0}, {}, "no base beside lactate 28 mmol/L"),
        (
            {"lactate": 28.0},
            {"acetate": 27.0, "gluconate": 23.0},
            "another base, acetate 27 and gluconate 23 mmol/L beside lactate 28 mmol/L",
        ),
        (
            {"bicarbonate": 25.0},
            {"acetate": 24.0, "malate": 5.0},
            "another base, acetate 24 and malate 5 mmol/L beside bicarbonate 25 mmol/L",
        ),
        ({"chloride": 154.0, "sulfate": 1.0, "glucose": 278.0}, {"phosphate": 10.0}, ""),
        ({"lactate": NAN}, {}, ""),
    ],
)
def test_another_base_is_named_with_its_amount(pair, here, there, words):
    assert anion_swap(*pair(here, there)) == words


def test_what_the_catalogue_has_no_particle_for_is_no_base(make):
    catalogue, table = make({}, {"lactate": 28.0})
    catalogue = replace(catalogue, particles={})
    mine, theirs = (Subject(fluid, catalogue, table) for fluid in catalogue.fluids.values())
    assert anion_swap(mine, theirs) == ""
