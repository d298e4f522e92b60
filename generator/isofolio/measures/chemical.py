"""The quantities that need no physiology: particles, charges, masses, osmolarity, energy."""

from collections.abc import Mapping

import numpy as np

from isofolio.chemistry.charge import anion_charge, cation_charge, charge_gap
from isofolio.chemistry.energy import energy, energy_organic, energy_us
from isofolio.chemistry.formula import molar_mass
from isofolio.chemistry.osmosis import (
    all_tabulated,
    ionic_strength,
    osmolality,
    osmolality_applies,
    osmolality_error,
    theoretical_osmolarity,
    water_content,
)
from isofolio.chemistry.solutes import (
    Behaviour,
    FixedCoefficient,
    LinearCoefficient,
    Solute,
    electrolyte,
    solute,
)
from isofolio.entries.reading import Catalogue
from isofolio.entries.substances import Substance
from isofolio.measures.columns import Array, Columns

GLUCOSE = "C6H12O6"
GLUCOSE_MONOHYDRATE = "C6H12O6(H2O)"


def particle_quantity(columns: Columns, catalogue: Catalogue, quantity: str) -> Array:
    """A particle, or the sum of those that count as it (phosphate) [mmol/L]."""
    counted = [p.id for p in catalogue.particles.values() if (p.counts_as or p.id) == quantity]
    return sum((columns.particle(p) for p in counted), np.zeros(len(columns.fluids)))


def cations(columns: Columns) -> Array:
    """Charge of all cations [mEq/L]."""
    return columns.spread(cation_charge(columns.particles, columns.charges))


def anions(columns: Columns) -> Array:
    """Charge of all dissolved anions, colloids apart [mEq/L]."""
    return columns.spread(anion_charge(columns.particles, columns.charges))


def gap(columns: Columns) -> Array:
    """Cations less anions less the charge on the colloid [mEq/L]."""
    return columns.spread(charge_gap(cations(columns), anions(columns), columns.polyanion))


def glucose_grams(columns: Columns, formula: str) -> Array:
    """Glucose weighed in the form of `formula` [g/L]."""
    return columns.particle("glucose") * molar_mass(formula) / 1000.0


def anhydrous_glucose(columns: Columns) -> Array:
    """Glucose as the anhydrous sugar [g/L]."""
    return glucose_grams(columns, GLUCOSE)


def monohydrate_glucose(columns: Columns) -> Array:
    """Glucose as its monohydrate [g/L]."""
    return glucose_grams(columns, GLUCOSE_MONOHYDRATE)


def label_osmolarity(columns: Columns) -> Array:
    """Theoretical osmolarity [mOsm/L]."""
    return columns.spread(theoretical_osmolarity(columns.particles))


def anhydrous_energy(columns: Columns) -> Array:
    """4.0 kcal per gram of anhydrous glucose [kcal/L]."""
    return columns.spread(energy(anhydrous_glucose(columns)))


def monohydrate_energy(columns: Columns) -> Array:
    """3.4 kcal per gram of glucose monohydrate [kcal/L]."""
    return columns.spread(energy_us(monohydrate_glucose(columns)))


def organic_energy(columns: Columns) -> Array:
    """Energy of lactate, acetate and gluconate [kcal/L]."""
    parts = (columns.particle(p) for p in ("lactate", "acetate", "gluconate"))
    return columns.spread(energy_organic(*parts))


def estimated_osmolality(columns: Columns, catalogue: Catalogue) -> tuple[Array, Array]:
    """Osmolality [mOsm/kg] and its error [%]; NaN where a substance has no coefficients."""
    solutes = {
        name: made
        for name in columns.weighed
        if (made := solute_of(catalogue.substances[name], catalogue)) is not None
    }
    volumes = {p.id: p.volume for p in catalogue.particles.values() if p.volume is not None}
    water = columns.spread(water_content(columns.particles, volumes))
    water = np.where(water > 0, water, np.nan)  # more than a litre can hold
    estimate = columns.spread(osmolality(solutes, columns.weighed, water))
    molalities = {name: m / water / 1000.0 for name, m in columns.weighed.items()}
    strength = ionic_strength(solutes, {n: m for n, m in molalities.items() if n in solutes})
    tabulated = all_tabulated(solutes, columns.weighed)
    usable = osmolality_applies(strength, tabulated) & ~columns.colloid
    usable &= np.array([solution.weighed is not None for solution in columns.solutions], dtype=bool)
    error = osmolality_error(strength, tabulated, columns.particle("bicarbonate"))
    return np.where(usable, estimate, np.nan), np.where(usable & ~np.isnan(estimate), error, np.nan)


def has_coefficients(substance: Substance) -> bool:
    """Whether the osmolality estimate can treat a substance."""
    return substance.osmosis is not None


def solute_of(substance: Substance, catalogue: Catalogue) -> Solute | None:
    """A substance as the osmolality estimate sees it; None where it has no coefficients."""
    if substance.osmosis is None:
        return None
    charges = {p.id: float(p.charge) for p in catalogue.particles.values()}
    releases = {str(p): float(n) for p, n in substance.releases.items()}
    model = catalogue.substances[substance.osmosis.like] if substance.osmosis.like else substance
    behaviour = _behaviour(model, charges)
    return solute(releases, charges, behaviour, tabulated=substance.osmosis.like is None)


def _behaviour(substance: Substance, charges: Mapping[str, float]) -> Behaviour:
    osmosis = substance.osmosis
    if osmosis is None:
        raise ValueError(f"{substance.id} has no osmosis: give it one, or name another in like.")
    if osmosis.slope is not None:
        return LinearCoefficient(osmosis.slope)
    if osmosis.ratio is not None:
        return FixedCoefficient(osmosis.ratio)
    releases = {str(p): float(n) for p, n in substance.releases.items()}
    return electrolyte(
        releases,
        charges,
        b0=osmosis.b0 or 0.0,
        b1=osmosis.b1 or 0.0,
        c=osmosis.c or 0.0,
        b2=osmosis.b2 or 0.0,
    )
