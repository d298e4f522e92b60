"""A drawing as a file of its own, for a slide or a handout: light colours on white paper."""

import re

from isofolio.drawings.lettering import LINE, SIZE, balance, fitting
from isofolio.drawings.painting import text_lines
from isofolio.drawings.patterns import definitions, light_rules
from isofolio.drawings.svg import NAMESPACE, Attribute, Element, element, number, write

MARGIN = 12.0  # px of white round the drawing


def standalone(svg: str, *, citation: str, prefix: str = "") -> str:
    """A drawing with its colours, white paper, patterns and a citation line inside.

    svg: from ion_columns or comparison; citation: the line printed under it; prefix: of the
    pattern ids, the one it was drawn with.
    Raises ValueError for a text that is no such drawing.
    """
    size = re.match(r'<svg xmlns="[^"]*" width="([0-9.]+)" height="([0-9.]+)"', svg)
    if not size:
        raise ValueError("only a whole drawing from ion_columns or comparison can stand alone")
    wide, tall = float(size[1]), float(size[2])
    lines = balance(citation, fitting(wide))
    under = len(lines) * LINE
    foot = text_lines(lines, 0.0, tall + MARGIN + under / 2, anchor="start", kind="ion-second")
    head, paper = _sheet(wide + 2 * MARGIN, tall + under + 3 * MARGIN)
    before = [element("style", {}, light_rules()), definitions(prefix), paper]
    whole = write(element("svg", head, *before, *foot))
    return whole.removesuffix("</svg>") + svg + "</svg>"


def _sheet(width: float, height: float) -> tuple[dict[str, Attribute], Element]:
    """Attributes of the outer drawing and the white paper in it; its corner lies at the margin."""
    head: dict[str, Attribute] = {
        "xmlns": NAMESPACE,
        "width": width,
        "height": height,
        "viewBox": " ".join(number(edge) for edge in (-MARGIN, -MARGIN, width, height)),
        "font-size": SIZE,
    }
    paper: dict[str, Attribute] = {"x": -MARGIN, "y": -MARGIN, "width": width, "height": height}
    return head, element("rect", {**paper, "class": "ion-paper"})
