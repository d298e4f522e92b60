"""Fluids side by side: the cells of the table, and in words what differs.

The page where a reader chooses fluids has these cells as data, and its script joins them by the
same few words; a test compares what the two make of the same fluids.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook
from isofolio.measures.values import Value
from isofolio.pages.fluid import role_words
from isofolio.pages.live import NONE, level
from isofolio.physiology.tonicity import PLASMA_EFFECTIVE_OSMOLARITY
from isofolio.vocabulary.quantities import (
    CHEMICAL_QUANTITIES,
    PARTICLE_QUANTITIES,
    PHYSIOLOGICAL_QUANTITIES,
    QUANTITIES,
    QUANTITY_BY_ID,
    Quantity,
)
from isofolio.wording.figures import HARD, RANGE, amount, figure, typeset, unit_text

# How a row is told: `only` and `range` take names or figures.
WORDS = {
    "same": "same in all",
    "both": "same in both",
    "only": "only in {}",
    "range": "{} to {}",
    "differs": "differs",
    "unknown": "not known of all",
    "none": NONE,
}
NOT_COMPARED = "not compared"

GROUPS: tuple[tuple[str, tuple[Quantity, ...]], ...] = (
    ("What a litre holds", PARTICLE_QUANTITIES),
    ("Charge, osmolarity, calories", CHEMICAL_QUANTITIES),
    ("In the body", PHYSIOLOGICAL_QUANTITIES),
)
SAID = (("role", "What it is"), ("body", "In the body"), ("vein", "Vein"), ("blood", "With blood"))


@dataclass(frozen=True)
class Cell:
    """text: as shown; number: what is shown, to compare by; None where the text is a reason."""

    text: str
    number: float | None


@dataclass(frozen=True)
class Line:
    """One row of a table: a quantity in a litre, or in a container of so many millilitres."""

    quantity: Quantity
    millilitres: float | None = None

    @property
    def name(self) -> str:
        """The quantity, and the volume where it is not a litre."""
        unit = self.quantity.unit if self.millilitres is None else self.quantity.container_unit
        part = "" if self.millilitres is None else f" in {amount(self.millilitres)}{HARD}mL"
        shown = unit_text(unit).strip()
        name = f"{self.quantity.label}{part}"
        return typeset(f"{name}, {shown}" if shown else name)


def cell(handbook: Handbook, fluid: str, line: Line) -> Cell:
    """What a table shows of one fluid in one row."""
    quantity = line.quantity
    if line.millilitres is None:
        value = handbook.value(fluid, quantity.id)
    else:
        value = handbook.in_container(fluid, quantity.id, line.millilitres)
    return _shown(level(value), line)


def _shown(value: Value, line: Line) -> Cell:
    if value.number is None:
        return Cell(typeset(value.reason), None)
    if value.number == 0 and line.quantity.scales:
        return Cell(NONE, 0.0)
    if line.millilitres is None:
        return Cell(figure(value.number, line.quantity), value.number)
    return Cell(amount(value.number), value.number)


def difference(cells: Sequence[Cell], names: Sequence[str]) -> str:
    """In words what differs between the fluids of a row.

    >>> difference([Cell("none", 0.0), Cell("20", 20.1), Cell("40", 40.2)], ["a", "b", "c"])
    'none to 40'
    >>> difference([Cell("none", 0.0), Cell("20", 20.1)], ["Glucose", "Potassium in glucose"])
    'only in Potassium in glucose'
    """
    if len({one.text for one in cells}) == 1:
        return WORDS["both" if len(cells) == 2 else "same"]
    known = [one for one in cells if one.number is not None]
    if len(known) < len(cells):
        return WORDS["unknown"]
    holding = [name for one, name in zip(cells, names, strict=True) if one.text != NONE]
    if len(holding) == 1:
        return WORDS["only"].format(holding[0])
    ordered = sorted(known, key=lambda one: one.number or 0.0)
    return WORDS["range"].format(ordered[0].text, ordered[-1].text)


def said(handbook: Handbook, fluid: Fluid) -> dict[str, str]:
    """What a fluid is, in words: the answers of its first screen."""
    judgement = handbook.judgements[fluid.id]
    texts = {
        "role": role_words(handbook, fluid),
        "body": judgement.body.word,
        "vein": judgement.vein.word,
        "blood": judgement.blood.text,
    }
    return {key: typeset(text) for key, text in texts.items()}


def plasma_text(handbook: Handbook, line: Line) -> str:
    """Plasma in a row: its interval, or that it is not compared."""
    quantity = line.quantity
    if line.millilitres is not None:
        return NOT_COMPARED
    if quantity.id == "effective_osmolarity":
        return figure(PLASMA_EFFECTIVE_OSMOLARITY, quantity)
    interval = handbook.beside.get(quantity.id)
    if interval is None or interval.interval.unit != quantity.unit:
        return NOT_COMPARED
    return interval.interval.text.removesuffix(f" {quantity.unit}").replace(" to ", RANGE)


def lines_of(quantities: Sequence[str], volumes: Sequence[float]) -> list[Line]:
    """The rows of a table: for each volume what scales with it, and what does not, once."""
    lines = []
    for quantity in (QUANTITY_BY_ID[name] for name in quantities):
        per = volumes if quantity.scales and volumes else [LITRE]
        lines += [Line(quantity, None if volume == LITRE else volume) for volume in per]
    return lines


LITRE = 1000.0  # mL: the volume that figures per litre are of


def row(handbook: Handbook, fluids: Sequence[Fluid], line: Line) -> dict[str, Any]:
    """One row for a template."""
    cells = [cell(handbook, fluid.id, line) for fluid in fluids]
    return {
        "name": line.name,
        "cells": [{"text": one.text, "reason": one.number is None} for one in cells],
        "plasma": plasma_text(handbook, line),
        "difference": difference(cells, [typeset(fluid.name) for fluid in fluids]),
        "differs": len({one.text for one in cells}) > 1,
    }


def said_rows(handbook: Handbook, fluids: Sequence[Fluid]) -> list[dict[str, Any]]:
    """The answers in words of every fluid, a row a question."""
    every = [said(handbook, fluid) for fluid in fluids]
    rows = []
    for key, question in SAID:
        texts = [one[key] for one in every]
        differs = len(set(texts)) > 1
        found = WORDS["differs" if differs else "both" if len(texts) == 2 else "same"]
        rows.append({"name": question, "cells": texts, "difference": found, "differs": differs})
    return rows


ALL_LINES = tuple(Line(quantity) for quantity in QUANTITIES)
