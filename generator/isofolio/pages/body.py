"""What a litre becomes in the standard adult, in rows and in one sentence."""

from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.figures import HARD, rounded, spoken

ROWS = (
    "effective_osmolarity",
    "tonicity_ratio",
    "free_water",
    "ecf_gain",
    "plasma_gain",
    "icf_gain",
    "sid_in_bag",
    "sid_in_body",
    "sid_in_body_low",
    "bicarbonate_yield",
    "base_excess_1l",
    "ph_1l",
)
BEFORE_PH = 7.4
BEFORE_EXCESS = 0.09
# Changes of base excess below which the model says nothing [mmol/L].
LEVEL = 0.2


def body_rows(handbook: Handbook, fluid: Fluid) -> list[dict[str, str]]:
    """The figures in the body; none for what is never given as it is."""
    if fluid.role in {"concentrate", "diluent"}:
        return []
    rows = []
    for quantity in ROWS:
        value = handbook.value(fluid.id, quantity)
        if quantity == "sid_in_body_low" and value == handbook.value(fluid.id, "sid_in_body"):
            continue
        rows.append(
            {
                "id": quantity,
                "name": QUANTITY_BY_ID[quantity].label,
                "text": spoken(value, quantity),
                "known": "" if value.number is None else "yes",
            }
        )
    return rows


def acid_base_sentence(handbook: Handbook, fluid: Fluid) -> str:
    """Which way a litre pushes, with the model's figures."""
    excess = handbook.value(fluid.id, "base_excess_1l").number
    ph = handbook.value(fluid.id, "ph_1l").number
    if excess is None or ph is None:
        reason = handbook.value(fluid.id, "base_excess_1l").reason
        return f"Acid and base: {reason}."
    change = excess - BEFORE_EXCESS
    way = "hardly moves acid and base"
    if abs(change) >= LEVEL:
        way = "pushes towards acid" if change < 0 else "pushes towards base"
    return (
        f"A litre {way}: standard base excess from {rounded(BEFORE_EXCESS, 1)} to "
        f"{rounded(excess, 1)}{HARD}mmol/L, pH from {rounded(BEFORE_PH, 2)} to {rounded(ph, 2)} in "
        "the model. The pH of the bag does not decide this; its strong ions do."
    )
