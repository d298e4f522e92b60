"""No label touches another, leaves its drawing, or stands on a pattern; no leaders cross.

Boxes are worked out from the written SVG alone, with 7.2 px for a character of 12.8 px, by code
that shares nothing with the placing of the labels.  Geometry of our own, no published source.
"""

import itertools
from dataclasses import dataclass, replace
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from isofolio.drawings.ions import Column, Segment, Sugar, comparison, ion_columns, symbol
from isofolio.drawings.stacks import FAMILIES

NS = "{http://www.w3.org/2000/svg}"
LOOSE = 0.03  # px, for coordinates written with two decimals
CHARACTER, ASCENT, DESCENT = 7.2, 9.9, 2.9


@dataclass(frozen=True)
class Box:
    left: float
    top: float
    right: float
    bottom: float
    name: str = ""

    def meets(self, other: "Box") -> bool:
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across > LOOSE and down > LOOSE

    def holds(self, other: "Box") -> bool:
        return (
            self.left <= other.left + LOOSE
            and self.top <= other.top + LOOSE
            and other.right <= self.right + LOOSE
            and other.bottom <= self.bottom + LOOSE
        )


def _text_box(text: ElementTree.Element) -> Box:
    words = text.text or ""
    x, y, wide = float(text.attrib["x"]), float(text.attrib["y"]), len(words) * CHARACTER
    left = {"start": x, "middle": x - wide / 2, "end": x - wide}[text.attrib["text-anchor"]]
    return Box(left, y - ASCENT, left + wide, y + DESCENT, words)


def _rectangle(rect: ElementTree.Element) -> Box:
    x, y, wide, tall = (float(rect.attrib[key]) for key in ("x", "y", "width", "height"))
    return Box(x, y, x + wide, y + tall)


def _side(p: tuple[float, float], q: tuple[float, float], r: tuple[float, float]) -> float:
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])


def _cross(one: list[tuple[float, float]], two: list[tuple[float, float]]) -> bool:
    apart = _side(*one, two[0]) * _side(*one, two[1]), _side(*two, one[0]) * _side(*two, one[1])
    return apart[0] < -LOOSE and apart[1] < -LOOSE


def _passes(line: list[tuple[float, float]], box: Box) -> bool:
    """Whether a line runs through a box: the stretch within its width and height is not empty."""
    (x1, y1), (x2, y2) = line
    enter, leave = 0.0, 1.0
    for start, step, low, high in (
        (x1, x2 - x1, box.left + LOOSE, box.right - LOOSE),
        (y1, y2 - y1, box.top + LOOSE, box.bottom - LOOSE),
    ):
        if step == 0 and not low < start < high:
            return False
        if step != 0:
            shares = sorted(((low - start) / step, (high - start) / step))
            enter, leave = max(enter, shares[0]), min(leave, shares[1])
    return enter < leave


def check_drawing(markup: str) -> None:
    """Assert everything this module promises about one drawing or symbol."""
    root = ElementTree.fromstring(markup)
    words = list(root.iter(f"{NS}text")) + list(root.iter("text"))
    boxes = [_text_box(text) for text in words]
    left, top, wide, tall = (float(edge) for edge in root.attrib["viewBox"].split())
    paper = Box(left, top, left + wide, top + tall)
    rectangles = list(root.iter(f"{NS}rect")) + list(root.iter("rect"))
    segments = [_rectangle(rect) for rect in rectangles if "class" in rect.attrib]
    strips = [_rectangle(rect) for rect in rectangles if "fill" in rect.attrib]

    for box in boxes + segments + strips:
        assert paper.holds(box), f"{box} leaves {paper}"
    for one, two in itertools.combinations(boxes, 2):
        assert not one.meets(two), f"{one} meets {two}"
    for text, box in zip(words, boxes, strict=True):
        if text.attrib["class"] == "ion-text-on-fill":
            assert sum(segment.holds(box) for segment in segments) == 1, box
            assert not any(strip.meets(box) for strip in strips), box
        else:
            assert not any(segment.meets(box) for segment in segments), box
    for strip in strips:
        assert any(segment.holds(strip) for segment in segments)
    check_leaders(root, boxes)


