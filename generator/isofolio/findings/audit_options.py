"""Conventions that may stand behind a printed figure, and what each of them would print."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from isofolio.findings.audit_figures import EXACT, ROUNDED, Printed, coarse, nearness
from isofolio.findings.audit_lines import ENERGIES, Bench, Line, agrees, said
from isofolio.findings.audit_recipes import OTHER_RECIPES, Recipe

KCAL_PER_G_AVAILABLE = 3.75
"""Factor of carbohydrate as monosaccharide [kcal/g anhydrous]: from memory, common practice."""


@dataclass(frozen=True)
class Option:
    """number: what the convention gives in our unit; words: its name, and its figure in words."""

    number: float
    words: str
    recipe: Recipe | None = None


def options(line: Line, fluid: str, bench: Bench) -> Iterator[Option]:
    """Every convention that gives another figure than ours, in the order in which they are tried.

    A published recipe goes before a slip of the unit: a calcium of 2 beside a computed 1 is first
    a recipe with twice the calcium.
    """
    if line.quantity in ENERGIES:
        yield from _energies(line, lambda q: bench.table.value(fluid, q).number, None)
    for recipe in bench.recipes.get(fluid, ()):
        if recipe.sort in OTHER_RECIPES:
            yield from _of_recipe(line, recipe, bench)
    yield from _equivalents(line, bench)


def fitting(
    line: Line, fluid: str, group: tuple[Line, ...], bench: Bench
) -> tuple[Option | None, Option | None]:
    """The convention that fits a figure, and one that fits it but no other of the same source.

    An exact fit goes before a rounded one. A rounded fit counts only where a step is fine. One
    source follows one recipe: a recipe is refused where it puts an exact figure beside it off.
    """
    if line.figure is None:
        return None, None
    mixed = None
    for wanted in (EXACT, ROUNDED):
        for option in options(line, fluid, bench):
            if not _fits(line.figure, option.number, wanted, bench):
                continue
            if _coherent(option, group, bench):
                return option, None
            mixed = mixed or option
    return None, mixed


def _fits(figure: Printed, number: float, wanted: str, bench: Bench) -> bool:
    if wanted == ROUNDED and coarse(figure, bench.limits):
        return False
    return nearness(figure, number, bench.limits) == wanted


def _coherent(option: Option, group: tuple[Line, ...], bench: Bench) -> bool:
    recipe = option.recipe
    exact = (line for line in group if line.near == EXACT)
    return recipe is None or all(agrees(line, recipe, bench) for line in exact)


def _equivalents(line: Line, bench: Bench) -> Iterator[Option]:
    """Milliequivalents printed as millimoles, or the reverse, of ions with more than one charge."""
    particle = bench.catalogue.particles.get(line.quantity)
    if particle is None or line.figure is None or not line.ours.number:
        return
    charge = abs(particle.charge)
    if charge <= 1:
        return
    if line.figure.equivalents:
        words = f"millimoles printed as milliequivalents ({said(line.ours.number, line.quantity)})"
        yield Option(line.ours.number / charge, words)
    else:
        number = line.ours.number * charge
        shown = said(number, line.quantity).replace("mmol", "mEq")
        yield Option(number, f"milliequivalents printed as millimoles ({shown})")


Look = Callable[[str], float | None]
BASES: tuple[tuple[str, str, float], ...] = (
    ("energy", "4.0 kcal per gram of anhydrous glucose", 1.0),
    ("energy_us", "3.4 kcal per gram of glucose monohydrate", 1.0),
    ("glucose_mass", "3.75 kcal per gram of anhydrous glucose", KCAL_PER_G_AVAILABLE),
)


def _energies(line: Line, look: Look, recipe: Recipe | None) -> Iterator[Option]:
    """The energy by each factor that labels use, without and with that of the organic anions."""
    reading = f", with {recipe.words}" if recipe else ""
    organic = look("energy_organic") or 0.0
    for quantity, words, factor in BASES:
        glucose = look(quantity)
        if not glucose:
            continue
        number = glucose * factor
        if recipe or quantity != line.quantity:
            yield Option(number, f"{words}{reading} ({said(number, 'energy')})", recipe)
        if organic:
            whole = number + organic
            shown = said(whole, "energy")
            yield Option(whole, f"{words}{reading}, organic anions added ({shown})", recipe)


def _of_recipe(line: Line, recipe: Recipe, bench: Bench) -> Iterator[Option]:
    number = bench.reading(recipe, line.quantity)
    if number is not None and number != line.ours.number:
        yield Option(number, f"{recipe.words} ({said(number, line.quantity)})", recipe)
    if line.quantity in ENERGIES:
        yield from _energies(line, lambda q: bench.reading(recipe, q), recipe)
