"""A hospital's stock: stricter limits only, sizes and names laid over, contents never touched."""

import json
import shutil
from pathlib import Path

import pytest

from isofolio.entries.lists import Limit
from isofolio.entries.overlay import is_stricter
from isofolio.entries.scalars import parse_amount
from isofolio.exports.json_text import json_export
from isofolio.finder.index import finder_data
from isofolio.handbook import open_handbook
from isofolio.pages.fluid import fluid_page
from isofolio.teaching.worksheets_data import worksheets_data

CATALOGUE = Path(__file__).parents[2] / "catalogue"
HILLCROFT = """\
id: hillcroft
name: Hillcroft Hospital
fluids:
  - {fluid: glucose-5, sizes: [500 mL]}
limits:
  - {limit: vein-central-preferred, value: 700 mOsm/L, why: so it was decided.}
review: {state: draft}
"""


@pytest.fixture(scope="module")
def plain():
    return open_handbook(CATALOGUE).handbook


@pytest.fixture(scope="module")
def stocked():
    return open_handbook(CATALOGUE, "lindenmoor").handbook


@pytest.mark.parametrize(
    ("stricter", "limit", "value", "expected"),
    [
        ("lower", "900 mOsm/L", "800 mOsm/L", True),
        ("lower", "900 mOsm/L", "900 mOsm/L", True),
        ("lower", "900 mOsm/L", "901 mOsm/L", False),
        ("higher", "0.80", "0.85", True),
        ("higher", "0.80", "0.75", False),
        ("lower", "40 mmol/L", "20 mEq/L", False),  # another unit is another limit
    ],
)
def test_only_stricter(stricter, limit, value, expected):
    made = Limit.model_construct(id="x", stricter=stricter, value=parse_amount(limit))
    assert is_stricter(made, parse_amount(value)) is expected


def test_a_stricter_limit_changes_what_is_said(plain, stocked):
    def raised(handbook):
        found = handbook.judgements.items()
        return {(fluid, c.id) for fluid, judgement in found for c in judgement.cautions}

    gained, lost = raised(stocked) - raised(plain), raised(plain) - raised(stocked)
    # 823 mOsm/L is above 800, 13 mmol/L of potassium above 10; no other fluid lies between.
    assert gained == {
        ("mannitol-15", "vein-central"),
        ("maintenance-electrolytes-glucose-5", "potassium-added"),
    }
    # Where glucose 50 % is kept in no bag, it cannot be hung as a flush by mistake.
    assert lost == {("mannitol-15", "vein-large"), ("glucose-50", "arterial-line-glucose")}
    limit = stocked.catalogue.limits["vein-central-preferred"]
    assert limit.value.text == "800 mOsm/L"
    assert "Lindenmoor Hospital" in limit.text


def test_no_figure_changes(plain, stocked):
    for fluid in plain.fluids:
        for quantity in plain.quantities:
            assert plain.value(fluid.id, quantity) == stocked.value(fluid.id, quantity)


def test_sizes_and_names_are_those_of_the_hospital(stocked):
    glucose = stocked.catalogue.fluids["glucose-10"]
    assert [c.volume.text for c in glucose.containers] == ["500 mL"]
    assert "low-glucose box bag" in {other.name for other in glucose.also_known_as}


def test_a_stricter_limit_and_a_local_name_reach_whatever_is_made_of_the_catalogue(plain, stocked):
    fluid = "mannitol-15"
    for handbook, raised in ((plain, False), (stocked, True)):
        page = fluid_page(handbook, handbook.catalogue.fluids[fluid]).body
        assert ('caution-vein-large"' in page) is not raised
        exported = {one["id"]: one for one in json.loads(json_export(handbook))["fluids"]}
        assert ("vein-central" in exported[fluid]["cautions"]) is raised
        assert ("Lindenmoor plain salt bag" in finder_data(handbook)) is raised
        drawn_at = "800" if raised else "900"
        sheets = worksheets_data(handbook)
        limit = sheets[sheets.index('"vein-central-preferred":{') :]
        assert f'"value":{drawn_at}.0,' in limit[:60]


def test_each_hospital_has_its_own_copy_of_one_catalogue(tmp_path, stocked):
    copy = Path(shutil.copytree(CATALOGUE, tmp_path / "catalogue"))
    (copy / "stock" / "hillcroft.yml").write_text(HILLCROFT, encoding="utf-8")
    hillcroft = open_handbook(copy, "hillcroft").handbook
    lindenmoor = open_handbook(copy, "lindenmoor").handbook
    assert hillcroft.catalogue.limits["vein-central-preferred"].value.text == "700 mOsm/L"
    assert lindenmoor.catalogue.limits == stocked.catalogue.limits
    assert hillcroft.catalogue.limits["potassium-caution"].value.text == "20 mmol/L"
    assert hillcroft.catalogue.stocked.name == "Hillcroft Hospital"


def test_a_looser_limit_is_told_at_its_place(tmp_path):
    """Every stock is judged, whichever hospital one builds for."""
    copy = Path(shutil.copytree(CATALOGUE, tmp_path / "catalogue"))
    looser = HILLCROFT.replace("700 mOsm/L", "901 mOsm/L")
    (copy / "stock" / "hillcroft.yml").write_text(looser, encoding="utf-8")
    opened = open_handbook(copy, "lindenmoor")
    assert opened.handbook is None
    assert [problem.text() for problem in opened.problems] == [
        "stock/hillcroft.yml:6:44: 901 mOsm/L is not stricter than 900 mOsm/L\n"
        "    6 |   - {limit: vein-central-preferred, value: 901 mOsm/L, why: so it was decided.}\n"
        "      |                                            ^\n"
        "  A hospital may only set it lower, in mOsm/L."
    ]


def test_a_stock_that_is_not_there_is_a_problem():
    opened = open_handbook(CATALOGUE, "nowhere")
    assert opened.handbook is None
    assert "there is no such stock" in opened.problems[0].text()
    assert "lindenmoor" in opened.problems[0].text()


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("value: 800 mOsm/L", "value: 1000 mOsm/L", "is not stricter than 900 mOsm/L"),
        ("sizes: [50 mL]", "sizes: [55 mL]", "glucose-50 is not sold in 55 mL"),
        ("limit: potassium-caution", "limit: vein-central-preferred", "stands twice"),
        ("fluid: glucose-50", "fluid: glucose-51", 'no "glucose-51" in fluids/'),
    ],
)
def test_a_loosened_or_impossible_stock_is_refused(tmp_path, old, new, message):
    copy = tmp_path / "catalogue"
    shutil.copytree(CATALOGUE, copy)
    file = copy / "stock" / "lindenmoor.yml"
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")
    opened = open_handbook(copy)
    assert [problem.file for problem in opened.problems] == ["stock/lindenmoor.yml"]
    assert message in opened.problems[0].text()
