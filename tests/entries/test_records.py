"""The shape of entries: what must be there together, and what must not."""

import re
from pathlib import Path

import pytest
from pydantic import ValidationError

from isofolio.entries import records
from isofolio.entries.files import FOLDERS, LISTS
from isofolio.entries.fluids import Fluid
from isofolio.entries.records import Citation, Review
from isofolio.entries.substances import Osmosis, Substance

README = Path(__file__).parents[2] / "catalogue" / "README.md"
STAMP = {"by": "A", "on": "2026-11-25", "due": "2027-11-25", "covers": "0123456789ab"}


def fault(kind, **fields):
    with pytest.raises(ValidationError) as caught:
        kind.model_validate(fields)
    return [error.get("ctx", {}).get("message") for error in caught.value.errors()]


@pytest.mark.parametrize("kind", [*FOLDERS.values(), *(kind for kind, _ in LISTS.values())])
def test_every_record_has_a_schema_for_editors(kind):
    schema = kind.model_json_schema()
    assert schema["additionalProperties"] is False
    assert schema["properties"]


@pytest.mark.parametrize("kind", [*FOLDERS.values(), *(kind for kind, _ in LISTS.values())])
def test_no_record_has_a_bare_number_or_truth_value(kind):
    """Pydantic's own types read 1e3, Infinity and y."""
    bare = {float, int, bool, float | None, int | None, bool | None}
    models = [kind]
    for model in models:
        for name, field in model.model_fields.items():
            validated = any("Validator" in type(m).__name__ for m in field.metadata)
            assert validated or field.annotation not in bare, f"{model.__name__}.{name}"
            models += [m for m in nested(field.annotation) if m not in models]


def nested(annotation):
    if isinstance(annotation, type) and issubclass(annotation, records.Record):
        return [annotation]
    return [m for inner in getattr(annotation, "__args__", ()) for m in nested(inner)]


def test_records_cannot_be_changed():
    citation = Citation(at="a", seen="arithmetic", on="2026-11-25")
    with pytest.raises(ValidationError):
        citation.at = "b"


@pytest.mark.parametrize("seen", ["read", "copy"])
def test_a_citation_names_its_source(seen):
    assert fault(Citation, at="a", seen=seen, on="2026-11-25") == ["the citation names no source"]
    assert Citation(source="b", at="a", seen=seen, on="2026-11-25").source.kind == "sources"


def test_arithmetic_may_stand_without_a_source():
    assert Citation(at="a", seen="arithmetic", on="2026-11-25").source is None


def test_common_practice_is_no_citation():
    assert records.Note(text="a", cite="common practice").cite is None


@pytest.mark.parametrize("missing", ["by", "on", "due", "covers"])
def test_a_checked_stamp_is_whole(missing):
    assert Review(state="checked", **STAMP).state == "checked"
    fields = {name: value for name, value in STAMP.items() if name != missing}
    assert fault(Review, state="checked", **fields) == [f"a checked stamp without {missing}"]


def test_a_double_check_takes_another_person():
    assert Review(state="double-checked", second="B", **STAMP).second == "B"
    assert fault(Review, state="double-checked", **STAMP) == [
        "a double-checked stamp without second"
    ]
    for second in ("A", "a", " A "):
        assert fault(Review, state="double-checked", second=second, **STAMP) == [
            "the second reviewer is the first"
        ]


def test_a_draft_needs_nothing():
    assert Review(state="draft").by is None


@pytest.mark.parametrize(
    "fields",
    [
        {"b0": "1", "b1": "1", "c": "1"},
        {"b0": "1", "b1": "1", "b2": "1", "c": "1"},
        {"like": "a"},
        {"slope": "1"},
        {"ratio": "1"},
    ],
)
def test_osmosis_is_estimated_in_one_way(fields):
    assert Osmosis(cite="common practice", **fields)


@pytest.mark.parametrize(
    "fields",
    [
        {},
        {"b0": "1"},
        {"b1": "1", "c": "1"},
        {"b0": "1", "b1": "1"},
        {"slope": "1", "ratio": "1"},
        {"like": "a", "b2": "1"},
        {"b0": "1", "b1": "1", "c": "1", "like": "a"},
    ],
)
def test_osmosis_in_no_or_two_ways_is_refused(fields):
    assert fault(Osmosis, cite="common practice", **fields) == [
        "no single and whole way to estimate it is given"
    ]


@pytest.mark.parametrize("formula", ["NaCl", "CaCl2(H2O)2", "C6H12O6(H2O)", "(NH4)2SO4", "H2O"])
def test_formulas_that_are_read(formula):
    made = Substance(id="a", name="b", formula=formula, hydrate="anhydrous")
    assert made.formula == formula


@pytest.mark.parametrize(
    "formula",
    [
        "CaCl2.2H2O",
        "CaCl2·2H2O",
        "Na+",
        "nacl",
        "Na Cl",
        "Ca(OH",
        "Ca()",
        "Ca((H2O))",
        "2H2O",
        "H٢O",
    ],
)
def test_formulas_outside_the_grammar(formula):
    messages = fault(Substance, id="a", name="b", formula=formula, hydrate="anhydrous")
    assert messages == [f'"{formula}" is not a formula']


def template_of_a_fluid():
    text = README.read_text(encoding="utf-8")
    return text.split("## A fluid, line by line")[1].split("```")[1]


def test_the_readme_names_every_key_of_a_fluid():
    keys = set(re.findall(r"^#? ?([a-z_]+):", template_of_a_fluid(), re.MULTILINE))
    assert set(Fluid.model_fields) <= keys


@pytest.mark.parametrize("field", ["role", "status", "jurisdiction"])
def test_the_readme_lists_the_words_of_a_field(field):
    (line,) = re.findall(rf"^{field}:.*$", template_of_a_fluid(), re.MULTILINE)
    words = re.findall(r"'enum': \[([^\]]*)\]", str(Fluid.model_json_schema()["properties"][field]))
    for word in words[0].replace("'", "").split(", "):
        assert word in line
