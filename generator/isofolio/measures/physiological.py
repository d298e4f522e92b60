"""The quantities of a standard adult: tonicity, free water, strong ions, compartments, acid-base.

What must never be computed is null with its reason: nothing of a concentrate or of plain water in
the body (neither is given as it is), no water balance of a colloid, whose own pull on water is not
counted here.
"""

import numpy as np

from isofolio.entries.reading import Catalogue
from isofolio.measures.columns import Array, Columns
from isofolio.measures.solutions import Solution
from isofolio.physiology.compartments import EXTRACELLULAR_VOLUME, equilibrate
from isofolio.physiology.dilution import acid_base, blood, infuse
from isofolio.physiology.strong_ions import (
    bicarbonate_yield,
    sid_in_bag,
    sid_in_body,
    sid_in_body_low,
)
from isofolio.physiology.tonicity import (
    effective_osmolarity,
    free_water,
    free_water_applies,
    tonicity_ratio,
)
from isofolio.physiology.traits import Trait, Traits

NEVER_UNDILUTED = "never given undiluted"
NEVER_ALONE = "never given alone"
COLLOID = "never computed for a fluid with a colloid: its own pull on water is not counted"
OTHER_PARTICLES = (
    "more than a twentieth of what holds water in the body is neither a sodium nor a potassium salt"
)

# Roles that are not given into a vein as they are, and why nothing is computed in the body.
NOT_GIVEN = {"concentrate": NEVER_UNDILUTED, "diluent": NEVER_ALONE}


def traits_of(columns: Columns, catalogue: Catalogue) -> Traits:
    """Charge, strength and fate of every particle, charges as arrays over the fluids."""
    return {
        particle.id: Trait(columns.charges[particle.id], particle.strong, particle.fate)
        for particle in catalogue.particles.values()
    }


def effective(columns: Columns, catalogue: Catalogue) -> tuple[Array]:
    """Effective osmolarity in the body [mOsm/L]; of a colloid solution the ions only."""
    traits = traits_of(columns, catalogue)
    return (columns.spread(effective_osmolarity(columns.particles, traits)),)


def tonicity(columns: Columns, catalogue: Catalogue) -> tuple[Array, Array]:
    """Ratio to plasma [1] and electrolyte-free water [1], colloids apart."""
    (osmolarity,) = effective(columns, catalogue)
    sodium, potassium = columns.particle("sodium"), columns.particle("potassium")
    applies = free_water_applies(sodium, potassium, osmolarity)
    water = np.where(applies, free_water(sodium, potassium), np.nan)
    return (
        _given_without_colloid(columns, tonicity_ratio(osmolarity)),
        _given_without_colloid(columns, water),
    )


def strong_ions(columns: Columns, catalogue: Catalogue) -> tuple[Array, Array, Array]:
    """Strong ion difference in the bag, in the body, and there with gluconate kept [mEq/L].

    Small ions only: the charge of a colloid is the quantity `polyanion_charge`.
    """
    traits = traits_of(columns, catalogue)
    functions = (sid_in_bag, sid_in_body, sid_in_body_low)
    in_bag, in_body, low = (columns.spread(f(columns.particles, traits)) for f in functions)
    return in_bag, in_body, low


def yielded_bicarbonate(columns: Columns, catalogue: Catalogue) -> tuple[Array]:
    """Bicarbonate that a litre is or becomes [mEq/L]."""
    traits = traits_of(columns, catalogue)
    return (columns.spread(bicarbonate_yield(columns.particles, traits)),)


def compartments(columns: Columns, catalogue: Catalogue) -> tuple[Array, Array, Array]:
    """What a litre adds outside cells, inside cells and to plasma [mL/L]."""
    (osmolarity,) = effective(columns, catalogue)
    shift = equilibrate(osmolarity)
    gains = (shift.ecf_gain, shift.icf_gain, shift.plasma_gain)
    outside, inside, plasma = (_given_without_colloid(columns, gain) for gain in gains)
    return outside, inside, plasma


def after_a_litre(columns: Columns, catalogue: Catalogue) -> tuple[Array, Array]:
    """Standard base excess [mmol/L] and pH [1] of the standard adult after a litre.

    Water moves between compartments as in `compartments`; the litre of a colloid is taken to stay
    outside cells, and the charge on it counts as an anion that is never burnt.
    """
    traits = traits_of(columns, catalogue)
    (osmolarity,) = effective(columns, catalogue)
    shift = equilibrate(osmolarity)
    stays = np.where(columns.colloid, 1000.0, shift.ecf_gain)
    after = infuse(
        blood(),
        sid_in_body(columns.particles, traits),
        polyanion=columns.polyanion,
        phosphate=columns.phosphate(catalogue),
        volume_after=EXTRACELLULAR_VOLUME + np.where(np.isnan(stays), 1000.0, stays) / 1000.0,
    )
    state = acid_base(after)
    return _given(columns, state.base_excess), _given(columns, state.ph)


def why_not_in_body(solution: Solution, _: Catalogue) -> str:
    """Why nothing is said of a fluid in the body: it is never given as it is."""
    return NOT_GIVEN.get(solution.role, "")


def why_no_water_balance(solution: Solution, catalogue: Catalogue) -> str:
    """Why no balance of water is computed: not given as it is, or a colloid."""
    colloid = COLLOID if solution.colloid else ""
    return why_not_in_body(solution, catalogue) or colloid


def _given(columns: Columns, amounts: object) -> Array:
    """Null where a fluid is not given as it is."""
    not_given = np.array([s.role in NOT_GIVEN for s in columns.solutions], dtype=bool)
    return np.where(not_given, np.nan, columns.spread(amounts))


def _given_without_colloid(columns: Columns, amounts: object) -> Array:
    """Null also where a colloid pulls on water by itself."""
    return np.where(columns.colloid, np.nan, _given(columns, amounts))
