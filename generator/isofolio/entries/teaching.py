"""The shape of what teaches: a term of the glossary, and a confusion with its live number.

Figures in the prose of both are placeholders (`wording.placeholders`).
"""

from typing import Annotated

from isofolio.entries.records import Backing, Entry, Review
from isofolio.entries.scalars import FluidId, TermId, Text, Title, patterned

# A page of the handbook without its ending, and a place on it.
PageAddress = Annotated[
    str,
    patterned(
        "[a-z0-9-]+(/[a-z0-9-]+)?(#[a-z0-9-]+)?",
        "the address of a page",
        "Write it without .html, as in fluids/glucose-5#figures or tutorials/potassium.",
    ),
]


class Term(Entry):
    """One term of the glossary; other names of it lead to the same place.

    see: other terms; pages: where the handbook says more.
    """

    also_known_as: list[Title] = []
    text: Text
    see: list[TermId] = []
    pages: list[PageAddress] = []
    cite: Backing
    review: Review


class Confusion(Entry):
    """What is said on wards, what is true, with a live number, and why it matters.

    see: fluids that show it; pages: where the handbook says more.
    """

    said: Text
    truth: Text
    why: Text
    cite: Backing
    see: list[FluidId] = []
    pages: list[PageAddress] = []
    review: Review
