"""A bench for published checks: weighed ingredients in, particles and osmolality out.

Pitzer parameters, each with where it was read or copied (25 °C):
* sodium, potassium, calcium, magnesium chloride; phosphates: Pitzer and Mayorga, J Phys Chem
  1973;77:2300, Tables I and VI, from a transcription of those tables in an open-source Pitzer
  program (copy). The chlorides, sodium bicarbonate and magnesium sulfate stand with the same digits
  in an early parameter file of the United States Geological Survey's geochemical model (read).
* sodium and potassium acetate: from memory; `test_osmotic_coefficients` compares them with a
  second published set.
Slopes of glucose and mannitol, partial molar volumes (Millero 1971): from memory. Volumes of
lactate and gluconate, and "like sodium chloride" for their sodium salts: assumed.
"""

from dataclasses import dataclass

import pytest
from hypothesis import settings

from isofolio.chemistry.charge import anion_charge, cation_charge, charge_gap
from isofolio.chemistry.composition import dissolve, millimoles_from_grams, sum_particles
from isofolio.chemistry.formula import molar_mass
from isofolio.chemistry.osmosis import (
    ionic_strength,
    osmolality,
    theoretical_osmolarity,
    water_content,
)
from isofolio.chemistry.solutes import LinearCoefficient, electrolyte, solute
from isofolio.physiology.traits import Trait

settings.register_profile(
    "isofolio", deadline=None, database=None, derandomize=True, max_examples=60
)
settings.load_profile("isofolio")

CHARGES = {
    "sodium": 1,
    "potassium": 1,
    "calcium": 2,
    "magnesium": 2,
    "chloride": -1,
    "bicarbonate": -1,
    "lactate": -1,
    "acetate": -1,
    "gluconate": -1,
    "malate": -1,
    "citrate": -3,
    "sulfate": -2,
    "dihydrogen-phosphate": -1,
    "hydrogen-phosphate": -2,
    "glucose": 0,
    "mannitol": 0,
}
VOLUMES = {
    "sodium": -1.21,
    "potassium": 9.02,
    "magnesium": -21.17,
    "calcium": -17.85,
    "chloride": 17.83,
    "bicarbonate": 23.4,
    "acetate": 40.46,
    "lactate": 66.0,
    "gluconate": 120.0,
    "sulfate": 13.98,
    "glucose": 111.9,
    "mannitol": 119.3,
}
FORMULAS = {
    "sodium-chloride": ("NaCl", {"sodium": 1, "chloride": 1}),
    "potassium-chloride": ("KCl", {"potassium": 1, "chloride": 1}),
    "calcium-chloride": ("CaCl2(H2O)2", {"calcium": 1, "chloride": 2}),
    "magnesium-chloride": ("MgCl2(H2O)6", {"magnesium": 1, "chloride": 2}),
    "magnesium-sulfate": ("MgSO4(H2O)7", {"magnesium": 1, "sulfate": 1}),
    "sodium-bicarbonate": ("NaHCO3", {"sodium": 1, "bicarbonate": 1}),
    "sodium-acetate": ("C2H3O2Na", {"sodium": 1, "acetate": 1}),
    "sodium-acetate-trihydrate": ("C2H3O2Na(H2O)3", {"sodium": 1, "acetate": 1}),
    "potassium-acetate": ("C2H3O2K", {"potassium": 1, "acetate": 1}),
    "sodium-lactate": ("C3H5O3Na", {"sodium": 1, "lactate": 1}),
    "sodium-gluconate": ("C6H11O7Na", {"sodium": 1, "gluconate": 1}),
    "monosodium-phosphate": ("NaH2PO4", {"sodium": 1, "dihydrogen-phosphate": 1}),
    "monopotassium-phosphate": ("KH2PO4", {"potassium": 1, "dihydrogen-phosphate": 1}),
    "disodium-phosphate": ("Na2HPO4", {"sodium": 2, "hydrogen-phosphate": 1}),
    "dipotassium-phosphate": ("K2HPO4", {"potassium": 2, "hydrogen-phosphate": 1}),
    "glucose": ("C6H12O6", {"glucose": 1}),
    "glucose-monohydrate": ("C6H12O6(H2O)", {"glucose": 1}),
    "mannitol": ("C6H14O6", {"mannitol": 1}),
}
PITZER = {
    "sodium-chloride": (0.0765, 0.2664, 0.00127, 0.0),
    "potassium-chloride": (0.04835, 0.2122, -0.00084, 0.0),
    "calcium-chloride": (0.3159, 1.614, -0.00034, 0.0),
    "magnesium-chloride": (0.35235, 1.6815, 0.00519, 0.0),
    "magnesium-sulfate": (0.2210, 3.343, 0.0250, -37.23),
    "sodium-bicarbonate": (0.0277, 0.0411, 0.0, 0.0),
    "sodium-acetate": (0.1426, 0.3237, -0.00629, 0.0),
    "sodium-acetate-trihydrate": (0.1426, 0.3237, -0.00629, 0.0),
    "potassium-acetate": (0.1587, 0.3251, -0.0066, 0.0),
    "monosodium-phosphate": (-0.0533, 0.0396, 0.00795, 0.0),
    "monopotassium-phosphate": (-0.0678, -0.1042, 0.0, 0.0),
    "disodium-phosphate": (-0.0583, 1.4655, 0.0294, 0.0),
    "dipotassium-phosphate": (0.0248, 1.2743, 0.0164, 0.0),
}
LIKENED = {"sodium-lactate": "sodium-chloride", "sodium-gluconate": "sodium-chloride"}
SLOPES = {"glucose": 0.022, "glucose-monohydrate": 0.022, "mannitol": 0.012}


