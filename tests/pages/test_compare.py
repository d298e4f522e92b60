"""The page where a reader compares, and the data that its script joins."""

import json
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from isofolio.handbook import open_handbook
from isofolio.pages.columns import TALLEST, common_dilution, tallest_of
from isofolio.pages.compare import DRAWN_AT, compare_files, compare_page
from isofolio.vocabulary.quantities import QUANTITIES
from isofolio.wording.addresses import COMPARE_DATA, fluid_data
from isofolio.wording.figures import typeset

CATALOGUE = Path(__file__).parents[2] / "catalogue"


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None
    return opened.handbook


@pytest.fixture(scope="module")
def files(handbook):
    return {path: make() for path, make in compare_files(handbook)}


@pytest.fixture(scope="module")
def common(files):
    return data_of(files[COMPARE_DATA])


@pytest.fixture(scope="module")
def fluids(handbook, files):
    return {fluid.id: data_of(files[fluid_data(fluid.id)]) for fluid in handbook.fluids}


def data_of(script):
    """What a data script sets: the object after its last assignment."""
    head, _, value = script.partition("\n")[2].partition(" = ")
    if "compared" in head:  # (isofolio.compared = isofolio.compared || {})["id"] = {...}
        value = value.partition("] = ")[2]
    return json.loads(value.strip().removesuffix(";"))


def test_every_fluid_can_be_chosen(handbook):
    body = compare_page(handbook).body
    chosen = re.findall(r'<option value="([a-z0-9-]+)"', body)
    assert sorted(chosen) == sorted(fluid.id for fluid in handbook.fluids)


def test_every_ready_made_comparison_is_listed(handbook):
    body = compare_page(handbook).body
    for identifier in handbook.catalogue.comparisons:
        assert f'href="comparisons/{identifier}.html"' in body


def test_a_row_for_every_quantity(common, fluids):
    assert len(common["rows"]) == len(QUANTITIES)
    assert all(len(one["cells"]) == len(QUANTITIES) for one in fluids.values())
    assert all(len(one["said"]) == len(common["said"]) for one in fluids.values())


def test_the_cells_are_the_handbooks_figures(handbook, fluids):
    place = [quantity.id for quantity in QUANTITIES].index("osmolarity")
    assert fluids["glucose-5"]["cells"][place] == ["278", 277.537]
    for identifier, one in fluids.items():
        value = handbook.value(identifier, "osmolarity")
        text, number = one["cells"][place]
        if value.number is None:
            assert (text, number) == (typeset(value.reason), None)
        else:
            assert number == pytest.approx(value.number, rel=1e-5)


def test_every_fluid_has_a_column_at_some_strength(fluids, common):
    ways = [str(way["by"]) for way in common["ways"]]
    assert ways[0] == "1"
    for identifier, one in fluids.items():
        assert one["columns"], identifier
        assert list(one["columns"]) == ways[len(ways) - len(one["columns"]) :]


def test_the_weakest_way_holds_every_fluid(handbook, fluids, common):
    """So any six fluids find a scale on which all of them can stand."""
    last = common["ways"][-1]["by"]
    assert last in DRAWN_AT
    assert all(str(last) in one["columns"] for one in fluids.values())
    for identifier in fluids:
        assert tallest_of(handbook, identifier) / last <= TALLEST


def test_a_column_is_one_symbol_and_its_own_size(fluids, common):
    columns = [c for one in fluids.values() for c in one["columns"].values()]
    columns += common["plasma"]["columns"].values()
    for column in columns:
        symbol = ElementTree.fromstring(column["markup"])
        assert symbol.tag == "symbol"
        assert symbol.get("id") == column["id"]
        width, height = symbol.get("viewBox").split()[2:]
        size = (column["width"], column["height"])
        assert (float(width), float(height)) == pytest.approx(size, abs=0.01)
        assert 0 <= column["top"] < column["height"]
        assert column["label"].endswith(".")


def test_a_diluted_column_says_so(fluids):
    strong = fluids["sodium-bicarbonate-8-4"]["columns"]
    assert "1" not in strong
    for by, words in (("5", "a fifth"), ("20", "a twentieth")):
        assert f"diluted to {words}" in re.sub(r"<[^>]+>", " ", strong[by]["markup"]).replace(
            "  ", " "
        )


def test_no_data_holds_what_json_cannot(files):
    for path, text in files.items():
        assert not re.search(r"\bNaN\b|Infinity|undefined", text), path


@pytest.mark.parametrize(
    ("chosen", "diluted"),
    [
        (["sodium-chloride-0-9", "glucose-5"], 1),
        (["glucose-5", "glucose-50"], 10),
        (["sodium-chloride-0-9", "sodium-bicarbonate-8-4"], 4),
    ],
)
def test_all_fluids_of_a_drawing_share_one_strength(handbook, chosen, diluted):
    """1000 mEq/L of bicarbonate at a quarter is 250, below 300; 2775 mmol of glucose at a tenth."""
    assert common_dilution(handbook, chosen) == diluted
