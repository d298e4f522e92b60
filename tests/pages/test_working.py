"""The section "Working" of a fluid's page: what it prints is what the measures worked out.

Whether the arithmetic comes out is tested in measures/test_workings.py, on the same text.
"""

import html
import re
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.measures.workings import WITHOUT_WORKING, workings_of
from isofolio.pages.method import method_page
from isofolio.pages.page import rendered
from isofolio.pages.working import working_context
from isofolio.wording.workings import working_text

CATALOGUE = Path(__file__).parents[2] / "catalogue"
# A figure and its unit that a line end could part; "1000 ÷" and "2 × 3" may be parted.
BREAKABLE = re.compile(r"\d (%|g/L|mmol|mEq|mOsm|kcal|mL|kg|L|mmHg)\b")


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


@pytest.fixture(scope="module")
def part(handbook):
    def of(fluid_id):
        context = working_context(handbook, handbook.catalogue.fluids[fluid_id])
        return rendered("working_part.html", f"fluids/{fluid_id}.html", context)

    return of


def words(text):
    """What a reader sees of HTML."""
    return html.unescape(re.sub(r"<[^>]+>", "", text))


def lines_of(handbook, fluid_id):
    fluid = handbook.catalogue.fluids[fluid_id]
    return workings_of(fluid, handbook.catalogue, handbook.measures)


def test_every_line_stands_on_the_page_as_it_was_worked(handbook, part):
    for fluid in handbook.fluids:
        seen = re.findall(r'<dd class="arithmetic">(.*?)</dd>', part(fluid.id))
        worked = {working_text(line) for line in lines_of(handbook, fluid.id)}
        assert {html.unescape(text) for text in seen} == worked, fluid.id


def test_every_figure_is_worked_or_absent_or_has_its_reason(handbook, part):
    for fluid in handbook.fluids:
        text = part(fluid.id)
        for quantity in handbook.quantities:
            value = handbook.value(fluid.id, quantity)
            if value.number is None:
                assert html.escape(value.reason, quote=False) in html.unescape(text)
            elif value.number and quantity not in WITHOUT_WORKING:
                assert f'id="working-{quantity}"' in text, (fluid.id, quantity)


def test_no_figure_can_part_from_its_unit(handbook, part):
    parted = {f.id: found[0] for f in handbook.fluids if (found := BREAKABLE.search(part(f.id)))}
    assert parted == {}


def test_every_figure_and_step_leads_to_its_function(handbook, part):
    anchors = set(re.findall(r'id="([^"]+)"', method_page().body))
    for fluid in handbook.fluids:
        links = set(re.findall(r'href="\.\./method\.html#([^"]+)"', part(fluid.id)))
        assert links - anchors == set(), fluid.id
        assert links >= {line.method for line in lines_of(handbook, fluid.id) if line.method}


def test_ids_are_said_once(part):
    found = re.findall(r'id="([^"]+)"', part("compound-sodium-lactate"))
    assert len(found) == len(set(found))


def test_a_formula_is_said_once_for_the_ions_that_share_it(part):
    text = words(part("ringer-acetate"))
    assert text.count("as declared") == 1


def test_a_missing_figure_has_no_working_and_its_reason(part):
    text = part("succinylated-gelatin-4-balanced")
    assert 'id="working-ph_1l"' not in text
    assert "the charge of the gelatin is not declared" in words(text)


def test_water_has_nothing_to_work(part):
    text = part("water-for-injections")
    assert "arithmetic" not in text
    assert "never given alone" in text
