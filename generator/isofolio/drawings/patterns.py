"""Fills and patterns that tell the ions apart, on the page and in a file that stands alone.

The fills are light, so that one dark ink reads on all of them; the ink outline gives the contrast
and a pattern tells the family where colour is lost.  The style sheet of the site (drawings.css)
holds the same colours for dark pages, paper and forced colours; a test compares the two.
"""

from isofolio.drawings.stacks import PATTERNED
from isofolio.drawings.svg import NAMESPACE, Attribute, Element, element, write

INK = "#1b1f24"
SECOND_INK = "#4a5560"
INK_ON_FILL = "#14181c"
FILLS = {
    "sodium": "#9db8e0",
    "potassium": "#e0952b",
    "calcium": "#d3dd8c",
    "magnesium": "#b08fd6",
    "chloride": "#a3d9cb",
    "bicarbonate": "#d98072",
    "rest": "#d0d5d9",
}
FONTS = '"Segoe UI", "Noto Sans", "Helvetica Neue", Arial, sans-serif'


def pattern_id(family: str, prefix: str = "") -> str:
    """The id of a family's pattern on this page.

    >>> pattern_id("potassium", "a-")
    'a-ion-pattern-potassium'
    """
    return f"{prefix}ion-pattern-{family}"


def pattern_definitions(prefix: str = "") -> str:
    """A drawing of no size that holds the patterns: put it once on each page that draws columns.

    prefix: put before every id, where a page needs two sets.  Not `display: none`, which would
    make browsers drop the patterns with the drawing.
    """
    hidden: dict[str, Attribute] = {
        "xmlns": NAMESPACE,
        "width": 0.0,
        "height": 0.0,
        "class": "ion-patterns",
        "aria-hidden": "true",
        "focusable": "false",
    }
    return write(element("svg", hidden, definitions(prefix)))


def definitions(prefix: str = "") -> Element:
    """The ``defs`` element with one pattern a family."""
    return element("defs", {}, *(_pattern(family, prefix) for family in PATTERNED))


def _pattern(family: str, prefix: str) -> Element:
    """One tile: a few strokes or dots, repeated over the strip of a segment."""
    tile, turn, marks = _TILES[family]
    attributes: dict[str, Attribute] = {
        "id": pattern_id(family, prefix),
        "patternUnits": "userSpaceOnUse",
        "width": tile,
        "height": tile,
    }
    if turn:
        attributes["patternTransform"] = f"rotate({turn})"
    return element("pattern", attributes, *marks)


def _stroke(path: str) -> Element:
    return element("path", {"d": path, "class": "ion-mark"})


def _dot(x: float, y: float, radius: float) -> Element:
    return element("circle", {"cx": x, "cy": y, "r": radius, "class": "ion-mark-dot"})


# family: side of the tile [px], turn [degrees], marks.  Potassium a steep hatch, magnesium a
# cross-hatch, the bicarbonate family level lines; calcium close small dots, the rest wide ones.
_TILES: dict[str, tuple[float, int, tuple[Element, ...]]] = {
    "potassium": (5.0, 25, (_stroke("M2.5 0V5"),)),
    "calcium": (4.0, 0, (_dot(2.0, 2.0, 0.9),)),
    "magnesium": (6.0, 45, (_stroke("M3 0V6"), _stroke("M0 3H6"))),
    "bicarbonate": (4.0, 0, (_stroke("M0 2H4"),)),
    "rest": (8.0, 0, (_dot(2.0, 2.0, 1.4), _dot(6.0, 6.0, 1.4))),
}


def light_rules() -> str:
    """Style rules for a drawing outside the site: the light colours, written out."""
    fills = "".join(f".ion-fill-{family}{{fill:{fill}}}" for family, fill in FILLS.items())
    return (
        f"text{{font-family:{FONTS};font-variant-numeric:tabular-nums lining-nums}}"
        f".ion-paper{{fill:#ffffff}}.ion-text{{fill:{INK}}}.ion-title{{fill:{INK};font-weight:600}}"
        f".ion-second{{fill:{SECOND_INK}}}.ion-text-on-fill{{fill:{INK_ON_FILL}}}"
        f".ion-segment{{stroke:{INK}}}.ion-line{{stroke:{INK};fill:none}}"
        f".ion-leader{{stroke:{SECOND_INK};fill:none}}.ion-sugar{{stroke:{INK};fill:none}}"
        f".ion-mark{{stroke:{INK_ON_FILL};stroke-opacity:0.55;fill:none}}"
        f".ion-mark-dot{{fill:{INK_ON_FILL};fill-opacity:0.55}}"
        f".ion-halo{{stroke:#ffffff;stroke-width:3;stroke-linejoin:round;paint-order:stroke}}{fills}"
    )
