"""What a volume and a rate entered by the reader would deliver: the sums of the six worksheets.

The page does the same sums in its own script; `tests/vectors` and generated cases keep the two
together. Nothing here proposes a volume, a rate or a dose.
"""

from collections.abc import Iterable, Mapping, Sequence

from isofolio.chemistry.composition import Composition, mix
from isofolio.physiology.rates import drops_per_minute, glucose_rate, pump_rate
from isofolio.physiology.sodium import sodium_change, sodium_change_linear, total_body_water
from isofolio.teaching.needs import NEED_OF, published
from isofolio.teaching.results import Result, results

HOURS_PER_DAY = 24.0
MILLILITRES_PER_LITRE = 1000.0

HELD = (
    *("sodium", "potassium", "calcium", "magnesium", "chloride", "bicarbonate", "lactate"),
    *("acetate", "gluconate", "malate", "citrate", "sulfate", "phosphate", "glycerophosphate"),
    *("octanoate", "mannitol", "glucose_mass", "colloid_mass", "energy"),
)
"""What the worksheets reckon with, by quantity; glucose by its mass, anhydrous."""

OF_A_DAY = ("sodium", "potassium", "chloride", "glucose_mass")
PER_HOUR = ("sodium", "potassium", "glucose_mass")

PerLitre = Mapping[str, float | None]
"""What a litre of a fluid holds, by quantity, in its unit. Not listed: none. None: not known."""


def contents(per_litre: PerLitre, volume: float) -> tuple[Result, ...]:
    """What any volume of a fluid holds: amount per litre times volume.

    volume [mL]. Returns amounts [mmol, g, kcal], a row for each quantity that is listed.

    >>> [result.spoken for result in contents({"sodium": 154.0, "chloride": 154.0}, 500.0)]
    ['sodium 77 mmol', 'chloride 77 mmol']
    """
    return results(
        {
            f"{quantity}.held": _share(per_litre[quantity], volume)
            for quantity in HELD
            if quantity in per_litre
        }
    )


def day_plan(
    parts: Sequence[tuple[PerLitre, float]], weight: float, need: str
) -> tuple[Result, ...]:
    """What the volumes of a day hold together, per kilogram, and the published need beside it.

    parts: fluids with their volumes [mL]; weight [kg]; need: the id of a published need.
    Returns for water, sodium, potassium, chloride and glucose the amount, the amount per kg, and
    the ends of what is published. Raises KeyError for a need that nobody published here.

    >>> saline = {"sodium": 154.0, "chloride": 154.0}
    >>> day_plan([(saline, 1000.0), ({"glucose_mass": 50.0}, 1000.0)], 70.0, "adult")[4].spoken
    'sodium 154 mmol'
    """
    totals: dict[str, float | None] = {"water": _total(volume for _, volume in parts)}
    for quantity in OF_A_DAY:
        totals[quantity] = _total(_share(held.get(quantity, 0.0), volume) for held, volume in parts)
    ends = published(NEED_OF[need], weight)
    found: dict[str, float | None] = {}
    for quantity, total in totals.items():
        found[f"{quantity}.day"] = total
        found[f"{quantity}.per_kg"] = None if total is None else total / weight
        if quantity in ends:
            found[f"{quantity}.from"], found[f"{quantity}.to"] = ends[quantity]
    if "hourly" in ends:
        found["hourly.from"], found["hourly.to"] = ends["hourly"]
    return results(found)


def concentrate(
    bag: PerLitre, bag_volume: float, addition: PerLitre, addition_volume: float
) -> tuple[Result, ...]:
    """A bag after an addition: amounts, and concentrations by both ways of counting the volume.

    bag_volume, addition_volume [mL]. `held`: in the whole bag; `mixed`: over the two volumes
    together; `nominal`: over the bag's label volume, as labels of admixtures do. The overfill of
    the bag is often larger than the difference. Osmolarity is a sum of particles, so it mixes as
    they do. Says nothing about whether the two may be mixed.

    >>> potash = {"potassium": 2012.0, "chloride": 2012.0}
    >>> [result.spoken for result in concentrate({}, 1000.0, potash, 10.0)[1:4]]
    ['potassium 20 mmol', 'potassium 19.9 mmol/L', 'potassium 20 mmol/L']
    """
    parts = [
        (_composition(bag), bag_volume / MILLILITRES_PER_LITRE),
        (_composition(addition), addition_volume / MILLILITRES_PER_LITRE),
    ]
    mixed = mix(parts)
    nominal = mix(parts, total_volume=parts[0][1])
    found: dict[str, float | None] = {"volume.mixed": bag_volume + addition_volume}
    for quantity in (*HELD, "osmolarity"):
        if quantity not in bag and quantity not in addition:
            continue
        if quantity != "osmolarity":
            found[f"{quantity}.held"] = _share(nominal.known.get(quantity), bag_volume)
        found[f"{quantity}.mixed"] = mixed.known.get(quantity)
        found[f"{quantity}.nominal"] = nominal.known.get(quantity)
    return results(found)


