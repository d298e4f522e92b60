"""What the worksheets of the page read: scripts/worksheets-data.js, written from the Handbook.

Every clinical number that the script shows or reckons with stands here: figures of the fluids,
limits, published needs, bounds, and the rule of rounding.
"""

import json
from dataclasses import asdict
from typing import Any

from isofolio.entries.fluids import Fluid
from isofolio.entries.lists import Limit
from isofolio.findings.limits import figure_of
from isofolio.handbook import Handbook
from isofolio.physiology.rates import MINUTES_PER_HOUR
from isofolio.physiology.sodium import BODY_WATER_FACTORS
from isofolio.teaching.fields import Sheet
from isofolio.teaching.needs import NEEDS
from isofolio.teaching.results import ALONE, NONE, NOT_KNOWN, kind_of
from isofolio.teaching.sheets import EXAMPLE_CHANGED, EXAMPLE_MARK, SHEETS
from isofolio.teaching.stock import said_by
from isofolio.teaching.worksheets import (
    HELD,
    HOURS_PER_DAY,
    MILLILITRES_PER_LITRE,
    OF_A_DAY,
    PER_HOUR,
)
from isofolio.wording.figures import FINE_BELOW, HARD, MINUS, typeset

# What is left of a sum of floating-point figures that cancel [any unit of a quantity].
NOISE = 1e-9
HUNDREDTHS_BELOW = 0.095  # as in wording.figures.amount; a test compares the two over many figures
ALWAYS = OF_A_DAY

COMMON_PRACTICE = "common practice, no source"
PAIRS = (
    ("calcium", "phosphate", "Calcium and phosphate together can fall out as crystals."),
    ("calcium", "bicarbonate", "Calcium and bicarbonate together can fall out as chalk."),
    ("calcium", "sulfate", "Calcium and sulfate together can fall out as gypsum."),
    ("magnesium", "phosphate", "Magnesium and phosphate together can fall out as crystals."),
)
"""Pairs that a mixture should not hold without a word from pharmacy. Common practice, no source."""

WORDS = {
    "none": NONE,
    "not_known": NOT_KNOWN,
    "example": EXAMPLE_MARK,
    "changed": EXAMPLE_CHANGED,
    "comma": "Write a point instead of the comma, as in 1.5.",
    "concentrate": "This is a concentrate: dilute before use.",
    "above": "{row} {figure} lies above {limit}. {text} ({source})",
    "pair": f"{{text}} Ask pharmacy. ({COMMON_PRACTICE})",
    "no_clash": "No pair that these figures warn of; that is no statement that they may be mixed.",
    "unknown": "{fluid}, {row}: no figure, {reason}.",
    "outside_need": "This published need is offered here for a weight from {low} to {high} kg. "
    "Write such a weight, or choose the other need.",
    "half_pair": "Choose a fluid and write its volume, or leave out both.",
    "done": "Worked out. {first}",
    "refused": "Not worked out: {count} to put right. The first is marked.",
    "stale": "Changed: work it out again.",
    "cleared": "Emptied.",
}


def worksheets_data(handbook: Handbook) -> str:
    """The script; the same handbook gives the same bytes."""
    data = {
        "sheets": {sheet.id: _sheet(sheet, handbook) for sheet in SHEETS},
        "kinds": {name: asdict(kind_of(name)) for name in result_ids()},
        "held": HELD,
        "of_a_day": OF_A_DAY,
        "per_hour": PER_HOUR,
        "fluids": {fluid.id: _fluid(handbook, fluid) for fluid in handbook.fluids},
        "needs": {need.id: asdict(need) for need in NEEDS},
        "body_water": dict(BODY_WATER_FACTORS),
        "pairs": PAIRS,
        "words": WORDS,
        "limits": _limits(handbook),
        "per_litre": MILLILITRES_PER_LITRE,
        "per_hour_minutes": MINUTES_PER_HOUR,
        "per_day_hours": HOURS_PER_DAY,
        "rounding": {
            "fine_below": FINE_BELOW,
            "hundredths_below": HUNDREDTHS_BELOW,
            "minus": MINUS,
            "hard": HARD,
        },
    }
    text = json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    text = text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
    return f"window.isofolio=window.isofolio||{{}};window.isofolio.worksheetsData={text};\n"


