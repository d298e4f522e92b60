"""Ion columns: what is drawn is what was given, on one scale, named for those who cannot see it.

Heights are checked against the published compositions named in conftest.py; geometry, the sizes
from which words go inside and patterns are left out, and the limit of 300 mEq/L are our own.
"""

import re
from collections.abc import Iterable
from xml.etree import ElementTree

import pytest

from isofolio.drawings.ions import (
    Column,
    Segment,
    Sugar,
    comparison,
    ion_columns,
    pattern_definitions,
    standalone,
    symbol,
    use,
)

NS = "{http://www.w3.org/2000/svg}"
RATIO = 250 / 156  # px for 1 mEq/L on the usual scale


def _draw(fluid: Column, plasma: Column | None = None, **more: float) -> str:
    return ion_columns(
        fluid, plasma, identifier="columns", title="A title", description="Words.", **more
    )


def _segments(markup: str) -> list[dict[str, str]]:
    root = ElementTree.fromstring(markup)
    return [dict(rect.attrib) for rect in _all(root, "rect") if "class" in rect.attrib]


def _all(root: ElementTree.Element, name: str) -> Iterable[ElementTree.Element]:
    return (item for item in root.iter() if item.tag in (name, NS + name))


def _texts(markup: str) -> list[str]:
    return [item.text or "" for item in _all(ElementTree.fromstring(markup), "text")]


def _ion(name: str, amount: float, family: str = "rest") -> Segment:
    return Segment(name, name, amount, family, f"{name} {amount:g}")


def test_heights_are_the_charges(fluids: dict[str, Column], plasma: Column) -> None:
    heights = [float(one["height"]) for one in _segments(_draw(fluids["lactate"], plasma))]
    charges = [131, 5, 4, 111, 29, 140, 4.2, 4.8, 1.7, 102, 25, 23.7]
    assert heights == pytest.approx([charge * RATIO for charge in charges], abs=0.006)


def test_both_sides_of_every_column_stand_on_one_base_line(
    fluids: dict[str, Column], plasma: Column
) -> None:
    feet: dict[str, float] = {}
    for one in _segments(_draw(fluids["lactate"], plasma)):
        foot = float(one["y"]) + float(one["height"])
        feet[one["x"]] = max(feet.get(one["x"], 0.0), foot)
    assert len(feet) == 4
    assert max(feet.values()) - min(feet.values()) < 0.02


def test_every_label_is_whole_and_once(fluids: dict[str, Column], plasma: Column) -> None:
    words = " ".join(_texts(_draw(fluids["electrolytes"], plasma))).replace("\u00a0", " ")
    for label in ("Na\u207a 140", "K\u207a 5", "Mg\u00b2\u207a 3", "Cl\u207b 98"):
        assert words.count(label) >= 1, label
    for label in ("acetate\u207b 27", "gluconate\u207b 23", "HCO\u2083\u207b 25", "K\u207a 4.2"):
        assert words.count(label) == 1, label
    assert words.count("proteins and unmeasured ions 24") == 1


def test_scale_has_a_base_line_one_tick_and_a_unit(fluids: dict[str, Column]) -> None:
    assert {"0", "156\u00a0mEq/L", "+", "\u2212"} <= set(_texts(_draw(fluids["saline"])))
    assert "278\u00a0mEq/L" in _texts(_draw(fluids["glucose"]))


def test_no_ions_says_so(fluids: dict[str, Column]) -> None:
    words = _texts(_draw(fluids["glucose"]))
    assert "no ions" in words
    assert "+" not in words
    assert _segments(_draw(fluids["glucose"])) == []


def test_ions_that_are_not_known_are_not_called_absent() -> None:
    words = _texts(_draw(Column("albumin", (), (), whole=False)))
    assert "ions not known" in words
    assert "no ions" not in words


def _sugar_path(markup: str) -> tuple[str, list[float]]:
    path = next(
        item.attrib
        for item in _all(ElementTree.fromstring(markup), "path")
        if item.attrib["class"] == "ion-sugar"
    )
    assert path["stroke-dasharray"]
    steps = re.findall(r"([ML])[\d.]+ ([\d.]+)", path["d"])
    return "".join(step for step, _ in steps), [float(y) for _, y in steps]


def test_sugar_stands_on_the_ions_on_the_same_scale() -> None:
    fluid = Column(
        "sweet saline", (_ion("Na", 31.0),), (_ion("Cl", 31.0),), Sugar(222.0, "glucose 222 mmol")
    )
    steps, (low, high, *_) = _sugar_path(_draw(fluid))
    assert steps == "MLLL"
    assert low - high == pytest.approx(222 * 250 / 253, abs=0.02)
    top_of_ions = min(float(one["y"]) for one in _segments(_draw(fluid)))
    assert low == pytest.approx(top_of_ions, abs=0.02)


