"""Published needs of a day, to stand beside what a plan holds. Description, never an order."""

from collections.abc import Mapping
from dataclasses import dataclass

from isofolio.physiology.rates import maintenance_ions, maintenance_per_day, maintenance_per_hour

HOURS_PER_DAY = 24.0

Bands = tuple[tuple[float, float], ...]
"""Pairs of the weight at which a band ends [kg] and the amount per kilogram in it; the last band
ends nowhere that matters: at the highest weight."""


@dataclass(frozen=True)
class Backing:
    """Who says so. source: id of the catalogue, "" where only the text names it; seen: grade."""

    text: str
    source: str
    at: str
    seen: str


@dataclass(frozen=True)
class Need:
    """One publication. lowest, highest: the weights it is offered for [kg], our choice.

    water: bands for the low and the high end [mL/kg/day]; per_kg: ions [mmol/kg/day]; fixed: by
    quantity the ends of an amount a day; per_litre: ions in each litre of that water [mmol/L];
    hourly: bands of the hourly rule [mL/kg/h].
    """

    id: str
    label: str
    lowest: float
    highest: float
    water: tuple[Bands, Bands]
    per_kg: Mapping[str, float]
    fixed: Mapping[str, tuple[float, float]]
    per_litre: Mapping[str, float]
    hourly: Bands
    backing: tuple[Backing, ...]


def _flat(per_kilogram: float, highest: float) -> Bands:
    return ((highest, per_kilogram),)


_ADULT_HIGHEST = 200.0
_CHILD_HIGHEST = 80.0

ADULT = Need(
    id="adult",
    label="adult: 25 to 30 mL per kg, 1 mmol per kg of sodium, potassium and chloride, 50 to 100 g "
    "of glucose a day",
    lowest=35.0,
    highest=_ADULT_HIGHEST,
    water=(_flat(25.0, _ADULT_HIGHEST), _flat(30.0, _ADULT_HIGHEST)),
    per_kg={"sodium": 1.0, "potassium": 1.0, "chloride": 1.0},
    fixed={"glucose_mass": (50.0, 100.0)},
    per_litre={},
    hourly=(),
    backing=(Backing("NICE CG174, 2013", "nice-cg174", "routine maintenance, adults", "copy"),),
)

CHILD = Need(
    id="child",
    label="child: 100 mL per kg to 10 kg, then 50, above 20 kg 20 mL per kg a day",
    lowest=3.0,
    highest=_CHILD_HIGHEST,
    water=(((10.0, 100.0), (20.0, 50.0), (_CHILD_HIGHEST, 20.0)),) * 2,
    per_kg={},
    fixed={},
    per_litre={"sodium": 30.0, "potassium": 20.0, "chloride": 20.0},
    hourly=((10.0, 4.0), (20.0, 2.0), (_CHILD_HIGHEST, 1.0)),
    backing=(
        Backing("Holliday and Segar, Pediatrics 1957;19:823", "", "maintenance of water", "copy"),
        Backing("the hourly 4-2-1 rule: common practice, no source", "", "", ""),
    ),
)

NEEDS = (ADULT, CHILD)
NEED_OF = {need.id: need for need in NEEDS}


def published(need: Need, weight: float) -> dict[str, tuple[float, float]]:
    """The ends of what is published for a weight [kg], by quantity.

    water [mL/day], ions [mmol/day], glucose_mass [g/day]; hourly: the 4-2-1 rule over 24 hours
    [mL/day], which does not agree with the daily rule: 1680 beside 1700 at 30 kg.

    >>> published(ADULT, 70.0)["water"], published(CHILD, 32.0)["sodium"]
    ((1750.0, 2100.0), (52.2, 52.2))
    """
    if need.id == CHILD.id:
        return _child(weight)
    low, high = (bands[0][1] * weight for bands in need.water)
    ions = {quantity: (share * weight,) * 2 for quantity, share in need.per_kg.items()}
    return {"water": (low, high), **ions, **need.fixed}


def _child(weight: float) -> dict[str, tuple[float, float]]:
    water = float(maintenance_per_day(weight))
    ions = {name: (float(share),) * 2 for name, share in maintenance_ions(water).items()}
    hourly = float(maintenance_per_hour(weight)) * HOURS_PER_DAY
    return {"water": (water, water), **ions, "hourly": (hourly, hourly)}
