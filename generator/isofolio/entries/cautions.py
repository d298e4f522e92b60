"""The shape of a caution: a signal word, one imperative line, and the condition that raises it."""

from typing import Annotated, Any, Self

from pydantic import BeforeValidator, model_validator

from isofolio.entries.records import Backing, Citation, Entry, Record, Review
from isofolio.entries.scalars import (
    FluidId,
    LimitId,
    ParticleId,
    SituationId,
    SubstanceId,
    Text,
    Title,
    fault,
    one_of,
)
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.vocabulary.terms import (
    ANSWERS,
    COLLOIDS,
    CONDITIONS,
    CONTAINER_KINDS,
    ROLES,
    SIGNAL_WORDS,
    STATUSES,
)

LONGEST_IMPERATIVE = 90


def _short(value: Any) -> Any:
    if isinstance(value, str) and len(value) > LONGEST_IMPERATIVE:
        message = f"the line has {len(value)} characters; it stands on one line of the first screen"
        raise fault(message, f"Keep it to {LONGEST_IMPERATIVE}; the why goes into text.")
    return value


class Condition(Record):
    """One condition out of the closed set; which keys it takes is told by `when`.

    when: the shape of the condition; it tells which other keys are written.
    quantity: the quantity that is held against the limit.
    limit: the limit.
    particles: ions or molecules of the fluid.
    substances: what is weighed into it.
    kinds: kinds of colloid, or of container.
    roles: roles of the fluid.
    statuses: statuses of the fluid.
    situations: situations of the fluid.
    ids: the fluids themselves.
    """

    when: Annotated[str, one_of(tuple(CONDITIONS))]
    quantity: Annotated[str, one_of(tuple(QUANTITY_BY_ID), "a quantity")] | None = None
    limit: LimitId | None = None
    particles: list[ParticleId] = []
    substances: list[SubstanceId] = []
    kinds: list[Annotated[str, one_of(COLLOIDS + CONTAINER_KINDS)]] = []
    roles: list[Annotated[str, one_of(ROLES)]] = []
    statuses: list[Annotated[str, one_of(STATUSES)]] = []
    situations: list[SituationId] = []
    ids: list[FluidId] = []

    @model_validator(mode="after")
    def _has_its_keys(self) -> Self:
        given = {name for name in type(self).model_fields if getattr(self, name)} - {"when"}
        wanted = set(CONDITIONS[self.when])
        if given != wanted:
            keys = ", ".join(CONDITIONS[self.when])
            raise fault(f'the condition "{self.when}" takes {keys}', f"Write exactly: {keys}.")
        return self


class OtherView(Record):
    """What another source says of the same hazard.

    text: what it says.
    cite: where it says so.
    """

    text: Text
    cite: Citation


class Caution(Entry):
    """A caution: raised where every condition holds and none of `unless` does.

    name: the heading on the Cautions page.
    signal: danger: will kill or maim; warning: could; caution: could injure; notice: cannot.
    imperative: one line that says what to do, at most 90 characters.
    text: two to four sentences: what happens, why, who says so.
    applies: every one of these conditions must hold.
    unless: none of these conditions may hold.
    said_by: the answer of the first screen that already says it; then no box stands there.
    short: of said_by: body, the words in that answer.
    cite: what backs it: a citation, or the words common practice.
    disagree: what other sources say of the same hazard.
    note: what a reader should know of it.
    raised_by: a fluid that raises it: a test looks.
    not_by: a near neighbour that does not.
    review: the review stamp; a new or changed entry is a draft.
    """

    signal: Annotated[str, one_of(SIGNAL_WORDS)]
    imperative: Annotated[Title, BeforeValidator(_short)]
    text: Text
    applies: list[Condition]
    unless: list[Condition] = []
    said_by: Annotated[str, one_of(ANSWERS)] | None = None
    short: Title | None = None
    cite: Backing
    disagree: list[OtherView] = []
    note: Text | None = None
    raised_by: FluidId
    not_by: FluidId
    review: Review
