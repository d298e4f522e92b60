"""Ways from a page: to worksheets with the fluid chosen, to equipment with its reason.

No published source for the ways; the facts behind each need carry their citation in the catalogue.
"""

import re
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.pages.equipment import equipment_context, piece_page
from isofolio.pages.fluid import fluid_page
from isofolio.pages.situations import situation_page
from isofolio.pages.tutorials import TUTORIAL_BY_ID
from isofolio.pages.worksheets import worksheets_for, worksheets_page
from isofolio.teaching.sheets import SHEETS
from isofolio.vocabulary.terms import WORKSHEET_IDS

PROJECT = Path(__file__).parents[2]
LESSONS = PROJECT / "site_src" / "tutorials"


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(PROJECT / "catalogue")
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


def sheets_of(handbook, identifier):
    """The worksheets that the page of a fluid leads to, by their anchor."""
    ways = worksheets_for(handbook, handbook.catalogue.fluids[identifier])
    pairs = [address.partition("#")[2].split("=") for _, address in ways]
    assert all(fluid == identifier for _, fluid in pairs)
    return [sheet for sheet, _ in pairs]


def pieces_of(handbook, identifier):
    """What a fluid needs of equipment: the id of each piece."""
    rows = equipment_context(handbook, handbook.catalogue.fluids[identifier])["equipment"]
    assert all(row["why"] for row in rows)
    return [re.sub(r".*/|\.html", "", row["address"]) for row in rows]


def test_the_worksheets_are_named_once_for_all():
    assert tuple(sheet.id for sheet in SHEETS) == WORKSHEET_IDS
    assert {sheet.lesson for sheet in SHEETS} <= set(TUTORIAL_BY_ID)


@pytest.mark.parametrize(
    ("fluid", "sheets"),
    [
        ("glucose-5", ["contents", "day", "concentrate", "drops", "glucose", "sodium"]),
        ("sodium-chloride-0-9", ["contents", "day", "concentrate", "drops", "sodium"]),
        ("potassium-chloride-15", ["contents", "concentrate"]),
        ("water-for-injections", ["contents"]),
        ("hydroxyethyl-starch-6", ["contents"]),
        ("albumin-20", ["contents"]),
    ],
)
def test_a_fluid_leads_to_the_worksheets_that_make_sense_for_it(handbook, fluid, sheets):
    """Nothing to hang leads to no rate, no glucose to no glucose rate."""
    assert sheets_of(handbook, fluid) == sheets


def test_every_way_ends_at_a_place_of_the_worksheets(handbook):
    places = set(re.findall(r'\sid="([^"]+)"', worksheets_page(handbook).body))
    ways = [address for fluid in handbook.fluids for _, address in worksheets_for(handbook, fluid)]
    assert len(ways) > 200
    assert {address.partition("#")[2] for address in ways} <= places


def test_a_fluid_page_chooses_the_fluid_and_no_volume(handbook):
    body = fluid_page(handbook, handbook.catalogue.fluids["glucose-10"]).body
    part = body.partition('id="work-it-out"')[2].partition("</ul>")[0]
    assert re.findall(r'href="\.\./worksheets\.html#([a-z]+)=glucose-10"', part)
    assert not re.search(r"#[a-z]+=glucose-10[^\"]", part)
    assert "you enter every volume, rate and weight" in part
    assert "not an order" in part


def test_situations_equipment_and_tutorials_lead_to_every_worksheet(handbook):
    catalogue = handbook.catalogue
    made = [situation_page(handbook, one) for one in catalogue.situations.values()]
    pages = {page.path: page.body for page in made}
    assert 'href="../worksheets.html#sodium"' in pages["situations/low-sodium.html"]
    assert 'href="../worksheets.html#glucose"' in pages["situations/low-glucose.html"]
    assert 'href="../worksheets.html#day"' in pages["situations/routine-maintenance.html"]
    gravity_set = piece_page(handbook, catalogue.equipment["gravity-set"])
    assert 'href="../worksheets.html#drops"' in gravity_set.body
    lessons = {path.stem: path.read_text(encoding="utf-8") for path in LESSONS.glob("*.md")}
    for sheet in SHEETS:
        assert f"](../worksheets.md#{sheet.id})" in lessons[sheet.lesson], sheet.id
        assert any(f'worksheets.html#{sheet.id}"' in body for body in pages.values()), sheet.id
    assert all("](../worksheets.md#" in text for text in lessons.values())


