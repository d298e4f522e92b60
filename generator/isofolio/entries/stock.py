"""The shape of a hospital's stock: what is kept, in which sizes, where, and its stricter limits."""

from collections import Counter
from typing import Self

from pydantic import model_validator

from isofolio.entries.records import Entry, Record, Review
from isofolio.entries.scalars import AmountField, FluidId, LimitId, Text, Title, fault


class Kept(Record):
    """A fluid that the hospital keeps. Nothing here can change what a bag holds.

    fluid: the fluid.
    sizes: the volumes that are kept; all of them where none is named.
    wards: where it is kept.
    local_names: what this hospital calls it.
    note: what a reader here should know of it.
    """

    fluid: FluidId
    sizes: list[AmountField] = []
    wards: list[Title] = []
    local_names: list[Title] = []
    note: Text | None = None


class StricterLimit(Record):
    """A limit that the hospital draws tighter, and why.

    limit: the limit of limits.yml.
    value: the value here: as strict or stricter, in the same unit.
    why: who decided so, in a few words that end a sentence.
    """

    limit: LimitId
    value: AmountField
    why: Text


class Stock(Entry):
    """The cupboard of one hospital.

    name: the hospital.
    note: what a reader should know of this stock.
    fluids: what is kept.
    limits: the limits that are drawn tighter here.
    review: the review stamp; a new or changed entry is a draft.
    """

    note: Text | None = None
    fluids: list[Kept]
    limits: list[StricterLimit] = []
    review: Review

    @model_validator(mode="after")
    def _names_each_once(self) -> Self:
        named = [str(kept.fluid) for kept in self.fluids] + [str(one.limit) for one in self.limits]
        twice = sorted(name for name, times in Counter(named).items() if times > 1)
        if twice:
            raise fault(f"{twice[0]} stands twice", "Keep one of the two.")
        return self
