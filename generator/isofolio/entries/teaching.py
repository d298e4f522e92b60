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

    name: the term, as it stands in a sentence.
    also_known_as: other names that lead here; no two terms share one.
    text: one or two sentences; figures are placeholders, as in {glucose-5 osmolarity}.
    see: other terms.
    pages: where the handbook says more.
    cite: what backs it: a citation, or the words common practice.
    review: the review stamp; a new or changed entry is a draft.
    """

    also_known_as: list[Title] = []
    text: Text
    see: list[TermId] = []
    pages: list[PageAddress] = []
    cite: Backing
    review: Review


class Confusion(Entry):
    """What is said on wards, what is true, with a live number, and why it matters.

    name: the heading.
    said: what is said, as it is heard.
    truth: what is true, with at least one figure as a placeholder.
    why: why it matters.
    cite: what backs it: a citation, or the words common practice.
    see: fluids that show it.
    pages: where the handbook says more.
    review: the review stamp; a new or changed entry is a draft.
    """

    said: Text
    truth: Text
    why: Text
    cite: Backing
    see: list[FluidId] = []
    pages: list[PageAddress] = []
    review: Review
