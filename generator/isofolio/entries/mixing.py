"""The shape of a mixing entry: one pair, what happens, what to use instead, and who tested it."""

from typing import Annotated

from isofolio.entries.cautions import Condition, OtherView
from isofolio.entries.records import Citation, Entry, Review
from isofolio.entries.scalars import Text, one_of
from isofolio.vocabulary.terms import MIXING_FINDINGS, MIXING_KINDS, MIXING_MODES


class Mixing(Entry):
    """A pair that was looked at together.

    first, second: what is told first (the drug) and its partner. concerns: the fluids it speaks
    of; all conditions must hold, none named means no fluid of the catalogue.
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
