"""JSON Schema of every kind of entry, made from the records, for the completion of an editor.

The schema is looser than `isofolio check`: it knows keys, closed lists and the form of a value,
not what an entry means. Nothing here is written by hand that a record could say.
"""

import json
import re
from collections.abc import Iterator, Mapping
from inspect import cleandoc
from pathlib import PurePosixPath
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema

from isofolio.entries.files import FOLDERS, LISTS
from isofolio.vocabulary.quantities import DECLARABLE

SCHEMAS = "schemas"
_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_MADE = "Made by `isofolio schema` from generator/isofolio/entries: do not edit."


def schemas() -> Iterator[tuple[str, str]]:
    """Every schema: the file in schemas/, named for the folder or list that it describes; its text.

    The same records give the same bytes.
    """
    for folder, record in FOLDERS.items():
        yield schema_file(f"{folder}/"), schema_text(record)
    for file, (record, _) in LISTS.items():
        yield schema_file(file), schema_text(record)


def schema_file(file: str) -> str:
    """The schema that describes a file of the catalogue.

    >>> schema_file("fluids/glucose-5.yml"), schema_file("limits.yml")
    ('fluids.json', 'limits.json')
    """
    return PurePosixPath(file.partition("/")[0]).with_suffix(".json").name


def modeline(file: str) -> str:
    """The comment by which an editor finds the schema of a file.

    >>> modeline("fluids/glucose-5.yml")
    '# yaml-language-server: $schema=../schemas/fluids.json'
    """
    up = "../" if "/" in file else ""
    return f"# yaml-language-server: $schema={up}{SCHEMAS}/{schema_file(file)}"


def schema_text(record: type[BaseModel]) -> str:
    """The schema of one kind of entry."""
    made = record.model_json_schema(schema_generator=_Schema)
    whole = {"$schema": _DIALECT, "$comment": _MADE, **made}
    return json.dumps(whole, indent=2, ensure_ascii=False) + "\n"


def field_notes(record: type[BaseModel]) -> dict[str, str]:
    """What the docstring of a record and those it is made from say of each field."""
    notes: dict[str, str] = {}
    for kind in reversed(record.__mro__):
        if issubclass(kind, BaseModel):
            notes |= _notes(cleandoc(kind.__doc__ or ""), kind.model_fields)
    return notes


def _notes(text: str, fields: Mapping[str, Any]) -> dict[str, str]:
    """The lines `field: what it is`, each with the indented lines that carry it on."""
    found = re.findall(r"^(\w+): (.+(?:\n  .+)*)", text, re.MULTILINE)
    return {name: re.sub(r"\s+", " ", said) for name, said in found if name in fields}


class _Schema(GenerateJsonSchema):
    """Pydantic's generator, told how these entries are written: no null, no default, no title."""

    def field_title_should_be_set(self, schema: Any) -> bool:
        """The key itself is the title."""
        del schema
        return False

    def nullable_schema(self, schema: Any) -> dict[str, Any]:
        """A key without a value is left out, never null."""
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: Any) -> dict[str, Any]:
        """What a missing key means stands in the description of its field."""
        return self.generate_inner(schema["schema"])

    def model_schema(self, schema: Any) -> dict[str, Any]:
        """A record: its first sentence, and what its docstring says of each field."""
        made = super().model_schema(schema)
        record = schema["cls"]
        made.pop("title", None)
        made["description"] = _sentence(cleandoc(record.__doc__ or "").partition("\n\n")[0])
        notes = field_notes(record)
        for name, field in made["properties"].items():
            made["properties"][name] = _described(field, notes.get(name, ""))
        return made

    def dict_schema(self, schema: Any) -> dict[str, Any]:
        """A mapping whose keys are a closed list is written key by key: completion offers those."""
        made = super().dict_schema(schema)
        names = made.get("propertyNames", {}).get("enum")
        if names is None:
            return made
        keys = {name: {"description": _quantity(name)} for name in names}
        return {"type": "object", "properties": keys, "allOf": [made]}


def _quantity(name: str) -> str:
    """A quantity as completion tells it: its label and the unit that we compare it in."""
    quantity = DECLARABLE[name]
    return f"{quantity.label} [{quantity.unit}]"


def _described(schema: dict[str, Any], note: str) -> dict[str, Any]:
    """A value with what it is, before how it is written."""
    told = [_sentence(note) if note else "", schema.get("description", "")]
    return {**schema, "description": " ".join(text for text in told if text)}


def _sentence(text: str) -> str:
    spoken = re.sub(r"\s+", " ", text).removesuffix(".")
    return f"{spoken[:1].upper()}{spoken[1:]}."
