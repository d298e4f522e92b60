"""The JSON-LD graph: only words that schema.org defines, only addresses that stand in the site.

Source of the lists: schema.org, its vocabulary of these types and of the types above them, seen on
2026-11-25 in a general library that is generated from it; the pages themselves were not read. JSON-LD 1.1 (W3C
recommendation, 2020): @vocab, @graph, relative addresses resolved against the file. From memory.
"""

import json

import pytest

from isofolio.exports.linked_data import LICENCE, linked_data_export
from isofolio.vocabulary.purpose import PURPOSE

THING = {"name", "alternateName", "description", "identifier", "url"}
# What schema.org defines of the properties that we use, by type and the types above it.
WORK = {"version", "dateModified", "datePublished", "creativeWorkStatus", "inLanguage", "license"}
WORK |= THING | {"about", "citation", "creditText", "publisher"}
MEDICAL = THING | {"code", "activeIngredient"}  # MedicalEntity, Substance
DEFINED = {
    "Dataset": WORK,
    "CreativeWork": WORK,
    "Drug": MEDICAL
    | {"nonProprietaryName", "isProprietary", "administrationRoute", "availableStrength"},
    "Substance": MEDICAL,
    "DrugStrength": MEDICAL | {"strengthValue", "strengthUnit"},
    "MedicalCode": THING | {"codeValue", "codingSystem"},
    "MolecularEntity": THING | {"molecularFormula", "inChIKey"},
    "PropertyValue": THING | {"propertyID", "value"},
    "Organization": THING,
}


@pytest.fixture(scope="module")
def text(handbook):
    return linked_data_export(handbook)


@pytest.fixture(scope="module")
def nodes(text):
    return json.loads(text)["@graph"]


def inner(node):
    """The node itself and every node in it."""
    if isinstance(node, list):
        for item in node:
            yield from inner(item)
    elif isinstance(node, dict):
        yield node
        for item in node.values():
            yield from inner(item)


def test_only_properties_that_the_type_has(nodes):
    seen = set()
    for node in inner(nodes):
        if set(node) == {"@id"}:
            continue  # a reference
        kind = node["@type"]
        assert set(node) - {"@id", "@type"} <= DEFINED[kind]
        seen.add(kind)
    assert seen == set(DEFINED)


def test_the_vocabulary_is_named_and_not_fetched(text):
    assert json.loads(text)["@context"] == {"@vocab": "https://schema.org/"}


def test_every_fluid_substance_and_cited_source_once(handbook, nodes):
    ids = [node["@id"] for node in nodes]
    assert len(ids) == len(set(ids))
    kinds = [node["@type"] for node in nodes]
    assert kinds.count("Drug") == len(handbook.fluids)
    weighed = kinds.count("MolecularEntity") + kinds.count("Substance")
    assert weighed == len(handbook.catalogue.substances)


def test_every_reference_inside_the_file_finds_its_node(nodes):
    known = {node["@id"] for node in nodes}
    references = {node["@id"] for node in inner(nodes) if set(node) == {"@id"}}
    inside = {address for address in references if not address.startswith("https://")}
    assert inside <= known
    assert len(inside) > 68


def test_strengths_are_the_grams_of_the_handbook(handbook, nodes):
    drugs = {node["name"]: node for node in nodes if node["@type"] == "Drug"}
    checked = 0
    for fluid in handbook.fluids:
        told = [
            (strength["activeIngredient"], strength["strengthValue"])
            for strength in drugs[fluid.name].get("availableStrength", ())
            if strength["strengthUnit"] == "g/L"
        ]
        weighed = handbook.solution(fluid.id).masses.items()
        names = handbook.catalogue.substances
        known = {(names[name].name, mass) for name, mass in weighed if mass is not None}
        assert len(told) == len(known)
        for name, figure in told:
            assert figure == pytest.approx(dict(known)[name], rel=1e-11)
            checked += 1
    assert checked > 100


def test_what_is_no_number_has_no_strength(nodes):
    albumin = next(node for node in nodes if node["name"] == "Human albumin 5 %")
    assert {s["activeIngredient"] for s in albumin["availableStrength"]} == {"Human albumin"}
    assert "sodium" in albumin["activeIngredient"]


def test_codes_where_the_entry_has_them(handbook, nodes):
    drugs = {node["name"]: node for node in nodes if node["@type"] == "Drug"}
    for fluid in handbook.fluids:
        code = drugs[fluid.name].get("code")
        assert (code and code["codeValue"]) == (fluid.atc and fluid.atc.code)
    told = {node["name"]: node.get("inChIKey") for node in nodes}
    for substance in handbook.catalogue.substances.values():
        codes = substance.identifiers
        assert told[substance.name] == (codes and codes.inchikey)


def test_it_says_what_it_is(handbook, nodes):
    about = nodes[0]
    assert about["@type"] == "Dataset"
    assert about["description"] == PURPOSE
    assert about["license"] == {"@id": LICENCE}
    assert handbook.digest in about["version"]
    assert about["dateModified"] == handbook.date
    assert about["creativeWorkStatus"] == "Draft"


def test_a_concentrate_has_no_route_and_a_misspelling_is_no_name(handbook, nodes):
    drugs = {node["name"]: node for node in nodes if node["@type"] == "Drug"}
    for fluid in handbook.fluids:
        assert ("administrationRoute" in drugs[fluid.name]) == (
            fluid.role in ("ready", "colloid", "blood-product")
        )
        wrong = {other.name for other in fluid.also_known_as if other.kind == "misspelling"}
        assert not wrong & set(drugs[fluid.name].get("alternateName", ()))


def test_the_same_bytes(handbook, text):
    assert linked_data_export(handbook) == text
