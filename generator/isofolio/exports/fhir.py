"""The handbook as an HL7 FHIR R5 bundle: a Substance for what is weighed, a Medication a fluid.

Code systems are those that HL7 registers; an identifier without a registered system carries its
kind in words. What is no single number is told in words and never as one. No clock: the bundle has
no timestamp, and addresses are made of ids.
"""

import html
import uuid
from collections.abc import Iterator

from isofolio.entries.fluids import Content, Fluid
from isofolio.entries.reading import Catalogue
from isofolio.entries.substances import Identifiers, Substance
from isofolio.exports import document, parts
from isofolio.exports.document import built_from
from isofolio.exports.figures import exported
from isofolio.exports.json_text import pieces_of
from isofolio.exports.parts import Plain
from isofolio.handbook import Handbook
from isofolio.vocabulary.purpose import PURPOSE
from isofolio.vocabulary.ucum import ucum_code

UCUM = "http://unitsofmeasure.org"
ATC = "http://www.whocc.no/atc"
UNII = "http://fdasis.nlm.nih.gov"
STRENGTHS = "http://hl7.org/fhir/CodeSystem/medication-ingredientstrength"
ABSENT = "http://hl7.org/fhir/StructureDefinition/data-absent-reason"
XHTML = "http://www.w3.org/1999/xhtml"

LONGEST_ID = 64

# A fluid that is retired or not for use is a true record of something that is not to be used.
STATUS_OF = {"current": "active", "retired": "inactive", "not-for-use": "inactive"}


def fhir_export(handbook: Handbook) -> str:
    """The bundle as JSON text; the same catalogue and program give the same bytes."""
    return "".join(fhir_pieces(handbook))


def fhir_pieces(handbook: Handbook) -> Iterator[str]:
    """The same text in pieces, so that the bundle of thousands is never held whole."""
    return pieces_of({**_head(handbook), "entry": _entries(handbook)}.items())


def bundle(handbook: Handbook) -> Plain:
    """Every substance, then every fluid, each at an address made of its id."""
    return {**_head(handbook), "entry": list(_entries(handbook))}


def _head(handbook: Handbook) -> Plain:
    return {
        "resourceType": "Bundle",
        "meta": {"tag": [{"display": PURPOSE}]},
        "language": "en",
        "identifier": {"value": built_from(handbook)},
        "type": "collection",
    }


def _entries(handbook: Handbook) -> Iterator[Plain]:
    for entry in handbook.catalogue.substances.values():
        yield {"fullUrl": address("Substance", entry.id), "resource": substance(entry)}
    for fluid in handbook.fluids:
        yield {"fullUrl": address("Medication", fluid.id), "resource": medication(handbook, fluid)}


def address(kind: str, identifier: str) -> str:
    """Where a resource stands in the bundle: a name-based UUID (RFC 9562, version 5).

    >>> address("Substance", "glucose")
    'urn:uuid:5f982406-c15a-51fc-b344-59ec891de585'
    """
    return f"urn:uuid:{uuid.uuid5(uuid.NAMESPACE_OID, f'isofolio/{kind}/{identifier}')}"


def _id(identifier: str) -> Plain:
    """The id of a resource; one that is longer than FHIR allows is left to the address."""
    return {"id": identifier} if len(identifier) <= LONGEST_ID else {}


def substance(entry: Substance) -> Plain:
    """What is weighed, with its codes where they are known."""
    codes = entry.identifiers or Identifiers()
    concept: Plain = {"text": entry.name}
    if codes.unii:
        concept = {"coding": [{"system": UNII, "code": codes.unii}], **concept}
    told = (("InChIKey", codes.inchikey), ("CAS Registry Number", codes.cas))
    identifiers = [{"type": {"text": kind}, "value": value} for kind, value in told if value]
    formula = f": {entry.formula}" if entry.formula else ""
    return {
        "resourceType": "Substance",
        **_id(entry.id),
        "text": narrative(f"{entry.name}{formula}"),
        **({"identifier": identifiers} if identifiers else {}),
        "instance": False,
        "status": "active",
        "code": {"concept": concept},
    }


def medication(handbook: Handbook, fluid: Fluid) -> Plain:
    """A fluid: its name, its class where the entry cites one, and what a litre of it holds."""
    code: Plain = {"text": fluid.name}
    if fluid.atc:
        code = {"coding": [{"system": ATC, "code": fluid.atc.code}], **code}
    pairs = zip(fluid.contents, document.contents(handbook, fluid), strict=True)
    ingredients = [ingredient(content, told, handbook.catalogue) for content, told in pairs]
    return {
        "resourceType": "Medication",
        **_id(fluid.id),
        "meta": {"tag": [{"display": f"review: {parts.review(fluid)['state']}"}]},
        "text": narrative(*_lines(handbook, fluid)),
        "code": code,
        "status": STATUS_OF[fluid.status],
        **({"ingredient": ingredients} if ingredients else {}),
    }


def ingredient(content: Content, told: Plain, catalogue: Catalogue) -> Plain:
    """One content: as weighed in g/L, or as declared in mmol/L; in words where it is no number."""
    if content.substance is not None:
        item: Plain = {"reference": {"reference": address("Substance", content.substance)}}
        return {"item": item, **strength(told, "g_per_l", "g", content.amount.text)}
    item = {"concept": {"text": parts.content_name(content, catalogue)}}
    return {"item": item, **strength(told, "mmol_per_l", "mmol", content.amount.text)}


def strength(told: Plain, key: str, unit: str, text: str) -> Plain:
    """The strength of an ingredient: a ratio to a litre, or words with the reason for no number."""
    if told[key] is not None:
        numerator = quantity(told[key], unit)
        return {"strengthRatio": {"numerator": numerator, "denominator": quantity(1.0, "L")}}
    reason = told["reasons"][key]
    if reason == "declared as a trace":
        coding = {"system": STRENGTHS, "code": "trace"}
        return {"strengthCodeableConcept": {"coding": [coding], "text": text}}
    absent = {"url": ABSENT, "valueCode": "as-text" if "ranges" in told else "unknown"}
    words = text if text == reason else f"{text} ({reason})"
    return {"strengthCodeableConcept": {"extension": [absent], "text": words}}


def quantity(number: float, unit: str) -> Plain:
    """A number with its unit as people write it and as UCUM codes it."""
    return {"value": exported(number), "unit": unit, "system": UCUM, "code": ucum_code(unit)}


def _lines(handbook: Handbook, fluid: Fluid) -> list[str]:
    """What a person reads of a resource, as plain text."""
    catalogue = handbook.catalogue
    held = (
        f"{parts.content_name(content, catalogue)}: {content.amount.text}"
        for content in fluid.contents
    )
    lines = [fluid.name, *held]
    if not handbook.solution(fluid.id).composition.complete:
        lines.append("The source does not give the whole composition.")
    if fluid.status_note:
        lines.append(f"{fluid.status}: {fluid.status_note.text}")
    return [*lines, f"review: {parts.review(fluid)['state']}"]


def narrative(*lines: str) -> Plain:
    """The text of a resource: paragraphs, escaped.

    >>> narrative("a < b")["div"]
    '<div xmlns="http://www.w3.org/1999/xhtml"><p>a &lt; b</p></div>'
    """
    body = "".join(f"<p>{html.escape(line, quote=False)}</p>" for line in lines)
    return {"status": "generated", "div": f'<div xmlns="{XHTML}">{body}</div>'}
