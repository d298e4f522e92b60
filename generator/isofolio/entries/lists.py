"""The shape of limits, plasma, sources, ambiguous words and dated changes."""

from typing import Annotated, Self

from pydantic import model_validator

from isofolio.entries.records import Backing, Citation, Record
from isofolio.entries.scalars import (
    Address,
    AmountField,
    Count,
    Date,
    FluidId,
    Identifier,
    Text,
    Title,
    YesNo,
    fault,
    one_of,
)
from isofolio.vocabulary.quantities import IN_PLASMA
from isofolio.vocabulary.terms import (
    NOT_INSTEAD_CASES,
    SOURCE_KINDS,
    STRICTER,
)


class Interval(Record):
    """A reference interval of plasma.

    quantity: the quantity.
    interval: from and to, with the unit.
    population: whom it was measured in.
    beside: yes for the one that stands beside the fluids; otherwise leave it out.
    cite: where it is printed.
    note: what a reader should know of it.
    """

    quantity: Annotated[str, one_of(tuple(IN_PLASMA), "a quantity")]
    interval: AmountField
    population: Text
    beside: YesNo = False
    cite: Citation
    note: Text | None = None


class Plasma(Record):
    """plasma.yml

    intervals: the reference intervals, source by source.
    """

    intervals: list[Interval]


class Disagreement(Record):
    """What another source says of the same limit.

    value: its value.
    text: what it says, and of whom.
    cite: where it says so.
    """

    value: AmountField
    text: Text
    cite: Citation


class Limit(Record):
    """A threshold that a rule reads.

    id: the key by which rules and hospitals name it.
    quantity: the quantity that is held against it.
    value: the threshold, written at the precision at which it is compared.
    stricter: whether a lower or a higher value is stricter; a hospital may only set a stricter
      one.
    text: what it means, in a sentence that pages print.
    cite: where it is printed.
    disagree: what other sources say of the same threshold.
    """

    id: Identifier
    quantity: Text
    value: AmountField
    stricter: Annotated[str, one_of(STRICTER)]
    text: Text
    cite: Citation
    disagree: list[Disagreement] = []


class Limits(Record):
    """limits.yml

    limits: the thresholds.
    """

    limits: list[Limit]


class Word(Record):
    """A word that means more than one fluid.

    word: the word as it is said.
    candidates: the fluids that it may mean.
    tells_apart: what tells them apart, in a sentence or two.
    """

    word: Title
    candidates: list[FluidId]
    tells_apart: Text


class Words(Record):
    """words.yml

    words: the words.
    """

    words: list[Word]


class NotInstead(Record):
    """What an alternative is not for, by a case out of a closed list; loud: told as a warning.

    id: a key of its own.
    case: what speaks against taking one for the other.
    loud: yes where it is told as a warning; otherwise it ends a line.
    text: the sentence, or what follows "Not instead of this for".
    cite: what backs it: a citation, or the words common practice.
    """

    id: Identifier
    case: Annotated[str, one_of(NOT_INSTEAD_CASES)]
    loud: YesNo = False
    text: Text
    cite: Backing


class NotInsteads(Record):
    """not-instead.yml

    cases: the cases, in the order in which they are told.
    """

    cases: list[NotInstead]


class Source(Record):
    """A published source.

    id: the file name without .yml, by which entries cite it.
    kind: what kind of publication it is.
    title: its title, without brand or maker.
    body: the body that issued it.
    authors: its authors, where no body issued it.
    year: the year of publication.
    edition: its edition or date.
    identifier: a doi, pmid, isbn or number of a standard.
    address: where it can be read.
    note: what a reader should know of it.
    """

    id: Identifier
    kind: Annotated[str, one_of(SOURCE_KINDS)]
    title: Title
    body: Title | None = None
    authors: Title | None = None
    year: Count | None = None
    edition: Text | None = None
    identifier: Text | None = None
    address: Address | None = None
    note: Text | None = None

    @model_validator(mode="after")
    def _says_who(self) -> Self:
        if self.body is None and self.authors is None:
            raise fault("the source names neither body nor authors", "Add body: or authors:.")
        return self


class Change(Record):
    """A dated line of what a reader should know.

    on: the day of the change.
    text: what changed, in a sentence for readers.
    pages: the pages it touches, as in fluids/glucose-5.
    """

    on: Date
    text: Text
    pages: list[Text] = []


class Changes(Record):
    """changes.yml

    changes: the changes, in any order.
    """

    changes: list[Change]
