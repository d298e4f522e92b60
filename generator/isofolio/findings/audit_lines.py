"""One printed figure beside ours, and everything that its verdict is judged from."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, log10

from isofolio.entries.fluids import Declared, Fluid
from isofolio.entries.reading import Catalogue
from isofolio.findings.audit_figures import (
    EXACT,
    OFF,
    Printed,
    Thresholds,
    distance,
    nearness,
    printed,
)
from isofolio.findings.audit_recipes import Recipe, batch, recipes_of
from isofolio.measures.table import Table
from isofolio.measures.values import Value
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.figures import rounded, spoken, unit_text

MEASURED = "osmolality_measured"
OSMOLALITIES = ("osmolality", MEASURED)
ENERGIES = ("energy", "energy_us", "energy_organic")
NEVER = {
    "ph": "the pH of a bag follows from traces of acid or base, from air and from storage, "
    "not from its contents"
}


@dataclass(frozen=True)
class Line:
    """One declared value. near: "" where nothing can be compared."""

    quantity: str
    text: str
    figure: Printed | None
    ours: Value
    near: str


@dataclass(frozen=True)
class Bench:
    """What all verdicts are judged from. recipes: other readings of the fluids in question."""

    catalogue: Catalogue
    table: Table
    limits: Thresholds
    recipes: Mapping[str, tuple[Recipe, ...]]
    readings: Table | None

    def reading(self, recipe: Recipe, quantity: str) -> float | None:
        """A quantity as another reading gives it; None where it does not tell."""
        if self.readings is None or quantity not in self.readings.numbers:
            return None
        return self.readings.value(recipe.id, quantity).number


def computed(table: Table, fluid: str, quantity: str) -> Value:
    """Our figure for a declared quantity: a measured osmolality stands beside our estimate."""
    if quantity in NEVER:
        return Value(None, NEVER[quantity])
    return table.value(fluid, ours_for(quantity))


def ours_for(quantity: str) -> str:
    """The quantity that we compute for a declared one."""
    return "osmolality" if quantity == MEASURED else quantity


def lines_of(
    fluid: Fluid, group: Declared, catalogue: Catalogue, table: Table, limits: Thresholds
) -> tuple[Line, ...]:
    """The lines of one source."""
    found = []
    for quantity, amount in group.values.items():
        figure = printed(quantity, amount, catalogue)
        ours = computed(table, fluid.id, quantity)
        found.append(Line(str(quantity), amount.text, figure, ours, _near(figure, ours, limits)))
    return tuple(found)


def _near(figure: Printed | None, ours: Value, limits: Thresholds) -> str:
    if figure is None or ours.number is None:
        return ""
    return nearness(figure, ours.number, limits)


Groups = Sequence[tuple[Line, ...]]


def bench_of(
    groups: Mapping[str, Groups], catalogue: Catalogue, table: Table, limits: Thresholds
) -> Bench:
    """The bench of many fluids: other readings only of those with a figure that is not exact."""
    flat = {f: [line for group in several for line in group] for f, several in groups.items()}
    wanting = {
        f: lines for f, lines in flat.items() if any(x.near not in {"", EXACT} for x in lines)
    }
    recipes = {fluid: recipes_of(catalogue.fluids[fluid], catalogue) for fluid in wanting}
    quantities = _needed(line.quantity for lines in wanting.values() for line in lines)
    several = any(recipes.values())
    readings = batch(recipes.values(), quantities, catalogue) if several else None
    return Bench(catalogue, table, limits, recipes, readings)


def _needed(quantities: Iterable[str]) -> set[str]:
    """The declared quantities, and those that an energy may be worked out from."""
    declared = set(quantities)
    energies = {*ENERGIES, "glucose_mass"} if declared & set(ENERGIES) else set()
    return (declared | energies) - set(OSMOLALITIES)


def agrees(line: Line, recipe: Recipe, bench: Bench) -> bool:
    """Whether another reading is not off for a figure of the same source."""
    reading = bench.reading(recipe, line.quantity)
    if reading is None or line.figure is None:
        return True
    return nearness(line.figure, reading, bench.limits) != OFF


def said(number: float, quantity: str) -> str:
    """A figure of a declared quantity with its unit."""
    return spoken(Value(number), ours_for(quantity))


def ours(line: Line) -> str:
    """Our figure with its unit, in as many decimals as tell it from the printed one."""
    number = line.ours.number or 0.0
    usual = said(number, line.quantity)
    if line.figure is None or line.near == EXACT:
        return usual
    close = abs(distance(line.figure, number)) < line.figure.step
    decimals = max(0, ceil(-log10(line.figure.step))) + close
    finer = rounded(number, decimals).removesuffix(".0") + unit_text(
        QUANTITY_BY_ID[ours_for(line.quantity)].unit
    )
    return max(usual, finer, key=len)
