"""The JSON Schema: every export fits it, and a spoiled one does not.

Judged by the public `jsonschema` library, draft 2020-12.
"""

import copy
import json
from pathlib import Path

import jsonschema
import pytest

from isofolio.exports.document import DOCUMENT_PARTS, FLUID_PARTS
from isofolio.exports.json_text import json_export
from isofolio.exports.schema import document_schema, schema_export
from isofolio.exports.shape import Document, Fluid
from isofolio.vocabulary.exports import POLICY, SCHEMA
from isofolio.vocabulary.quantities import QUANTITIES, QUANTITY_BY_ID

README = Path(__file__).parents[2] / "README.md"


def closed(node):
    """The same schema with every further key refused: the shape must name all that is written."""
    if isinstance(node, dict):
        made = {key: closed(item) for key, item in node.items()}
        return made | ({"additionalProperties": False} if "properties" in made else {})
    return [closed(item) for item in node] if isinstance(node, list) else node


@pytest.fixture(scope="module")
def whole(handbook):
    return json.loads(json_export(handbook))


@pytest.fixture(scope="module")
def few(whole):
    """The document with four fluids of different kinds, small enough to spoil many times."""
    kept = ("albumin-5", "glucose-5", "ringer-acetate", "potassium-chloride-15")
    fluids = [fluid for fluid in whole["fluids"] if fluid["id"] in kept]
    assert len(fluids) >= 3
    return {**whole, "fluids": fluids}


@pytest.fixture(scope="module")
def validator():
    return jsonschema.Draft202012Validator(closed(document_schema()))


def test_the_schema_is_one(validator):
    jsonschema.Draft202012Validator.check_schema(document_schema())
    assert json.loads(schema_export(None)) == document_schema()


def test_the_whole_export_fits_and_holds_no_key_that_the_schema_does_not_name(whole, validator):
    assert [error.message for error in validator.iter_errors(whole)] == []


def test_the_shape_names_the_parts_in_their_order():
    assert list(Document.__annotations__) == [key for key, _ in DOCUMENT_PARTS]
    assert list(Fluid.__annotations__) == [key for key, _ in FLUID_PARTS]


def test_every_quantity_is_told_with_unit_and_code():
    fluid = document_schema()["$defs"]["Fluid"]["properties"]
    told = fluid["per_litre"]["properties"]
    assert list(told) == [quantity.id for quantity in QUANTITIES]
    for name, described in told.items():
        assert described["x-unit"] == QUANTITY_BY_ID[name].unit
        assert described["x-unit"] in described["description"]
        assert described["x-ucum"]


def drop(*path):
    def spoil(document):
        *way, last = path
        for key in way:
            document = document[key]
        del document[last]

    return spoil


def put(value, *path):
    def spoil(document):
        *way, last = path
        for key in way:
            document = document[key]
        document[last] = value

    return spoil


FLUID = ("fluids", 0)
SPOILED = {
    "another number": put(SCHEMA + 1, "schema"),
    "no number": drop("schema"),
    "no fluids": drop("fluids"),
    "a quantity gone": drop(*FLUID, "per_litre", "potassium"),
    "a quantity as text": put("5", *FLUID, "per_litre", "potassium"),
    "a quantity renamed": put(1.0, *FLUID, "per_litre", "potasium"),
    "a container without its sodium": drop(*FLUID, "containers", 0, "amounts", "sodium"),
    "an osmolarity of a container": put(1.0, *FLUID, "containers", 0, "amounts", "osmolarity"),
    "a word outside its list": put("probably", *FLUID, "status"),
    "another verdict": put("fine", *FLUID, "audit", 0, "verdict"),
    "a negative mass": put(-50.0, *FLUID, "contents", 0, "g_per_l"),
    "a content of neither kind": put({"g_per_l": 1.0}, *FLUID, "contents", 0),
    "a range with one end": put([130.0], *FLUID, "ranges", "sodium"),
    "a date in another order": put("25-11-2026", *FLUID, "sources", 0, "cited", 0, "on"),
    "a review without a state": drop(*FLUID, "review", "state"),
    "fluids by id": put({}, "fluids"),
}


@pytest.mark.parametrize("spoil", SPOILED.values(), ids=SPOILED)
def test_a_spoiled_export_does_not_fit(few, validator, spoil):
    assert not list(validator.iter_errors(few))
    document = copy.deepcopy(few)
    spoil(document)
    assert list(validator.iter_errors(document))


def test_what_is_added_later_breaks_no_reader(few):
    """The policy's promise: the published schema lets further keys pass."""
    document = copy.deepcopy(few)
    document["made_with_care"] = True
    document["fluids"][0]["per_litre"]["zinc"] = 0.1
    document["fluids"][0]["smell"] = None
    jsonschema.Draft202012Validator(document_schema()).validate(document)


def test_the_policy_is_told_where_readers_look():
    readme = " ".join(README.read_text(encoding="utf-8").split())
    for sentence in POLICY:
        assert sentence in document_schema()["properties"]["schema"]["description"]
        assert sentence in readme
