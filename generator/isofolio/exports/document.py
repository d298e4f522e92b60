"""The exported document, schema 1: what other programs may rely on, as plain dicts and lists.

A part is one function, one line in `DOCUMENT_PARTS` or `FLUID_PARTS`, whose order is the order of
the keys, and one line in `shape`, from which the JSON Schema is made. Every null is explained by
the `reasons` of the object that holds it; a container's by those of its fluid.
"""

from collections.abc import Callable, Iterator
from typing import Any

from isofolio import __version__
from isofolio.entries.fluids import Container, Fluid
from isofolio.exports import findings, parts
from isofolio.exports.parts import Plain, quantity_of
from isofolio.handbook import Handbook, interval_of, millilitres
from isofolio.vocabulary.exports import SCHEMA
from isofolio.vocabulary.quantities import QUANTITY_BY_ID


def document(handbook: Handbook) -> Plain:
    """The whole document, numbers in full; nothing in it depends on the clock or on a revision."""
    made = {key: part(handbook) for key, part in DOCUMENT_PARTS}
    return {key: list(part) if isinstance(part, Iterator) else part for key, part in made.items()}


def built_from(handbook: Handbook) -> str:
    """Which catalogue and which program made an export."""
    return f"catalogue {handbook.digest}, isofolio {__version__}"


def plasma(handbook: Handbook) -> Plain:
    """The reference intervals that stand beside the fluids, by quantity, with population."""
    return {quantity: _interval(handbook, quantity) for quantity in handbook.beside}


def _interval(handbook: Handbook, quantity: str) -> Plain:
    entry = handbook.beside[quantity]
    low, high = interval_of(entry)
    told: Plain = {"low": low, "high": high, "unit": entry.interval.unit}
    told |= {"population": entry.population, "source": entry.cite.source}
    return told | {"at": entry.cite.at, "seen": entry.cite.seen}


def substances(handbook: Handbook) -> list[Plain]:
    """Every substance of the catalogue, by id."""
    catalogue = handbook.catalogue
    return [parts.substance(entry, catalogue) for entry in catalogue.substances.values()]


def fluids(handbook: Handbook) -> Iterator[Plain]:
    """Every fluid, by id, one after the other: thousands are never held at once."""
    for fluid in handbook.fluids:
        yield {key: part(handbook, fluid) for key, part in FLUID_PARTS}


def contents(handbook: Handbook, fluid: Fluid) -> list[Plain]:
    """What the recipe of a fluid holds, in its own order."""
    return [parts.content(entry, handbook.catalogue) for entry in fluid.contents]


def per_litre(handbook: Handbook, fluid: Fluid) -> Plain:
    """Every quantity in its unit, or null."""
    return {q: handbook.value(fluid.id, q).number for q in handbook.quantities}


def ranges(handbook: Handbook, fluid: Fluid) -> Plain:
    """Low and high of what is declared as a range or a bound: a figure the null stands for."""
    found = handbook.solution(fluid.id).ranges.items()
    return {quantity_of(p, handbook.catalogue): list(limits) for p, limits in sorted(found)}


def reasons(handbook: Handbook, fluid: Fluid) -> Plain:
    """Why a quantity is null, for each that is."""
    values = {q: handbook.value(fluid.id, q) for q in handbook.quantities}
    return {quantity: value.reason for quantity, value in values.items() if value.reason}


def containers(handbook: Handbook, fluid: Fluid) -> list[Plain]:
    """What each size holds of the quantities that grow with the volume."""
    return [_container(handbook, fluid, size) for size in fluid.containers]


def _container(handbook: Handbook, fluid: Fluid, size: Container) -> Plain:
    volume = millilitres(size)
    scaling = [q for q in handbook.quantities if QUANTITY_BY_ID[q].scales]
    amounts = {q: handbook.in_container(fluid.id, q, volume).number for q in scaling}
    return {"volume_ml": volume, "kind": size.kind, "amounts": amounts}


FLUID_PARTS: tuple[tuple[str, Callable[[Handbook, Fluid], Any]], ...] = (
    ("id", lambda _, fluid: fluid.id),
    ("name", lambda _, fluid: fluid.name),
    ("role", lambda _, fluid: fluid.role),
    ("status", lambda _, fluid: fluid.status),
    ("jurisdiction", lambda _, fluid: list(fluid.jurisdiction)),
    ("also_known_as", lambda _, fluid: parts.also_known_as(fluid)),
    ("codes", lambda _, fluid: parts.codes(fluid)),
    ("contents", contents),
    ("complete", lambda handbook, fluid: handbook.solution(fluid.id).composition.complete),
    ("per_litre", per_litre),
    ("ranges", ranges),
    ("classes", findings.classes),
    ("reasons", reasons),
    ("containers", containers),
    ("vein", findings.vein),
    ("cautions", findings.cautions),
    ("audit", findings.audit),
    ("alternatives", findings.alternatives),
    ("sources", lambda handbook, fluid: parts.cited_sources(fluid, handbook.catalogue)),
    ("review", lambda _, fluid: parts.review(fluid)),
)

DOCUMENT_PARTS: tuple[tuple[str, Callable[[Handbook], Any]], ...] = (
    ("schema", lambda _: SCHEMA),
    ("built_from", built_from),
    ("plasma", plasma),
    ("substances", substances),
    ("fluids", fluids),
)
