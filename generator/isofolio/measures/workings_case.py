"""One fluid as its workings see it: its record, its figures, and its particles in their order."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import Catalogue
from isofolio.entries.substances import Particle
from isofolio.measures.methods import Function, anchor_of, method_anchor
from isofolio.measures.solutions import Solution
from isofolio.measures.table import Table
from isofolio.measures.workings_terms import (
    Parts,
    Pieces,
    Term,
    Working,
    amount,
    exact,
    shown,
    summed,
    total,
)
from isofolio.physiology.traits import Trait
from isofolio.vocabulary.quantities import QUANTITY_BY_ID


@dataclass(frozen=True)
class Case:
    """A fluid, the catalogue it stands in, the table that holds its figures, the lines so far."""

    fluid: Fluid
    catalogue: Catalogue
    table: Table
    done: tuple[Working, ...] = ()

    @property
    def solution(self) -> Solution:
        """What a litre of the fluid holds."""
        return self.table.solutions[self.fluid.id]

    def number(self, quantity: str) -> float | None:
        """The figure of a quantity; None where the table has a reason instead."""
        return self.table.value(self.fluid.id, quantity).number

    def term(self, quantity: str, name: str = "") -> Term:
        """A figure as an earlier line shows it. Raises ValueError where there is no figure."""
        number = self.number(quantity)
        if number is None:
            raise ValueError(f"{quantity} of {self.fluid.id} has no figure: ask before using it.")
        lines = (line.result for line in self.done if line.quantity == quantity and not line.step)
        result = next(lines, exact(number, unit_of(quantity)))
        return Term(result.number, result.decimals, "" if name else result.unit, name)

    def particles(self) -> Iterator[tuple[Particle, Term, Trait]]:
        """Every particle that is there: its record, its amount by name, and its trait."""
        for particle in self.catalogue.particles.values():
            millimoles = self.solution.composition.known.get(particle.id, 0.0)
            if millimoles:
                charge = self.solution.charges.get(particle.id, float(particle.charge))
                trait = Trait(charge, particle.strong, particle.fate)
                yield particle, amount(millimoles, name=particle.name), trait

    def pieces(self, weight: Callable[[str, float, Trait], float]) -> Pieces:
        """Particles and what one of each counts for; those that count for nothing left out.

        weight: of a particle's id, charge number and trait.
        """
        weighted = ((term, weight(p.id, float(t.charge), t)) for p, term, t in self.particles())
        return [(term, factor) for term, factor in weighted if factor]

    def line(
        self, quantity: str, formula: str, expression: Parts, decimals: int, note: str = ""
    ) -> Iterator[Working]:
        """The line that ends at a figure of the table; none where the table has no figure."""
        number = self.number(quantity)
        if number is not None:
            result = shown(number, decimals, unit_of(quantity))
            yield _working(quantity, formula, expression, result, note)

    def sum_line(
        self, quantity: str, formula: str, pieces: Pieces, note: str = ""
    ) -> Iterator[Working]:
        """The line of a sum; none where there is nothing to add, or no figure."""
        number = self.number(quantity)
        if number is not None and pieces:
            result = total(number, pieces, unit_of(quantity))
            yield _working(quantity, formula, summed(pieces), result, note)


def step(
    quantity: str,
    name: str,
    function: Function,
    formula: str,
    expression: Parts,
    *,
    result: Term,
    note: str = "",
) -> Working:
    """A line that prepares a figure."""
    method = anchor_of(function)
    return Working(quantity, name, formula, expression, result, method, note, step=True)


def unit_of(quantity: str) -> str:
    """The unit printed after a quantity; "" for a pure number."""
    unit = QUANTITY_BY_ID[quantity].unit
    return "" if unit == "1" else unit


def _working(quantity: str, formula: str, expression: Parts, result: Term, note: str) -> Working:
    name = QUANTITY_BY_ID[quantity].label
    return Working(quantity, name, formula, expression, result, method_anchor(quantity), note)
