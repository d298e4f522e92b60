"""Turns a plan of ion columns into SVG elements, colour by class and pattern by reference."""

from collections.abc import Iterable

from isofolio.drawings.captions import BAR, STRIP, name_and_number, plain_width
from isofolio.drawings.lettering import LINE, RISE
from isofolio.drawings.patterns import pattern_id
from isofolio.drawings.placing import (
    EDGE,
    GAP,
    LEADER,
    MINUS,
    PAIR,
    PLUS,
    Bar,
    Plan,
    SideLabel,
    SugarBox,
    crest,
    crown_lines,
)
from isofolio.drawings.stacks import PATTERNED
from isofolio.drawings.svg import Element, element, number

PATTERN_HEIGHT = 10.0  # px: a lower segment carries no pattern
INSIDE_LINE = 13.0  # px between the two lines inside a segment
DESCENT = 4.0  # px between a line or a bar and the words over or under it


def text_lines(
    lines: Iterable[str],
    x: float,
    middle: float,
    *,
    anchor: str = "middle",
    kind: str = "ion-text",
    line: float = LINE,
) -> list[Element]:
    """One text element a line, the block centred on a height [px]."""
    block = tuple(lines)
    first = middle - (len(block) - 1) * line / 2 + RISE
    return [
        element(
            "text", {"x": x, "y": first + row * line, "text-anchor": anchor, "class": kind}, words
        )
        for row, words in enumerate(block)
    ]


def bar_left(plan: Plan, column: int, side: int) -> float:
    """Left edge of the + or the - of a column [px]."""
    return plan.lefts[column] + (BAR + GAP if side == MINUS else 0.0)


def paint_bar(plan: Plan, base: float, bar: Bar, prefix: str) -> list[Element]:
    """A segment: its fill and outline, its strip of pattern, its words if they stand inside."""
    left, top, tall = bar_left(plan, bar.column, bar.side), base - bar.high, bar.high - bar.low
    family = bar.segment.family
    outline = {"x": left, "y": top, "width": BAR, "height": tall}
    parts = [element("rect", {**outline, "class": f"ion-segment ion-fill-{family}"})]
    if family in PATTERNED and tall >= PATTERN_HEIGHT:
        outer = left if bar.side == PLUS else left + BAR - STRIP
        strip = {"x": outer, "y": top, "width": STRIP, "height": tall}
        parts.append(element("rect", {**strip, "fill": f"url(#{pattern_id(family, prefix)})"}))
    if bar.words == "inside":
        plain = plain_width(bar.segment)
        centre = left + (plain / 2 if bar.side == MINUS else BAR - plain / 2)
        parts += text_lines(
            name_and_number(bar.segment),
            centre,
            base - bar.middle,
            kind="ion-text-on-fill",
            line=INSIDE_LINE,
        )
    return parts


def paint_crown(plan: Plan, base: float, bar: Bar) -> list[Element]:
    """The long label above the last column, with a short leader down to its segment."""
    lines = crown_lines(bar, plan.rooms[-1])
    centre = bar_left(plan, bar.column, bar.side) + BAR / 2
    foot = base - crest(plan, bar.column) - DESCENT
    middle = foot - len(lines) * LINE / 2
    return [
        leader(centre, base - bar.high, centre, foot),
        *text_lines(lines, plan.width - EDGE, middle, anchor="end"),
    ]


def paint_side_label(plan: Plan, base: float, label: SideLabel) -> list[Element]:
    """A label in a room, with its leader line from the middle of the segment."""
    column = label.room - (label.side == MINUS)
    edge = plan.lefts[column] + (PAIR if label.side == MINUS else 0.0)
    anchor = "start" if label.side == MINUS else "end"
    return [
        leader(edge, base - label.anchor, edge + label.side * (LEADER - EDGE), base - label.rise),
        *text_lines(label.lines, edge + label.side * LEADER, base - label.rise, anchor=anchor),
    ]


def leader(x1: float, y1: float, x2: float, y2: float) -> Element:
    """A thin line from a segment to its words."""
    return element("line", {"x1": x1, "y1": y1, "x2": x2, "y2": y2, "class": "ion-leader"})


def paint_sugar(plan: Plan, base: float, box: SugarBox) -> list[Element]:
    """The dashed outline of a sugar; open at the top where the scale cuts it."""
    left, right = plan.lefts[box.column], plan.lefts[box.column] + PAIR
    low, high = base - box.low, base - box.high
    close = "M" if box.cut else "L"
    path = " ".join(
        f"{step}{number(x)} {number(y)}"
        for step, x, y in (
            ("M", left, low),
            ("L", left, high),
            (close, right, high),
            ("L", right, low),
        )
    )
    parts = [element("path", {"d": path, "stroke-dasharray": "4 3", "class": "ion-sugar"})]
    block = len(box.lines) * LINE
    middles = {"inside": (low + high) / 2, "above": high - EDGE - block / 2}
    if box.words in middles:
        parts += text_lines(box.lines, left + PAIR / 2, middles[box.words])
    return parts


def paint_columns(plan: Plan, base: float, prefix: str) -> list[Element]:
    """Bars, sugars, labels and the base line, on top of one another in that order."""
    parts = [part for bar in plan.bars for part in paint_bar(plan, base, bar, prefix)]
    for bar in plan.bars:
        if bar.words == "above":
            parts += paint_crown(plan, base, bar)
    for box in plan.sugars:
        parts += paint_sugar(plan, base, box)
    for label in plan.labels:
        parts += paint_side_label(plan, base, label)
    parts.append(rule(0.0, plan.width, base))
    return parts


def rule(left: float, right: float, y: float) -> Element:
    """A level line in ink: the base line, the tick of the scale."""
    return element("line", {"x1": left, "y1": y, "x2": right, "y2": y, "class": "ion-line"})
