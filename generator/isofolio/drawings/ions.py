"""Ion columns: what a litre holds, as charge, beside plasma on the same scale.

Stacked columns of cations and anions beside those of plasma are an old textbook figure of
physiology, and credited here as one; fills, patterns, labels and arrangement are our own.

Every drawing refers to patterns by id: put `pattern_definitions()` once on the page.  Measures are
px of the viewBox; a drawing shown at its own size has type of 12.8 CSS px.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from isofolio.drawings.headings import (
    SIGNS,
    UNDER_TITLE,
    paint_axis,
    paint_notes,
    paint_signs,
    paint_titles,
    sky,
    titles_room,
)
from isofolio.drawings.lettering import LINE, SIZE
from isofolio.drawings.painting import DESCENT, paint_columns
from isofolio.drawings.patterns import pattern_definitions
from isofolio.drawings.placing import EDGE, HEIGHT, Plan, plan
from isofolio.drawings.stacks import (
    FAMILIES,
    TALLEST_SCALE,
    USUAL_SCALE,
    Column,
    Segment,
    Sugar,
    common_scale,
    ions_height,
    scale_for,
)
from isofolio.drawings.standalone import standalone
from isofolio.drawings.svg import NAMESPACE, Attribute, Element, checked_id, element, number, write

__all__ = [
    "FAMILIES",
    "Column",
    "ColumnSymbol",
    "Segment",
    "Sugar",
    "comparison",
    "ion_columns",
    "pattern_definitions",
    "scale_for",
    "standalone",
    "symbol",
    "use",
]

FEWEST, MOST = 2, 7  # columns of one comparison


@dataclass(frozen=True)
class ColumnSymbol:
    """One fluid as a ``symbol``, to be set beside others without drawing anything again.

    All symbols have one ratio of px to mEq/L and their base line at the same height, so any that
    stand side by side, cut to the same `top`, are on one scale.
    width, height: of its viewBox [px]; top: free sky above the highest ink [px]; markup: the
    ``symbol`` element, to be put in a hidden drawing on the page or in a data file.
    """

    identifier: str
    width: float
    height: float
    top: float
    markup: str


def ion_columns(
    fluid: Column,
    plasma: Column | None,
    *,
    scale: float | None = None,
    identifier: str,
    title: str,
    description: str,
    prefix: str = "",
) -> str:
    """A fluid beside plasma, + and - on one scale in mEq/L, as a whole ``svg`` element.

    scale: height of the drawing [mEq/L]; without it 156, or the fluid's own total up to 300.
    identifier: of the drawing on its page; title, description: read out instead of the picture.
    prefix: of the pattern ids, as given to pattern_definitions.
    Raises ValueError for ions above 300 mEq/L or above the scale, and for what has no amount.
    """
    columns = (fluid,) if plasma is None else (fluid, plasma)
    return _figure(columns, scale, (identifier, title, description), prefix, "")


def comparison(
    columns: Sequence[Column],
    *,
    scale: float | None = None,
    identifier: str,
    title: str,
    description: str,
    prefix: str = "",
) -> str:
    """Two to seven fluids side by side on one scale, plasma as the last of them if wanted.

    Arguments and errors as in ion_columns; ValueError also for another number of columns.
    """
    if not FEWEST <= len(columns) <= MOST:
        raise ValueError(f"a comparison shows {FEWEST} to {MOST} fluids, not {len(columns)}")
    return _figure(columns, scale, (identifier, title, description), prefix, " ion-drawing-wide")


def symbol(column: Column, *, identifier: str, prefix: str = "") -> ColumnSymbol:
    """One fluid as a symbol that keeps its scale wherever it is used.

    Raises ValueError for ions above 300 mEq/L: pass the fluid diluted.
    """
    common_scale([column])
    ratio = HEIGHT / USUAL_SCALE
    places = plan([column], TALLEST_SCALE, TALLEST_SCALE * ratio)
    base = places.height + EDGE
    heading = titles_room(places)
    notes, depth = paint_notes(places, base + SIGNS + heading)
    body = [
        *paint_columns(places, base, prefix),
        *paint_signs(places, base),
        *paint_titles(places, base + SIGNS, heading),
        *notes,
    ]
    height = base + SIGNS + heading + depth + DESCENT
    box = f"0 0 {number(places.width)} {number(height)}"
    attributes: dict[str, Attribute] = {
        "id": checked_id(identifier),
        "viewBox": box,
        "font-size": SIZE,
    }
    markup = write(element("symbol", attributes, *body))
    return ColumnSymbol(identifier, places.width, height, _free_sky(places), markup)


def use(drawn: ColumnSymbol, *, label: str, top: float | None = None) -> str:
    """A small ``svg`` that shows a symbol of the same page, its empty sky cut off.

    label: read out instead of the picture; top: where to cut [px], the least `top` of all
    symbols that stand side by side, so that their base lines stay level.
    """
    cut = drawn.top if top is None else top
    tall = drawn.height - cut
    attributes: dict[str, Attribute] = {
        "width": drawn.width,
        "height": tall,
        "viewBox": f"0 {number(cut)} {number(drawn.width)} {number(tall)}",
        "class": "ion-drawing ion-use",
        "role": "img",
        "aria-label": label,
    }
    shown: dict[str, Attribute] = {
        "href": f"#{drawn.identifier}",
        "width": drawn.width,
        "height": drawn.height,
    }
    return write(element("svg", attributes, element("use", shown)))


def _figure(
    columns: Sequence[Column],
    scale: float | None,
    words: tuple[str, str, str],
    prefix: str,
    more_classes: str,
) -> str:
    """The whole drawing: titles, axis, columns, signs and notes from the top downwards."""
    places = plan(columns, _full_scale(columns, scale))
    heading = titles_room(places)
    base = heading + UNDER_TITLE + sky(places) + places.height
    notes, depth = paint_notes(places, base + SIGNS)
    parts = [
        *paint_titles(places, 0.0, heading),
        *paint_axis(places, base),
        *paint_columns(places, base, prefix),
        *paint_signs(places, base),
        *notes,
    ]
    return _root(places.width, base + SIGNS + depth + DESCENT, words, more_classes, parts)


def _full_scale(columns: Sequence[Column], scale: float | None) -> float:
    """The scale asked for, if it holds all ions; else the one that fits."""
    fitting_scale = common_scale(columns)
    if scale is None:
        return fitting_scale
    tallest = max(columns, key=ions_height)
    if not ions_height(tallest) <= scale < float("inf"):
        raise ValueError(
            f"{tallest.title}: {ions_height(tallest):g} mEq/L does not fit on a scale of {scale:g}"
        )
    return scale


def _root(
    width: float, height: float, words: tuple[str, str, str], classes: str, parts: list[Element]
) -> str:
    """The ``svg`` element with its name and description for people who do not see it."""
    name, title, description = checked_id(words[0]), words[1], words[2]
    attributes: dict[str, Attribute] = {
        "xmlns": NAMESPACE,
        "width": width,
        "height": height,
        "viewBox": f"0 0 {number(width)} {number(height)}",
        "class": f"ion-drawing{classes}",
        "font-size": SIZE,
        "role": "img",
        "aria-labelledby": f"{name}-title {name}-description",
    }
    spoken = [
        element("title", {"id": f"{name}-title"}, title),
        element("desc", {"id": f"{name}-description"}, description),
    ]
    return write(element("svg", attributes, *spoken, *parts))


def _free_sky(places: Plan) -> float:
    """Height over the highest ink of a symbol [px]."""
    tops = [bar.high for bar in places.bars]
    tops += [box.high + (box.words == "above") * len(box.lines) * LINE for box in places.sugars]
    tops += [label.rise + label.height / 2 for label in places.labels]
    return max(0.0, places.height - max(tops, default=0.0) - EDGE)
