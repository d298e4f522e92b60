"""The first page: the ways in."""

from typing import Any

from isofolio.handbook import Handbook
from isofolio.pages.page import Page, rendered
from isofolio.pages.situations import emergencies
from isofolio.wording.addresses import (
    ABOUT,
    ALL_FLUIDS,
    AUDIT,
    CAUTIONS,
    CHANGES,
    COMPARE,
    DOWNLOADS,
    EQUIPMENT,
    EXPLORE,
    GALLERY,
    HOME,
    METHOD,
    MIXING,
    PRACTICE_LABELS,
    SELF_TEST,
    SHORTAGE,
    SITUATIONS,
    SOURCES,
    STOCK,
    SUBSTANCES,
    TEACHING,
    WORKSHEETS,
    entry_address,
)
from isofolio.wording.figures import typeset

# The titles a ward reaches for every day; those that a catalogue does not hold are left out.
EVERYDAY = (
    "sodium-chloride-0-9",
    "compound-sodium-lactate",
    "multiple-electrolytes-type-1",
    "glucose-5",
    "sodium-chloride-0-18-glucose-4",
    "potassium-chloride-0-3-sodium-chloride-0-9",
)
NEWEST = 5


def home_page(handbook: Handbook) -> Page:
    """The ways in, and what changed."""
    context: dict[str, Any] = {
        "count": len(handbook.fluids),
        "ways": _ways(handbook),
        "emergencies": emergencies(handbook),
        "changes": handbook.changes[:NEWEST],
        "all_changes": CHANGES,
    }
    return Page(
        path=HOME,
        title="Isofolio",
        description="What is in the fluid cupboard: every bag beside plasma, with its sources.",
        body=rendered("home.html", HOME, context),
    )


def _ways(handbook: Handbook) -> list[dict[str, Any]]:
    fluids = handbook.catalogue.fluids
    everyday = [
        (typeset(fluids[f].name), entry_address("fluids", f), "") for f in EVERYDAY if f in fluids
    ]
    stock = handbook.catalogue.stocked
    kept = [(f"What {stock.name} keeps", STOCK, "and its own limits")] if stock else []
    return [{"title": "On most wards", "links": [*everyday, *kept]}, *WAYS]


WAYS: tuple[dict[str, Any], ...] = (
    {
        "title": "Choose, mix and hang",
        "links": (
            ("All fluids", ALL_FLUIDS, "one table, to sort and filter"),
            ("Compare", COMPARE, "two to six fluids and plasma"),
            ("Situations", SITUATIONS, "what is replaced, fluids side by side"),
            ("Mixing", MIXING, "what was found when two of them met"),
            ("Equipment", EQUIPMENT, "sets, containers, checks"),
            ("Cautions", CAUTIONS, "what to watch for, and who says so"),
            ("When the shelf is empty", SHORTAGE, "what to discuss with pharmacy"),
        ),
    },
    {
        "title": "Teach and learn",
        "links": (
            ("Teaching", TEACHING, "tutorials, confusions, glossary"),
            ("Worksheets", WORKSHEETS, "arithmetic with your own figures"),
            ("Self-test", SELF_TEST, "twelve papers with answers"),
            ("Practice labels", PRACTICE_LABELS, "find the fault"),
            ("Explore", EXPLORE, "every fluid on four charts"),
            ("Drawings", GALLERY, "for slides and handouts"),
        ),
    },
    {
        "title": "Check",
        "links": (
            ("Sources", SOURCES, "where each number comes from"),
            ("Label audit", AUDIT, "printed figures beside ours"),
            ("Method", METHOD, "how each figure is made"),
            ("Substances", SUBSTANCES, "formula, hydrate, molar mass"),
            ("What changed", CHANGES, "dated lines, newest first"),
            ("Downloads", DOWNLOADS, "all figures as data: JSON, CSV, workbook, FHIR"),
            ("About", ABOUT, "what it is for, and what it is not for"),
        ),
    },
)
