"""The FHIR bundle: valid, told back as the Handbook's own grams, and silent where nothing is known.

Judged by `fhir.resources` (models of HL7 FHIR R5, release 5.0.0). Code systems are held against
HL7's own pages, read on 2026-11-25: UCUM http://unitsofmeasure.org (external code systems of HL7
Terminology), ATC http://www.whocc.no/atc (its CodeSystem v3-WC), UNII http://fdasis.nlm.nih.gov
("Using UNII with HL7 standards"), trace (CodeSystem medication-ingredientstrength, 5.0.0).
The codes of data-absent-reason are from memory.
"""

import json
import re
import uuid
from decimal import Decimal
from xml.etree import ElementTree

import pytest
from fhir.resources.bundle import Bundle
from pydantic import ValidationError

from isofolio.exports.fhir import address, bundle, fhir_export
from isofolio.vocabulary.purpose import PURPOSE
from isofolio.vocabulary.ucum import ucum_code
from isofolio.vocabulary.units import UNITS

SYSTEMS = {
    "http://unitsofmeasure.org",
    "http://www.whocc.no/atc",
    "http://fdasis.nlm.nih.gov",
    "http://hl7.org/fhir/CodeSystem/medication-ingredientstrength",
}
OUR_CODES = {ucum_code(unit) for unit in UNITS} - {None}


@pytest.fixture(scope="module")
def text(handbook):
    return fhir_export(handbook)


@pytest.fixture(scope="module")
def parsed(text):
    return Bundle.model_validate_json(text)


@pytest.fixture(scope="module")
def resources(parsed):
    return {entry.fullUrl: entry.resource for entry in parsed.entry}


@pytest.fixture(scope="module")
def medications(resources):
    of_kind = [r for r in resources.values() if r.get_resource_type() == "Medication"]
    return {resource.id: resource for resource in of_kind}


def every(node, key):
    """Every value under a key, at any depth."""
    if isinstance(node, dict):
        if key in node:
            yield node[key]
        for item in node.values():
            yield from every(item, key)
    elif isinstance(node, list):
        for item in node:
            yield from every(item, key)


def test_the_bundle_is_valid_and_whole(handbook, parsed, resources, medications):
    assert parsed.type == "collection"
    assert list(medications) == [fluid.id for fluid in handbook.fluids]
    assert len(resources) == len(parsed.entry)  # no address twice
    assert len(resources) == len(handbook.fluids) + len(handbook.catalogue.substances)
    assert handbook.digest in parsed.identifier.value
    assert parsed.meta.tag[0].display == PURPOSE


def test_ids_are_such_as_fhir_allows(resources):
    for resource in resources.values():
        assert re.fullmatch(r"[A-Za-z0-9.-]{1,64}", resource.id)


def test_nothing_is_lost_on_the_way_through_the_models(text, parsed):
    again = json.loads(parsed.model_dump_json(), parse_float=Decimal)
    assert again == json.loads(text, parse_float=Decimal)


SPOILED = [
    (["resource", "status"], ["active"]),
    (["resource", "ingredient", 0, "strengthRatio"], "50 g/L"),
    (["resource", "ingredient", 0, "strengthRatio", "numerator", "value"], "five"),
    (["resource", "ingredient", 0, "strengthQuantity"], {"value": 1}),
    (["resource", "strength"], "5 %"),
]


@pytest.mark.parametrize(("way", "value"), SPOILED)
def test_a_spoiled_bundle_is_refused(handbook_of_one, way, value):
    """The validator can say no: a wrong type, two strengths at once, a key FHIR does not know."""
    contents = [{"substance": "glucose", "amount": "50 g/L"}]
    made = bundle(handbook_of_one(contents=contents))
    node = made["entry"][-1]
    for key in way[:-1]:
        node = node[key]
    Bundle.model_validate(made)
    node[way[-1]] = value
    with pytest.raises(ValidationError):
        Bundle.model_validate(made)


def test_grams_come_back_as_the_handbook_has_them(handbook, resources, medications):
    contents = [content for fluid in handbook.fluids for content in fluid.contents]
    weighable = [c for c in contents if c.substance and c.amount.state == "exact"]
    checked = 0
    for fluid in handbook.fluids:
        masses = handbook.solution(fluid.id).masses
        grams = {}
        for part in medications[fluid.id].ingredient or []:
            if part.item.reference is None or part.strengthRatio is None:
                continue
            weighed = resources[part.item.reference.reference].id
            top, below = part.strengthRatio.numerator, part.strengthRatio.denominator
            assert (top.code, below.code) == ("g", "L")
            grams[weighed] = grams.get(weighed, 0.0) + float(top.value) / float(below.value)
            checked += 1
        known = {name: mass for name, mass in masses.items() if mass is not None}
        assert grams == pytest.approx(known, rel=1e-11), fluid.id
    assert checked == len(weighable) > 100


def test_every_ingredient_is_named(medications):
    """Cardinality 1..1 of Medication.ingredient.item, which the models do not ask for."""
    for resource in medications.values():
        for part in resource.ingredient or []:
            assert (part.item.reference is None) != (part.item.concept is None)


