"""The charts as figures of plotly: made here, drawn by its library in the reader's browser.

No colour stands in a figure: the script takes the colours of the page, light or dark, by the names
in `meta`.
"""

import json
from pathlib import Path
from typing import Any

from isofolio.drawings.chart_plan import Axis, Chart, Guide, Mark
from isofolio.handbook import Handbook
from isofolio.measures.values import Value
from isofolio.pages.charts import Told, charts
from isofolio.pages.scripts import data_script
from isofolio.wording.figures import spoken

HEIGHT = 520  # px
SIZE = 11  # px of a mark
CONFIG = {"displaylogo": False, "displayModeBar": False, "responsive": True}


def explore_data(handbook: Handbook) -> str:
    """The data script of the page: figures by id, and how the library is to be set."""
    figures = {told.chart.id: _plot(told) for told in charts(handbook)}
    return data_script("explore", {"config": CONFIG, "charts": figures})


def chart_library() -> bytes:
    """The script that draws the figures, from the installed package."""
    import plotly

    return (Path(plotly.__file__).parent / "package_data" / "plotly.min.js").read_bytes()


def _plot(told: Told) -> dict[str, Any]:
    """A figure, and the ends of its axes: of the everyday fluids, and of all."""
    chart = told.chart
    return {
        "figure": json.loads(figure_of(chart).to_json()),
        "ranges": {
            "everyday": _range(chart.across, chart.up),
            "all": _range(*told.whole),
        },
    }


def _range(across: Axis, up: Axis) -> list[list[float]]:
    return [[across.low, across.high], [up.low, up.high]]


def figure_of(chart: Chart) -> Any:
    """One trace a sort of fluid, with its own shape; the guides as shapes with their words."""
    import plotly.graph_objects as go

    return go.Figure(
        data=[
            _trace(chart, kind.label, kind.shape, kind.family, marks)
            for kind in chart.kinds
            if (marks := [mark for mark in chart.marks if mark.kind == kind.id])
        ],
        layout={
            "template": "none",
            "height": HEIGHT,
            "hovermode": "closest",
            "dragmode": "zoom",
            "margin": {"l": 64, "r": 16, "t": 28, "b": 60},
            "xaxis": _axis_of(chart.across),
            "yaxis": _axis_of(chart.up),
            "legend": {"orientation": "h", "y": -0.2, "itemclick": False, "itemdoubleclick": False},
            "shapes": [_shape(guide) for guide in chart.guides],
            "annotations": [_words(guide) for guide in chart.guides],
        },
    )


def _trace(chart: Chart, label: str, shape: str, family: str, marks: list[Mark]) -> dict[str, Any]:
    return {
        "type": "scatter",
        "mode": "markers",
        "cliponaxis": False,
        "name": label,
        "x": [mark.x for mark in marks],
        "y": [mark.y for mark in marks],
        "text": ["<br>".join(_said(chart, mark)) for mark in marks],
        "hovertemplate": "%{text}<extra></extra>",
        "marker": {"symbol": shape, "size": SIZE, "line": {"width": 1}},
        "meta": f"--ion-{family}",
    }


def _said(chart: Chart, mark: Mark) -> list[str]:
    """The names of everything that stands where a mark does, and its two figures."""
    here = [one for one in chart.marks if (one.x, one.y) == (mark.x, mark.y)]
    names = [name for one in here for name in one.names]
    return [*names, _figure(chart.across, mark.x), _figure(chart.up, mark.y)]


def _figure(axis: Axis, value: float) -> str:
    return f"{axis.title.partition(',')[0]}: {spoken(Value(value), axis.quantity)}"


def _axis_of(axis: Axis) -> dict[str, Any]:
    return {
        "title": {"text": axis.title},
        "range": [axis.low, axis.high],
        "zeroline": False,
        "showline": True,
    }


def _shape(guide: Guide) -> dict[str, Any]:
    (x0, y0), (x1, y1) = guide.start, guide.end
    kind = "rect" if guide.area else "line"
    line = {"dash": "dot" if guide.area else "dash", "width": 1}
    return {"type": kind, "x0": x0, "y0": y0, "x1": x1, "y1": y1, "line": line, "layer": "below"}


def _words(guide: Guide) -> dict[str, Any]:
    x, y = guide.end
    return {
        "x": x,
        "y": y,
        "text": guide.label,
        "showarrow": False,
        "xanchor": "right",
        "yanchor": "bottom",
    }
