"""The sources: every published source, the plasma intervals, and what each backs."""

from collections.abc import Iterator
from typing import Any
from urllib.parse import urlsplit

from isofolio.entries.lists import Source
from isofolio.entries.references import references
from isofolio.handbook import Handbook
from isofolio.pages.citations import cited
from isofolio.pages.page import Page, rendered
from isofolio.vocabulary.quantities import IN_PLASMA
from isofolio.wording.addresses import CAUTIONS, SOURCES, entry_address
from isofolio.wording.figures import typeset, written


def sources_page(handbook: Handbook) -> Page:
    """All sources on one page, each at its own anchor."""
    users = _cited_by(handbook)
    context = {
        "intervals": list(_intervals(handbook)),
        "rows": [_row(source, users) for source in handbook.catalogue.sources.values()],
    }
    return Page(
        path=SOURCES,
        title="Sources",
        description="Where every figure comes from, how it was seen, and when.",
        body=rendered("sources.html", SOURCES, context),
    )


def _cited_by(handbook: Handbook) -> dict[str, list[tuple[str, str]]]:
    """For each source the pages whose entries cite it."""
    users: dict[str, list[tuple[str, str]]] = {}
    for name, address, record in _citing(handbook):
        for source in {str(r) for _, r in references(record) if r.kind == "sources"}:
            users.setdefault(source, []).append((name, address))
    return users


def _citing(handbook: Handbook) -> Iterator[tuple[str, str, Any]]:
    """Every entry that has a page, with its name and address."""
    catalogue = handbook.catalogue
    pages = {"fluids": catalogue.fluids, "substances": catalogue.substances}
    pages |= {"mixing": catalogue.mixing}
    for folder, records in pages.items():
        for record in records.values():
            yield typeset(record.name), entry_address(folder, record.id), record
    for caution in catalogue.cautions.values():
        yield caution.name, f"{CAUTIONS}#{caution.id}", caution


def _row(source: Source, users: dict[str, list[tuple[str, str]]]) -> dict[str, Any]:
    details = [source.authors or "", source.body or "", str(source.year or "")]
    details += [source.edition or "", source.identifier or "", source.kind]
    return {
        "id": source.id,
        "title": source.title,
        "details": ". ".join(part for part in details if part) + ".",
        "address": source.address or "",
        "host": urlsplit(source.address).netloc if source.address else "",
        "note": source.note or "",
        "cited_by": users.get(source.id, []),
    }


def _intervals(handbook: Handbook) -> list[dict[str, Any]]:
    return [
        {
            "name": IN_PLASMA[interval.quantity].label,
            "text": written(interval.interval.text),
            "population": interval.population,
            "beside": interval.beside,
            "cited": cited(interval.cite, handbook.catalogue),
        }
        for interval in handbook.catalogue.intervals
    ]