def test_declared_ions_come_back_in_millimoles(handbook, medications):
    checked = 0
    for fluid in handbook.fluids:
        parts = medications[fluid.id].ingredient or []
        for content, part in zip(fluid.contents, parts, strict=True):
            if content.particle is None or part.strengthRatio is None:
                continue
            assert part.strengthRatio.numerator.code == "mmol"
            known = handbook.solution(fluid.id).composition.known[content.particle]
            assert float(part.strengthRatio.numerator.value) == pytest.approx(known, rel=1e-11)
            checked += 1
    assert checked > 15


def test_what_is_no_single_number_is_told_in_words_only(handbook, medications):
    told = 0
    for fluid in handbook.fluids:
        parts = medications[fluid.id].ingredient or []
        for content, part in zip(fluid.contents, parts, strict=True):
            if content.amount.state == "exact":
                assert part.strengthCodeableConcept is None
                continue
            told += 1
            assert part.strengthRatio is None
            assert part.strengthQuantity is None
            assert content.amount.text in part.strengthCodeableConcept.text
            (absent,) = part.strengthCodeableConcept.extension
            expected = "unknown" if content.amount.state == "not declared" else "as-text"
            assert absent.valueCode == expected
            assert absent.url == "http://hl7.org/fhir/StructureDefinition/data-absent-reason"
    assert told >= 6


def test_a_trace_has_a_code_of_its_own(handbook_of_one):
    made = bundle(handbook_of_one(contents=[{"substance": "mannitol", "amount": "trace"}]))
    Bundle.model_validate(made)
    (part,) = made["entry"][-1]["resource"]["ingredient"]
    (coding,) = part["strengthCodeableConcept"]["coding"]
    assert coding["code"] == "trace"
    assert coding["system"] in SYSTEMS


def test_units_are_codes_of_our_table_and_systems_are_registered(text):
    made = json.loads(text)
    quantities = [q for ratio in every(made, "strengthRatio") for q in ratio.values()]
    assert len(quantities) > 250
    for told in quantities:
        assert told["code"] in OUR_CODES
        assert told["system"] == "http://unitsofmeasure.org"
        assert told["value"] >= 0
    assert set(every(made, "system")) <= SYSTEMS


def test_a_code_stands_only_where_the_entry_has_it(handbook, medications, resources):
    for fluid in handbook.fluids:
        coding = medications[fluid.id].code.coding or []
        assert [c.code for c in coding] == ([fluid.atc.code] if fluid.atc else [])
    for resource in resources.values():
        if resource.get_resource_type() != "Substance":
            continue
        codes = handbook.catalogue.substances[resource.id].identifiers
        told = {i.type.text: i.value for i in resource.identifier or []}
        assert told.get("InChIKey") == (codes and codes.inchikey)
        assert told.get("CAS Registry Number") == (codes and codes.cas)
        coding = resource.code.concept.coding or []
        assert [c.code for c in coding] == ([codes.unii] if codes and codes.unii else [])
        assert all(i.system is None for i in resource.identifier or [])


def test_the_status_is_that_of_the_entry(handbook, medications):
    for fluid in handbook.fluids:
        expected = "active" if fluid.status == "current" else "inactive"
        assert medications[fluid.id].status == expected
    starch = medications["hydroxyethyl-starch-6"]
    assert starch.status == "inactive"
    assert "not-for-use" in starch.text.div


def test_the_narrative_is_short_escaped_and_says_draft(resources):
    for resource in resources.values():
        assert resource.text.status == "generated"
        root = ElementTree.fromstring(resource.text.div)
        assert root.tag == "{http://www.w3.org/1999/xhtml}div"
        assert {child.tag.rpartition("}")[2] for child in root.iter()} == {"div", "p"}
        if resource.get_resource_type() == "Medication":
            assert "review: draft" in resource.text.div


def test_a_hostile_name_is_text(handbook_of_one):
    name = '"a" & b'
    made = bundle(handbook_of_one(name=name, contents=[]))
    (resource,) = (e["resource"] for e in made["entry"] if e["resource"]["id"] == "test-fluid")
    assert ElementTree.fromstring(resource["text"]["div"])[0].text == name
    assert resource["code"]["text"] == name
    Bundle.model_validate(made)


@pytest.mark.parametrize(("length", "kept"), [(64, True), (65, False)])
def test_an_id_longer_than_fhir_allows_is_left_to_the_address(handbook_of_one, length, kept):
    """An id has at most 64 characters (FHIR R5, data types, id: from memory; the models do not
    ask for it)."""
    name = "a" * length
    made = bundle(handbook_of_one(id=name, contents=[]))
    Bundle.model_validate(made)
    last = made["entry"][-1]
    assert (last["resource"].get("id") == name) == kept
    assert last["fullUrl"] == address("Medication", name)


def test_the_narrative_names_what_was_weighed(medications):
    assert "<p>Glucose, anhydrous: 50.0 g/L</p>" in medications["glucose-5"].text.div
    assert "does not give the whole composition" in medications["albumin-5"].text.div


def test_addresses_are_names_and_references_find_them(text, resources):
    made = json.loads(text)
    references = list(every(made, "reference"))
    assert {r for r in references if isinstance(r, str)} <= set(resources)
    for place in resources:
        assert uuid.UUID(place.removeprefix("urn:uuid:")).version == 5


def test_no_clock_in_it_and_the_same_bytes(handbook, text):
    made = json.loads(text)
    assert fhir_export(handbook) == text
    assert not list(every(made, "timestamp"))
    assert not list(every(made, "lastUpdated"))
    assert not re.search(r"\d{4}-\d{2}-\d{2}T", text)
