"""A result of a worksheet: a figure with its name, its unit, and its place in the table."""

from collections.abc import Mapping
from dataclasses import dataclass

from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.figures import amount, rounded

NOT_KNOWN = "not known"
NONE = "none"


@dataclass(frozen=True)
class Kind:
    """row, column: of the table; decimals: None for the rule of amounts; signed: + is written."""

    row: str
    column: str
    unit: str
    decimals: int | None = None
    signed: bool = False


@dataclass(frozen=True)
class Result:
    """number: in the unit of its kind; None where a fluid's figure is not known."""

    id: str
    kind: Kind
    number: float | None

    @property
    def text(self) -> str:
        """The figure alone, as pages print it; an amount of 0 is the word none."""
        if self.number is None:
            return NOT_KNOWN
        kind = self.kind
        if self.number == 0 and kind.decimals is None:
            return NONE
        said = amount(self.number) if kind.decimals is None else rounded(self.number, kind.decimals)
        return f"+{said}" if kind.signed and said.strip("0.") and self.number > 0 else said

    @property
    def spoken(self) -> str:
        """Name, figure and unit.

        >>> Result("rate", Kind("pump rate", "", "mL/h", 1), 125.0).spoken
        'pump rate 125.0 mL/h'
        """
        text = self.text
        unit = "" if text in {NOT_KNOWN, NONE} else f" {self.kind.unit}"
        return f"{self.kind.row} {text}{unit}"


def results(numbers: Mapping[str, float | None]) -> tuple[Result, ...]:
    """Numbers by id as results, in their order."""
    return tuple(Result(name, kind_of(name), number) for name, number in numbers.items())


COLUMNS = {
    "held": "in it",
    "mixed": "volumes added",
    "nominal": "by the bag's label volume",
    "day": "in these volumes",
    "per_kg": "per kg",
    "from": "published, from",
    "to": "published, to",
    "per_hour": "in an hour",
}

ALONE = {
    "volume.mixed": Kind("volume of both", "in it", "mL"),
    "water.day": Kind("water", COLUMNS["day"], "mL", 0),
    "water.per_kg": Kind("water", COLUMNS["per_kg"], "mL/kg"),
    "water.from": Kind("water", COLUMNS["from"], "mL", 0),
    "water.to": Kind("water", COLUMNS["to"], "mL", 0),
    "hourly.from": Kind("water, by the hourly rule", COLUMNS["from"], "mL", 0),
    "hourly.to": Kind("water, by the hourly rule", COLUMNS["to"], "mL", 0),
    "osmolarity.mixed": Kind("osmolarity", COLUMNS["mixed"], "mOsm/L", 0),
    "osmolarity.nominal": Kind("osmolarity", COLUMNS["nominal"], "mOsm/L", 0),
    "rate": Kind("pump rate", "", "mL/h", 1),
    "counted": Kind("drops to count", "", "drops/min", 0),
    "exact": Kind("drops before rounding", "", "drops/min", 1),
    "glucose.per_minute": Kind("glucose per kg and minute", "", "mg/kg/min", 2),
    "glucose.per_hour": Kind("glucose in an hour", "", "g/h"),
    "glucose.per_day": Kind("glucose per kg in a day", "", "g/kg/day"),
    "water": Kind("body water", "", "L", 1),
    "change": Kind("change of sodium, exact", "", "mmol/L", 2, signed=True),
    "linear": Kind("change by the per-litre rule", "", "mmol/L", 2, signed=True),
    "after": Kind("sodium after it, exact", "", "mmol/L", 1),
}
"""The kinds that no quantity and basis make up."""


def kind_of(name: str) -> Kind:
    """The kind of a result. Raises KeyError for one that no worksheet has.

    >>> kind_of("sodium.held").unit, kind_of("glucose_mass.mixed").unit
    ('mmol', 'g/L')
    """
    if name in ALONE:
        return ALONE[name]
    quantity_id, _, basis = name.partition(".")
    quantity = QUANTITY_BY_ID[quantity_id]
    label = quantity.label.partition(",")[0] if quantity_id == "energy" else quantity.label
    return Kind(label, COLUMNS[basis], _unit(quantity.container_unit, quantity.unit, basis))


def _unit(container_unit: str, unit: str, basis: str) -> str:
    if basis in {"mixed", "nominal"}:
        return unit
    return container_unit + {"per_kg": "/kg", "per_hour": "/h"}.get(basis, "")
