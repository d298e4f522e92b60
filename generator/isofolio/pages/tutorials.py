"""The tutorials: the table of contents of teaching, and what stands round the text of each.

The lessons themselves are hand-written Markdown in site_src/tutorials/.
"""

from dataclasses import dataclass
from typing import Any

from isofolio.handbook import Handbook
from isofolio.pages.lessons import furnished
from isofolio.pages.page import DRAFT, rendered
from isofolio.wording.addresses import TEACHING, entry_address

FOLDER = "tutorials"
CRUMBS = (("Home", "index.html"), ("Teaching", TEACHING))
SCRIPTS = ("scripts/teaching.js",)
LICENCE = "CC BY 4.0"


@dataclass(frozen=True)
class Tutorial:
    """One teaching unit: file name, title, aim, how long it takes [min], and what to bring."""

    id: str
    title: str
    aim: str
    minutes: int
    bring: str


TUTORIALS = (
    Tutorial(
        "reading-a-label",
        "Reading a label",
        "Say from any label what this bag holds and what a litre holds, in grams and in mmol.",
        30,
        "Two empty bags of different sizes with their labels, a pencil, paper.",
    ),
    Tutorial(
        "osmolarity-osmolality-tonicity",
        "Osmolarity, osmolality, tonicity",
        "Tell three words apart that labels, laboratories and cells use for three things.",
        40,
        "A pencil, paper, the label of a bag of glucose and of a bag of saline.",
    ),
    Tutorial(
        "where-a-litre-goes",
        "Where a litre goes",
        "Follow a litre of any fluid into plasma, tissue and cells, and name what the model hides.",
        40,
        "Three jars for 28, 10.5 and 3.5 parts of water (42 in all), a measuring jug.",
    ),
    Tutorial(
        "strong-ions-and-saline",
        "Strong ions and saline",
        "Foretell from its ions which way a fluid pushes the pH, and say how far to trust it.",
        45,
        "A pencil, paper, two bars of squared paper to draw ion columns on.",
    ),
    Tutorial(
        "what-glucose-leaves-behind",
        "What glucose leaves behind",
        "Say what is left of each glucose fluid once the sugar is burnt, and what it has fed.",
        35,
        "A pencil, paper, the labels of three glucose fluids.",
    ),
    Tutorial(
        "potassium",
        "Potassium",
        "Read potassium by the bag and by the litre without ever taking one for the other.",
        40,
        "The labels of a 500 mL and a 1000 mL bag with potassium, an empty ampoule, a pencil.",
    ),
    Tutorial(
        "colloids",
        "Colloids",
        "Read a colloid as two things in one bag: large molecules, and the salt water round them.",
        35,
        "A pencil, paper, the labels of an albumin and of a gelatin.",
    ),
    Tutorial(
        "sets-and-bottles",
        "Sets and bottles",
        "Say how each container lets its fluid go, and find the reason when a drip stops.",
        45,
        "A giving set, a soft bag and a bottle, all out of date and marked for teaching; a basin.",
    ),
)

TUTORIAL_BY_ID = {tutorial.id: tutorial for tutorial in TUTORIALS}


def tutorial_address(identifier: str) -> str:
    """Where a tutorial stands."""
    return entry_address(FOLDER, identifier)


def tutorial_page(handbook: Handbook, identifier: str, lesson: str) -> str:
    """The whole of a tutorial's page round `lesson`, the HTML of its text."""
    tutorial = TUTORIAL_BY_ID[identifier]
    context: dict[str, Any] = {
        "tutorial": tutorial,
        "draft": DRAFT,
        "teaching": TEACHING,
        "licence": LICENCE,
        "date": handbook.date,
        "digest": handbook.digest,
    }
    here = tutorial_address(identifier)
    head = rendered("tutorial_head.html", here, context)
    foot = rendered("tutorial_foot.html", here, context)
    return f"{head}\n{furnished(lesson, here)}\n{foot}"
