"""The shape of a mixing entry: one pair, what happens, what to use instead, and who tested it."""

from typing import Annotated

from isofolio.entries.cautions import Condition, OtherView
from isofolio.entries.records import Citation, Entry, Review
from isofolio.entries.scalars import Text, one_of
from isofolio.vocabulary.terms import MIXING_FINDINGS, MIXING_KINDS, MIXING_MODES


class Mixing(Entry):
    """A pair that was looked at together.

    first: what is told first: the drug.
    second: its partner.
    kind: what meets what.
    mode: in which way they meet; a pass in one way says nothing of another.
    finding: what was found.
    concerns: the fluids it speaks of: all conditions must hold; none means no fluid of the
      catalogue.
    what_happens: one to three sentences; never worked out by arithmetic.
    tested: concentrations, times and temperatures, as the source gives them.
    instead: what to use instead, and what to check.
    cites: who tested it.
    disagree: what other sources say.
    note: what a reader should know of it.
    review: the review stamp; a new or changed entry is a draft.
    """

    first: Text
    second: Text
    kind: Annotated[str, one_of(MIXING_KINDS)]
    mode: Annotated[str, one_of(MIXING_MODES)]
    finding: Annotated[str, one_of(MIXING_FINDINGS)]
    concerns: list[Condition] = []
    what_happens: Text
    tested: Text | None = None
    instead: Text
    cites: list[Citation]
    disagree: list[OtherView] = []
    note: Text | None = None
    review: Review
