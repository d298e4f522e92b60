"""Practice labels: a drawn label a fluid, with blanks, with one fault, and with the answers."""

from typing import Any

from markupsafe import Markup

from isofolio.drawings.labels import Row, label_drawing
from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook
from isofolio.pages.page import Page, rendered
from isofolio.teaching.labels import FOOT, NOT_REAL, Fault, Label, fault_of, label_of, labelled
from isofolio.teaching.question import told
from isofolio.wording.addresses import PRACTICE_LABELS, TEACHING, entry_address
from isofolio.wording.figures import typeset


def practice_labels_page(handbook: Handbook) -> Page:
    """One page for all labels; a script shows the chosen fluid alone, and so prints it alone."""
    context = {
        "fluids": [_sheet(handbook, fluid) for fluid in labelled(handbook)],
        "date": handbook.date,
        "digest": handbook.digest,
    }
    return Page(
        path=PRACTICE_LABELS,
        title="Practice labels",
        description="Drawn labels to read: with blanks to fill in, and with one figure wrong.",
        body=rendered("practice_labels.html", PRACTICE_LABELS, context),
        crumbs=(("Teaching", TEACHING),),
        scripts=("scripts/chosen.js",),
    )


def _sheet(handbook: Handbook, fluid: Fluid) -> dict[str, Any]:
    label = label_of(handbook, fluid)
    fault = fault_of(handbook, fluid, label)
    return {
        "id": fluid.id,
        "name": typeset(fluid.name),
        "address": entry_address("fluids", fluid.id),
        "blank": _drawn(fluid, "blank", "with blanks", label_rows(label, blank=True)),
        "faulty": _drawn(fluid, "faulty", "with one wrong figure", label_rows(label, fault=fault))
        if fault
        else "",
        "full": _drawn(fluid, "full", "filled in", label_rows(label)),
        "slip": fault.slip if fault else "",
        "answer": fault.answer if fault else "",
    }


def _drawn(fluid: Fluid, which: str, words: str, rows: list[Row]) -> Markup:
    title = typeset(f"Practice label of {fluid.name}, {words}")
    return Markup(label_drawing(rows, identifier=f"label-{which}-{fluid.id}", title=title))


def label_rows(label: Label, *, blank: bool = False, fault: Fault | None = None) -> list[Row]:
    """The lines of a label from top to bottom; `fault` takes the place of the line it spoils."""
    lines = [fault.line if fault and fault.kind == line.kind else line for line in label.lines]
    given = label.lines[0].kind  # what the rest is worked out from
    texts = [line.text(blank=blank and line.kind != given) for line in lines]
    return [
        Row(NOT_REAL, quiet=True),
        Row(typeset(f"{label.container.capitalize()} of {told(label.volume)} mL")),
        Row(typeset(label.name), large=True),
        Row(label.route),
        *(Row(typeset(text)) for text in texts),
        *([Row(label.ph)] if label.ph else []),
        Row(FOOT),
    ]
