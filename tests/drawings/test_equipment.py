"""Drawings of equipment: whole, named, numbered once, and every number points at its part.

Geometry of our own, no published source.  Boxes are worked out from the written SVG alone, by code
that shares nothing with the drawing: 7.2 px for a character of 12.8 px.
"""

import itertools
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from xml.etree import ElementTree

import pytest
import yaml

from isofolio.drawings.equipment import (
    EQUIPMENT_DRAWINGS,
    FIGURES,
    equipment_drawing,
    numbered_parts,
)
from isofolio.drawings.equipment_figure import Figure, Part, draw, line, rect, words

NS = "{http://www.w3.org/2000/svg}"
ROOT = Path(__file__).parents[2]
SHEET = ROOT / "site_src" / "styles" / "equipment.css"
CATALOGUE = ROOT / "catalogue" / "equipment"
CHARACTER, ASCENT, DESCENT = 7.2, 9.9, 2.9
PHONE = 390 - 2 * 12  # px that a page leaves for a figure on a phone (isofolio.css)
NEAR, NEAR_WORDS = 4.0, 8.0  # px: a leader ends on its part, or this close to it

IDS = (
    "gravity-set",
    "transfusion-set",
    "small-volume-set",
    "pump-set",
    "multi-lumen-extension",
    "needle-free-connector",
    "in-line-filter",
    "peripheral-cannula",
    "central-access",
    "soft-bag",
    "semi-rigid-bottle",
    "glass-bottle",
    "ports-and-additives",
    "graduations-and-overfill",
    "reading-a-label",
    "checks-before-hanging",
)
every = pytest.mark.parametrize("identifier", IDS)

Point = tuple[float, float]
Stroke = tuple[Point, Point]


@dataclass(frozen=True)
class Box:
    left: float
    top: float
    right: float
    bottom: float
    name: str

    def meets(self, other: "Box") -> bool:
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across > 0.03 and down > 0.03


def _root(identifier: str) -> ElementTree.Element:
    return ElementTree.fromstring(equipment_drawing(identifier))


def _with(root: ElementTree.Element, name: str, kind: str = "") -> list[ElementTree.Element]:
    found = root.iter(NS + name)
    return [item for item in found if not kind or kind in item.get("class", "").split()]


def _text_box(text: ElementTree.Element) -> Box:
    said = text.text or ""
    x, y, wide = float(text.attrib["x"]), float(text.attrib["y"]), len(said) * CHARACTER
    left = {"start": x, "middle": x - wide / 2, "end": x - wide}[text.attrib["text-anchor"]]
    return Box(left, y - ASCENT, left + wide, y + DESCENT, said)


def _circle_box(item: ElementTree.Element) -> Box:
    x, y, radius = (float(item.attrib[key]) for key in ("cx", "cy", "r"))
    return Box(x - radius, y - radius, x + radius, y + radius, f"circle at {x:g}, {y:g}")


def _ends(item: ElementTree.Element) -> Stroke:
    x1, y1, x2, y2 = (float(item.attrib[key]) for key in ("x1", "y1", "x2", "y2"))
    return (x1, y1), (x2, y2)


def _numbers(root: ElementTree.Element) -> list[str]:
    return [text.text or "" for text in _with(root, "text", "eq-number")]


def _bent(points: list[Point]) -> list[Point]:
    """Twelve points along a curve of Bezier, by repeated halving of its control strokes."""
    found = []
    for step in range(1, 13):
        part, layer = step / 12, points
        while len(layer) > 1:
            layer = [
                (a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part)
                for a, b in itertools.pairwise(layer)
            ]
        found.append(layer[0])
    return found


def _path_strokes(data: str) -> Iterator[Stroke]:
    assert not re.search(r"[^MLQCZ0-9 .-]", data), f"only absolute M L Q C Z: {data}"
    here = start = (0.0, 0.0)
    for letter, text in re.findall(r"([MLQCZ])([^MLQCZ]*)", data):
        values = [float(value) for value in text.split()]
        points = list(zip(values[::2], values[1::2], strict=True))
        if letter == "M":
            here = start = points[0]
            continue
        via = {"Z": [start], "L": points}.get(letter) or _bent([here, *points])
        for point in via:
            yield here, point
            here = point


def _strokes(item: ElementTree.Element) -> Iterator[Stroke]:
    """The straight pieces that a shape is made of; a text counts as its box."""
    name = item.tag.removeprefix(NS)
    if name == "line":
        yield _ends(item)
    elif name == "path":
        yield from _path_strokes(item.attrib["d"])
    elif name in {"rect", "circle", "text"}:
        box = _outline(item, name)
        corners = [
            (box.left, box.top),
            (box.right, box.top),
            (box.right, box.bottom),
            (box.left, box.bottom),
        ]
        yield from itertools.pairwise([*corners, corners[0]])
    else:
        raise AssertionError(f"no rule for a {name} in a drawing")


