"""The whole table at once: quantity -> function, and why a figure is missing."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from isofolio.entries.reading import Catalogue
from isofolio.measures import chemical, physiological
from isofolio.measures.columns import Array, Columns, columns_of
from isofolio.measures.solutions import DECLARED_AS_IONS, Solution
from isofolio.measures.values import Value
from isofolio.vocabulary.quantities import PARTICLE_QUANTITIES

TOO_STRONG = "too strong for the coefficients that are known"

Why = Callable[[Solution, Catalogue], str]


@dataclass(frozen=True)
class Measure:
    """Quantities that one function computes over all fluids, and the reason for a missing figure.

    compute: an array for each of `quantities`, in their order, NaN where there is no figure.
    """

    quantities: tuple[str, ...]
    compute: Callable[[Columns, Catalogue], tuple[Array, ...]]
    why: Why


@dataclass(frozen=True)
class Table:
    """Every quantity of every fluid: arrays in the order of `fluids`, NaN where a reason stands."""

    fluids: tuple[str, ...]
    solutions: Mapping[str, Solution]
    numbers: Mapping[str, Array]
    reasons: Mapping[tuple[str, str], str]
    rows: Mapping[str, int]

    def value(self, fluid: str, quantity: str) -> Value:
        """The figure of one fluid, or the reason for none. Raises KeyError for unknown ids."""
        reason = self.reasons.get((fluid, quantity))
        if reason is not None:
            return Value(None, reason)
        return Value(float(self.numbers[quantity][self.rows[fluid]]))


def _particle(quantity: str) -> Measure:
    def compute(columns: Columns, catalogue: Catalogue) -> tuple[Array]:
        return (chemical.particle_quantity(columns, catalogue, quantity),)

    def why(solution: Solution, catalogue: Catalogue) -> str:
        counted = [p.id for p in catalogue.particles.values() if (p.counts_as or p.id) == quantity]
        reasons = (solution.composition.reason(p) for p in counted)
        return next(reason for reason in reasons if reason)

    return Measure((quantity,), compute, why)


def _everything_known(solution: Solution, catalogue: Catalogue) -> str:
    """The reason of a sum over all particles: every unknown one by name."""
    unknown = solution.composition.unknown
    if not solution.composition.complete:
        return "the source does not give the whole composition"
    return "; ".join(f"{catalogue.particles[p].name} {why}" for p, why in sorted(unknown.items()))


def _polyanion(solution: Solution, _: Catalogue) -> str:
    return solution.polyanion.reason


def _gap(solution: Solution, catalogue: Catalogue) -> str:
    return _everything_known(solution, catalogue) or _polyanion(solution, catalogue)


def _colloid(solution: Solution, _: Catalogue) -> str:
    return solution.colloid_mass.reason


def _glucose(solution: Solution, _: Catalogue) -> str:
    return solution.composition.reason("glucose")


def _organic(solution: Solution, catalogue: Catalogue) -> str:
    for particle in ("lactate", "acetate", "gluconate"):
        reason = solution.composition.reason(particle)
        if reason:
            return f"{catalogue.particles[particle].name}: {reason}"
    raise ValueError("every organic anion is known: a figure is missing for no reason")


def _osmolality(solution: Solution, catalogue: Catalogue) -> str:
    if solution.colloid:
        return "never estimated for a fluid with a colloid"
    if solution.weighed is None:
        return DECLARED_AS_IONS
    for name, millimoles in sorted(solution.weighed.items()):
        if millimoles and not chemical.has_coefficients(catalogue.substances[name]):
            return f"no osmotic coefficient of {catalogue.substances[name].name.lower()} is known"
    for particle in solution.composition.known:
        if catalogue.particles[particle].volume is None:
            return f"no partial molar volume of {catalogue.particles[particle].name} is known"
    return _everything_known(solution, catalogue) or TOO_STRONG


def _first(*whys: Why) -> Why:
    """The first reason that any of several gives."""
    return lambda solution, catalogue: next(
        (reason for why in whys if (reason := why(solution, catalogue))), ""
    )


def _other_particles(_: Solution, __: Catalogue) -> str:
    return physiological.OTHER_PARTICLES


def _one(quantity: str, function: Callable[[Columns], Array], why: Why) -> Measure:
    return Measure((quantity,), lambda columns, _: (function(columns),), why)


MEASURES: tuple[Measure, ...] = (
    *(_particle(quantity.id) for quantity in PARTICLE_QUANTITIES),
    _one("cation_charge", chemical.cations, _everything_known),
    _one("anion_charge", chemical.anions, _everything_known),
    _one("polyanion_charge", lambda columns: columns.polyanion, _polyanion),
    _one("charge_gap", chemical.gap, _gap),
    _one("colloid_mass", lambda columns: columns.colloid_mass, _colloid),
    _one("glucose_mass", chemical.anhydrous_glucose, _glucose),
    _one("glucose_mass_monohydrate", chemical.monohydrate_glucose, _glucose),
    _one("osmolarity", chemical.label_osmolarity, _everything_known),
    Measure(("osmolality", "osmolality_error"), chemical.estimated_osmolality, _osmolality),
    _one("energy", chemical.anhydrous_energy, _glucose),
    _one("energy_us", chemical.monohydrate_energy, _glucose),
    _one("energy_organic", chemical.organic_energy, _organic),
    Measure(("effective_osmolarity",), physiological.effective, _everything_known),
    Measure(
        ("tonicity_ratio", "free_water"),
        physiological.tonicity,
        _first(physiological.why_no_water_balance, _everything_known, _other_particles),
    ),
    Measure(
        ("sid_in_bag", "sid_in_body", "sid_in_body_low"),
        physiological.strong_ions,
        _everything_known,
    ),
    Measure(("bicarbonate_yield",), physiological.yielded_bicarbonate, _everything_known),
    Measure(
        ("ecf_gain", "icf_gain", "plasma_gain"),
        physiological.compartments,
        _first(physiological.why_no_water_balance, _everything_known),
    ),
    Measure(
        ("base_excess_1l", "ph_1l"),
        physiological.after_a_litre,
        _first(physiological.why_not_in_body, _gap),
    ),
)


def table_of(catalogue: Catalogue, measures: Sequence[Measure] = MEASURES) -> Table:
    """Every measure of every fluid of a catalogue."""
    return table_from(columns_of(catalogue), catalogue, measures)


def table_from(
    columns: Columns, catalogue: Catalogue, measures: Sequence[Measure] = MEASURES
) -> Table:
    """Every measure of given columns. Raises ValueError where a figure is missing for no reason."""
    numbers: dict[str, Array] = {}
    reasons: dict[tuple[str, str], str] = {}
    for measure in measures:
        arrays = measure.compute(columns, catalogue)
        for quantity, array in zip(measure.quantities, arrays, strict=True):
            numbers[quantity] = array + 0.0  # a negative zero is a zero
            reasons |= _reasons(measure, quantity, array, columns, catalogue)
    return Table(
        fluids=columns.fluids,
        solutions=MappingProxyType(dict(zip(columns.fluids, columns.solutions, strict=True))),
        numbers=MappingProxyType(numbers),
        reasons=MappingProxyType(reasons),
        rows=MappingProxyType({fluid: row for row, fluid in enumerate(columns.fluids)}),
    )


def _reasons(
    measure: Measure, quantity: str, array: Array, columns: Columns, catalogue: Catalogue
) -> dict[tuple[str, str], str]:
    """The reason of every missing figure of one quantity."""
    found = {}
    for row in np.flatnonzero(~np.isfinite(array)):
        reason = measure.why(columns.solutions[row], catalogue)
        if not reason:
            name = f"{quantity} of {columns.fluids[row]}"
            raise ValueError(f"{name} has no figure and no reason: mend its measure.")
        found[columns.fluids[row], quantity] = reason
    return found
