"""What writes each form of the data: one line a form of `vocabulary.exports`."""

from collections.abc import Callable, Iterator

from isofolio.exports.csv_text import csv_pieces
from isofolio.exports.fhir import fhir_pieces
from isofolio.exports.json_text import json_pieces
from isofolio.exports.linked_data import linked_data_pieces
from isofolio.exports.schema import schema_export
from isofolio.exports.workbook import workbook_export
from isofolio.handbook import Handbook

WRITERS: dict[str, Callable[[Handbook], str | bytes | Iterator[str]]] = {
    "json": json_pieces,
    "schema": schema_export,
    "csv": csv_pieces,
    "xlsx": workbook_export,
    "fhir": fhir_pieces,
    "linked-data": linked_data_pieces,
}


def export_bytes(handbook: Handbook, word: str) -> bytes:
    """The handbook in one form, as the bytes of a file; text is UTF-8."""
    made = WRITERS[word](handbook)
    if isinstance(made, bytes):
        return made
    return "".join(made).encode("utf-8")
