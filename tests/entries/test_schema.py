"""The schemas for completion: made from the records, as committed, and true of every file.

The outside judge is the public `jsonschema` library (draft 2020-12). Files are read as an editor
reads them: by the core schema of YAML 1.2.2 (section 10.3.2 of the YAML specification), in which
`yes` and a date are text and a plain figure is a number.
"""

import json
import re
from pathlib import Path
from typing import get_args

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as some
from jsonschema import Draft202012Validator
from pydantic_core import PydanticCustomError

from isofolio.entries import scalars
from isofolio.entries.files import FOLDERS, LISTS
from isofolio.entries.reading import read_catalogue
from isofolio.entries.schema import field_notes, modeline, schema_file, schemas
from isofolio.vocabulary.quantities import DECLARABLE
from isofolio.vocabulary.units import UNITS

CATALOGUE = Path(__file__).parents[2] / "catalogue"
SCHEMAS = {name: json.loads(text) for name, text in schemas()}
VALIDATORS = {name: Draft202012Validator(schema) for name, schema in SCHEMAS.items()}


class CoreLoader(yaml.CSafeLoader):
    """YAML 1.2, core schema."""


CoreLoader.yaml_implicit_resolvers = {}
for tag, pattern, first in (
    ("null", r"null|Null|NULL|~|", ["n", "N", "~", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", list("tTfF")),
    ("int", r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+", list("-+0123456789")),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", list("-+.0123456789")),
):
    CoreLoader.add_implicit_resolver(
        f"tag:yaml.org,2002:{tag}", re.compile(rf"^({pattern})$"), first
    )


def faults(name, text):
    return [error.message for error in VALIDATORS[name].iter_errors(yaml.load(text, CoreLoader))]


def files():
    return sorted(CATALOGUE.rglob("*.yml"))


def records():
    """Every record that an entry is made of."""
    seen, waiting = set(), [*FOLDERS.values(), *(record for record, _ in LISTS.values())]
    while waiting:
        record = waiting.pop()
        if record not in seen:
            seen.add(record)
            waiting += [inner for f in record.model_fields.values() for inner in _in(f.annotation)]
    return sorted(seen, key=lambda record: record.__name__)


def _in(annotation):
    if isinstance(annotation, type) and hasattr(annotation, "model_fields"):
        return [annotation]
    return [found for inner in get_args(annotation) for found in _in(inner)]


def test_what_is_committed_is_what_the_records_say():
    committed = {path.name: path.read_text("utf-8") for path in (CATALOGUE / "schemas").iterdir()}
    assert committed == dict(schemas()), "run  isofolio schema"


@pytest.mark.parametrize("name", SCHEMAS)
def test_each_is_a_sound_schema(name):
    Draft202012Validator.check_schema(SCHEMAS[name])
    assert SCHEMAS[name]["$schema"].endswith("2020-12/schema")


def test_every_file_of_the_catalogue_is_true_to_its_schema():
    found = {}
    for path in files():
        file = path.relative_to(CATALOGUE).as_posix()
        wrong = faults(schema_file(file), path.read_text(encoding="utf-8"))
        found |= {file: wrong} if wrong else {}
    assert found == {}
    assert len(files()) > 800


@pytest.mark.parametrize("record", records(), ids=lambda record: record.__name__)
def test_every_field_is_described(record):
    notes = field_notes(record)
    assert list(record.model_fields) == [name for name in record.model_fields if name in notes]
    assert all(re.fullmatch(r"\S+ \S.*\.", note) for note in notes.values())
    unknown = re.findall(r"^    (\w+): ", record.__doc__, re.MULTILINE)
    assert set(unknown) <= set(record.model_fields), "the docstring speaks of a field that is none"


def test_no_schema_offers_null_or_a_default():
    text = json.dumps(list(SCHEMAS.values()))
    assert '"null"' not in text
    assert '"default"' not in text


@pytest.mark.parametrize(
    ("file", "old", "new", "said"),
    [
        ("fluids/glucose-5.yml", "role: ready", "role: readi", "'readi' is not one of"),
        ("fluids/glucose-5.yml", "role: ready", "rolle: ready", "'rolle'"),
        ("fluids/glucose-5.yml", "role: ready\n", "", "'role' is a required property"),
        ("fluids/glucose-5.yml", "50.0 g/L", "50.0 g/l", "'50.0 g/l' does not match"),
        ("fluids/glucose-5.yml", "50.0 g/L", "-50.0 g/L", "'-50.0 g/L' does not match"),
        ("fluids/glucose-5.yml", "osmolality: 300", "osmolalty: 300", "'osmolalty' is not one of"),
        ("fluids/glucose-5.yml", "[routine-maintenance,", "[Routine,", "'Routine' does not match"),
        ("fluids/glucose-5.yml", "containers_cite: common practice", "containers_cite: me", "'me'"),
        ("particles.yml", "strong: yes", "strong: perhaps", "'perhaps' is not one of"),
        ("particles.yml", "charge: 2", "charge: two", "'two'"),
    ],
)
def test_a_slip_is_seen_while_one_types(file, old, new, said):
    text = (CATALOGUE / file).read_text(encoding="utf-8")
    assert old in text
    wrong = faults(schema_file(file), text.replace(old, new, 1))
    assert any(said in message for message in wrong), wrong


AMOUNTS = some.builds(
    "{}{}{}{}".format,
    some.sampled_from(["", "", "", "at most ", "at least ", "-", "0"]),
    some.sampled_from(["50", "0.90", "7", ".5", "5.", "1e3", "1,5", "trace", "not declared"]),
    some.sampled_from(["", "", " to 60", " to -1", "-60", " - 60"]),
    some.sampled_from(["", *(f" {unit}" for unit in UNITS[:9]), "g/L", " % w/v", " %", " µmol/L"])
    | some.sampled_from([" mmol per 500 mL", " mmol per 0 mL", " g/L per 500 mL"]),
)


@given(AMOUNTS)
def test_the_pattern_of_an_amount_lets_through_what_is_read(text):
    """The schema and the reader agree on every amount that does not run downwards."""
    pattern = SCHEMAS["fluids.json"]["$defs"]["Declared"]["properties"]["values"]["allOf"][0]
    matched = re.search(pattern["additionalProperties"]["pattern"], text) is not None
    try:
        scalars.parse_amount(text)
        read = True
    except PydanticCustomError as error:
        read = "runs downwards" in error.message()
    assert matched == read


def test_printed_quantities_are_offered_one_by_one():
    values = SCHEMAS["fluids.json"]["$defs"]["Declared"]["properties"]["values"]
    assert list(values["properties"]) == list(DECLARABLE)
    assert values["properties"]["osmolarity"]["description"] == "osmolarity in the bag [mOsm/L]"


def test_the_folder_of_schemas_is_no_part_of_the_catalogue(catalogue):
    before = read_catalogue(catalogue)
    (catalogue / "schemas").mkdir()
    (catalogue / "schemas" / "fluids.json").write_text("{}", encoding="utf-8")
    after = read_catalogue(catalogue)
    assert after.problems == before.problems == ()
    assert after.digest == before.digest


def test_a_modeline_leads_to_a_schema_that_is_there():
    for path in files():
        line = modeline(path.relative_to(CATALOGUE).as_posix())
        address = line.partition("$schema=")[2]
        assert (path.parent / address).resolve().is_file()
