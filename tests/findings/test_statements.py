"""What the first screen says of vein, blood and body, asserted by id on the real cupboard."""

from pathlib import Path

import pytest

from isofolio.findings.blood import NOT_LOOKED_UP
from isofolio.findings.body import WHILE_UNBURNT
from isofolio.findings.vein import CENTRAL, DILUTE, LARGE, NOT_USED, SMALL, UNKNOWN
from isofolio.handbook import Handbook, open_handbook

CATALOGUE = Path(__file__).parents[2] / "catalogue"


@pytest.fixture(scope="module")
def handbook() -> Handbook:
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None
    return opened.handbook


@pytest.mark.parametrize(
    ("fluid", "word", "because"),
    [
        ("sodium-chloride-0-9", SMALL, "308"),
        ("compound-sodium-lactate", SMALL, "278"),
        ("sodium-chloride-0-9-glucose-5", SMALL, "586"),  # just under 600
        ("potassium-chloride-0-15-sodium-chloride-0-9-glucose-5", LARGE, "600"),  # 626
        ("sodium-chloride-1-8", LARGE, "600"),  # 616
        ("potassium-chloride-0-2-glucose-5", SMALL, "331"),
        ("potassium-chloride-0-3-glucose-5", LARGE, "40"),  # at the limit of 40
        ("potassium-chloride-40-mmol-in-100-ml", CENTRAL, "400"),
        ("glucose-10", SMALL, "555"),
        ("glucose-20", CENTRAL, ""),
        ("sodium-chloride-3", CENTRAL, "1027"),
        ("sodium-bicarbonate-8-4", CENTRAL, "2000"),
        ("mannitol-10", CENTRAL, "label"),  # the published route of the title, not its figures
        ("potassium-chloride-15", DILUTE, "diluted"),
        ("water-for-injections", DILUTE, "red cells"),
        ("albumin-20", UNKNOWN, "is not known here"),
        ("albumin-5", UNKNOWN, "is not known here"),
        ("albumin-4", UNKNOWN, "is not known here"),
        ("hydroxyethyl-starch-6", NOT_USED, "not to be hung"),
    ],
)
def test_the_vein(handbook: Handbook, fluid: str, word: str, because: str) -> None:
    statement = handbook.judgements[fluid].vein
    assert statement.word == word
    assert because in statement.because


def test_a_small_vein_is_named_only_where_its_figures_are_known(handbook: Handbook) -> None:
    for fluid in handbook.fluids:
        if handbook.judgements[fluid.id].vein.word == SMALL:
            assert handbook.value(fluid.id, "osmolarity").number is not None
            assert handbook.value(fluid.id, "potassium").number is not None
            assert fluid.status == "current"


def test_the_vein_is_never_called_safe(handbook: Handbook) -> None:
    for judgement in handbook.judgements.values():
        assert "safe" not in (judgement.vein.word + judgement.vein.because).lower()


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
def test_blood(handbook: Handbook, fluid: str, beginning: str) -> None:
    assert handbook.judgements[fluid].blood.text.startswith(beginning)


def test_blood_is_never_a_bare_yes_or_no(handbook: Handbook) -> None:
    for judgement in handbook.judgements.values():
        assert judgement.blood.text.lower().strip(".") not in {"yes", "no"}
        assert judgement.blood.cite is not None or judgement.blood.text == NOT_LOOKED_UP


@pytest.mark.parametrize(
    ("fluid", "word"),
    [
        ("glucose-5", "Hypotonic: nearly water"),
        ("sodium-chloride-0-18-glucose-4", "Hypotonic: more than half water"),
        ("sodium-chloride-0-45", "Hypotonic: more than half water"),
        ("compound-sodium-lactate", "Slightly hypotonic"),
        ("multiple-electrolytes-type-1", "Isotonic"),
        ("sodium-chloride-0-9", "Isotonic"),
        ("sodium-bicarbonate-1-4", "Slightly hypertonic"),
        ("sodium-bicarbonate-8-4", "Hypertonic: 6.5 times plasma"),
        ("potassium-chloride-15", "Depends on what it is diluted in"),
        ("succinylated-gelatin-4", "Sodium 154\u00a0mmol/L, as 0.9\u202f% saline"),
        ("succinylated-gelatin-4-balanced", "Sodium 151\u00a0mmol/L"),
        ("albumin-20", "Read the label"),
    ],
)
def test_the_body(handbook: Handbook, fluid: str, word: str) -> None:
    assert handbook.judgements[fluid].body.word == word


def test_a_word_never_stands_without_its_numbers(handbook: Handbook) -> None:
    for fluid in handbook.fluids:
        statement = handbook.judgements[fluid.id].body
        if handbook.value(fluid.id, "tonicity_ratio").number is not None:
            assert "beside plasma" in statement.because
            assert "310" in statement.because


def test_glucose_holds_only_once_it_is_burnt(handbook: Handbook) -> None:
    assert handbook.judgements["glucose-5"].body.note == WHILE_UNBURNT
    assert handbook.judgements["sodium-chloride-0-9"].body.note == ""


@pytest.mark.parametrize(
    ("fluid", "in_bag", "in_body"),
    [
        ("glucose-5", "iso", "hypo"),
        ("sodium-chloride-0-45-glucose-5", "hyper", "hypo"),
        ("sodium-chloride-0-9", "iso", "iso"),
        ("sodium-chloride-3", "hyper", "hyper"),
        ("potassium-chloride-15", "hyper", None),
        ("succinylated-gelatin-4", "iso", None),
    ],
)
def test_classes(handbook: Handbook, fluid: str, in_bag: str, in_body: str | None) -> None:
    found = handbook.judgements[fluid].classes
    assert found == {"osmolarity_class": in_bag, "tonicity_class": in_body}
