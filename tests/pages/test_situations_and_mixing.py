"""Situations, mixing and equipment as they stand in the catalogue and on their pages.

That no dose or rate stands without source and year is a check of the program:
findings/test_consistency_doses.
"""

import re
from pathlib import Path

import pytest

from isofolio.entries.situations import SideBySide
from isofolio.findings.side_by_side import HOLDS_NONE, rows_of
from isofolio.handbook import Handbook, open_handbook
from isofolio.pages.equipment import equipment_page, piece_page
from isofolio.pages.mixing import NOT_LOOKED_UP, mixing_page, pair_page
from isofolio.pages.situations import emergencies, situation_page, situations_page
from isofolio.wording.figures import typeset

CATALOGUE = Path(__file__).parents[2] / "catalogue"
POLICY = re.compile(r"[Cc]heck (?:local policy|the product text)")


@pytest.fixture(scope="module")
def handbook() -> Handbook:
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None
    return opened.handbook


def test_there_are_enough_of_each(handbook: Handbook) -> None:
    assert len(handbook.catalogue.mixing) >= 40
    assert len(handbook.catalogue.situations) >= 16
    assert len(handbook.catalogue.equipment) >= 12


def test_every_situation_is_whole(handbook: Handbook) -> None:
    for situation in handbook.catalogue.situations.values():
        assert situation.replaced, situation.id
        assert situation.fluids, situation.id
        assert situation.guidance, situation.id
        assert situation.call, situation.id
        assert situation.first, situation.id
        assert situation.review is not None, situation.id
        assert situation.review.state == "draft", situation.id


def test_every_page_defers_to_local_policy(handbook: Handbook) -> None:
    catalogue = handbook.catalogue
    pages = [
        *(pair_page(handbook, entry) for entry in catalogue.mixing.values()),
        *(situation_page(handbook, one) for one in catalogue.situations.values()),
        *(page_of(handbook) for page_of in (mixing_page, situations_page)),
    ]
    for page in pages:
        assert POLICY.search(page.body) or "local policy" in page.body, page.path
    pieces = (piece_page(handbook, one) for one in catalogue.equipment.values())
    for page in (equipment_page(handbook), *pieces):
        assert "local policy" in page.body or "read the pack" in page.body, page.path


def test_every_mixing_entry_names_who_tested_it(handbook: Handbook) -> None:
    for entry in handbook.catalogue.mixing.values():
        assert entry.cites, entry.id
        assert entry.instead, entry.id
        assert all(cite.seen in {"read", "copy"} for cite in entry.cites), entry.id


def test_mixing_is_found_from_either_side(handbook: Handbook) -> None:
    def pairs(fluid: str) -> set[str]:
        return {entry.id for entry in handbook.mixing[fluid]}

    assert "phenytoin-glucose" in pairs("glucose-5")
    assert "phenytoin-glucose" not in pairs("sodium-chloride-0-9")
    assert "amiodarone-sodium-chloride" in pairs("sodium-chloride-0-9")
    assert "red-cells-lactated-ringer" in pairs("ringer-lactate-usp")
    assert NOT_LOOKED_UP in mixing_page(handbook).body


def test_each_link_of_the_list_carries_what_the_form_tells(handbook: Handbook) -> None:
    """The script finds a pair by what joins and by the fluid, and copies what the page says."""
    body = mixing_page(handbook).body
    for name in {entry.first for entry in handbook.catalogue.mixing.values()}:
        assert f'<option value="{typeset(name)}">' in body.replace("&#39;", "'"), name
    listed, _, by_fluid = body.partition('id="by-fluid"')
    pairs = re.findall(r'<a href="([^"]+)" data-pair data-first="[^"]+" data-name=', listed)
    assert len(set(pairs)) == len(pairs) == len(handbook.catalogue.mixing)
    for fluid in handbook.fluids:
        part = by_fluid.partition(f'data-fluid="{fluid.id}"')[2].partition("</div>")[0]
        beside = re.findall(r'<a href="([^"]+)"', part.partition("<dd>")[2])
        assert beside == [f"mixing/{entry.id}.html" for entry in handbook.mixing[fluid.id]]
        assert set(beside) <= set(pairs), fluid.id


def test_three_emergencies_stand_on_the_home_page(handbook: Handbook) -> None:
    assert [address for _, address, _ in emergencies(handbook)] == [
        "situations/bleeding.html",
        "situations/high-potassium.html",
        "situations/low-glucose.html",
    ]


def test_twenty_grams_of_glucose_side_by_side(handbook: Handbook) -> None:
    """Arithmetic: 20 g over 50, 100, 200 and 500 g/L."""
    asked = SideBySide.model_validate(
        {
            "question": "q",
            "basis": {"quantity": "glucose_mass", "amount": "20 g"},
            "fluids": ["glucose-5", "glucose-10", "glucose-20", "glucose-50", "mannitol-10"],
            "show": ["volume", "osmolarity", "glucose"],
        }
    )
    rows = rows_of(asked, (), handbook.catalogue, handbook.measures)
    volumes = [row.volume.number for row in rows]
    assert volumes[:4] == pytest.approx([400.0, 200.0, 100.0, 40.0])
    assert rows[4].volume.reason == HOLDS_NONE
    glucose = [dict(row.figures)["glucose"].number for row in rows[:4]]
    assert glucose == pytest.approx([20.0 / 0.180156] * 4)
    assert dict(rows[3].figures)["osmolarity"].number == pytest.approx(2775.4, abs=0.1)


def test_a_day_of_each_candidate(handbook: Handbook) -> None:
    """Arithmetic: 2.1 L of 0.9 % saline holds 2.1 x 154 = 323 mmol of sodium."""
    asked = SideBySide.model_validate(
        {
            "question": "q",
            "basis": {"volume": "2100 mL"},
            "fluids": ["sodium-chloride-0-9", "compound-sodium-lactate"],
            "show": ["sodium", "potassium", "plasma_gain"],
        }
    )
    saline, lactate = rows_of(asked, (), handbook.catalogue, handbook.measures)
    assert dict(saline.figures)["sodium"].number == pytest.approx(323.4, abs=0.1)
    assert dict(lactate.figures)["sodium"].number == pytest.approx(275.0, abs=0.1)
    assert dict(lactate.figures)["potassium"].number == pytest.approx(11.3, abs=0.1)
    assert dict(saline.figures)["plasma_gain"].number == pytest.approx(2.1 * 249.1, abs=0.5)