@pytest.mark.parametrize(
    ("fluid", "needs", "not_needed"),
    [
        ("sodium-chloride-0-9", {"soft-bag", "gravity-set", "transfusion-set"}, {"pump-set"}),
        ("glucose-5", {"soft-bag", "peripheral-cannula"}, {"transfusion-set", "central-access"}),
        (
            "potassium-chloride-0-3-glucose-5",
            {"soft-bag", "pump-set", "peripheral-cannula"},
            {"gravity-set", "central-access"},
        ),
        (
            "potassium-chloride-40-mmol-in-100-ml",
            {"pump-set", "central-access"},
            {"peripheral-cannula", "gravity-set"},
        ),
        ("albumin-4", {"glass-bottle"}, {"soft-bag"}),
        ("albumin-5", {"glass-bottle"}, {"soft-bag"}),
        ("sodium-bicarbonate-4-2", {"glass-bottle", "semi-rigid-bottle"}, {"soft-bag"}),
        ("mannitol-20", {"in-line-filter", "central-access"}, {"peripheral-cannula"}),
        ("mannitol-10", {"soft-bag"}, {"in-line-filter"}),
        (
            "potassium-chloride-15",
            {"ports-and-additives", "reading-a-label"},
            {"soft-bag", "gravity-set", "peripheral-cannula"},
        ),
    ],
)
def test_a_fluid_leads_to_the_equipment_that_it_needs(handbook, fluid, needs, not_needed):
    """A vent for glass, none for a bag, a pump for potassium, a filter for mannitol 20 %."""
    pieces = set(pieces_of(handbook, fluid))
    assert needs <= pieces
    assert not pieces & not_needed


def test_a_piece_never_speaks_against_the_answer_on_the_vein(handbook):
    """A central line and no cannula where one is preferred; no plain drip where a pump is."""
    central = {
        fluid.id
        for fluid in handbook.fluids
        if handbook.judgements[fluid.id].vein.word == "Central line preferred"
    }
    assert len(central) > 8
    for fluid in handbook.fluids:
        pieces = set(pieces_of(handbook, fluid.id))
        assert ("central-access" in pieces) is (fluid.id in central), fluid.id
        if fluid.id in central:
            assert "peripheral-cannula" not in pieces, fluid.id
        if any("pump" in note.text for note in fluid.giving):
            assert "gravity-set" not in pieces, fluid.id


def test_what_is_withdrawn_hangs_from_nothing(handbook):
    assert pieces_of(handbook, "hydroxyethyl-starch-6") == []


def test_every_fluid_that_is_hung_has_its_checks_and_its_container(handbook):
    for fluid in handbook.fluids:
        if fluid.status == "current" and fluid.role != "diluent":
            pieces = pieces_of(handbook, fluid.id)
            assert pieces, fluid.id
            last = "reading-a-label" if fluid.role == "concentrate" else "checks-before-hanging"
            assert pieces[-1] == last, fluid.id


def test_a_piece_names_its_fluids_with_the_reason_and_a_long_list_by_its_number(handbook):
    def fluids_of(piece):
        page = piece_page(handbook, handbook.catalogue.equipment[piece])
        return page.body.partition('id="fluids"')[2]

    glass = fluids_of("glass-bottle")
    assert glass.count("<li>") == 2
    assert "fluids/albumin-4.html" in glass
    bag = fluids_of("soft-bag")
    assert re.search(r"\d\d fluids of this handbook", bag)
