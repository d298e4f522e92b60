"""Writing a review stamp into an entry: its own bytes change, no other.

A stamp is a person's word. The program only writes down what it is told, and what that covers.
"""

import json
from collections.abc import Mapping
from typing import Any

import yaml
from pydantic import ValidationError

from isofolio.entries.characters import BYTE_ORDER_MARK
from isofolio.entries.ordering import end_of
from isofolio.entries.reading import Catalogue
from isofolio.entries.records import Entry, Review
from isofolio.entries.stamps import digest
from isofolio.entries.tree import read_tree
from isofolio.review.reviews import stamped_kinds

_KEY = "review"


class StampError(Exception):
    """The stamp was not written; the message says why and what to do."""


def entry_to_stamp(catalogue: Catalogue, name: str) -> tuple[str, Entry]:
    """The file and the entry of an id, or of kind/id where two kinds share one. Raises StampError.

    >>> entry_to_stamp(Catalogue(), "nothing")
    Traceback (most recent call last):
    isofolio.review.stamping.StampError: No entry that is reviewed has the id "nothing". An id ...
    """
    kind, _, identifier = name.rpartition("/")
    found = {
        f"{folder}/{identifier}.yml": getattr(catalogue, folder)[identifier]
        for folder in stamped_kinds()
        if kind in {"", folder} and identifier in getattr(catalogue, folder)
    }
    if len(found) == 1:
        return next(iter(found.items()))
    if found:
        named = " or ".join(file.removesuffix(".yml") for file in found)
        raise StampError(f"More than one entry has this id. Name it as {named}.")
    kinds = ", ".join(stamped_kinds())
    message = f'No entry that is reviewed has the id "{name}". An id is the name of a file'
    raise StampError(f"{message} in one of {kinds}, without .yml.")


def new_stamp(record: Entry, told: Mapping[str, str]) -> Review:
    """The stamp that a person gives an entry as it is now. Raises StampError.

    told: state, by, second, on, due, as far as they are given.
    """
    if told["state"] == "draft" and len(told) > 1:
        raise StampError("A draft names nobody and no date. Leave out the other options.")
    covers = {} if told["state"] == "draft" else {"covers": digest(record)}
    try:
        return Review.model_validate({**told, **covers})
    except ValidationError as error:
        context = error.errors()[0]["ctx"]
        raise StampError(f"{context['message']}. {context['fix']}") from None


def with_stamp(raw: bytes, stamp: Review) -> bytes:
    """The bytes of a sound entry with another stamp; every other byte stays. Raises StampError."""
    mark = BYTE_ORDER_MARK if raw.startswith(BYTE_ORDER_MARK) else b""
    text = raw.removeprefix(mark).decode()
    start, stop = _span(text)
    written = stamp_text(stamp)
    if start == stop:
        line_end = "\r\n" if "\r\n" in text else "\n"
        between = "" if text.endswith(("\n", "\r")) else line_end
        written = f"{between}{_KEY}: {written}{line_end}"
    whole = mark + (text[:start] + written + text[stop:]).encode()
    problems = read_tree(whole, "the stamp").problems
    if problems:
        raise StampError(f"{problems[0].message}. {problems[0].fix}")
    return whole


def _span(text: str) -> tuple[int, int]:
    """Where the stamp stands; twice the end of the text where there is none."""
    root: Any = yaml.compose(text, Loader=yaml.CSafeLoader)
    for key, value in root.value:
        if key.value == _KEY:
            return value.start_mark.index, end_of(value)
    return len(text), len(text)


def stamp_text(stamp: Review) -> str:
    """A stamp as it stands in an entry; what a person typed is in quotes."""
    typed = {"by", "second", "covers"}
    given = {name: getattr(stamp, name) for name in Review.model_fields}
    parts = (
        f"{name}: {json.dumps(value, ensure_ascii=False) if name in typed else value}"
        for name, value in given.items()
        if value is not None
    )
    return "{" + ", ".join(parts) + "}"
