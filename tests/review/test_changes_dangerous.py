"""The edits that kill: each is called out in the first ten lines of the report."""

from functools import cache
from pathlib import Path

import pytest

from isofolio.commands.changing import exit_code
from isofolio.review.announced import plain
from isofolio.review.comparison import compare
from isofolio.review.report import report
from isofolio.review.sides import side_of

CATALOGUE = Path(__file__).parents[2] / "catalogue"
POTASSIUM = "fluids/potassium-chloride-0-3-glucose-5.yml"
DROPPED = "cautions/potassium-added.yml"
LIMIT = "value: 900 mOsm/L\n    stricter: lower\n    text: Above it a central line is preferred."


def tenfold(draft):
    old, new = "potassium-chloride, amount: 3 g/L", "potassium-chloride, amount: 30 g/L"
    return draft.replace(POTASSIUM, old, new)


def monohydrate(draft):
    old, new = (
        "{substance: glucose, amount: 100.00",
        "{substance: glucose-monohydrate, amount: 100.00",
    )
    return draft.replace("fluids/glucose-10.yml", old, new)


def dropped(draft):
    return draft.remove(DROPPED)


def loosened(draft):
    return draft.replace("limits.yml", LIMIT, LIMIT.replace("900", "1200"))


def moved(draft):
    return draft.rename("fluids", "dextran-70-6", "dextran-70-6-percent")


# What the first ten lines must say. Molar masses from the standard atomic weights (IUPAC 2021, from
# memory): KCl 74.55 g/mol, so 3 and 30 g/L are 40 and 402 mmol/L; glucose 180.16 g/mol and its
# monohydrate 198.17, so 100 g/L are 555 and 505 mmol/L, 9.1 % less.
DANGEROUS = {
    tenfold: (
        "Potassium chloride 0.3 % in glucose 5 %",
        "potassium 40 mmol/L → 402 mmol/L (10 times)",
        "Large vein; watch the site → Central line preferred",
        "gained **DANGER",
    ),
    monohydrate: (
        "Glucose 10 %",
        "glucose 100.00 g/L → glucose monohydrate 100.00 g/L",
        "glucose 555 mmol/L → 505 mmol/L (-9.1 %)",
    ),
    dropped: (
        "Caution Added potassium",
        "removed",
        "lost **CAUTION: Read the mmol of this bag and of a litre.",
        "Potassium chloride 0.15 % in glucose 5 %",
    ),
    loosened: (
        "vein-central-preferred",
        "900 mOsm/L → 1200 mOsm/L (loosened, +33 %)",
        "Central line preferred → Large vein; watch the site",
        "lost **WARNING: Ask for a central line.",
    ),
    moved: (
        "Dextran 70 6 % in sodium chloride 0.9 %",
        "`fluids/dextran-70-6.html` → `fluids/dextran-70-6-percent.html`",
    ),
}


@pytest.fixture(scope="module")
def found(drafted, tmp_path_factory):
    """What edits do to the real catalogue; each set of edits is compared once."""
    base = side_of(CATALOGUE, "main")

    @cache
    def run(*edits):
        draft = drafted(CATALOGUE, tmp_path_factory.mktemp("edited") / "head")
        for edit in edits:
            edit(draft)
        return compare(base, side_of(draft.folder, "the working tree"))

    return run


def first_ten(comparison):
    return plain("\n".join(report(comparison).splitlines()[:10]))


@pytest.mark.parametrize("edit", DANGEROUS, ids=lambda edit: edit.__name__)
def test_a_dangerous_edit_stands_in_the_first_ten_lines(found, edit):
    comparison = found(edit)
    lines = first_ten(comparison)
    assert "**1 edit to look at twice.**" in lines
    assert [said for said in DANGEROUS[edit] if said not in lines] == []
    assert exit_code(comparison) == 3


def test_all_of_them_at_once_stand_there_too_potassium_first(found):
    lines = first_ten(found(*DANGEROUS))
    assert "**5 edits to look at twice.**" in lines
    numbered = [line for line in lines.splitlines() if line[:1].isdigit()]
    assert len(numbered) == 5
    assert numbered[0].startswith("1. **Potassium chloride 0.3 % in glucose 5 %**")
    assert [said for all_said in DANGEROUS.values() for said in all_said if said not in lines] == []


def test_one_limit_is_told_once_with_the_fluids_it_touches(found):
    """Not one paragraph a fluid."""
    comparison = found(loosened)
    text = plain(report(comparison)).splitlines()
    vein = [one for one in comparison.findings if one.effect.kind == "vein"]
    assert len(vein) == 3
    assert {one.causes for one in vein} == {("limits/vein-central-preferred",)}
    assert [line for line in text if "Central line preferred" in line] == [
        next(line for line in text if line.startswith("1. ")),
        next(line for line in text if line.startswith("| vein |")),
    ]


def weighed_as_monohydrate(draft):
    """Every fluid that is weighed as anhydrous glucose, by one edit."""
    file = "substances/glucose.yml"
    draft.replace(file, "formula: C6H12O6", "formula: C6H12O6(H2O)")
    return draft.replace(file, "hydrate: anhydrous", "hydrate: monohydrate")


def test_one_substance_moves_many_fluids_in_one_row_a_quantity(found):
    comparison = found(weighed_as_monohydrate)
    figures = [one for one in comparison.findings if one.effect.kind == "figure"]
    assert {one.causes for one in figures} == {("substances/glucose",)}
    assert len({one.effect.entry for one in figures}) >= 15
    rows = [line for line in report(comparison).splitlines() if "| glucose |" in line]
    assert len(rows) == 1
    assert "−9.1\u202f%" in rows[0]