def check_leaders(root: ElementTree.Element, boxes: list[Box]) -> None:
    """Assert that no leader line crosses another or runs through words."""
    lines = [
        [(float(line.attrib[f"x{end}"]), float(line.attrib[f"y{end}"])) for end in (1, 2)]
        for line in itertools.chain(root.iter(f"{NS}line"), root.iter("line"))
        if line.attrib["class"] == "ion-leader"
    ]
    for one, two in itertools.combinations(lines, 2):
        assert not _cross(one, two), f"{one} crosses {two}"
    for line in lines:
        assert not any(_passes(line, box) for box in boxes), line


SYMBOLS = st.sampled_from(
    [
        "Na\u207a",
        "K\u207a",
        "Ca\u00b2\u207a",
        "Cl\u207b",
        "HCO\u2083\u207b",
        "lactate\u207b",
        "gluconate\u207b",
        "glycerophosphate\u00b2\u207b",
        "proteins and unmeasured ions",
        "immeasurablemmmmmmmmmmm",
    ]
)
WORDS = st.lists(st.text("abemW0%", min_size=1, max_size=24), max_size=12).map(" ".join)


@st.composite
def _segment(draw: st.DrawFn) -> Segment:
    sign, family = draw(SYMBOLS), draw(st.sampled_from(FAMILIES))
    amount = draw(st.floats(0.0, 40.0) | st.floats(40.0, 160.0))
    space = draw(st.sampled_from([" ", "\u00a0"]))
    return Segment(sign, sign, amount, family, f"{sign}{space}{amount:.3g}")


def _shrunk(segments: list[Segment], limit: float) -> tuple[Segment, ...]:
    """As many of the segments as stay within a limit [mEq/L]."""
    totals = itertools.accumulate(segment.milliequivalents for segment in segments)
    return tuple(one for one, total in zip(segments, totals, strict=True) if total <= limit)


@st.composite
def _column(draw: st.DrawFn) -> Column:
    cations = _shrunk(draw(st.lists(_segment(), max_size=5)), 300.0)
    anions = _shrunk(draw(st.lists(_segment(), max_size=12)), 300.0)
    sugar = draw(st.none() | st.builds(Sugar, st.floats(0.0, 700.0), WORDS.filter(bool)))
    return Column(draw(WORDS), cations, anions, sugar, draw(WORDS))


@settings(max_examples=150, deadline=None)
@given(_column(), st.none() | _column())
def test_a_fluid_beside_plasma_never_overlaps(fluid: Column, plasma: Column | None) -> None:
    check_drawing(ion_columns(fluid, plasma, identifier="a", title="t", description="d"))


@settings(max_examples=40, deadline=None)
@given(st.lists(_column(), min_size=2, max_size=7))
def test_a_comparison_never_overlaps(columns: list[Column]) -> None:
    check_drawing(comparison(columns, identifier="a", title="t", description="d"))


@settings(max_examples=80, deadline=None)
@given(_column())
def test_a_symbol_never_overlaps_and_its_sky_is_empty(column: Column) -> None:
    drawn = symbol(column, identifier="a")
    check_drawing(drawn.markup)
    root = ElementTree.fromstring(drawn.markup)
    tops = [_text_box(text).top for text in root.iter("text")]
    tops += [_rectangle(rect).top for rect in root.iter("rect")]
    assert 0.0 <= drawn.top <= min(tops) + LOOSE


def test_every_sample_beside_plasma(fluids: dict[str, Column], plasma: Column) -> None:
    for column in fluids.values():
        check_drawing(ion_columns(column, plasma, identifier="a", title="t", description="d"))
    check_drawing(comparison([*fluids.values(), plasma], identifier="a", title="t", description=""))


@pytest.mark.parametrize("chloride", [102.0, 4.0])
def test_labels_beside_keep_clear_of_the_label_above(plasma: Column, chloride: float) -> None:
    # Over 102 mEq/L the small labels find room under the top of the column; over 4 they do not,
    # and the long label must stand beside as well.
    small = [Segment(sign, sign, 3.0, "rest", f"{sign} 3") for sign in ("aa", "bb", "cc", "dd")]
    first = replace(plasma.anions[0], milliequivalents=chloride)
    last = replace(plasma.anions[-1], milliequivalents=2.0)
    crowded = Column("plasma", (first,), (first, *small, last))
    markup = ion_columns(plasma, crowded, identifier="a", title="t", description="d")
    assert markup.count(">aa 3<") == 1
    check_drawing(markup)


def test_a_label_above_clears_the_taller_side(plasma: Column) -> None:
    uneven = Column("uneven", plasma.cations, plasma.anions[1:])
    check_drawing(ion_columns(plasma, uneven, identifier="a", title="t", description="d"))