def test_sugar_above_the_scale_is_left_open(fluids: dict[str, Column]) -> None:
    markup = _draw(fluids["potassium"])
    steps, (low, high, *_) = _sugar_path(markup)
    assert steps == "MLML"  # no stroke across the top
    assert low - high == pytest.approx((300 - 40) * 250 / 300, abs=0.02)
    assert "glucose" in " ".join(_texts(markup))


def test_patterns_are_left_out_below_ten_px() -> None:
    tall, low = 10.1 / RATIO, 9.9 / RATIO
    fluid = Column("x", (_ion("K", tall, "potassium"), _ion("Mg", low, "magnesium")), ())
    markup = _draw(fluid)
    assert "ion-pattern-potassium" in markup
    assert "ion-pattern-magnesium" not in markup


@pytest.mark.parametrize("family", ["sodium", "chloride"])
def test_sodium_and_chloride_are_plain(family: str) -> None:
    assert "url(" not in _draw(Column("x", (_ion("a", 100.0, family),), ()))


def test_the_pattern_lies_on_the_outer_edge(fluids: dict[str, Column]) -> None:
    root = ElementTree.fromstring(_draw(fluids["lactate"]))
    strip = next(one for one in _all(root, "rect") if "fill" in one.attrib)
    bar = next(one for one in _all(root, "rect") if "fill-bicarbonate" in one.get("class", ""))
    outer = float(bar.attrib["x"]) + float(bar.attrib["width"])
    assert float(strip.attrib["x"]) + float(strip.attrib["width"]) == outer
    assert float(strip.attrib["width"]) == 12


@pytest.mark.parametrize(("height", "kind"), [(28.1, "ion-text-on-fill"), (27.9, "ion-text")])
def test_words_go_inside_from_28_px(height: float, kind: str) -> None:
    fluid = Column("x", (Segment("a", "Na", height / RATIO, "sodium", "Na 17"),), ())
    root = ElementTree.fromstring(_draw(fluid))
    held = [one.attrib["class"] for one in _all(root, "text") if "Na" in (one.text or "")]
    assert held == [kind]


def test_every_pattern_that_is_used_is_defined_once(
    fluids: dict[str, Column], plasma: Column
) -> None:
    defined = re.findall(r'id="([^"]+)"', pattern_definitions("p-"))
    assert len(defined) == len(set(defined)) == 5
    every = (_ion("a", 20.0, name) for name in ("potassium", "calcium", "magnesium", "rest"))
    fluid = Column("x", tuple(every), (_ion("b", 80.0, "bicarbonate"),))
    drawn = ion_columns(fluid, plasma, identifier="a", title="t", description="d", prefix="p-")
    assert set(re.findall(r"url\(#([^)]+)\)", drawn)) == set(defined)


def test_it_is_named_and_described(fluids: dict[str, Column]) -> None:
    root = ElementTree.fromstring(_draw(fluids["saline"]))
    assert root.attrib["role"] == "img"
    named = {item.attrib.get("id"): item.text for item in root}
    assert [named[one] for one in root.attrib["aria-labelledby"].split()] == ["A title", "Words."]


def test_nothing_that_the_policy_blocks_and_nothing_that_runs(plasma: Column) -> None:
    evil = '<script>alert(1)</script>" onload="x'
    column = Column(evil, (_ion("K", 40.0),), (_ion(evil, 40.0),), Sugar(9.0, evil), evil)
    for markup in (
        ion_columns(column, plasma, identifier="a", title=evil, description=evil),
        symbol(column, identifier="a").markup,
        use(symbol(column, identifier="a"), label=evil),
        pattern_definitions(),
    ):
        root = ElementTree.fromstring(markup)
        assert not list(_all(root, "script"))
        keys = {key for item in root.iter() for key in item.attrib}
        assert not [key for key in keys if key == "style" or key.startswith("on")]


def test_same_input_same_bytes(fluids: dict[str, Column], plasma: Column) -> None:
    assert _draw(fluids["lactate"], plasma) == _draw(fluids["lactate"], plasma)
    assert pattern_definitions() == pattern_definitions()


