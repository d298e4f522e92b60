"""The parts of the exported document that are read from an entry, as plain dicts."""

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from isofolio.chemistry.composition import grams_from_millimoles
from isofolio.chemistry.formula import molar_mass
from isofolio.entries.fluids import Content, Declared, Fluid
from isofolio.entries.lists import Source
from isofolio.entries.reading import Catalogue
from isofolio.entries.records import Citation
from isofolio.entries.scalars import REASONS, Amount
from isofolio.entries.stamps import state
from isofolio.entries.substances import Substance
from isofolio.measures.solutions import concentration, millimoles_of_particle

Plain = dict[str, Any]

NO_FORMULA = "a colloid is a mixture of molecules of many sizes: it has no formula"


def quantity_of(particle: str, catalogue: Catalogue) -> str:
    """The quantity that a particle counts as: both phosphates are phosphate."""
    return catalogue.particles[particle].counts_as or particle


def substance(entry: Substance, catalogue: Catalogue) -> Plain:
    """A substance as weighed: molar mass of that form [g/mol], particles per formula unit.

    The keys of `releases` are quantities of `per_litre`, so that grams can be turned into ions
    with this document alone.
    """
    releases: dict[str, int] = {}
    for particle, count in entry.releases.items():
        quantity = quantity_of(particle, catalogue)
        releases[quantity] = releases.get(quantity, 0) + count
    mass = None if entry.formula is None else molar_mass(entry.formula)
    made: Plain = {"id": entry.id, "name": entry.name}
    made |= {"formula": entry.formula, "g_per_mol": mass, "releases": releases}
    made["codes"] = _known(entry.identifiers.model_dump()) if entry.identifiers else {}
    made["reasons"] = {} if entry.formula else dict.fromkeys(("formula", "g_per_mol"), NO_FORMULA)
    return made


def codes(fluid: Fluid) -> Plain:
    """The code of the class that a fluid belongs to, where the entry cites one."""
    return {"atc": fluid.atc.code} if fluid.atc else {}


def content_name(entry: Content, catalogue: Catalogue) -> str:
    """What a content is called: a substance with its hydrate, or a particle."""
    if entry.substance is not None:
        return catalogue.substances[entry.substance].name
    return catalogue.particles[entry.particle or ""].name


def content(entry: Content, catalogue: Catalogue) -> Plain:
    """A content of a recipe: grams of a substance, or millimoles of a particle, per litre.

    A range or a bound is null with its reason, and stands in `ranges`.
    """
    if entry.particle is not None:
        charge = catalogue.particles[entry.particle].charge
        figures = [
            millimoles_of_particle(entry.amount, figure, charge) for figure in _figures(entry)
        ]
        named = {"particle": quantity_of(entry.particle, catalogue)}
        return named | _amount("mmol_per_l", entry.amount, figures)
    weighed = catalogue.substances[entry.substance or ""]
    figures = [_grams(entry.amount, figure, weighed) for figure in _figures(entry)]
    return {"substance": weighed.id} | _amount("g_per_l", entry.amount, figures)


def _figures(entry: Content) -> tuple[float | None, float | None]:
    """Low and high of an amount; a bound ("at most") starts at nothing."""
    low = 0.0 if entry.amount.state == "bound" else entry.amount.low
    return low, entry.amount.high


def _amount(key: str, amount: Amount, figures: list[float | None]) -> Plain:
    if amount.state == "exact":
        return {key: figures[0]}
    made: Plain = {key: None, "reasons": {key: REASONS[amount.state]}}
    return made | ({} if None in figures else {"ranges": {key: figures}})


def _grams(amount: Amount, figure: float | None, weighed: Substance) -> float | None:
    grams = concentration(amount, figure, "g/L")
    if grams is not None or weighed.formula is None:
        return grams
    millimoles = concentration(amount, figure, "mmol/L")
    if millimoles is None:
        return None
    return float(grams_from_millimoles(millimoles, molar_mass(weighed.formula)))


def also_known_as(fluid: Fluid) -> list[Plain]:
    """Every other name, its kind, and the countries where it is used (none named: not known)."""
    return [{"name": n.name, "kind": n.kind, "where": list(n.where)} for n in fluid.also_known_as]


def cited_sources(fluid: Fluid, catalogue: Catalogue) -> list[Plain]:
    """Every source an entry cites, in the order of the entry, with each place in it."""
    cited: dict[str, list[Plain]] = {}
    for citation in _citations(fluid):
        if citation.source is None:
            continue
        place = {"at": citation.at, "seen": citation.seen, "on": citation.on}
        places = cited.setdefault(str(citation.source), [])
        if place not in places:
            places.append(place)
    return [_source(catalogue.sources[s]) | {"cited": places} for s, places in cited.items()]


def _citations(value: Any) -> Iterator[Citation | Declared]:
    """Every citation inside a record, in the order of its fields."""
    if isinstance(value, Citation | Declared):
        yield value
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from _citations(getattr(value, name))
    elif isinstance(value, list):
        for item in value:
            yield from _citations(item)


def _source(source: Source) -> Plain:
    """Who published what; a key that a source does not have is left out."""
    told: Plain = {"id": source.id, "title": source.title}
    told |= {"body": source.body, "authors": source.authors}
    told |= {"year": source.year, "identifier": source.identifier, "address": source.address}
    return _known(told)


def review(fluid: Fluid) -> Plain:
    """The review stamp as it stands: draft, without a name, as soon as it covers something else.

    A key that the stamp does not have is left out.
    """
    stamp, effective = fluid.review, state(fluid)
    if effective != stamp.state:
        return {"state": effective}
    told = {"state": effective, "by": stamp.by, "second": stamp.second}
    told |= {"on": stamp.on, "due": stamp.due, "covers": stamp.covers}
    return _known(told)


def _known(told: Plain) -> Plain:
    """What has a value; the other keys are left out."""
    return {key: value for key, value in told.items() if value is not None}
