"""The shape of an equipment entry: what a fluid hangs from, and what goes wrong with it."""

from typing import Annotated

from isofolio.entries.cautions import Condition, OtherView
from isofolio.entries.records import Backing, Entry, Note, Record, Review
from isofolio.entries.scalars import Count, EquipmentId, Identifier, Text, Title, one_of
from isofolio.entries.situations import PublishedTable
from isofolio.vocabulary.terms import EQUIPMENT_KINDS


class Part(Record):
    """A part of a drawing, keyed by its number."""

    number: Count
    name: Title
    text: Text
    cite: Backing = None


class Equipment(Entry):
    """A set, a connector, a container ... with its drawing, its use and its hazards."""

    kind: Annotated[str, one_of(EQUIPMENT_KINDS)]
    summary: Text
    drawing: Identifier
    parts: list[Part] = []
    how: list[Note] = []
    facts: list[Note] = []
    disagree: list[OtherView] = []
    goes_wrong: list[Note] = []
    figures: list[PublishedTable] = []
    needed_by: list[Condition] = []
    see: list[EquipmentId] = []
    review: Review
