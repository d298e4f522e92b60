"""The handbook as linked data: a JSON-LD graph in the vocabulary of schema.org.

A file to take away and no block in a page: pages stay free of what a reader does not see. Addresses
are relative to the file, so they hold wherever the folder stands; the vocabulary is named and not
fetched. Only what is known stands in it: an amount that is no single number has no strength.
"""

from collections.abc import Iterator

from isofolio.entries.fluids import Fluid
from isofolio.entries.lists import Source
from isofolio.entries.substances import Identifiers, Substance
from isofolio.exports import document, parts
from isofolio.exports.document import built_from
from isofolio.exports.figures import exported
from isofolio.exports.json_text import pieces_of
from isofolio.exports.parts import Plain
from isofolio.handbook import UNDATED, Handbook
from isofolio.vocabulary.exports import EXPORT_FORMS
from isofolio.vocabulary.purpose import PURPOSE
from isofolio.wording.addresses import (
    ABOUT,
    download_address,
    entry_address,
    relative,
    source_address,
)

VOCABULARY = {"@vocab": "https://schema.org/"}
LICENCE = "https://creativecommons.org/licenses/by/4.0/"
HERE = next(download_address(form.file) for form in EXPORT_FORMS if form.word == "linked-data")

# Roles that are hung as they are; of a concentrate or a diluent no route is told.
HUNG = ("ready", "colloid", "blood-product")


def linked_data_export(handbook: Handbook) -> str:
    """The graph as JSON text; the same catalogue and program give the same bytes."""
    return "".join(linked_data_pieces(handbook))


def linked_data_pieces(handbook: Handbook) -> Iterator[str]:
    """The same text in pieces, so that the graph of thousands is never held whole."""
    return pieces_of([("@context", VOCABULARY), ("@graph", graph(handbook))])


def graph(handbook: Handbook) -> Iterator[Plain]:
    """The data set, then fluids, substances and the sources that the fluids cite."""
    catalogue = handbook.catalogue
    cited = {
        source["id"]: None
        for fluid in handbook.fluids
        for source in parts.cited_sources(fluid, catalogue)
    }
    yield _data_set(handbook, list(cited))
    yield from (_drug(handbook, fluid) for fluid in handbook.fluids)
    yield from (_substance(entry) for entry in catalogue.substances.values())
    yield from (_work(catalogue.sources[name]) for name in cited)


def _data_set(handbook: Handbook, cited: list[str]) -> Plain:
    drafts = any(parts.review(fluid)["state"] == "draft" for fluid in handbook.fluids)
    dated = {} if handbook.date == UNDATED else {"dateModified": handbook.date}
    return {
        "@id": _link(ABOUT),
        "@type": "Dataset",
        "name": "Isofolio: intravenous fluids",
        "description": PURPOSE,
        "version": built_from(handbook),
        **dated,
        "creativeWorkStatus": "Draft" if drafts else "Published",
        "inLanguage": "en",
        "license": {"@id": LICENCE},
        "about": [{"@id": _fluid_link(fluid)} for fluid in handbook.fluids],
        "citation": [{"@id": _link(source_address(name))} for name in cited],
    }


def _drug(handbook: Handbook, fluid: Fluid) -> Plain:
    """A fluid: its names, its class where the entry cites one, its ingredients and strengths."""
    names = [other.name for other in fluid.also_known_as if other.kind != "misspelling"]
    made: Plain = {
        "@id": _fluid_link(fluid),
        "@type": "Drug",
        "name": fluid.name,
        "nonProprietaryName": fluid.name,
        "isProprietary": False,
        "description": f"{fluid.role}; {fluid.status}; review: {parts.review(fluid)['state']}",
        "alternateName": names,
        "administrationRoute": "intravenous" if fluid.role in HUNG else None,
        "code": _medical_code(fluid),
        "activeIngredient": [parts.content_name(c, handbook.catalogue) for c in fluid.contents],
        "availableStrength": _strengths(handbook, fluid),
    }
    return {key: value for key, value in made.items() if value not in (None, [])}


def _medical_code(fluid: Fluid) -> Plain | None:
    if fluid.atc is None:
        return None
    return {"@type": "MedicalCode", "codeValue": fluid.atc.code, "codingSystem": "ATC"}


def _strengths(handbook: Handbook, fluid: Fluid) -> list[Plain]:
    """What a litre holds, of each content whose amount is a single number."""
    pairs = zip(fluid.contents, document.contents(handbook, fluid), strict=True)
    found = []
    for content, told in pairs:
        key, unit = ("g_per_l", "g/L") if content.substance else ("mmol_per_l", "mmol/L")
        if told[key] is not None:
            name = parts.content_name(content, handbook.catalogue)
            figure = {"strengthValue": exported(told[key]), "strengthUnit": unit}
            found.append({"@type": "DrugStrength", "activeIngredient": name, **figure})
    return found


def _substance(entry: Substance) -> Plain:
    """What is weighed: a molecular entity with its codes, or a colloid without a formula."""
    address = _link(entry_address("substances", entry.id))
    if entry.formula is None:
        return {"@id": address, "@type": "Substance", "name": entry.name}
    codes = entry.identifiers or Identifiers()
    numbers = (("UNII", codes.unii), ("CAS", codes.cas))
    made: Plain = {
        "@id": address,
        "@type": "MolecularEntity",
        "name": entry.name,
        "molecularFormula": entry.formula,
        "inChIKey": codes.inchikey,
        "identifier": [
            {"@type": "PropertyValue", "propertyID": kind, "value": value}
            for kind, value in numbers
            if value
        ],
    }
    return {key: value for key, value in made.items() if value not in (None, [])}


def _work(source: Source) -> Plain:
    made: Plain = {
        "@id": _link(source_address(source.id)),
        "@type": "CreativeWork",
        "name": source.title,
        "creditText": source.authors,
        "publisher": {"@type": "Organization", "name": source.body} if source.body else None,
        "datePublished": str(source.year) if source.year else None,
        "identifier": source.identifier,
        "url": {"@id": source.address} if source.address else None,
    }
    return {key: value for key, value in made.items() if value is not None}


def _fluid_link(fluid: Fluid) -> str:
    return _link(entry_address("fluids", fluid.id))


def _link(there: str) -> str:
    return relative(HERE, there)
