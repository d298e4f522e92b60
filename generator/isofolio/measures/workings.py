"""The working of every computed figure of a fluid: its formula with this fluid's numbers put in.

A line shows the number that its function computes, and beside it arithmetic of its own. A test
does that arithmetic again from what is printed, for every fluid: a function that changes while its
line does not, or the reverse, fails there.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace

from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import Catalogue
from isofolio.measures.table import Table
from isofolio.measures.workings_acid_base import acid_base_lines
from isofolio.measures.workings_body import (
    bicarbonate_lines,
    compartment_lines,
    effective_lines,
    outside_lines,
    plasma_lines,
    strong_ion_lines,
    tonicity_lines,
)
from isofolio.measures.workings_case import Case
from isofolio.measures.workings_chemical import (
    charge_lines,
    energy_lines,
    gap_lines,
    glucose_lines,
    osmolarity_lines,
)
from isofolio.measures.workings_osmolality import osmolality_lines
from isofolio.measures.workings_particles import colloid_lines, particle_lines, polyanion_lines
from isofolio.measures.workings_terms import Working

# In the order of reading: a line uses what the lines before it show.
LINES: tuple[Callable[[Case], Iterator[Working]], ...] = (
    particle_lines,
    colloid_lines,
    polyanion_lines,
    charge_lines,
    gap_lines,
    osmolarity_lines,
    osmolality_lines,
    glucose_lines,
    energy_lines,
    effective_lines,
    tonicity_lines,
    strong_ion_lines,
    bicarbonate_lines,
    compartment_lines,
    outside_lines,
    plasma_lines,
    acid_base_lines,
)

# Figures that are a rule and no arithmetic: the error stands in the note of the estimate.
WITHOUT_WORKING = frozenset({"osmolality_error"})


def workings_of(fluid: Fluid, catalogue: Catalogue, table: Table) -> tuple[Working, ...]:
    """Every line of arithmetic behind the figures of a fluid, in the order of reading.

    fluid: a record whose id is a row of the table; catalogue: its substances and particles.
    A quantity without a figure has no line (the table has its reason), nor has one to which
    nothing in the fluid contributes. Raises KeyError for a fluid that is not in the table.
    """
    case = Case(fluid, catalogue, table)
    for lines in LINES:
        case = replace(case, done=(*case.done, *lines(case)))
    return case.done
