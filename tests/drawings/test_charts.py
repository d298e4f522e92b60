"""Charts of points, looked at from the written SVG alone. Geometry of our own, no source."""

from xml.etree import ElementTree

import pytest

from isofolio.drawings.chart_labels import label_text
from isofolio.drawings.chart_plan import Axis, Chart, Guide, Kind, Mark, step_of, ticks
from isofolio.drawings.charts import draw
from isofolio.drawings.marks import RADIUS, SHAPES, mark_shape
from isofolio.drawings.standalone import standalone

NS = "{http://www.w3.org/2000/svg}"
KINDS = (Kind("a", "sort a", "circle", "sodium"), Kind("b", "sort b", "square", "chloride"))


def chart(*marks, **changes):
    given = {
        "id": "test",
        "title": "A title",
        "description": "What it shows.",
        "across": Axis("across, mmol/L", 0.0, 100.0),
        "up": Axis("up, mmol/L", -20.0, 80.0),
        "kinds": KINDS,
        "marks": marks,
        **changes,
    }
    return Chart(**given)


def parsed(svg):
    return ElementTree.fromstring(svg)


def words(root, kind="ion-text"):
    return [t.text for t in root.iter(f"{NS}text") if kind in t.get("class").split()]


def test_a_mark_stands_where_its_figures_are():
    root = parsed(draw(chart(Mark(0.0, -20.0, "a", ("low",)), Mark(100.0, 80.0, "a", ("high",)))))
    low, high = [c for c in root.iter(f"{NS}circle") if c.find(f"{NS}title") is not None]
    lines = [line for line in root.iter(f"{NS}line") if line.get("class") == "ion-line"]
    left, right = lines[0].get("x1"), lines[0].get("x2")
    bottom, top = lines[1].get("y1"), lines[1].get("y2")
    assert (low.get("cx"), low.get("cy")) == (left, bottom)
    assert (high.get("cx"), high.get("cy")) == (right, top)


def test_marks_beyond_an_axis_are_not_drawn():
    root = parsed(draw(chart(Mark(101.0, 0.0, "a", ("far",)), Mark(5.0, 5.0, "a", ("near",)))))
    assert [t.text for t in root.iter(f"{NS}title")] == ["A title", "near"]


def test_the_key_names_only_what_is_drawn():
    assert "sort b" not in words(parsed(draw(chart(Mark(5.0, 5.0, "a", ("x",))))))


def test_names_on_one_spot_are_counted():
    assert label_text(Mark(0.0, 0.0, "a", ("a longer name", "short"))) == "short + 1 more"
    assert label_text(Mark(0.0, 0.0, "a", ("short",))) == "short"


def test_a_name_is_left_out_where_it_would_touch_another():
    crowd = [Mark(50.0 + n, 30.0, "a", (f"a rather long name {n}",)) for n in range(12)]
    said = words(parsed(draw(chart(*crowd))), "ion-halo")
    assert 0 < len(said) < len(crowd)


def test_hostile_names_are_escaped():
    root = parsed(draw(chart(Mark(5.0, 5.0, "a", ('<script> & "x"',)))))
    assert '<script> & "x"' in [t.text for t in root.iter(f"{NS}title")]


def test_a_guide_has_its_words():
    area = Guide("an area", (10.0, 0.0), (20.0, 10.0), area=True)
    line = Guide("a line", (0.0, 5.0), (100.0, 5.0))
    root = parsed(draw(chart(guides=(area, line))))
    assert words(root, "ion-halo") == ["an area", "a line"]
    box = next(root.iter(f"{NS}rect"))
    assert float(box.get("width")) > 0 < float(box.get("height"))


def test_a_chart_can_stand_alone_with_its_title():
    text = standalone(draw(chart(), titled=True), citation="A citation")
    root = parsed(text)
    assert "A title" in words(root, "ion-title")
    assert "A citation" in words(root, "ion-second")
    assert ".ion-halo{" in text


@pytest.mark.parametrize(
    ("low", "high", "step"),
    [(0, 700, 100), (0, 8, 1), (0, 9, 2), (-4, 12, 2), (0, 0.6, 0.1), (0, 41, 10)],
)
def test_steps_are_round_and_at_most_eight(low, high, step):
    assert step_of(low, high) == pytest.approx(step)
    assert len(ticks(Axis("x", low, high))) <= 9


@pytest.mark.parametrize("shape", ["circle", *SHAPES])
def test_every_shape_keeps_to_its_circle_and_is_another(shape):
    drawn = mark_shape(shape, 0.0, 0.0)
    if drawn.name == "polygon":
        numbers = [float(part) for part in dict(drawn.attributes)["points"].split()]
        far = [(x * x + y * y) ** 0.5 for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
        assert 0.9 * RADIUS <= max(far) <= 1.1 * RADIUS
    others = [mark_shape(other, 0.0, 0.0) for other in SHAPES if other != shape]
    assert drawn not in others
