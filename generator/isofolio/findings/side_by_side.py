"""Fluids side by side for a question: the volume that a basis asks for, and what it holds."""

from collections.abc import Sequence
from dataclasses import dataclass

from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import Catalogue
from isofolio.entries.situations import SideBySide
from isofolio.measures.table import Table
from isofolio.measures.values import Value
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.vocabulary.units import factor

VOLUME = "volume"
HOLDS_NONE = "it holds none of it"


@dataclass(frozen=True)
class SideRow:
    """A fluid of a comparison: the volume of the basis [mL] and the figures asked for.

    Figures that scale are those of the volume, in the container's unit; the others are of a litre.
    """

    fluid: Fluid
    volume: Value
    figures: tuple[tuple[str, Value], ...]


def rows_of(
    asked: SideBySide, fluids: Sequence[str], catalogue: Catalogue, table: Table
) -> tuple[SideRow, ...]:
    """The rows of one comparison; `fluids` stands in where the comparison names none."""
    names = [str(name) for name in asked.fluids] or list(fluids)
    return tuple(_row(asked, catalogue.fluids[name], table) for name in names)


def _row(asked: SideBySide, fluid: Fluid, table: Table) -> SideRow:
    volume = _volume(asked, fluid, table)
    figures = tuple(
        (quantity, _figure(fluid.id, quantity, volume, table))
        for quantity in asked.show
        if quantity != VOLUME
    )
    return SideRow(fluid, volume, figures)


def _volume(asked: SideBySide, fluid: Fluid, table: Table) -> Value:
    """The volume of the basis [mL], the same for all or that which holds the amount."""
    basis = asked.basis
    if basis.volume is not None:
        return Value(_in(basis.volume.low, basis.volume.unit, "mL"))
    quantity = str(basis.quantity)
    held = table.value(fluid.id, quantity)
    if held.number is None:
        return held
    if held.number <= 0 or basis.amount is None:
        return Value(None, HOLDS_NONE)
    unit = QUANTITY_BY_ID[quantity].container_unit
    wanted = _in(basis.amount.low, basis.amount.unit, unit)
    return Value(1000.0 * wanted / held.number)


def _in(number: float | None, unit: str, wanted: str) -> float:
    scale = factor(unit, wanted)
    if number is None or scale is None:
        raise ValueError(f"a basis in {unit or 'no unit'} is not {wanted}: check the catalogue.")
    return number * scale


def _figure(fluid_id: str, quantity: str, volume: Value, table: Table) -> Value:
    shown = QUANTITY_BY_ID[quantity]
    value = table.value(fluid_id, quantity)
    if not _scales(quantity):
        return value
    if volume.number is None:
        return volume
    return value.times(shown.container_factor * volume.number / 1000.0)


def _scales(quantity: str) -> bool:
    """What grows with the volume given: amounts, and the gains of compartments."""
    return QUANTITY_BY_ID[quantity].scales or quantity.endswith("_gain")


def unit_of(quantity: str) -> str:
    """The unit of a figure as `rows_of` gives it.

    >>> unit_of("sodium"), unit_of("osmolarity"), unit_of("plasma_gain")
    ('mmol', 'mOsm/L', 'mL')
    """
    shown = QUANTITY_BY_ID[quantity]
    if quantity.endswith("_gain"):
        return "mL"
    return shown.container_unit if shown.scales else shown.unit
