"""The working of the estimated osmolality: water, ionic strength, coefficients, sum."""

from collections.abc import Iterator

from isofolio.chemistry.formula import molar_mass
from isofolio.chemistry.osmosis import (
    CLOSEST_APPROACH,
    DEBYE_HUECKEL,
    WATER_DENSITY,
    ionic_strength,
    osmotic_coefficient,
    water_content,
)
from isofolio.chemistry.solutes import (
    FixedCoefficient,
    LinearCoefficient,
    PitzerParameters,
    Solute,
)
from isofolio.entries.records import Substance
from isofolio.measures.chemical import solute_of
from isofolio.measures.workings_case import Case, step
...
