"""What a hospital may say of its stock: limits stricter and in order, sizes that are sold."""

from collections.abc import Iterator

from isofolio.entries.overlay import is_stricter
from isofolio.entries.problems import Problem
from isofolio.entries.reading import Reading
from isofolio.entries.tree import Path
from isofolio.findings.consistency_limits import crossed

Finding = Iterator[Problem]

NO_SIZE = "Its entry names no container: add one there with its source, or leave the size out."


def stock_is_stricter(reading: Reading) -> Finding:
    """A hospital may only draw a limit tighter, in the limit's own unit."""
    for stock in reading.catalogue.stock.values():
        for number, one in enumerate(stock.limits):
            limit = reading.catalogue.limits.get(one.limit)
            if limit is not None and not is_stricter(limit, one.value):
                message = f"{one.value.text} is not stricter than {limit.value.text}"
                unit = limit.value.unit
                how = "without a unit" if unit in {"", "1"} else f"in {unit}"
                fix = f"A hospital may only set it {limit.stricter}, {how}."
                place: Path = ("limits", number, "value")
                yield reading.problem(f"stock/{stock.id}.yml", place, message, fix)


def stock_keeps_the_order(reading: Reading) -> Finding:
    """Limits that divide one scale into words stand in its order for a hospital too."""
    for stock in reading.catalogue.stock.values():
        drawn = {str(one.limit): number for number, one in enumerate(stock.limits)}
        limits = {
            name: limit.model_copy(update={"value": stock.limits[drawn[name]].value})
            if name in drawn
            else limit
            for name, limit in reading.catalogue.limits.items()
        }
        for lower, higher in crossed(limits):
            number = drawn.get(higher.id, drawn.get(lower.id))
            if number is None:  # a fault of limits.yml, told there
                continue
            message = f"{lower.id} ({lower.value.text}) is not below {higher.id} "
            message += f"({higher.value.text}) here"
            fix = "Between the two a rule tells one word from the next: leave room."
            place: Path = ("limits", number, "value")
            yield reading.problem(f"stock/{stock.id}.yml", place, message, fix)


def stock_keeps_what_is_sold(reading: Reading) -> Finding:
    """A size that is kept is one in which the fluid is sold."""
    for stock in reading.catalogue.stock.values():
        for number, kept in enumerate(stock.fluids):
            fluid = reading.catalogue.fluids.get(kept.fluid)
            sold = {c.volume.text for c in fluid.containers} if fluid else set()
            for place_in_list, size in enumerate(kept.sizes):
                if fluid is not None and size.text not in sold:
                    message = f"{kept.fluid} is not sold in {size.text}"
                    fix = f"It is sold in {', '.join(sorted(sold))}." if sold else NO_SIZE
                    where: Path = ("fluids", number, "sizes", place_in_list)
                    yield reading.problem(f"stock/{stock.id}.yml", where, message, fix)
