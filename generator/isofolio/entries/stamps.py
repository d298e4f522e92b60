"""Review stamps: what a signature covers, and whether it still does."""

import hashlib
import json
from collections.abc import Iterable
from typing import Any

from pydantic import BaseModel

from isofolio.entries.fluids import Fluid
from isofolio.entries.records import Entry, Review
from isofolio.entries.scalars import Amount

# What is checked of a fluid. Names and the stamp itself are not among them: a new ward word takes
# no signature away. Of any other entry everything is checked but its id and its stamp.
CLINICAL_FIELDS = (
    "contents",
    "complete",
    "variants",
    "declared",
    "containers",
    "status",
    "status_note",
    "replaced_by",
    "role",
    "giving",
    "diluent",
    "route",
    "with_blood",
)
DIGEST_LENGTH = 12


def digest(record: Entry) -> str:
    """First 12 hex digits of SHA-256 over what is checked of an entry, in canonical JSON.

    Amounts count by their text ("0.90" is not "0.9"). What says no more than its absence is left
    out, so that a key which the program learns later changes no digest of an entry that lacks it.
    """
    text = json.dumps(
        _mapping(record, _checked_fields(record)),
        sort_keys=True,
        ensure_ascii=False,
        separators=(",", ":"),
    )
    return hashlib.sha256(text.encode()).hexdigest()[:DIGEST_LENGTH]


def _checked_fields(record: Entry) -> tuple[str, ...]:
    if isinstance(record, Fluid):
        return CLINICAL_FIELDS
    return tuple(name for name in type(record).model_fields if name not in {"id", "review"})


def _mapping(record: BaseModel, names: Iterable[str]) -> dict[str, Any]:
    fields = type(record).model_fields
    values = {name: getattr(record, name) for name in names}
    said = {name: v for name, v in values.items() if v is not None and v != fields[name].default}
    return {name: _canonical(value) for name, value in said.items()}


def _canonical(value: Any) -> Any:
    """A value as JSON holds it: records as mappings, amounts as their text."""
    if isinstance(value, Amount):
        return value.text
    if isinstance(value, BaseModel):
        return _mapping(value, type(value).model_fields)
    if isinstance(value, dict):
        return {str(key): _canonical(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_canonical(item) for item in value]
    return value


def stamp_of(record: Entry) -> Review:
    """The review stamp of an entry; a draft where it has none."""
    return getattr(record, "review", None) or Review(state="draft")


def state(record: Entry) -> str:
    """The state of an entry's stamp: draft as soon as the stamp covers something else."""
    stamp = stamp_of(record)
    return stamp.state if stamp.covers == digest(record) else "draft"
