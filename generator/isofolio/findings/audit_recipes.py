"""Other ways to read the contents of a fluid: another hydrate, another recipe, a mass rounded.

All readings of all fluids in question are computed in one batch.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from isofolio.chemistry.formula import molar_mass
from isofolio.entries.fluids import Content, Fluid, Variant
from isofolio.entries.reading import Catalogue
from isofolio.entries.scalars import Amount
from isofolio.entries.substances import Substance
from isofolio.measures.columns import columns_from
from isofolio.measures.solutions import Solution, solve
from isofolio.measures.table import MEASURES, Table, table_from

HYDRATE, VARIANT, LIGHT, HEAVY = "hydrate", "variant", "light", "heavy"
OTHER_RECIPES = (HYDRATE, VARIANT)

_WATER = re.compile(r"\(H2O\)[0-9]*")
_FIGURE = re.compile(r"[0-9]+\.[0-9]+")
MASS_UNITS = ("g", "mg", "%")


@dataclass(frozen=True)
class Recipe:
    """One other reading of a fluid's contents. id: its row in the batch; words: what it is."""

    id: str
    sort: str
    words: str
    solution: Solution


def recipes_of(fluid: Fluid, catalogue: Catalogue) -> tuple[Recipe, ...]:
    """Every other reading of a fluid, hydrates first."""
    found = [*_hydrates(fluid, catalogue), *_variants(fluid, catalogue), *_rounded_masses(fluid)]
    return tuple(
        Recipe(f"{fluid.id} {number}", sort, words, solve(contents, fluid.complete, catalogue))
        for number, (sort, words, contents) in enumerate(found)
    )


Reading = tuple[str, str, list[Content]]


def _hydrates(fluid: Fluid, catalogue: Catalogue) -> Iterator[Reading]:
    """Each weighed salt or sugar in turn with the same grams of another of its hydrates."""
    for number, content in enumerate(fluid.contents):
        if content.substance is None or not in_grams(content.amount):
            continue
        for name, ratio in other_forms(catalogue.substances[content.substance], catalogue):
            other = content.model_copy(update={"amount": _scaled(content.amount, ratio)})
            contents = [*fluid.contents[:number], other, *fluid.contents[number + 1 :]]
            yield HYDRATE, f"the same grams weighed as {name}", contents


def other_forms(substance: Substance, catalogue: Catalogue) -> Iterator[tuple[str, float]]:
    """Other hydrates by name, and how many times the moles the same grams of them are.

    Those of the catalogue, and the form without water.
    """
    if substance.formula is None:
        return
    mine = molar_mass(substance.formula)
    dry = dry_formula(substance.formula)
    kin = [s for s in catalogue.substances.values() if s.formula and dry_formula(s.formula) == dry]
    if all(s.formula != dry for s in kin):
        yield f"anhydrous {_bare(substance.name)}", mine / molar_mass(dry)
    for other in kin:
        if other.formula != substance.formula:
            name = other.name.lower()
            yield (
                name if other.formula != dry else _dry_name(name),
                mine / molar_mass(str(other.formula)),
            )


def dry_formula(formula: str) -> str:
    """A formula without its water of crystallisation.

    >>> dry_formula("CaCl2(H2O)2")
    'CaCl2'
    """
    return _WATER.sub("", formula)


_HYDRATE_WORD = re.compile(r",? ?\b(anhydrous|(mono|di|tri|hexa|hepta)hydrate)\b", re.IGNORECASE)


def _bare(name: str) -> str:
    return _HYDRATE_WORD.sub("", name).strip().lower()


def _dry_name(name: str) -> str:
    return f"anhydrous {_bare(name)}"


def _scaled(amount: Amount, ratio: float) -> Amount:
    ends = [None if end is None else end * ratio for end in (amount.low, amount.high)]
    return replace(amount, low=ends[0], high=ends[1])


def in_grams(amount: Amount) -> bool:
    """Whether an amount is a mass."""
    return amount.unit.partition("/")[0] in MASS_UNITS


def _variants(fluid: Fluid, catalogue: Catalogue) -> Iterator[Reading]:
    for variant in fluid.variants:
        words = f"the published recipe “{variant.name}”"
        missing = _only_there(fluid, variant, catalogue)
        yield (
            VARIANT,
            words + (f", which also holds {missing}" if missing else ""),
            variant.contents,
        )


def _only_there(fluid: Fluid, variant: Variant, catalogue: Catalogue) -> str:
    """Salts and sugars of a variant that the contents hold in no hydrate and not as ions either."""
    weighed = {
        _dry(content.substance, catalogue) for content in fluid.contents if content.substance
    }
    ions = {str(content.particle) for content in fluid.contents if content.particle is not None}
    missing = [
        catalogue.substances[content.substance]
        for content in variant.contents
        if content.substance and _dry(content.substance, catalogue) not in weighed
    ]
    named = [s for s in missing if not s.releases or not set(map(str, s.releases)) <= ions]
    return " and ".join(substance.name.lower() for substance in named)


def _dry(substance: str, catalogue: Catalogue) -> str:
    """What is weighed, whatever its water: the formula without it, or the id of a colloid."""
    formula = catalogue.substances[substance].formula
    return dry_formula(formula) if formula else substance


def _rounded_masses(fluid: Fluid) -> Iterator[Reading]:
    """The contents with every roughly written mass half a unit lighter, and half a unit heavier."""
    if any(rough(content) for content in fluid.contents):
        for sort, sign in ((LIGHT, -1.0), (HEAVY, 1.0)):
            yield sort, "", [_shifted(content, sign) for content in fluid.contents]


def rough(content: Content) -> bool:
    """Whether a mass is written with decimals and two figures or fewer, as in 0.27 or 0.4.

    A whole number of grams is the strength of the title and exact.
    """
    found = _FIGURE.match(content.amount.text)
    one = content.amount.state == "exact" and in_grams(content.amount)
    return bool(one and found and len(found[0].replace(".", "").lstrip("0")) <= 2)


def _shifted(content: Content, sign: float) -> Content:
    if not rough(content) or content.amount.low is None:
        return content
    figure = content.amount.low + sign * 0.5 * 10.0**-content.amount.decimals
    amount = replace(content.amount, low=figure, high=figure)
    return content.model_copy(update={"amount": amount})


def batch(
    recipes: Iterable[Sequence[Recipe]], quantities: Iterable[str], catalogue: Catalogue
) -> Table:
    """The wanted quantities of all recipes at once."""
    flat = [recipe for several in recipes for recipe in several]
    wanted = set(quantities)
    measures = [measure for measure in MEASURES if wanted & set(measure.quantities)]
    solutions = [recipe.solution for recipe in flat]
    return table_from(
        columns_from([recipe.id for recipe in flat], solutions, catalogue), catalogue, measures
    )


Recipes = Mapping[str, tuple[Recipe, ...]]