def test_ions_above_300_are_refused_with_the_way_out(plasma: Column) -> None:
    strong = Column("strong", (_ion("Na", 1000.0),), (_ion("HCO3", 1000.0),))
    for draw in (
        lambda: _draw(strong, plasma),
        lambda: symbol(strong, identifier="a"),
        lambda: comparison([strong, plasma], identifier="a", title="t", description="d"),
    ):
        with pytest.raises(ValueError, match=r"strong: 1000 mEq/L .* diluted"):
            draw()


def test_a_note_of_any_length_stands_below(plasma: Column) -> None:
    note = "The strong solution holds 1000 mEq/L. Drawn diluted 1 in 7."
    column = Column("diluted 1 in 7", (_ion("Na", 143.0),), (_ion("HCO3", 143.0),), None, note)
    assert " ".join(_texts(_draw(column, plasma))).endswith(note)


def test_a_given_scale_must_hold_the_ions(fluids: dict[str, Column]) -> None:
    assert "200\u00a0mEq/L" in _texts(_draw(fluids["saline"], scale=200.0))
    for scale in (100.0, float("nan"), float("inf")):
        with pytest.raises(ValueError, match="does not fit"):
            _draw(fluids["saline"], scale=scale)


@pytest.mark.parametrize("count", [0, 1, 8])
def test_a_comparison_is_of_two_to_seven(plasma: Column, count: int) -> None:
    with pytest.raises(ValueError, match="2 to 7"):
        comparison([plasma] * count, identifier="a", title="t", description="d")


def test_a_comparison_is_on_one_scale(fluids: dict[str, Column], plasma: Column) -> None:
    markup = comparison(
        [fluids["saline"], fluids["potassium"], plasma], identifier="a", title="t", description="d"
    )
    heights = [float(one["height"]) for one in _segments(markup)]
    charges = [154, 154, 40, 40, 140, 4.2, 4.8, 1.7, 102, 25, 23.7]
    assert heights == pytest.approx([charge * 250 / 300 for charge in charges], abs=0.006)


def test_symbols_share_scale_and_base_line(fluids: dict[str, Column], plasma: Column) -> None:
    feet = set()
    for name, column in {**fluids, "plasma": plasma}.items():
        drawn = symbol(column, identifier=f"ion-{name}")
        segments = _segments(drawn.markup)
        charges = [one.milliequivalents for one in column.cations + column.anions]
        heights = [float(one["height"]) for one in segments]
        assert heights == pytest.approx([charge * RATIO for charge in charges], abs=0.006)
        root = ElementTree.fromstring(drawn.markup)
        base = [one.attrib["y1"] for one in _all(root, "line") if one.get("class") == "ion-line"]
        feet.update(base)
    assert len(feet) == 1


def test_use_shows_the_whole_symbol_without_its_empty_sky(fluids: dict[str, Column]) -> None:
    drawn = symbol(fluids["lactate"], identifier="ion-lactate")
    root = ElementTree.fromstring(use(drawn, label="compound sodium lactate"))
    _, top, wide, tall = (float(edge) for edge in root.attrib["viewBox"].split())
    assert (top, wide, top + tall) == pytest.approx(
        (drawn.top, drawn.width, drawn.height), abs=0.02
    )
    assert root[0].attrib["href"] == "#ion-lactate"
    # At its own size: the symbol is neither stretched nor shrunk, whatever is cut off.
    shown = ElementTree.fromstring(drawn.markup).attrib["viewBox"].split()
    assert shown == ["0", "0", root[0].attrib["width"], root[0].attrib["height"]]
    lower = ElementTree.fromstring(use(drawn, label="x", top=10.0)).attrib["viewBox"].split()
    assert lower[1] == "10"


def test_a_drawing_alone_needs_no_page(fluids: dict[str, Column], plasma: Column) -> None:
    inner = _draw(fluids["lactate"], plasma)
    alone = standalone(inner, citation="Isofolio, compound sodium lactate. CC BY 4.0.")
    root = ElementTree.fromstring(alone)
    assert inner in alone
    assert " ".join(_texts(alone)).startswith("Isofolio, compound sodium lactate.")
    defined = {item.attrib["id"] for item in _all(root, "pattern")}
    assert set(re.findall(r"url\(#([^)]+)\)", inner)) <= defined
    rules = next(_all(root, "style")).text or ""
    classes = {name for item in root.iter() for name in item.get("class", "").split() if name} - {
        "ion-drawing",
        "ion-drawing-wide",
    }
    assert [name for name in sorted(classes) if f".{name}{{" not in rules] == []
    assert "ion-paper" in classes
    assert "#ffffff" in rules


def test_only_a_whole_drawing_can_stand_alone() -> None:
    with pytest.raises(ValueError, match="whole drawing"):
        standalone("<p>", citation="x")