def result_ids() -> tuple[str, ...]:
    """Every result that a worksheet can show.

    >>> "potassium.mixed" in result_ids()
    True
    """
    bases = ("held", "mixed", "nominal")
    of_a_day = ("day", "per_kg", "from", "to")
    return (
        *ALONE,
        *(f"{quantity}.{basis}" for quantity in HELD for basis in bases),
        *(f"{quantity}.{basis}" for quantity in OF_A_DAY for basis in of_a_day),
        *(f"{quantity}.per_hour" for quantity in PER_HOUR),
    )


def fluids_for(handbook: Handbook, which: str) -> list[Fluid]:
    """The fluids that a question offers, by name.

    any: all but retired ones; hung: what may hang as it is; added: concentrates; sugar: what
    holds glucose; salt: ready fluids whose sodium and potassium are known.
    """
    offered = (fluid for fluid in handbook.fluids if is_offered(handbook, fluid, which))
    return sorted(offered, key=lambda fluid: fluid.name.lower())


def is_offered(handbook: Handbook, fluid: Fluid, which: str) -> bool:
    """Whether a question of that kind offers a fluid: see `fluids_for`."""
    if fluid.status == "retired":
        return False
    hung = fluid.role in {"ready", "colloid"} and fluid.status == "current"
    if which == "hung":
        return hung
    if which == "added":
        return fluid.role == "concentrate"
    if which == "sugar":
        return fluid.role != "concentrate" and (number_of(handbook, fluid, "glucose_mass") or 0) > 0
    if which == "salt":
        known = (number_of(handbook, fluid, name) for name in ("sodium", "potassium"))
        return hung and all(number is not None for number in known)
    return True


def number_of(handbook: Handbook, fluid: Fluid, quantity: str) -> float | None:
    """A figure per litre, 0 for what only floating-point arithmetic keeps from it."""
    number = handbook.value(fluid.id, quantity).number
    return 0.0 if number is not None and abs(number) < NOISE else number


def per_litre(handbook: Handbook, fluid: Fluid) -> dict[str, float | None]:
    """What the worksheets reckon with of one fluid: what it holds, and what is not known."""
    found = {name: number_of(handbook, fluid, name) for name in (*HELD, "osmolarity")}
    return {name: number for name, number in found.items() if number != 0 or name in ALWAYS}


def _fluid(handbook: Handbook, fluid: Fluid) -> dict[str, Any]:
    figures = per_litre(handbook, fluid)
    unknown = [name for name, number in figures.items() if number is None]
    return {
        "name": typeset(fluid.name),
        "role": fluid.role,
        "figures": figures,
        "reasons": {name: handbook.value(fluid.id, name).reason for name in unknown},
    }


def example_of(handbook: Handbook, which: str, example: str) -> str:
    """The fluid of an invented example; the first of the list where the catalogue has no such."""
    offered = [fluid.id for fluid in fluids_for(handbook, which)]
    return example if example in offered or not example else next(iter(offered), "")


def _sheet(sheet: Sheet, handbook: Handbook) -> dict[str, Any]:
    fields = {}
    for field in sheet.fields:
        kept = asdict(field) | {"refusal": field.refusal}
        if field.kind == "fluid":
            kept["example"] = example_of(handbook, field.fluids, field.example)
        fields[field.id] = {
            key: kept[key]
            for key in ("kind", "example", "low", "high", "needed", "pair", "refusal")
        }
    return {
        "fields": fields,
        "worked": sheet.worked,
        "each": sheet.each,
        "limits": sheet.limits,
    }


def _limits(handbook: Handbook) -> dict[str, dict[str, Any]]:
    """The limits of the catalogue that a worksheet holds a result beside."""
    named = {limit for sheet in SHEETS for _, limit in sheet.limits}
    limits = handbook.catalogue.limits
    return {name: _limit(handbook, limits[name]) for name in sorted(named) if name in limits}


def _limit(handbook: Handbook, limit: Limit) -> dict[str, Any]:
    return {
        "value": figure_of(limit),
        "decimals": limit.value.decimals,
        "shown": typeset(limit.value.text),
        "text": limit.text,
        "source": _source(handbook, limit),
    }


def _source(handbook: Handbook, limit: Limit) -> str:
    source = handbook.catalogue.sources.get(limit.cite.source or "")
    if source is None:
        return limit.cite.at
    seen = "" if limit.cite.seen == "read" else f", {limit.cite.seen}"
    return f"{said_by(source)}{seen}"
