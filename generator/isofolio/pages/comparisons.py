"""The page of each ready-made comparison: what to see, the drawing, the table. No script needed."""

from typing import Any

from markupsafe import Markup

from isofolio.drawings.patterns import pattern_definitions
from isofolio.entries.comparisons import Comparison
from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook
from isofolio.pages.citations import cited
from isofolio.pages.columns import FRACTIONS, common_dilution, compared
from isofolio.pages.comparing import NOT_COMPARED, Line, lines_of, row, said_rows
from isofolio.pages.label import plasma_cited
from isofolio.pages.live import live
from isofolio.pages.page import Page, rendered
from isofolio.pages.stamp import stamp_line
from isofolio.wording.addresses import COMPARE, GALLERY, entry_address
from isofolio.wording.figures import typeset

HOME_CRUMBS = (("Home", "index.html"), ("Compare", COMPARE))
PLASMA_CHOICE = "plasma"


def comparison_page(handbook: Handbook, comparison: Comparison) -> Page:
    """The whole page of one comparison."""
    path = entry_address("comparisons", comparison.id)
    fluids = fluids_of(handbook, comparison)
    diluted = common_dilution(handbook, comparison.fluids)
    svg = compared(handbook, comparison.fluids, comparison.plasma, "compared")
    context: dict[str, Any] = {
        "name": typeset(comparison.name),
        "draft": stamp_line(comparison),
        "text": live(handbook, comparison.text),
        "points": [live(handbook, point) for point in comparison.points],
        "cited": cited(comparison.cite, handbook.catalogue) if comparison.cite else None,
        "patterns": Markup(pattern_definitions()),
        "drawing": Markup(svg),
        "below_drawing": dilution_sentence(diluted, comparison.plasma),
        "heads": heads(fluids),
        "plasma": comparison.plasma,
        "rows": [row(handbook, fluids, line) for line in lines(comparison)],
        "said": said_rows(handbook, fluids),
        "not_compared": NOT_COMPARED,
        "plasma_cited": plasma_cited(handbook),
        "choice": choice(comparison),
        "gallery": f"{GALLERY}#{comparison.id}",
        "date": handbook.date,
        "digest": handbook.digest,
    }
    return Page(
        path=path,
        title=typeset(comparison.name),
        description=f"{comparison.name}: what to see, the ion columns and the figures.",
        body=rendered("comparison.html", path, context),
        crumbs=HOME_CRUMBS,
    )


def fluids_of(handbook: Handbook, comparison: Comparison) -> list[Fluid]:
    """The fluids of a comparison, in its order."""
    return [handbook.catalogue.fluids[fluid_id] for fluid_id in comparison.fluids]


def lines(comparison: Comparison) -> list[Line]:
    """The rows that its editor chose."""
    volumes = [
        (volume.low or 0.0) * (1000.0 if volume.unit == "L" else 1.0)
        for volume in comparison.volumes
    ]
    return lines_of(comparison.quantities, volumes)


def heads(fluids: list[Fluid]) -> list[tuple[str, str]]:
    """Name and address of each column."""
    return [(typeset(fluid.name), entry_address("fluids", fluid.id)) for fluid in fluids]


def choice(comparison: Comparison) -> str:
    """The address at which a reader changes this choice."""
    chosen = [*comparison.fluids, *([PLASMA_CHOICE] if comparison.plasma else [])]
    return f"{COMPARE}?with={','.join(chosen)}"


def dilution_sentence(diluted: int, plasma: bool) -> str:
    """The words under a drawing of fluids that are too strong to stand there as they are."""
    if diluted == 1:
        return ""
    besides = " Plasma is drawn as it is." if plasma else ""
    return (
        f"Every fluid is drawn diluted to {FRACTIONS[diluted]}, so that all stand on one scale."
        f"{besides} The table has the figures as they are."
    )