@dataclass(frozen=True)
class Bench:
    """Everything a published check asks of weighed ingredients, each in g/L by name."""

    charges: dict
    traits: dict
    solutes: dict

    def millimoles(self, **grams):
        names = {name.replace("_", "-"): mass for name, mass in grams.items()}
        return {
            name: millimoles_from_grams(mass, molar_mass(FORMULAS[name][0]))
            for name, mass in names.items()
        }

    def particles(self, **grams):
        amounts = self.millimoles(**grams)
        return sum_particles(dissolve(amounts[name], FORMULAS[name][1]) for name in amounts)

    def osmolarity(self, **grams):
        return theoretical_osmolarity(self.particles(**grams))

    def osmolality(self, **grams):
        return self.osmolality_of(self.millimoles(**grams))

    def osmolality_of(self, millimoles):
        particles = sum_particles(
            dissolve(amount, FORMULAS[name][1]) for name, amount in millimoles.items()
        )
        return osmolality(self.solutes, millimoles, water_content(particles, VOLUMES))

    def ionic_strength(self, **grams):
        water = water_content(self.particles(**grams), VOLUMES)
        amounts = self.millimoles(**grams)
        molalities = {name: amount / water / 1000.0 for name, amount in amounts.items()}
        return ionic_strength(self.solutes, molalities)

    def pitzer(self, name):
        b0, b1, c, b2 = PITZER[name]
        return electrolyte(FORMULAS[name][1], CHARGES, b0=b0, b1=b1, c=c, b2=b2)

    def gap(self, particles):
        return charge_gap(
            cation_charge(particles, self.charges), anion_charge(particles, self.charges)
        )


def trait(particle):
    if particle == "glucose":
        return Trait(0, False, "burnt")
    if particle == "gluconate":
        return Trait(-1, True, "may-become-bicarbonate")
    if particle in ("lactate", "acetate", "malate", "citrate"):
        return Trait(CHARGES[particle], True, "becomes-bicarbonate")
    weak = particle == "bicarbonate" or "phosphate" in particle
    return Trait(CHARGES[particle], CHARGES[particle] != 0 and not weak, "stays")


def behaviour(bench, name):
    if name in SLOPES:
        return LinearCoefficient(SLOPES[name])
    return bench.pitzer(LIKENED.get(name, name))


@pytest.fixture(scope="session")
def bench():
    empty = Bench(CHARGES, {particle: trait(particle) for particle in CHARGES}, {})
    for name, (_, releases) in FORMULAS.items():
        empty.solutes[name] = solute(
            releases, CHARGES, behaviour(empty, name), tabulated=name not in LIKENED
        )
    return empty
