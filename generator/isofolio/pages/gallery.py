"""Every drawing for a slide: a file of its own, its data, its address and the line to cite it by.

PNG is made in the reader's browser from the same file. Made here it would take 0.09 s a drawing
(measured, at twice the size), several times the rest of the build, and would be drawn with
whatever fonts the building machine has, without any word where it has none.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache, partial
from operator import attrgetter
from typing import Any

from isofolio.drawings.chart_plan import Chart
from isofolio.drawings.charts import draw
from isofolio.drawings.ions import Column, standalone
from isofolio.handbook import Handbook
from isofolio.pages.charts import CHARTS
from isofolio.pages.columns import (
    common_dilution,
    compared,
    dilution_for,
    named_column,
    named_drawing,
    plasma_column,
)
from isofolio.pages.page import DRAFT, Page, rendered
from isofolio.pages.parts import pages_in_parts
from isofolio.pages.scripts import entry_script
from isofolio.wording.addresses import (
    EXPLORE,
    GALLERY,
    drawing_address,
    drawing_data,
    entry_address,
)
from isofolio.wording.figures import HARD, amount, typeset

PNG_SCALE = 2
Table = tuple[tuple[str, ...], list[tuple[str, ...]]]


@dataclass(frozen=True, eq=False)
class Drawing:
    """id: also the name of its file; page: where it stands in the handbook; svg: draws it; table:
    makes its head and rows. Neither is made before it is asked for."""

    id: str
    group: str
    title: str
    page: str
    svg: Callable[[], str]
    table: Callable[[], Table]


def citation(handbook: Handbook) -> str:
    """The line under every drawing that leaves the handbook."""
    return f"Isofolio, catalogue of {handbook.date}, CC BY 4.0"


def drawings(handbook: Handbook) -> tuple[Drawing, ...]:
    """Every drawing that may leave the handbook: comparisons, charts, then each fluid."""
    return (*_comparisons(handbook), *_charts(handbook), *_fluids(handbook))


def gallery_pages(handbook: Handbook) -> Iterator[tuple[str, Callable[[], Page]]]:
    """Address and maker of the page of all drawings, or of each part of it."""
    make = partial(_page, handbook)
    return pages_in_parts(GALLERY, "Drawings", drawings(handbook), attrgetter("title"), make)


def _page(
    handbook: Handbook,
    address: str,
    title: str,
    shown: Sequence[Drawing],
    links: list[tuple[str, str]],
) -> Page:
    groups: dict[str, list[dict[str, Any]]] = {}
    for drawing in shown:
        groups.setdefault(drawing.group, []).append(_shown(drawing))
    context = {
        "title": title,
        "here": address,
        "parts": links,
        "draft": DRAFT,
        "groups": list(groups.items()),
        "citation": citation(handbook).partition(handbook.date),
        "scale": PNG_SCALE,
    }
    return Page(
        path=address,
        title=title,
        description="Ion columns, comparisons and charts as files for slides and handouts.",
        body=rendered("gallery.html", address, context),
        scripts=("scripts/gallery.js",),
    )


def gallery_files(handbook: Handbook) -> Iterator[tuple[str, Callable[[], str]]]:
    """Path of each drawing, and of the script from which its PNG is made; what makes its text."""

    @lru_cache(maxsize=1)  # a drawing is made once, for its file and the script that comes after it
    def alone(drawing: Drawing) -> str:
        return standalone(drawing.svg(), citation=citation(handbook))

    for drawing in drawings(handbook):
        yield drawing_address(drawing.id), partial(alone, drawing)
        yield drawing_data(drawing.id), partial(_drawing_script, drawing, alone)


def _drawing_script(drawing: Drawing, alone: Callable[[Drawing], str]) -> str:
    return entry_script("drawings", drawing.id, alone(drawing))


def _shown(drawing: Drawing) -> dict[str, Any]:
    head, rows = drawing.table()
    return {
        "id": drawing.id,
        "title": drawing.title,
        "page": drawing.page,
        "file": drawing_address(drawing.id),
        "head": head,
        "rows": rows,
    }


def _comparisons(handbook: Handbook) -> Iterator[Drawing]:
    for comparison in handbook.catalogue.comparisons.values():
        yield Drawing(
            id=comparison.id,
            group="Comparisons",
            title=typeset(comparison.name),
            page=entry_address("comparisons", comparison.id),
            svg=partial(compared, handbook, comparison.fluids, comparison.plasma, "drawing"),
            table=partial(_compared_table, handbook, comparison.fluids, comparison.plasma),
        )


def _charts(handbook: Handbook) -> Iterator[Drawing]:
    for pair, chart, _ in CHARTS:
        drawn = cache(partial(chart, handbook, pair))
        yield Drawing(
            id=pair.id,
            group="Charts",
            title=pair.title,
            page=f"{EXPLORE}#{pair.id}",
            svg=partial(_chart, drawn),
            table=partial(_chart_table, drawn),
        )


def _chart(drawn: Callable[[], Chart]) -> str:
    return draw(drawn(), titled=True)


def _chart_table(drawn: Callable[[], Chart]) -> Table:
    return points_table(drawn())


def _fluids(handbook: Handbook) -> Iterator[Drawing]:
    for fluid in handbook.fluids:
        yield Drawing(
            id=fluid.id,
            group="Fluids beside plasma",
            title=typeset(fluid.name),
            page=entry_address("fluids", fluid.id),
            svg=partial(named_drawing, handbook, fluid.id, "drawing"),
            table=partial(_fluid_table, handbook, fluid.id),
        )


def _compared_table(handbook: Handbook, fluids: Sequence[str], plasma: bool) -> Table:
    diluted = common_dilution(handbook, fluids)
    columns = [named_column(handbook, fluid_id, diluted) for fluid_id in fluids]
    return columns_table([*columns, *([plasma_column(handbook)] if plasma else [])])


def _fluid_table(handbook: Handbook, fluid_id: str) -> Table:
    column = named_column(handbook, fluid_id, dilution_for(handbook, fluid_id))
    return columns_table([column, plasma_column(handbook)])


def columns_table(columns: Sequence[Column]) -> Table:
    """What is drawn of each fluid, as drawn: ions in mEq, sugar in mmol of a litre."""
    rows: dict[str, dict[int, str]] = {}
    for place, column in enumerate(columns):
        for segment in (*column.cations, *column.anions):
            row = rows.setdefault(f"{segment.symbol}, mEq/L", {})
            row[place] = amount(segment.milliequivalents)
        if column.sugar:
            name = column.sugar.text.split(" ")[0].split(HARD)[0]
            rows.setdefault(f"{name}, mmol/L", {})[place] = amount(column.sugar.millimoles)
    titles = [f"{c.title}, {c.note}" if c.note else c.title for c in columns]
    absent = ["none" if column.whole else "not known" for column in columns]
    body = [
        (name, *(row.get(place, word) for place, word in enumerate(absent)))
        for name, row in rows.items()
    ]
    return ("a litre, as drawn", *titles), body


def points_table(chart: Chart) -> Table:
    """Every point of a chart: its names, its sort, its two figures."""
    kinds = {kind.id: kind.label for kind in chart.kinds}
    rows: list[tuple[str, ...]] = [
        ("; ".join(mark.names), kinds[mark.kind], amount(mark.x), amount(mark.y))
        for mark in chart.shown
    ]
    return ("point", "sort", chart.across.title, chart.up.title), rows
