"""One-page cards: what hangs here, what it holds, what must not be done, on one sheet of A4."""

from collections.abc import Mapping, Sequence
from typing import Any

from markupsafe import Markup

from isofolio.drawings.patterns import pattern_definitions
from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook
from isofolio.pages.answers import answers, boxes
from isofolio.pages.citations import citations_of, merged
from isofolio.pages.columns import named_drawing
from isofolio.pages.fluid import NEVER_ALONE, STATUS_WORDS, in_the_bag, role_words
from isofolio.pages.holds import holds, sizes
from isofolio.pages.page import Page, rendered
from isofolio.pages.stamp import stamp_line
from isofolio.wording.addresses import card_address, entry_address
from isofolio.wording.figures import strength_pairs, typeset

CARD_STYLES = tuple(f"site_src/styles/{name}.css" for name in ("isofolio", "drawings", "practice"))
UNCONTROLLED = "Uncontrolled when printed."
MOST_SOURCES = 6


def with_cards(handbook: Handbook) -> list[Fluid]:
    """The fluids that have a card: retired ones have none, for nobody should print it."""
    return [fluid for fluid in handbook.fluids if fluid.status != "retired"]


def card_page(handbook: Handbook, fluid: Fluid) -> Page:
    """The card of one fluid."""
    path = card_address(fluid.id)
    name = typeset(fluid.name)
    context = {"patterns": Markup(pattern_definitions()), "card": card_context(handbook, fluid)}
    return Page(
        path=path,
        title=f"{name}: card to print",
        description=f"{fluid.name} on one sheet of paper.",
        body=rendered("card.html", path, context),
        crumbs=((name, entry_address("fluids", fluid.id)),),
    )


def card_context(handbook: Handbook, fluid: Fluid) -> dict[str, Any]:
    """What a card shows, links left out: paper cannot follow them."""
    rows = list(holds(handbook, fluid))
    sources = [cited.text for cited, _ in merged(citations_of(fluid), handbook.catalogue)]
    short = list(dict.fromkeys(sources))
    drawing = named_drawing(handbook, fluid.id, f"card-columns-{fluid.id}")
    return {
        "id": fluid.id,
        "pairs": strength_pairs(fluid.name),
        "role": role_words(handbook, fluid),
        "draft": stamp_line(fluid),
        "status": _status(fluid),
        "sizes": [size.label for size in sizes(fluid)],
        "holds": rows,
        "boxes": boxes(handbook, fluid, 0),
        "cautions_first": fluid.role in NEVER_ALONE or fluid.status in STATUS_WORDS,
        "answers": answers(handbook, fluid, in_the_bag(handbook, fluid)),
        "drawing": Markup(drawing),
        "sources": "; ".join(short[:MOST_SOURCES]),
        "more_sources": max(0, len(short) - MOST_SOURCES),
        "address": entry_address("fluids", fluid.id),
        "date": handbook.date,
        "digest": handbook.digest,
        "uncontrolled": UNCONTROLLED,
    }


def _status(fluid: Fluid) -> str:
    if fluid.status == "current" or fluid.status_note is None:
        return ""
    return f"{STATUS_WORDS[fluid.status]}. {fluid.status_note.text}"


def cards_file(handbook: Handbook, fluid_ids: Sequence[str], styles: Sequence[str]) -> str:
    """Chosen cards as one HTML file that stands alone: its styles inside, no script, no link.

    styles: the texts of the style sheets. Raises KeyError for a fluid that is not there.
    """
    fluids: Mapping[str, Fluid] = handbook.catalogue.fluids
    context = {
        "styles": Markup("\n".join(styles)),
        "patterns": Markup(pattern_definitions()),
        "cards": [card_context(handbook, fluids[one]) for one in fluid_ids],
        "date": handbook.date,
    }
    return rendered("cards_file.html", "cards.html", context)
