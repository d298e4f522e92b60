"""The shape of a situation: what is lost or lacking, which fluids concern it, who says what."""

from typing import Annotated, Self

from pydantic import model_validator

from isofolio.entries.records import Backing, Citation, Entry, Record, Review
from isofolio.entries.scalars import AmountField, Count, FluidId, Text, Title, YesNo, fault, one_of
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.vocabulary.terms import WORKSHEET_IDS

# What a comparison may show besides quantities: the volume that its basis asks for.
SHOWN = ("volume", *QUANTITY_BY_ID)


class Candidate(Record):
    """A fluid to look at, and why.

    fluid: the fluid.
    why: why one looks at it here, in a sentence.
    """

    fluid: FluidId
    why: Text


class Trap(Record):
    """The wrong choice most often described.

    text: the choice, and what comes of it.
    cite: what backs it: a citation, or the words common practice.
    """

    text: Text
    cite: Backing


class Basis(Record):
    """What all fluids of a comparison have in common: a volume, or an amount of a quantity.

    volume: the volume that all of them are compared in.
    quantity: or the quantity that all of them are to hold.
    amount: how much of it.
    """

    volume: AmountField | None = None
    quantity: Annotated[str, one_of(tuple(QUANTITY_BY_ID), "a quantity")] | None = None
    amount: AmountField | None = None

    @model_validator(mode="after")
    def _is_one_of_both(self) -> Self:
        by_amount = self.quantity is not None and self.amount is not None
        if (self.volume is None) == (not by_amount):
            raise fault(
                "the basis is neither a volume nor an amount of a quantity",
                "Write {volume: 2100 mL}, or {quantity: glucose_mass, amount: 20 g}.",
            )
        return self


class SideBySide(Record):
    """Figures computed for the question at hand.

    question: the question that the figures answer.
    basis: what all fluids have in common.
    fluids: the fluids; those of the situation where none is named.
    show: the quantities that are shown.
    cite: who published the volume in the question.
    """

    question: Text
    basis: Basis
    fluids: list[FluidId] = []
    show: list[Annotated[str, one_of(SHOWN, "a quantity")]]
    cite: Citation | None = None


class Row(Record):
    """A row of a published table, with its source.

    cells: a text for each column.
    cite: what backs it: a citation, or the words common practice.
    """

    cells: list[Text]
    cite: Backing


class PublishedTable(Record):
    """Published figures that are not computed here.

    caption: what the table shows.
    columns: the heads of its columns.
    rows: its rows.
    """

    caption: Text
    columns: list[Text]
    rows: list[Row]

    @model_validator(mode="after")
    def _rows_fit(self) -> Self:
        for row in self.rows:
            if len(row.cells) != len(self.columns):
                raise fault(
                    f"a row has {len(row.cells)} cells under {len(self.columns)} columns",
                    "Give every column a cell; write not given where the source is silent.",
                )
        return self


class Guidance(Record):
    """What a source says, with its year; never an order.

    text: what the source says, told and not quoted.
    year: the year in which it said so.
    cite: where it says so.
    """

    text: Text
    year: Count | None = None
    cite: Citation


class Situation(Entry):
    """What a fluid is reached for. A stub holds the summary alone.

    summary: what it is and what is replaced, in a sentence.
    emergency: yes where the page is one key from home.
    first: what comes first, before any fluid.
    replaced: what is lost or lacking.
    fluids: the fluids to look at.
    trap: the wrong choice most often described.
    compare: figures computed side by side.
    tables: published figures that are not computed here.
    guidance: what published guidance says.
    disagree: what other sources say.
    call: when to call for help.
    worksheets: the worksheets to practise its sums with.
    review: the review stamp; a new or changed entry is a draft.
    """

    summary: Text
    emergency: YesNo = False
    first: Text | None = None
    replaced: Text | None = None
    fluids: list[Candidate] = []
    trap: Trap | None = None
    compare: list[SideBySide] = []
    tables: list[PublishedTable] = []
    guidance: list[Guidance] = []
    disagree: list[Guidance] = []
    call: list[Title] = []
    worksheets: list[Annotated[str, one_of(WORKSHEET_IDS)]] = []
    review: Review | None = None
