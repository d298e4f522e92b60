"""Every quantity the handbook prints: id, name, unit, decimals, and whether a container holds it.

The order is the order of tables and exports. A new quantity is one line here and one function
in `measures`.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Quantity:
    """One printed quantity.

    id: the key in entries, exports and addresses.
    label: the name in a table.
    symbol: how a chemist writes it, or "".
    unit: per litre of solution, unless the unit says otherwise.
    decimals: shown on pages (exports keep 12 significant digits).
    scales: whether a container of so many mL holds a share of it.
    container_unit: the unit of that share, or ""; container_factor: what a litre's figure is
    multiplied by to be in it.
    """

    id: str
    label: str
    symbol: str
    unit: str
    decimals: int = 0
    scales: bool = False
    container_unit: str = ""
    container_factor: float = 1.0


def _particle(identifier: str, label: str, symbol: str) -> Quantity:
    return Quantity(identifier, label, symbol, "mmol/L", 1, True, "mmol")


PARTICLE_QUANTITIES = (
    _particle("sodium", "sodium", "Na⁺"),
    _particle("potassium", "potassium", "K⁺"),
    _particle("calcium", "calcium", "Ca²⁺"),
    _particle("magnesium", "magnesium", "Mg²⁺"),
    _particle("chloride", "chloride", "Cl⁻"),
    _particle("bicarbonate", "bicarbonate", "HCO₃⁻"),
    _particle("lactate", "lactate", ""),
    _particle("acetate", "acetate", ""),
    _particle("gluconate", "gluconate", ""),
    _particle("malate", "malate", ""),
    _particle("citrate", "citrate", ""),
    _particle("sulfate", "sulfate", "SO₄²⁻"),
    _particle("phosphate", "phosphate", ""),
    _particle("glycerophosphate", "glycerophosphate", ""),
    _particle("octanoate", "octanoate", ""),
    _particle("glucose", "glucose", ""),
    _particle("mannitol", "mannitol", ""),
)

CHEMICAL_QUANTITIES = (
    Quantity("cation_charge", "positive charge", "", "mEq/L", 1, True, "mEq"),
    Quantity("anion_charge", "negative charge", "", "mEq/L", 1, True, "mEq"),
    Quantity("polyanion_charge", "charge on the colloid", "", "mEq/L", 1, True, "mEq"),
    Quantity("charge_gap", "charge gap", "", "mEq/L", 1),
    Quantity("colloid_mass", "colloid", "", "g/L", 1, True, "g"),
    Quantity("glucose_mass", "glucose, anhydrous", "", "g/L", 1, True, "g"),
    Quantity("glucose_mass_monohydrate", "glucose, as monohydrate", "", "g/L", 1, True, "g"),
    Quantity("osmolarity", "osmolarity in the bag", "", "mOsm/L"),
    Quantity("osmolality", "osmolality, estimate", "", "mOsm/kg"),
    Quantity("osmolality_error", "error of that estimate", "±", "%"),
    Quantity("energy", "energy, 4.0 kcal per g anhydrous", "", "kcal/L", 0, True, "kcal"),
    Quantity("energy_us", "energy, 3.4 kcal per g monohydrate", "", "kcal/L", 0, True, "kcal"),
    Quantity("energy_organic", "energy of the organic anions", "", "kcal/L", 0, True, "kcal"),
)

PHYSIOLOGICAL_QUANTITIES = (
    Quantity("effective_osmolarity", "effective osmolarity in the body", "", "mOsm/L"),
    Quantity("tonicity_ratio", "ratio to plasma", "", "1", 2),
    Quantity("free_water", "electrolyte-free water", "", "1", 2, True, "mL", 1000.0),
    Quantity("sid_in_bag", "strong ion difference in the bag", "", "mEq/L", 1),
    Quantity("sid_in_body", "strong ion difference in the body", "", "mEq/L", 1),
    Quantity("sid_in_body_low", "strong ion difference, gluconate not metabolised", "", "mEq/L", 1),
    Quantity("bicarbonate_yield", "bicarbonate it becomes", "", "mEq/L", 1, True, "mEq"),
    Quantity("ecf_gain", "stays outside the cells", "", "mL/L"),
    Quantity("icf_gain", "goes into the cells", "", "mL/L"),
    Quantity("plasma_gain", "stays in plasma", "", "mL/L"),
    Quantity("base_excess_1l", "standard base excess after 1 L", "", "mmol/L", 1),
    Quantity("ph_1l", "pH after 1 L", "", "1", 3),
)

QUANTITIES = PARTICLE_QUANTITIES + CHEMICAL_QUANTITIES + PHYSIOLOGICAL_QUANTITIES

QUANTITY_BY_ID = {quantity.id: quantity for quantity in QUANTITIES}

# Values a label declares that we never compute (a bag's pH, a measured osmolality) ...
DECLARED_ONLY = (
    Quantity("ph", "pH", "", "1", 1),
    Quantity("osmolality_measured", "osmolality, measured", "", "mOsm/kg"),
)
# ... and plasma quantities that no bag has.
PLASMA_ONLY = (
    Quantity("calcium_ionised", "calcium, ionised", "Ca²⁺", "mmol/L", 2),
    Quantity("albumin", "albumin", "", "g/L"),
    Quantity("paco2", "carbon dioxide pressure", "PaCO₂", "mmHg"),
)

DECLARABLE = {quantity.id: quantity for quantity in QUANTITIES + DECLARED_ONLY}
IN_PLASMA = {quantity.id: quantity for quantity in QUANTITIES + DECLARED_ONLY + PLASMA_ONLY}