def drops(
    volume: float, hours: float, drops_per_ml: float, per_litre: PerLitre | None = None
) -> tuple[Result, ...]:
    """Pump rate and drops of a volume over a time, and what an hour of the fluid delivers.

    volume [mL]; hours [h]; drops_per_ml: printed on the set [1/mL]; per_litre: of the fluid, or
    None where the reader names none.
    Returns the rate [mL/h], the drops [drops/min] to count and before rounding, and sodium,
    potassium [mmol/h] and glucose [g/h].

    >>> [result.spoken for result in drops(1000.0, 8.0, 20.0)]
    ['pump rate 125.0 mL/h', 'drops to count 42 drops/min', 'drops before rounding 41.7 drops/min']
    """
    rate = float(pump_rate(volume, hours))
    counted = float(drops_per_minute(volume, hours * 60.0, drops_per_ml))
    found: dict[str, float | None] = {"rate": rate, "counted": counted, "exact": counted}
    for quantity in PER_HOUR if per_litre is not None else ():
        held = per_litre.get(quantity, 0.0) if per_litre is not None else None
        found[f"{quantity}.per_hour"] = _share(held, rate)
    return results(found)


def glucose_load(glucose_mass: float, rate: float, weight: float) -> tuple[Result, ...]:
    """Glucose that a rate of a fluid delivers: g/L times mL/h, over kg and 60 minutes.

    glucose_mass: anhydrous [g/L]; rate [mL/h]; weight [kg].
    Returns [mg/kg/min], [g/h] and [g/kg/day].

    >>> [result.spoken for result in glucose_load(100.0, 100.0, 70.0)][:2]
    ['glucose per kg and minute 2.38 mg/kg/min', 'glucose in an hour 10 g/h']
    """
    hourly = glucose_mass * rate / MILLILITRES_PER_LITRE
    return results(
        {
            "glucose.per_minute": float(glucose_rate(glucose_mass, rate, weight)),
            "glucose.per_hour": hourly,
            "glucose.per_day": hourly * HOURS_PER_DAY / weight,
        }
    )


def sodium_by_volume(
    *,
    sodium: float,
    potassium: float,
    serum_sodium: float,
    weight: float,
    water_per_kg: float,
    volume: float,
) -> tuple[Result, ...]:
    """Change of plasma sodium by arithmetic, exactly and by the per-litre rule.

    sodium, potassium of the fluid, and serum_sodium [mmol/L]; weight [kg]; water_per_kg [L/kg];
    volume [mL]. Returns body water [L], the change by both ways and the sodium after the exact
    one [mmol/L]. Losses in urine are left out, and only measuring again tells.

    >>> entered = {"serum_sodium": 115.0, "weight": 70.0, "water_per_kg": 0.5, "volume": 150.0}
    >>> found = sodium_by_volume(sodium=513.3, potassium=0.0, **entered)
    >>> [result.text for result in found][1:3]
    ['+1.70', '+1.66']
    """
    water = float(total_body_water(weight, water_per_kg))
    litres = volume / MILLILITRES_PER_LITRE
    change = float(sodium_change(sodium, potassium, serum_sodium, water, litres))
    linear = float(sodium_change_linear(sodium, potassium, serum_sodium, water, litres))
    return results(
        {"water": water, "change": change, "linear": linear, "after": serum_sodium + change}
    )


def _share(per_litre: float | None, millilitres: float) -> float | None:
    return None if per_litre is None else per_litre * millilitres / MILLILITRES_PER_LITRE


def _total(amounts: Iterable[float | None]) -> float | None:
    """A sum in the order given; not known where one amount is not."""
    total = 0.0
    for amount in amounts:
        if amount is None:
            return None
        total += amount
    return total


def _composition(per_litre: PerLitre) -> Composition:
    known = {name: amount for name, amount in per_litre.items() if amount is not None}
    unknown = {name: "not known" for name, amount in per_litre.items() if amount is None}
    return Composition(known, unknown)
