"""The substances: what is weighed, in the form it is weighed in."""

from typing import Any

from isofolio.chemistry.formula import molar_mass
from isofolio.entries.substances import Substance
from isofolio.handbook import Handbook
from isofolio.pages.citations import Cited, cited
from isofolio.pages.page import DRAFT, Page, rendered
from isofolio.wording.addresses import SUBSTANCES, entry_address
from isofolio.wording.bag import listed
from isofolio.wording.figures import rounded, typeset, written

DIGITS = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")


def substances_page(handbook: Handbook) -> Page:
    """The table of substances."""
    substances = handbook.catalogue.substances.values()
    context = {"rows": [_row(handbook, substance) for substance in substances]}
    return Page(
        path=SUBSTANCES,
        title="Substances",
        description="What is weighed into the fluids: formula, hydrate, molar mass.",
        body=rendered("substances.html", SUBSTANCES, context),
    )


def substance_page(handbook: Handbook, substance: Substance) -> Page:
    """The page of one substance."""
    path = entry_address("substances", substance.id)
    context = {
        "row": _row(handbook, substance),
        "fluids": list(_fluids(handbook, substance)),
        "draft": DRAFT,
    }
    return Page(
        path=path,
        title=substance.name,
        description=f"{substance.name}: formula, molar mass, and the fluids that hold it.",
        body=rendered("substance.html", path, context),
    )


def _row(handbook: Handbook, substance: Substance) -> dict[str, Any]:
    mass = None if substance.formula is None else molar_mass(substance.formula)
    return {
        "name": substance.name,
        "address": entry_address("substances", substance.id),
        "formula": formula_text(substance.formula) if substance.formula else substance.colloid,
        "hydrate": substance.hydrate or "",
        "molar_mass": "" if mass is None else rounded(mass, 2),
        "millimoles": "" if mass is None else rounded(1000.0 / mass, 2),
        "releases": _releases(handbook, substance),
        "osmosis": _osmosis(handbook, substance),
        "osmosis_cited": _osmosis_cited(handbook, substance),
        "identifiers": _identifiers(substance),
        "identifiers_cited": cited(substance.identifiers_cite, handbook.catalogue),
        "note": substance.note,
    }


def formula_text(formula: str) -> str:
    """A formula with lowered digits and its water after a point.

    >>> formula_text("CaCl2(H2O)2")
    'CaCl₂·2H₂O'
    """
    body, mark, water = formula.partition("(H2O)")
    lowered = body.translate(DIGITS)
    return f"{lowered}·{water}H₂O" if mark else lowered


def _releases(handbook: Handbook, substance: Substance) -> str:
    particles = handbook.catalogue.particles
    parts = [
        (f"{count} " if count != 1 else "") + particles[particle].name
        for particle, count in substance.releases.items()
    ]
    if substance.base:
        parts.append("a base, which an acid or a colloid takes up")
    if substance.colloid:
        return "nothing: a colloid stays whole"
    return listed(parts) or "nothing"


def _osmosis(handbook: Handbook, substance: Substance) -> str:
    osmosis = substance.osmosis
    if osmosis is None:
        return "none known"
    if osmosis.like is not None:
        return f"assumed to be that of {handbook.catalogue.substances[osmosis.like].name.lower()}"
    if osmosis.slope is not None:
        return f"1 + {osmosis.slope} per mol/kg"
    if osmosis.ratio is not None:
        return f"taken as {osmosis.ratio}"
    return "from Pitzer parameters at 25 °C"


def _osmosis_cited(handbook: Handbook, substance: Substance) -> Cited | None:
    if substance.osmosis is None:
        return None
    return cited(substance.osmosis.cite, handbook.catalogue)


def _identifiers(substance: Substance) -> list[tuple[str, str]]:
    codes = substance.identifiers
    if codes is None:
        return []
    named = (("InChIKey", codes.inchikey), ("UNII", codes.unii), ("CAS number", codes.cas))
    return [(label, str(code)) for label, code in named if code]


def _fluids(handbook: Handbook, substance: Substance) -> list[tuple[str, str, str]]:
    return [
        (typeset(fluid.name), entry_address("fluids", fluid.id), written(content.amount.text))
        for fluid in handbook.fluids
        for content in fluid.contents
        if content.substance == substance.id
    ]
