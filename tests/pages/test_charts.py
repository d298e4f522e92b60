"""The charts of all fluids: every point is a figure of the handbook, drawn in two ways."""

import json
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from isofolio.drawings.charts import draw
from isofolio.handbook import open_handbook
from isofolio.pages.charts import KINDS, charts, hung, kind_of
from isofolio.pages.explore import SHOWN, explore_page
from isofolio.pages.plots import chart_library, explore_data, figure_of
from isofolio.wording.figures import typeset

CATALOGUE = Path(__file__).parents[2] / "catalogue"
PAIRS = {
    "bag-and-body": ("osmolarity", "effective_osmolarity"),
    "sodium-and-chloride": ("sodium", "chloride"),
    "strong-ion-difference": ("sid_in_body", "base_excess_1l"),
}


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None
    return opened.handbook


@pytest.fixture(scope="module")
def told(handbook):
    return {one.chart.id: one for one in charts(handbook)}


@pytest.fixture(scope="module")
def data(handbook):
    script = explore_data(handbook)
    return json.loads(script.partition("isofolio.explore = ")[2].strip().removesuffix(";"))


def test_there_are_four_charts(told, data):
    assert [*told] == [*PAIRS, "glucose-and-calories"]
    assert [*data["charts"]] == [*told]


@pytest.mark.parametrize("name", PAIRS)
def test_every_fluid_with_both_figures_is_on_the_chart_at_them(handbook, told, name):
    across, up = PAIRS[name]
    points = {n: (m.x, m.y) for m in told[name].chart.marks for n in m.names}
    for fluid in hung(handbook):
        x, y = (handbook.value(fluid.id, quantity).number for quantity in (across, up))
        if x is None or y is None:
            assert typeset(fluid.name) not in points
        else:
            assert points[typeset(fluid.name)] == pytest.approx((x, y), rel=1e-5, abs=1e-9)


def test_both_ways_to_count_calories_are_drawn(told):
    """Arithmetic on glucose 5 %: 50 g at 4.0 kcal; 55 g of monohydrate (198.17 / 180.16) at 3.4."""
    names = {(m.kind, round(m.y)) for m in told["glucose-and-calories"].chart.marks if m.x == 50}
    assert names == {("anhydrous", 200), ("monohydrate", 187)}


def test_concentrates_and_water_are_on_no_chart(handbook):
    assert {fluid.role for fluid in hung(handbook)}.isdisjoint({"concentrate", "diluent"})


def test_what_lies_beyond_is_named(told):
    for one in told.values():
        drawn = {name for mark in one.chart.shown for name in mark.names}
        every = {name for mark in one.chart.marks for name in mark.names}
        assert set(one.beyond) >= every - drawn
        for axis, whole in zip((one.chart.across, one.chart.up), one.whole, strict=True):
            assert whole.low <= axis.low < axis.high <= whole.high


@pytest.mark.parametrize(
    ("fluid", "kind"),
    [
        ("sodium-chloride-0-9", "saline"),
        ("ringer-injection-usp", "saline"),
        ("glucose-20", "glucose"),
        ("sodium-chloride-0-18-glucose-4", "mixture"),
        ("potassium-chloride-0-15-glucose-5", "potassium"),
        ("compound-sodium-lactate", "balanced"),
        ("sodium-bicarbonate-8-4", "alkali"),
        ("sodium-lactate-m6", "alkali"),
        ("albumin-5", "colloid"),
        ("succinylated-gelatin-4-balanced", "colloid"),
        ("mannitol-10", "mannitol"),
    ],
)
def test_sorts_of_fluid(handbook, fluid, kind):
    assert kind_of(handbook, handbook.catalogue.fluids[fluid]) == kind


def test_sorts_differ_by_shape_and_not_by_colour_alone():
    shapes = [kind.shape for kind in KINDS]
    assert len(set(shapes)) == len(shapes)


def test_both_drawings_show_the_same_points(told, data):
    for name, one in told.items():
        traces = data["charts"][name]["figure"]["data"]
        plotted = {(x, y) for trace in traces for x, y in zip(trace["x"], trace["y"], strict=True)}
        assert plotted == {(mark.x, mark.y) for mark in one.chart.marks}
        root = ElementTree.fromstring(draw(one.chart))
        titles = [t.text for t in root.iter("{http://www.w3.org/2000/svg}title")][1:]
        assert sorted(titles) == sorted("; ".join(mark.names) for mark in one.chart.shown)


def test_figures_carry_names_shapes_and_no_colour(told, data):
    for one in told.values():
        figure = json.loads(figure_of(one.chart).to_json())
        assert figure["layout"]["template"] == {"data": {"scatter": [{"type": "scatter"}]}}  # none
        assert not re.search(r"#[0-9a-f]{3,6}|rgb", json.dumps(figure))
        for trace in figure["data"]:
            assert trace["marker"]["symbol"]
            assert "%{text}" in trace["hovertemplate"]
            assert all(trace["text"])
            assert trace["meta"].startswith("--ion-")
    assert data["config"]["displaylogo"] is False


def test_a_point_tells_every_name_there_and_figures_with_units(data):
    """Saline and colloids made up in it have one osmolarity: one mark hides another."""
    traces = data["charts"]["bag-and-body"]["figure"]["data"]
    (text,) = [
        text
        for trace in traces
        if trace["name"].startswith("sodium chloride")
        for text in trace["text"]
        if "Sodium chloride\u00a00.9\u202f%" in text.split("<br>")
    ]
    lines = text.split("<br>")
    assert any(line.startswith("Dextran 40") for line in lines)
    assert lines[-2:] == [
        "osmolarity in the bag: 308\u00a0mOsm/L",
        "effective osmolarity in the body: 308\u00a0mOsm/L",
    ]


def test_the_library_is_the_installed_packages_own():
    """plotly ships its library with a line on its licence; nothing of it is in this repository."""
    library = chart_library()
    assert b"plotly.js v" in library[:200]
    assert not list(CATALOGUE.parent.joinpath("site_src").rglob("plotly*"))


def test_the_page_holds_every_figure_without_script(handbook):
    body = explore_page(handbook).body
    for fluid in hung(handbook):
        assert f'href="fluids/{fluid.id}.html"' in body
    assert body.count('<th scope="row">') == len(hung(handbook))
    assert body.count('<th scope="col"') == len(SHOWN) + 2
    assert body.count('role="img"') >= 4
