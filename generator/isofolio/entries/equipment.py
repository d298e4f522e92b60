"""The shape of an equipment entry: what a fluid hangs from, and what goes wrong with it."""

from typing import Annotated, Self

from pydantic import model_validator

from isofolio.entries.cautions import Condition, OtherView
from isofolio.entries.records import Backing, Entry, Note, Record, Review
from isofolio.entries.scalars import Count, EquipmentId, Identifier, Text, Title, fault, one_of
from isofolio.entries.situations import PublishedTable
from isofolio.vocabulary.terms import EQUIPMENT_KINDS, WORKSHEET_IDS


class Part(Record):
    """A part of a drawing, keyed by its number.

    number: its number in the drawing.
    name: what it is called.
    text: what it does.
    cite: what backs it: a citation, or the words common practice.
    """

    number: Count
    name: Title
    text: Text
    cite: Backing = None


class Need(Record):
    """Why some fluids need a piece: told on the page of each.

    why: what it is needed for, in a sentence.
    applies: which fluids need it: conditions as in a caution, all of which must hold.
    cite: what backs it: a citation, or the words common practice.
    """

    why: Text
    applies: list[Condition]
    cite: Backing

    @model_validator(mode="after")
    def _names_a_condition(self) -> Self:
        if not self.applies:
            fix = "Write at least one, as in [{when: role, roles: [concentrate]}]."
            raise fault("no condition says which fluids need it", fix)
        return self


class Equipment(Entry):
    """A set, a connector, a container ... with its drawing, its use and its hazards.

    kind: what kind of thing it is.
    summary: what it is for, in two sentences.
    drawing: the name of its drawing.
    parts: its parts, by their number in the drawing.
    how: how it is used, step by step.
    facts: what is worth knowing.
    disagree: what other sources say.
    goes_wrong: what goes wrong with it, and what to do.
    figures: published figures.
    needed_by: why some fluids need it, and which.
    worksheets: the worksheets to practise its sums with.
    see: other equipment.
    review: the review stamp; a new or changed entry is a draft.
    """

    kind: Annotated[str, one_of(EQUIPMENT_KINDS)]
    summary: Text
    drawing: Identifier
    parts: list[Part] = []
    how: list[Note] = []
    facts: list[Note] = []
    disagree: list[OtherView] = []
    goes_wrong: list[Note] = []
    figures: list[PublishedTable] = []
    needed_by: list[Need] = []
    worksheets: list[Annotated[str, one_of(WORKSHEET_IDS)]] = []
    see: list[EquipmentId] = []
    review: Review