def _outline(item: ElementTree.Element, name: str) -> Box:
    if name == "circle":
        return _circle_box(item)
    if name == "text":
        return _text_box(item)
    x, y, wide, tall = (float(item.attrib[key]) for key in ("x", "y", "width", "height"))
    return Box(x, y, x + wide, y + tall, "rect")


def _distance(point: Point, stroke: Stroke) -> float:
    (x, y), ((x1, y1), (x2, y2)) = point, stroke
    length = (x2 - x1) ** 2 + (y2 - y1) ** 2
    along = 0.0 if length == 0 else ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / length
    along = min(1.0, max(0.0, along))
    return math.hypot(x - x1 - along * (x2 - x1), y - y1 - along * (y2 - y1))


def _within(point: Point, strokes: list[Stroke]) -> bool:
    """Whether a ray to the right crosses the strokes an odd number of times."""
    (x, y), crossings = point, 0
    for (x1, y1), (x2, y2) in strokes:
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            crossings += 1
    return crossings % 2 == 1


def _is_on(point: Point, part: ElementTree.Element) -> bool:
    for item in part:
        strokes = list(_strokes(item))
        near = NEAR_WORDS if item.tag == f"{NS}text" else NEAR
        if _within(point, strokes) or min(_distance(point, stroke) for stroke in strokes) <= near:
            return True
    return False


def _crosses(one: Stroke, two: Stroke) -> bool:
    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    apart = side(*one, two[0]) * side(*one, two[1]), side(*two, one[0]) * side(*two, one[1])
    return apart[0] < 0 and apart[1] < 0


def _passes(stroke: Stroke, box: Box) -> bool:
    corners = [
        (box.left, box.top),
        (box.right, box.top),
        (box.right, box.bottom),
        (box.left, box.bottom),
    ]
    sides = itertools.pairwise([*corners, corners[0]])
    return any(_crosses(stroke, edge) for edge in sides)


def test_every_page_has_its_drawing() -> None:
    assert tuple(EQUIPMENT_DRAWINGS) == tuple(FIGURES) == IDS


@every
def test_valid_named_and_without_styles(identifier: str) -> None:
    markup = EQUIPMENT_DRAWINGS[identifier]()
    root = ElementTree.fromstring(markup)
    assert root.tag == f"{NS}svg"
    assert root.attrib["role"] == "img"
    title, description = (root.find(NS + name) for name in ("title", "desc"))
    assert title is not None
    assert description is not None
    assert title.text
    assert description.text
    assert root.attrib["aria-labelledby"].split() == [title.attrib["id"], description.attrib["id"]]
    for word in ("style", "<script", "href", "url(", "onclick"):
        assert word not in markup.lower(), word
    assert FIGURES[identifier]().identifier == identifier


@every
def test_the_same_bytes_twice(identifier: str) -> None:
    assert equipment_drawing(identifier) == equipment_drawing(identifier)


def test_no_id_is_used_twice_on_a_page_with_all_of_them() -> None:
    names = re.findall(r' id="([^"]+)"', "".join(make() for make in EQUIPMENT_DRAWINGS.values()))
    assert len(names) == len(set(names)) == 2 * len(IDS)


@every
def test_every_number_is_drawn_once_and_listed_once(identifier: str) -> None:
    root = _root(identifier)
    expected = [str(index) for index in range(1, len(numbered_parts(identifier)) + 1)]
    assert len(expected) >= 5
    assert _numbers(root) == expected
    said = root.find(f"{NS}desc")
    assert said is not None
    listed = re.findall(r"(?:Parts: |; )(\d+) ([^;]+?)(?=;|\.$)", said.text or "")
    assert [(int(index), name) for index, name in listed] == list(numbered_parts(identifier))
    assert len({name for _, name in listed}) == len(listed)
    assert sorted(part.attrib["data-part"] for part in _with(root, "g", "eq-part")) == sorted(
        expected
    )


@every
def test_every_number_points_at_its_own_part(identifier: str) -> None:
    root = _root(identifier)
    parts = {part.attrib["data-part"]: part for part in _with(root, "g", "eq-part")}
    leaders, circles = _with(root, "line", "eq-leader"), _with(root, "circle", "eq-circle")
    for index, leader, circle in zip(_numbers(root), leaders, circles, strict=True):
        start, end = _ends(leader)
        middle = (float(circle.attrib["cx"]), float(circle.attrib["cy"]))
        assert math.dist(start, middle) == pytest.approx(float(circle.attrib["r"]), abs=0.02)
        assert _is_on(end, parts[index]), f"{index} ends at {end}, off its part"


@every
def test_no_leader_meets_another_or_a_number_or_words(identifier: str) -> None:
    root = _root(identifier)
    strokes = [_ends(leader) for leader in _with(root, "line", "eq-leader")]
    for one, two in itertools.combinations(strokes, 2):
        assert not _crosses(one, two), f"{one} crosses {two}"
    circles = [_circle_box(item) for item in _with(root, "circle", "eq-circle")]
    plain = [
        _text_box(text) for text in _with(root, "text") if "eq-number" not in text.attrib["class"]
    ]
    for index, stroke in enumerate(strokes):
        for box in [*circles[:index], *circles[index + 1 :], *plain]:
            assert not _passes(stroke, box), f"{stroke} runs through {box}"


