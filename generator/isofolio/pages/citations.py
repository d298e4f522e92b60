"""How a citation reads on a page, and the list of sources below it."""

from collections.abc import Iterable
from dataclasses import dataclass

from isofolio.entries.fluids import Declared, Fluid
from isofolio.entries.lists import Source
from isofolio.entries.reading import Catalogue
from isofolio.entries.records import Citation
from isofolio.wording.addresses import source_address

NO_SOURCE = "common practice, no source"

SEEN = {
    "read": "read",
    "copy": "as quoted in a copy or another page, the original not read",
    "arithmetic": "worked out by the project",
    "memory": "",
}


@dataclass(frozen=True)
class Cited:
    """A citation as a page shows it: text, link to its source ("" for none), place, how seen."""

    text: str
    address: str
    at: str
    seen: str
    on: str


def short_name(source: Source) -> str:
    """A source in a few words: body or first author, and year."""
    who = source.body or str(source.authors).split(",")[0]
    return f"{who}, {source.year}" if source.year else who


def cited(citation: Citation | Declared | None, catalogue: Catalogue) -> Cited:
    """A citation for a page; None is common practice."""
    if citation is None:
        return Cited(NO_SOURCE, "", "", "", "")
    if citation.source is None:
        return Cited("our arithmetic", "", citation.at, SEEN[citation.seen], citation.on)
    source = catalogue.sources[citation.source]
    address = source_address(source.id)
    return Cited(short_name(source), address, citation.at, SEEN[citation.seen], citation.on)


def citations_of(fluid: Fluid) -> list[tuple[str, Citation | Declared | None]]:
    """Every citation of a fluid with what it backs."""
    found: list[tuple[str, Citation | Declared | None]] = [("contents", fluid.contents_cite)]
    found += [(f"variant: {variant.name}", variant.cite) for variant in fluid.variants]
    found += [(", ".join(_plain(key) for key in group.values), group) for group in fluid.declared]
    found += [("container sizes", fluid.containers_cite)] if fluid.containers else []
    found += [("giving it", note.cite) for note in fluid.giving]
    if fluid.status_note is not None:
        found.append(("status", fluid.status_note.cite))
    if fluid.diluent is not None:
        found.append(("diluent", fluid.diluent.cite))
    if fluid.atc is not None:
        found.append((f"ATC code {fluid.atc.code}", fluid.atc.cite))
    return found


def merged(
    backed: Iterable[tuple[str, Citation | Declared | None]], catalogue: Catalogue
) -> list[tuple[Cited, str]]:
    """Citations with everything each of them backs, each citation once."""
    grouped: dict[Cited, list[str]] = {}
    for what, citation in backed:
        grouped.setdefault(cited(citation, catalogue), []).append(what)
    return [(one, "; ".join(dict.fromkeys(what))) for one, what in grouped.items()]


def _plain(key: str) -> str:
    return key.replace("_", " ")
