"""A hospital's stock laid over the catalogue, before anything is computed.

Limits become stricter, a fluid's sizes become those that are kept, local names join the names.
Fluids that are not kept stay: a reader may meet them with a patient from elsewhere.
"""

from dataclasses import replace
from types import MappingProxyType

from isofolio.entries.fluids import AlsoKnownAs, Fluid
from isofolio.entries.lists import Limit
from isofolio.entries.reading import Catalogue
from isofolio.entries.scalars import Amount
from isofolio.entries.stock import Kept, Stock, StricterLimit


def is_stricter(limit: Limit, value: Amount) -> bool:
    """Whether a value is as strict as the limit or stricter, and in its unit."""
    if value.low is None or limit.value.low is None or value.unit != limit.value.unit:
        return False
    if limit.stricter == "lower":
        return value.low <= limit.value.low
    return value.low >= limit.value.low


def with_stock(catalogue: Catalogue, stock: Stock) -> Catalogue:
    """The catalogue as one hospital keeps it."""
    limits = dict(catalogue.limits)
    for one in stock.limits:
        limits[one.limit] = _stricter(limits[one.limit], one, stock)
    kept = {str(one.fluid): one for one in stock.fluids}
    fluids = {
        name: _kept(fluid, kept[name]) if name in kept else fluid
        for name, fluid in catalogue.fluids.items()
    }
    return replace(
        catalogue, limits=MappingProxyType(limits), fluids=MappingProxyType(fluids), stocked=stock
    )


def _stricter(limit: Limit, one: StricterLimit, stock: Stock) -> Limit:
    drawn = f"{stock.name} draws it at {one.value.text} instead of {limit.value.text}"
    text = f"{limit.text} {drawn}: {one.why}"
    return limit.model_copy(update={"value": one.value, "text": text})


def _kept(fluid: Fluid, one: Kept) -> Fluid:
    sizes = {size.text for size in one.sizes}
    containers = [c for c in fluid.containers if not sizes or c.volume.text in sizes]
    local = [AlsoKnownAs(name=name, kind="ward word") for name in one.local_names]
    changed = {"containers": containers, "also_known_as": [*fluid.also_known_as, *local]}
    return fluid.model_copy(update=changed)
