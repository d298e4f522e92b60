"""The shape of a ready-made comparison: which fluids, which figures, and what to see."""

from collections import Counter
from typing import Annotated, Any, Self

from pydantic import BeforeValidator, model_validator

from isofolio.entries.records import Citation, Entry, Review
from isofolio.entries.scalars import AmountPresent, FluidId, Text, YesNo, fault, one_of
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.vocabulary.terms import FEWEST_COMPARED, MOST_COMPARED

Compared = Annotated[str, one_of(tuple(QUANTITY_BY_ID), "a quantity")]


def _few(value: Any) -> Any:
    """A list short enough to stand side by side."""
    if isinstance(value, list) and not FEWEST_COMPARED <= len(value) <= MOST_COMPARED:
        count = "1 fluid" if len(value) == 1 else f"{len(value)} fluids"
        message = f"{count} to compare; a comparison has {FEWEST_COMPARED} to {MOST_COMPARED}"
        raise fault(message, "Add some, or make two comparisons of it.")
    return value


class Comparison(Entry):
    """Two to six fluids side by side, with plasma or without.

    fluids: two to six fluids.
    plasma: whether plasma stands beside them.
    quantities: the rows of its table.
    volumes: the volumes for which those are told that a container holds a share of; a litre
      where none is given.
    text: what to see, in a paragraph; figures are placeholders, as in {glucose-5 osmolarity}.
    points: the same in short sentences.
    cite: what backs a statement that is no figure of ours.
    review: the review stamp; a new or changed entry is a draft.
    """

    fluids: Annotated[list[FluidId], BeforeValidator(_few)]
    plasma: YesNo
    quantities: list[Compared]
    volumes: list[AmountPresent] = []
    text: Text
    points: list[Text]
    cite: Citation | None = None
    review: Review

    @model_validator(mode="after")
    def _names_each_once(self) -> Self:
        for key, named in (("fluids", [*map(str, self.fluids)]), ("quantities", self.quantities)):
            twice = sorted(name for name, times in Counter(named).items() if times > 1)
            if twice:
                raise fault(f"{twice[0]} stands twice", "Keep one of the two.", key)
        return self
