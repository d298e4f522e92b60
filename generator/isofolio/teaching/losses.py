"""Questions about what runs out of a person, and what is set against it: sums, never an order."""

from collections.abc import Iterator
from dataclasses import dataclass

from isofolio.entries.fluids import Fluid
from isofolio.entries.situations import PublishedTable, Situation
from isofolio.handbook import Handbook
from isofolio.teaching.lots import Lots
from isofolio.teaching.question import APART, Question, measured, question, right, told, wrong
from isofolio.teaching.stock import known_fluids, number, said_by
from isofolio.wording.addresses import entry_address

IONS = {"Na": "sodium", "K": "potassium", "Cl": "chloride"}
"""Columns of the published tables of body fluids [mmol/L]."""
LITRES = (2.0, 3.0)

BURNS, BURNS_SOURCE = "burns", "rcem-burns"
COEFFICIENT, OTHER_COEFFICIENT = 3.0, 4.0
"""mL for each kg and each 1 % burnt: Royal College of Emergency Medicine, undated, "mostly 3"
of 2 to 4."""
FIRST_HOURS, DAY = 8.0, 24.0
WEIGHTS = (50.0, 60.0, 70.0, 80.0, 90.0)
BURNT = (20.0, 30.0, 40.0)
GONE = (1.0, 2.0, 3.0)


@dataclass(frozen=True)
class Loss:
    """A row of a published table: what runs out, who says so, one ion, and how much [mmol/L]."""

    situation: Situation
    name: str
    source: str
    ion: str
    strength: float


def replaced_loss(handbook: Handbook, lots: Lots) -> Question | None:
    """How far is an ion short when a loss is met by as much of a fluid?"""
    pool = [(loss, fluid) for loss in losses(handbook) for fluid in _short(handbook, loss)]
    if not pool:
        return None
    loss, fluid = lots.pick(pool)
    litres, unit = lots.pick(LITRES), "mmol"
    brought = number(handbook, fluid, loss.ion)
    short = (loss.strength - brought) * litres
    asked = (
        f"“{loss.name}” has {measured(loss.strength, 'mmol/L')} of {loss.ion} in a published "
        f"table ({loss.source}). On paper {told(litres)} L of it are lost and {told(litres)} L of "
        f"{fluid.name} are given. How far is the {loss.ion} short?"
    )
    answers = (
        right(short, unit),
        wrong(short / litres, unit, "per litre read as the whole", f"there are {told(litres)} L"),
        wrong(loss.strength * litres, unit, "what was given left out", "it is the loss alone"),
        wrong(brought * litres, unit, "the loss left out", "it is what the bags bring"),
        wrong((loss.strength + brought) * litres, unit, "added up", "a loss and a gain differ"),
    )
    working = (
        f"In each litre {told(loss.strength)} are lost and {told(brought)} given; the difference "
        f"times {told(litres)} is {measured(short, unit)}. A sample of what drains beats any table."
    )
    address = entry_address("situations", loss.situation.id, "published-figures")
    return question("losses", asked, answers, working, (loss.situation.name, address))


def losses(handbook: Handbook) -> list[Loss]:
    """The body fluids of the published tables of all situations, ion by ion."""
    return [
        loss
        for situation in handbook.catalogue.situations.values()
        for table in situation.tables
        for loss in _rows(handbook, situation, table)
    ]


def _rows(handbook: Handbook, situation: Situation, table: PublishedTable) -> Iterator[Loss]:
    """Cells that are one whole figure; "about", a span and "not given" are no figure to sum."""
    for row in table.rows:
        source = handbook.catalogue.sources.get(row.cite.source or "") if row.cite else None
        if source is None or row.cells[0].startswith("plasma"):
            continue
        for column, cell in zip(table.columns, row.cells, strict=True):
            if column in IONS and cell.isdecimal():
                name = row.cells[0][:1].upper() + row.cells[0][1:]
                yield Loss(situation, name, said_by(source), IONS[column], float(cell))


def _short(handbook: Handbook, loss: Loss) -> list[Fluid]:
    """The fluids of that situation's page that bring some of the ion, and less than is lost."""
    named = {str(c.fluid) for c in loss.situation.fluids}
    named |= {str(fluid) for asked in loss.situation.compare for fluid in asked.fluids}
    known = [fluid for fluid in known_fluids(handbook, ("ready",)) if fluid.id in named]
    low, high = APART * loss.strength, (1 - APART) * loss.strength
    return [fluid for fluid in known if low < number(handbook, fluid, loss.ion) < high]


def burns_clock(handbook: Handbook, lots: Lots) -> Question | None:
    """What does a published formula for burns come to an hour, some hours after the burn?"""
    catalogue = handbook.catalogue
    if BURNS_SOURCE not in catalogue.sources or BURNS not in catalogue.situations:
        return None
    weight, burnt, gone = lots.pick(WEIGHTS), lots.pick(BURNT), lots.pick(GONE)
    day, left, unit = COEFFICIENT * weight * burnt, FIRST_HOURS - gone, "mL/h"
    hourly = day / 2 / left
    asked = (
        "Royal College of Emergency Medicine (undated): 2 to 4 mL/kg for each 1 % burnt in a day, "
        "mostly 3, half of it in 8 hours from the burn. An invented adult of "
        f"{told(weight)} kg, {told(burnt)} % burnt, comes {_hours(gone)} after the burn and "
        "nothing has run. What does 3 mL come to an hour, up to the eighth?"
    )
    answers = (
        right(hourly, unit),
        wrong(day / 2 / FIRST_HOURS, unit, "the clock begun at the door", "it runs from the burn"),
        wrong(day / DAY, unit, "spread over the day", "half of it belongs to the first 8 hours"),
        wrong(day / left, unit, "half forgotten", "it is the whole day's volume"),
        wrong(
            OTHER_COEFFICIENT * weight * burnt / 2 / left,
            unit,
            "another coefficient",
            "that is 4 mL",
        ),
    )
    working = (
        f"3 times {told(weight)} times {told(burnt)} is {measured(day, 'mL')}; half of it over "
        f"{_hours(left)} is {measured(hourly, unit)}: arithmetic, no order; urine, the burns "
        "centre and local policy decide."
    )
    teaches = (
        catalogue.situations[BURNS].name,
        entry_address("situations", BURNS, "published-figures"),
    )
    return question("burns", asked, answers, working, teaches)


def _hours(hours: float) -> str:
    """A number of hours in words.

    >>> _hours(1.0), _hours(6.0)
    ('1 hour', '6 hours')
    """
    return f"{told(hours)} hour" + ("" if hours == 1 else "s")
