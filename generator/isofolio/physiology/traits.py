"""What the body does with each particle, as the catalogue's particle list says it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

from isofolio.chemistry.amounts import Amounts

BURNT = "burnt"
BECOMES_BICARBONATE = "becomes-bicarbonate"
MAY_BECOME_BICARBONATE = "may-become-bicarbonate"
METABOLISED = frozenset({BURNT, BECOMES_BICARBONATE, MAY_BECOME_BICARBONATE})
BICARBONATE = "bicarbonate"


@dataclass(frozen=True)
class Trait:
    """One particle: its charge in the bag, whether it is a strong ion, and its fate in the body.

    charge: signed charge number [1], an array where it differs between fluids (malate).
    strong: fully dissociated at the pH of blood (pK below 5 for an acid).
    fate: `stays`, `burnt`, `becomes-bicarbonate`, `may-become-bicarbonate` or `polyanion`.
    """

    charge: Amounts
    strong: bool
    fate: str


Traits: TypeAlias = Mapping[str, Trait]
