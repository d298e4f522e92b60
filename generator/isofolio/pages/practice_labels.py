"""Practice labels: a drawn label a fluid, with blanks, with one fault, and with the answers."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Any

from markupsafe import Markup

from isofolio.drawings.labels import Row, label_drawing
from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook
from isofolio.pages.page import Page, rendered
from isofolio.pages.parts import pages_in_parts
from isofolio.teaching.labels import FOOT, NOT_REAL, Fault, Label, fault_of, label_of, labelled
from isofolio.teaching.question import told
from isofolio.wording.addresses import PRACTICE_LABELS, TEACHING, entry_address
from isofolio.wording.figures import typeset


def practice_labels_pages(handbook: Handbook) -> Iterator[tuple[str, Callable[[], Page]]]:
    """Address and maker of the page of all labels, or of each part of it.

    A script shows the chosen fluid alone, and so prints it alone.
    """
    make = partial(_page, handbook)
    return pages_in_parts(PRACTICE_LABELS, "Practice labels", labelled(handbook), _named, make)


def _named(fluid: Fluid) -> str:
    return typeset(fluid.name)


def _page(
    handbook: Handbook,
    address: str,
    title: str,
    fluids: Sequence[Fluid],
    links: list[tuple[str, str]],
) -> Page:
    context = {
        "title": title,
        "here": address,
        "parts": links,
        "fluids": [_sheet(handbook, fluid) for fluid in fluids],
        "date": handbook.date,
        "digest": handbook.digest,
    }
    return Page(
        path=address,
        title=title,
        description="Drawn labels to read: with blanks to fill in, and with one figure wrong.",
        body=rendered("practice_labels.html", address, context),
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
