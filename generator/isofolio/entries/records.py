"""What every entry is made of: citations, notes, the review stamp. Each field has its line here."""

from functools import lru_cache
from typing import Annotated, Any, Literal, Self, TypeVar

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, model_validator

from isofolio.entries.problems import quoted
from isofolio.entries.scalars import (
    Date,
    Identifier,
    SourceId,
    Text,
    Title,
    fault,
    one_of,
    patterned,
)
from isofolio.vocabulary.quantities import DECLARABLE
from isofolio.vocabulary.terms import (
    COMMON_PRACTICE,
    GRADES,
    REVIEW_STATES,
)

Digest = Annotated[
    str, patterned("[0-9a-f]{12}", "a digest of twelve hex digits", "`isofolio review` writes it.")
]
Part = TypeVar("Part", bound="Record")
QuantityId = Annotated[str, one_of(tuple(DECLARABLE), "a quantity")]


# One set for all: which keys were written is asked of no record, and a set each takes a third of
# what a large catalogue holds.
_NOT_NOTED: set[str] = set()


class Record(BaseModel):
    """What all entries share: nothing unknown gets in, nothing changes afterwards."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)

    def model_post_init(self, context: Any) -> None:  # noqa: ARG002
        """Forget which keys were written."""
        object.__setattr__(self, "__pydantic_fields_set__", _NOT_NOTED)


@lru_cache(maxsize=8192)
def _first_like(record: Record) -> Record:
    return record


# A part that many entries repeat word for word: equal ones are one object. A large catalogue cites
# the same page of the same source, and lists the same bag, again and again.
Shared = Annotated[Part, AfterValidator(_first_like)]


class Citation(Record):
    """Where a figure comes from: the source, the place in it, how it was seen, and when.

    source: the source; left out only where seen is arithmetic.
    at: the place in it: a section, a table, a page.
    seen: read: the issuing body's own text; copy: another page that names the source;
      arithmetic: worked out here from printed inputs; memory: no source, refused on a page.
    on: the day you looked.
    """

    source: SourceId | None = None
    at: Text
    seen: Annotated[str, one_of(GRADES)]
    on: Date

    @model_validator(mode="after")
    def _names_its_source(self) -> Self:
        if self.source is None and self.seen not in {"arithmetic", "memory"}:
            raise fault(
                "the citation names no source", "Add source: with the id of an entry in sources/."
            )
        return self


def _backing(value: Any) -> Any:
    """`common practice` is written as text; everything else is a citation."""
    if isinstance(value, str):
        if value == COMMON_PRACTICE:
            return None
        said = "the value is empty" if not value.strip() else f"{quoted(value)} is not a citation"
        raise fault(said, f"Write {{source, at, seen, on}}, or the words {COMMON_PRACTICE}.")
    return value


# None stands for "common practice, no source": the page says so in these words.
_Written = Citation | Literal["common practice"]


Backing = Annotated[
    Shared[Citation] | None, BeforeValidator(_backing, json_schema_input_type=_Written)
]


class Review(Record):
    """A review stamp. Nobody but a named person's hand moves it from draft.

    state: draft until `isofolio review` writes something else.
    by: who checked it: a role or initials.
    second: who checked it again: another person.
    on: the day of the check.
    due: the day by which it is to be checked again.
    covers: the digest of what was checked; the program writes it.
    """

    state: Annotated[str, one_of(REVIEW_STATES)]
    by: Text | None = None
    second: Text | None = None
    on: Date | None = None
    due: Date | None = None
    covers: Digest | None = None

    @model_validator(mode="after")
    def _is_whole(self) -> Self:
        needed = {"draft": (), "checked": ("by", "on", "due", "covers")}.get(
            self.state, ("by", "second", "on", "due", "covers")
        )
        missing = [name for name in needed if getattr(self, name) is None]
        if missing:
            raise fault(
                f"a {self.state} stamp without {', '.join(missing)}",
                "Let `isofolio review` write the stamp, or set state: draft.",
            )
        if self.by and self.second and _person(self.second) == _person(self.by):
            fix = "Let another person check it too."
            raise fault("the second reviewer is the first", fix, "second")
        if self.on and self.due and self.due <= self.on:
            raise fault("it is due before it was checked", "Write a later day.", "due")
        return self


def _person(name: str) -> str:
    """A name as it counts: no capitals, points or spaces, so that "A. B." is "a b"."""
    return "".join(letter for letter in name.casefold() if letter.isalnum())


class Note(Record):
    """A sentence and what backs it.

    text: one or two sentences.
    cite: what backs it: a citation, or the words common practice.
    """

    text: Text
    cite: Backing


class Entry(Record):
    """What every entry with a page of its own has.

    id: the file name without .yml; it never changes and is never used again.
    name: the title or heading, as it is printed.
    """

    id: Identifier
    name: Title
