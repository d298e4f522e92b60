"""The figures of a fluid: weighed contents, beside plasma, computed, and beside the label."""

from collections.abc import Iterator
from typing import Any

from isofolio.entries.fluids import Content, Fluid
from isofolio.entries.substances import Substance
from isofolio.findings.families import held
from isofolio.handbook import Handbook, interval_of
from isofolio.pages.citations import cited, short_name
from isofolio.pages.holds import NONE, range_text, sizes
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.addresses import entry_address
from isofolio.wording.bag import beside_interval
from isofolio.wording.figures import HARD, amount, rounded, spoken, unit_text, written


def weighed(handbook: Handbook, fluid: Fluid) -> Iterator[dict[str, Any]]:
    """Contents as declared: what was weighed, or which ions the label gives."""
    for content in fluid.contents:
        if content.substance is None:
            continue
        substance = handbook.catalogue.substances[content.substance]
        solution = handbook.solution(fluid.id)
        grams = solution.masses.get(substance.id)
        millimoles = (solution.weighed or {}).get(substance.id)
        yield {
            "name": substance.name,
            "address": entry_address("substances", substance.id),
            "declared": written(content.amount.text),
            "grams": _per_size(fluid, grams),
            "millimoles": _millimoles(substance, millimoles),
        }


def _millimoles(substance: Substance, number: float | None) -> str:
    """What of a substance is in a litre [mmol], or why there is no figure."""
    if number is not None:
        return amount(number)
    return "a colloid" if substance.colloid else "not declared"


def beside_plasma(handbook: Handbook, fluid: Fluid) -> Iterator[dict[str, str]]:
    for quantity in held_or_in_plasma(handbook, fluid):
        value = handbook.value(fluid.id, quantity)
        shown = QUANTITY_BY_ID[quantity]
        interval = handbook.beside.get(quantity)
        row = {"name": shown.label, "symbol": shown.symbol, "plasma": "", "stands": ""}
        if value.number is None:
            row["value"] = range_text(handbook, fluid, quantity, 1.0) or value.reason
            row["milliequivalents"] = ""
        else:
            row["value"] = NONE if value.number == 0 else amount(value.number)
            row["milliequivalents"] = _equivalents(handbook, fluid, quantity)
        if interval is not None:
            low, high = interval_of(interval)
            row["plasma"] = written(interval.interval.text).split(HARD)[0]
            if value.number is not None:
                row["stands"] = beside_interval(value.number, low, high, shown.unit)
        yield row


def held_or_in_plasma(handbook: Handbook, fluid: Fluid) -> list[str]:
    """The quantities of the table beside plasma: what the fluid holds, and what plasma does."""
    there = set(held(fluid.id, handbook.measures))
    return [q for q in QUANTITY_BY_ID if q in there or (q in handbook.beside and q != "albumin")]


def _equivalents(handbook: Handbook, fluid: Fluid, quantity: str) -> str:
    """Milliequivalents of everything that counts as a quantity, by each particle's own charge."""
    solution = handbook.solution(fluid.id)
    total = 0.0
    for particle in handbook.catalogue.particles.values():
        if (particle.counts_as or particle.id) == quantity:
            charge = solution.charges.get(particle.id, float(particle.charge))
            total += abs(charge) * solution.composition.known.get(particle.id, 0.0)
    return amount(total) if total else ""


def plasma_cited(handbook: Handbook) -> str:
    sources = {i.cite.source for i in handbook.beside.values() if i.cite.source}
    return "; ".join(sorted(short_name(handbook.catalogue.sources[s]) for s in sources))


FIGURES = (
    "osmolarity",
    "osmolality",
    "energy",
    "energy_us",
    "energy_organic",
    "cation_charge",
    "anion_charge",
    "polyanion_charge",
    "charge_gap",
)


def figures(handbook: Handbook, fluid: Fluid) -> Iterator[dict[str, str]]:
    for quantity in FIGURES:
        value = handbook.value(fluid.id, quantity)
        if quantity in {"energy_organic", "polyanion_charge"} and value.number == 0:
            continue
        text = spoken(value, quantity)
        if quantity == "osmolality" and value.number is not None:
            error = handbook.value(fluid.id, "osmolality_error").number or 0.0
            text = f"about {text}, ±{HARD}{rounded(error, 0)}{unit_text('%')}"
        yield {
            "id": quantity,
            "name": QUANTITY_BY_ID[quantity].label,
            "text": text,
            "known": "" if value.number is None else "yes",
        }


def variants(handbook: Handbook, fluid: Fluid) -> Iterator[dict[str, Any]]:
    for variant in fluid.variants:
        parts = [_content_text(handbook, content) for content in variant.contents]
        yield {
            "name": variant.name,
            "contents": "; ".join(parts),
            "cited": cited(variant.cite, handbook.catalogue),
        }


def _per_size(fluid: Fluid, grams: float | None) -> list[str]:
    if grams is None:
        return []
    return [amount(grams * size.millilitres / 1000.0) for size in sizes(fluid)]


def _content_text(handbook: Handbook, content: Content) -> str:
    if content.substance is not None:
        name = handbook.catalogue.substances[content.substance].name.lower()
    else:
        name = handbook.catalogue.particles[content.particle or ""].name
    return f"{name} {written(content.amount.text)}"
