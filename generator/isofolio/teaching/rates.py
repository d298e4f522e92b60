"""Questions about drops, kilograms and hours: arithmetic of the worksheets, never an order."""

from isofolio.handbook import Handbook
from isofolio.measures.methods import anchor_of
from isofolio.physiology.rates import drops_per_minute, pump_rate
from isofolio.teaching.lots import Lots
from isofolio.teaching.question import Answer, Question, measured, question, right, told, wrong
from isofolio.teaching.stock import LITRE, number, ready, taught_by
from isofolio.wording.addresses import METHOD, source_address
from isofolio.wording.figures import HARD

VOLUMES, HOURS = (500.0, 1000.0), (4.0, 6.0, 8.0, 10.0, 12.0)
SETS = (20.0, 60.0)
"""Drops per mL of the two sets of ISO 8536-4."""

NEED = (25.0, 30.0)
"""Water of an adult by day [mL/kg]: NICE CG174, 2013, as a journal quotes it."""
NEED_SOURCE = "nice-cg174"
OVER, DAY, HABIT = (30.0, 40.0), 24.0, 3000.0
WEIGHTS = (45.0, 50.0, 60.0, 70.0, 80.0, 90.0)

PUMPS = (80.0, 100.0, 125.0, 150.0, 200.0, 250.0)
MOST_POTASSIUM = 45.0
"""mmol/L: no question puts a stronger potassium on a pump."""


def drops(handbook: Handbook, lots: Lots) -> Question | None:
    """How many drops a minute for a volume, a time and a set?"""
    del handbook  # nothing of the catalogue is in it
    volume, hours, per_ml = lots.pick(VOLUMES), lots.pick(HOURS), lots.pick(SETS)
    other = SETS[0] if per_ml == SETS[1] else SETS[1]
    minutes = 60.0 * hours
    counted = float(drops_per_minute(volume, minutes, per_ml))
    hourly = float(pump_rate(volume, hours))
    unit = "drops a minute"
    told_drops = f"{told(round(counted))}{HARD}{unit}"
    answers = (
        Answer(told_drops, number=counted),
        _drops(
            float(drops_per_minute(volume, minutes, other)),
            "the other set",
            f"that is a set of {told(other)} drops a mL",
        ),
        _drops(counted * 60, "per hour", "an hour has 60 minutes"),
        _drops(counted / per_ml, "the set left out", "it is mL a minute"),
        _drops(hourly, "mL an hour read as drops", "that holds for 60 drops a mL alone"),
    )
    asked = (
        f"{told(volume)} mL in {told(hours)} h by a set of {told(per_ml)} drops a mL. How many "
        "drops a minute?"
    )
    working = (
        f"{told(volume)} mL times {told(per_ml)} drops over {told(minutes)} min is {told_drops}."
    )
    teaches = ("Method: drops a minute", f"{METHOD}#{anchor_of(drops_per_minute)}")
    return question("drops", asked, answers, working, teaches)


def _drops(number: float, slip: str, because: str) -> Answer:
    text = told(round(number)) if number >= 10 else told(number)
    return Answer(f"{text}{HARD}drops a minute", slip, because, number)


def per_kilogram(handbook: Handbook, lots: Lots) -> Question | None:
    """What does a published need per kilogram come to?"""
    if NEED_SOURCE not in handbook.catalogue.sources:
        return None
    weight = lots.pick(WEIGHTS)
    low, high = (need * weight for need in NEED)
    asked = (
        f"NICE CG174 (2013, as quoted in a journal) gives an adult 25 to 30 mL of water per kg a "
        f"day. What does that come to at {told(weight)} kg?"
    )
    answers = (
        _span(low, high, "", ""),
        _span(low / DAY, high / DAY, "an hour taken for a day", "it was divided by 24"),
        _span(
            OVER[0] * weight,
            OVER[1] * weight,
            "another figure of the trade",
            "that is 30 to 40 mL per kg",
        ),
        Answer(measured(HABIT, "mL"), "three bags by habit", "no weight is in it", HABIT),
    )
    working = (
        f"25 times {told(weight)} is {measured(low, 'mL')}, 30 times {told(weight)} is "
        f"{measured(high, 'mL')}; local policy decides what a person is given."
    )
    return question("per-kg", asked, answers, working, ("The source", source_address(NEED_SOURCE)))


def _span(low: float, high: float, slip: str, because: str) -> Answer:
    text = f"{told(low)} to {measured(high, 'mL')}"
    return Answer(text, slip, because, (low + high) / 2)


def potassium_rate(handbook: Handbook, lots: Lots) -> Question | None:
    """How much potassium an hour does a pump deliver at a rate?"""

    def fits(potassium: float) -> bool:
        return 1 <= potassium <= MOST_POTASSIUM

    pool = ready(handbook, lambda f: fits(number(handbook, f, "potassium")))
    if not pool:
        return None
    fluid, rate = lots.pick(pool), lots.pick(PUMPS)
    litre = number(handbook, fluid, "potassium")
    hourly, unit = litre * rate / LITRE, "mmol/h"
    asked = (
        f"{fluid.name} ({measured(litre, 'mmol/L')} of potassium) runs at {told(rate)} mL/h. How "
        "much potassium is that an hour?"
    )
    answers = (
        right(hourly, unit),
        wrong(litre, unit, "strength read as rate", "it is what a litre holds"),
        wrong(hourly * 10, unit, "a litre taken for 100 mL", "1000 mL are a litre"),
        wrong(LITRE / rate, unit, "hours read as mmol", "it is how long a litre lasts"),
    )
    working = (
        f"{measured(litre, 'mmol/L')} times {told(rate / LITRE)} L/h is {measured(hourly, unit)}: "
        "arithmetic, no order."
    )
    teaches = taught_by(fluid, "beside-plasma", "a litre beside plasma")
    return question("potassium-rate", asked, answers, working, teaches)
