"""The JSON Schema of the exported document, generated from its shape."""

from typing import Any

from pydantic import TypeAdapter

from isofolio.exports.json_text import strict_json
from isofolio.exports.shape import Document
from isofolio.handbook import Handbook
from isofolio.vocabulary.exports import SCHEMA

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def schema_export(_: Handbook) -> str:
    """The schema as JSON text: the same for every catalogue, so the handbook says nothing here."""
    return strict_json(document_schema())


def document_schema() -> dict[str, Any]:
    """The schema (draft 2020-12) that every export of this version of the document fits.

    Further keys are allowed, as the policy says: what is added later breaks no reader.
    """
    made = TypeAdapter(Document).json_schema()
    return {"$schema": DRAFT, **made, "title": f"Isofolio handbook, schema {SCHEMA}"}
