"""The shape of an announcement: what the author of a change expects it to do.

A file in `expected/` speaks of one change. `isofolio changes` reads those that the change itself
brings; older ones are history. Ids in it are therefore no references: an entry that was renamed
later breaks no announcement of long ago.
"""

from typing import Annotated, Self

from pydantic import model_validator

from isofolio.entries.records import Record
from isofolio.entries.scalars import Identifier, Text, fault, one_of
from isofolio.vocabulary.terms import CHANGE_KINDS


class Announced(Record):
    """One expected effect. What is left out of it may be anything.

    kind: what changes, as the report sorts it.
    of: ids of the entries it shows on.
    what: the quantity, caution, substance or other thing that changes, by its id.
    to: what it becomes, in the words of the report.
    """

    kind: Annotated[str, one_of(CHANGE_KINDS)]
    of: list[Identifier] = []
    what: Text | None = None
    to: Text | None = None

    @model_validator(mode="after")
    def _says_of_what(self) -> Self:
        if not self.of and self.what is None:
            fix = "Add of: with ids of entries, or what: with a quantity or a caution."
            raise fault(f"every {self.kind} there may be is announced", fix)
        return self


class Expected(Record):
    """What one change is expected to do, and why it is made.

    id: the file name without .yml.
    why: the reason of the change, in a sentence.
    effects: what the report may show without surprising anybody.
    """

    id: Identifier
    why: Text
    effects: list[Announced]
