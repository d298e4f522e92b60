"""Which function makes each quantity: what the Method page and every working link to."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from isofolio.chemistry import charge, composition, energy, osmosis
from isofolio.physiology import acid_base, compartments, dilution, strong_ions, tonicity
from isofolio.vocabulary.quantities import PARTICLE_QUANTITIES

Function = Callable[..., Any]

# The one quantity that no function makes: the mass of a colloid is declared.
WITHOUT_FUNCTION = frozenset({"colloid_mass"})

METHODS: Mapping[str, Function] = MappingProxyType(
    {
        **{quantity.id: composition.millimoles_from_grams for quantity in PARTICLE_QUANTITIES},
        "cation_charge": charge.cation_charge,
        "anion_charge": charge.anion_charge,
        "polyanion_charge": charge.polyanion_charge,
        "charge_gap": charge.charge_gap,
        "glucose_mass": composition.grams_from_millimoles,
        "glucose_mass_monohydrate": composition.grams_from_millimoles,
        "osmolarity": osmosis.theoretical_osmolarity,
        "osmolality": osmosis.osmolality,
        "osmolality_error": osmosis.osmolality_error,
        "energy": energy.energy,
        "energy_us": energy.energy_us,
        "energy_organic": energy.energy_organic,
        "effective_osmolarity": tonicity.effective_osmolarity,
        "tonicity_ratio": tonicity.tonicity_ratio,
        "free_water": tonicity.free_water,
        "sid_in_bag": strong_ions.sid_in_bag,
        "sid_in_body": strong_ions.sid_in_body,
        "sid_in_body_low": strong_ions.sid_in_body_low,
        "bicarbonate_yield": strong_ions.bicarbonate_yield,
        "ecf_gain": compartments.equilibrate,
        "icf_gain": compartments.equilibrate,
        "plasma_gain": compartments.equilibrate,
        "base_excess_1l": acid_base.standard_base_excess,
        "ph_1l": dilution.acid_base,
    }
)


def anchor_of(function: Function) -> str:
    """The anchor of a function on the Method page: its module and its name.

    >>> anchor_of(osmosis.theoretical_osmolarity)
    'osmosis-theoretical-osmolarity'
    """
    module = function.__module__.rpartition(".")[2]
    return f"{module}-{function.__name__}".replace("_", "-")


def method_anchor(quantity: str) -> str:
    """The anchor of the function that makes a quantity; "" for one that is only declared.

    >>> method_anchor("free_water")
    'tonicity-free-water'
    """
    return "" if quantity in WITHOUT_FUNCTION else anchor_of(METHODS[quantity])
