"""All cautions, each with the fluids that raise it."""

from typing import Any

from isofolio.entries.cautions import Caution
from isofolio.findings.cautions import severity
from isofolio.handbook import Handbook
from isofolio.pages.citations import cited
from isofolio.pages.page import Page, rendered
from isofolio.wording.addresses import CAUTIONS, entry_address
from isofolio.wording.figures import typeset

MEANING = {
    "danger": "will kill or maim if it is not avoided",
    "warning": "could kill or maim if it is not avoided",
    "caution": "could injure",
    "notice": "cannot injure by itself; good to know",
}


def cautions_page(handbook: Handbook) -> Page:
    """Every caution, most severe first."""
    raised_by = _raised_by(handbook)
    ordered = sorted(handbook.catalogue.cautions.values(), key=lambda c: (severity(c), c.name))
    groups: dict[str, list[dict[str, Any]]] = {}
    for caution in ordered:
        groups.setdefault(caution.signal, []).append(_row(handbook, caution, raised_by))
    context = {"groups": [(signal, MEANING[signal], rows) for signal, rows in groups.items()]}
    return Page(
        path=CAUTIONS,
        title="Cautions",
        description="What to watch for, why, who says so, and which fluids raise it.",
        body=rendered("cautions.html", CAUTIONS, context),
    )


def _raised_by(handbook: Handbook) -> dict[str, list[tuple[str, str]]]:
    found: dict[str, list[tuple[str, str]]] = {}
    for fluid in handbook.fluids:
        link = (typeset(fluid.name), entry_address("fluids", fluid.id))
        for caution in handbook.judgements[fluid.id].cautions:
            found.setdefault(caution.id, []).append(link)
    return found


def _row(
    handbook: Handbook, caution: Caution, raised_by: dict[str, list[tuple[str, str]]]
) -> dict[str, Any]:
    return {
        "id": caution.id,
        "name": caution.name,
        "imperative": typeset(caution.imperative),
        "text": typeset(caution.text),
        "cited": cited(caution.cite, handbook.catalogue),
        "disagree": [
            (typeset(view.text), cited(view.cite, handbook.catalogue)) for view in caution.disagree
        ],
        "fluids": raised_by.get(caution.id, []),
    }
