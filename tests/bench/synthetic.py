"""Synthetic catalogues of any size: the real fluids in other strengths, realistic and all sound."""

import random
from types import MappingProxyType

from isofolio.entries.fluids import Content, Fluid
from isofolio.entries.reading import Catalogue
from isofolio.entries.scalars import parse_amount

STRENGTHS = (0.25, 0.5, 0.75, 1.25, 1.5, 2.0)


def enlarged(catalogue: Catalogue, size: int, seed: int = 1) -> Catalogue:
    """A catalogue of `size` fluids: the real ones first, then weaker and stronger kin of them."""
    chance = random.Random(seed)
    real = list(catalogue.fluids.values())
    fluids = dict(catalogue.fluids)
    while len(fluids) < size:
        made = _kin(chance.choice(real), len(fluids), chance)
        fluids[made.id] = made
    chosen = dict(list(fluids.items())[:size])
    # The frozen catalogue is rebuilt with the larger shelf, everything else as it is.
    parts = {name: getattr(catalogue, name) for name in catalogue.__dataclass_fields__}
    return Catalogue(**{**parts, "fluids": MappingProxyType(chosen)})


def _kin(fluid: Fluid, number: int, chance: random.Random) -> Fluid:
    """The same fluid with every amount of its recipe at another strength, so that charge closes."""
    strength = chance.choice(STRENGTHS) * chance.uniform(0.9, 1.1)
    contents = [_stronger(content, strength) for content in fluid.contents]
    identifier, name = f"{fluid.id}-{number}", f"{fluid.name}, kin {number}"
    names = [
        other.model_copy(update={"name": f"{other.name} {number}"}) for other in fluid.also_known_as
    ]
    changed = {"id": identifier, "name": name, "contents": contents, "also_known_as": names}
    return fluid.model_copy(update=changed)


def _stronger(content: Content, strength: float) -> Content:
    amount = content.amount
    if amount.state != "exact" or amount.low is None or amount.unit == "%":
        return content
    unit = (
        f"{amount.unit} per {amount.per_millilitres:g} mL"
        if amount.per_millilitres
        else amount.unit
    )
    scaled = parse_amount(f"{amount.low * strength:.4f} {unit}")
    return content.model_copy(update={"amount": scaled})