@every
def test_words_and_numbers_stay_apart_and_inside(identifier: str) -> None:
    root = _root(identifier)
    left, top, wide, tall = (float(edge) for edge in root.attrib["viewBox"].split())
    circles = [_circle_box(item) for item in _with(root, "circle", "eq-circle")]
    plain = [
        _text_box(text) for text in _with(root, "text") if "eq-number" not in text.attrib["class"]
    ]
    for box in circles + plain:
        assert left <= box.left, box
        assert box.right <= left + wide, box
        assert top <= box.top, box
        assert box.bottom <= top + tall, box
    for one, two in itertools.combinations(circles + plain, 2):
        assert not one.meets(two), f"{one} meets {two}"


@every
def test_every_stroke_stays_inside(identifier: str) -> None:
    root = _root(identifier)
    wide, tall = (float(edge) for edge in root.attrib["viewBox"].split()[2:])
    for item in root.iter():
        if item.tag.removeprefix(NS) in {"line", "path", "rect", "circle"}:
            for x, y in itertools.chain.from_iterable(_strokes(item)):
                assert 0 <= x <= wide, item.attrib
                assert 0 <= y <= tall, item.attrib


@every
def test_fits_a_phone_at_its_own_size(identifier: str) -> None:
    assert float(_root(identifier).attrib["width"]) <= PHONE


@every
def test_every_class_has_its_rule(identifier: str) -> None:
    used = set(" ".join(re.findall(r'class="([^"]+)"', equipment_drawing(identifier))).split())
    ruled = set(re.findall(r"\.(eq-[a-z-]+)", SHEET.read_text(encoding="utf-8")))
    assert used <= ruled | {"eq-part"}


def test_no_drawing_names_a_maker_or_a_trade_mark() -> None:
    text = "".join(make() for make in EQUIPMENT_DRAWINGS.values())
    assert not re.search("[\u00ae\u2122\u00a9]", text)


def test_the_label_is_of_no_real_fluid_and_its_sums_are_right() -> None:
    said = [text.text or "" for text in _with(_root("reading-a-label"), "text")]
    flat = " ".join(said).replace("\u00a0", " ").replace("\u202f", " ")
    assert "Not a real label: no such fluid exists" in flat
    # Arithmetic: 0.6 % w/v is 6 g in a litre, 2 % is 20 g; half a litre holds half of 100 mmol.
    for words_ in ("salt 0.6 %", "salt 6 g", "sugar 2 %", "sugar 20 g", "100 mmol in 1000 mL"):
        assert words_ in flat, words_
    assert "50 mmol in this 500 mL" in flat


def test_figures_and_units_on_a_drawing_never_part() -> None:
    text = "|".join(re.findall(r"<text[^>]*>([^<]*)</text>", "".join(map(equipment_drawing, IDS))))
    assert not re.search(r"[0-9] (?:mL|L|mmol|g|mOsm/L|%)", text)


def _sample(name: str, label: Point = (12.0, 12.0)) -> Figure:
    part = Part(name, (line(40, 40, 60, 40), words("<b> & c", 50, 70)), label, (50, 40))
    return Figure("sample", "A <title>", 'Said "so".', 100, 100, (rect(1, 1, 98, 98),), (part,))


def test_text_is_escaped() -> None:
    markup = draw(_sample("a < b & <script>"))
    root = ElementTree.fromstring(markup)
    assert "<script" not in markup
    assert [text.text for text in root.iter(f"{NS}text")] == ["<b> & c", "1"]
    said = root.find(f"{NS}desc")
    assert said is not None
    assert said.text == 'Said "so". Parts: 1 a < b & <script>.'


def test_the_check_of_pointing_finds_a_fault() -> None:
    # The same check, on a leader that ends 10 px under its line: what it promises, it sees.
    astray = Part("line", (line(40, 40, 60, 40),), (12, 12), (50, 50))
    root = ElementTree.fromstring(draw(Figure("sample", "t", "s.", 100, 100, (), (astray,))))
    group = _with(root, "g", "eq-part")[0]
    assert not _is_on((50, 50), group)
    assert _is_on((50, 43), group)


def test_an_identifier_with_a_space_is_refused() -> None:
    with pytest.raises(ValueError, match="cannot be the id"):
        draw(Figure("two words", "t", "s.", 10, 10, (), ()))


@pytest.mark.skipif(not CATALOGUE.is_dir(), reason="the catalogue holds no equipment yet")
def test_the_parts_of_the_catalogue_are_those_of_the_drawing() -> None:
    files = sorted(CATALOGUE.glob("*.yml"))
    assert files
    for file in files:
        entry = yaml.safe_load(file.read_text(encoding="utf-8"))
        stated = tuple((int(part["number"]), part["name"]) for part in entry["parts"])
        assert stated == numbered_parts(entry["drawing"]), file.name
