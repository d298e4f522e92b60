"""All fluids at once: one array a particle, in the order of the fluids; NaN where unknown."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isofolio.entries.reading import Catalogue
from isofolio.measures.solutions import Solution, solution_of

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Columns:
    """fluids: ids; solutions: one each; particles, weighed [mmol/L] and charges: arrays by id."""

    fluids: tuple[str, ...]
    solutions: tuple[Solution, ...]
    particles: Mapping[str, Array]
    charges: Mapping[str, Array]
    weighed: Mapping[str, Array]
    colloid: NDArray[np.bool_]
    colloid_mass: Array
    polyanion: Array

    def phosphate(self, catalogue: Catalogue) -> Array:
        """All phosphate, whatever its charge [mmol/L]."""
        kinds = [p.id for p in catalogue.particles.values() if p.counts_as == "phosphate"]
        return sum((self.particle(kind) for kind in kinds), np.zeros(len(self.fluids)))

    def spread(self, amounts: object) -> Array:
        """One figure for all fluids, or one each, as an array over the fluids."""
        return np.array(np.broadcast_to(np.asarray(amounts, dtype=float), len(self.fluids)))

    def particle(self, identifier: str) -> Array:
        """Concentration of one particle in every fluid [mmol/L]; zeros where nothing holds it."""
        found = self.particles.get(identifier)
        return np.zeros(len(self.fluids)) if found is None else found


def columns_of(catalogue: Catalogue) -> Columns:
    """The columns of every fluid of a catalogue."""
    fluids = tuple(catalogue.fluids)
    solutions = tuple(solution_of(fluid, catalogue) for fluid in catalogue.fluids.values())
    return columns_from(fluids, solutions, catalogue)


def columns_from(
    fluids: Sequence[str], solutions: Sequence[Solution], catalogue: Catalogue
) -> Columns:
    """Columns of given solutions: of the catalogue's fluids, or of variants and mixtures."""
    particles = _zeros(catalogue.particles, len(solutions))
    charges = {p.id: np.full(len(solutions), float(p.charge)) for p in catalogue.particles.values()}
    weighed = _zeros({name for s in solutions for name in s.weighed or ()}, len(solutions))
    for row, solution in enumerate(solutions):  # a fluid holds few of all particles: fill sparsely
        _fill(particles, row, solution.composition.known)
        _fill(particles, row, dict.fromkeys(solution.composition.unknown, np.nan))
        _fill(charges, row, solution.charges)
        missing = dict.fromkeys(weighed, np.nan)
        _fill(weighed, row, missing if solution.weighed is None else solution.weighed)
    return Columns(
        fluids=tuple(fluids),
        solutions=tuple(solutions),
        particles=particles,
        charges=charges,
        weighed=weighed,
        colloid=np.array([s.colloid for s in solutions], dtype=bool),
        colloid_mass=_numbers([s.colloid_mass.number for s in solutions]),
        polyanion=_numbers([s.polyanion.number for s in solutions]),
    )


def _zeros(names: Iterable[str], size: int) -> dict[str, Array]:
    return {name: np.zeros(size) for name in sorted(names)}


def _fill(arrays: Mapping[str, Array], row: int, numbers: Mapping[str, float]) -> None:
    for name, number in numbers.items():
        arrays[name][row] = number


def _numbers(numbers: Sequence[float | None]) -> Array:
    return np.array([np.nan if n is None else n for n in numbers], dtype=np.float64)
