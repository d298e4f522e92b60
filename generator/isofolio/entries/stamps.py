"""Review stamps: what a signature covers, and whether it still does."""

import hashlib
import json
from typing import Any

from pydantic import BaseModel

from isofolio.entries.records import Fluid
from isofolio.entries.scalars import Amount

# What a second person checked. Names and the stamp itself are not among them: a new ward word
# takes no signature away.
CLINICAL_FIELDS = (
    "contents",
    "complete",
    "variants",
    "declared",
    "containers",
    "status",
    "role",
    "giving",
    "diluent",
    "route",
    "with_blood",
)
DIGEST_LENGTH = 12


def digest(record: Fluid) -> str:
    """First 12 hex digits of SHA-256 over the clinical fields of a fluid in canonical JSON.

    Amounts count by their text ("0.90" is not "0.9"). Fields without a value are left out, so
    that a field which the program learns later changes no digest of an entry that lacks it.
    """
    fields = {name: _canonical(getattr(record, name)) for name in CLINICAL_FIELDS}
    text = json.dumps(
        {name: value for name, value in fields.items() if value is not None},
        sort_keys=True,
        ensure_ascii=False,
        separators=(",", ":"),
    )
    return hashlib.sha256(text.encode()).hexdigest()[:DIGEST_LENGTH]


def _canonical(value: Any) -> Any:
    """A value as JSON holds it: records as mappings, amounts as their text."""
    if isinstance(value, Amount):
        return value.text
    if isinstance(value, BaseModel):
        named = {name: getattr(value, name) for name in type(value).model_fields}
        return {name: _canonical(item) for name, item in named.items() if item is not None}
    if isinstance(value, dict):
        return {str(key): _canonical(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_canonical(item) for item in value]
    return value


def state(fluid: Fluid) -> str:
    """The state of a fluid's stamp: draft as soon as the stamp covers something else."""
    stamp = fluid.review
    return str(stamp.state) if stamp.covers == digest(fluid) else "draft"
