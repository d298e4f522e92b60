"""Whether every limit that a rule reads is there, one figure, of what the rule reads, in order."""

from collections.abc import Iterator, Mapping
from itertools import pairwise

from isofolio.entries.lists import Limit
from isofolio.entries.problems import Problem
from isofolio.entries.reading import Reading
from isofolio.entries.references import missing_list
from isofolio.vocabulary.quantities import IN_PLASMA
from isofolio.vocabulary.terms import LIMITS_ASCENDING, LIMITS_READ

Finding = Iterator[Problem]
FILE = "limits.yml"


def limits_fit(reading: Reading) -> Finding:
    """A limit is one figure, in the unit of its quantity; a weight or a ratio has no unit."""
    for limit in reading.catalogue.limits.values():
        amount = limit.value
        known = IN_PLASMA.get(limit.quantity)
        units = {amount.unit} if known is None else {known.unit, "1"}
        if amount.state != "exact" or amount.unit not in units or amount.per_millilitres:
            message = f'"{amount.text}" is not a limit of {limit.quantity}'
            unit = "" if known is None or known.unit == "1" else f" {known.unit}"
            yield _problem(
                reading, limit.id, "value", message, f"Write one figure, as in 40{unit}."
            )


def limits_are_there(reading: Reading) -> Finding:
    """Every limit that a rule reads is listed; told once, and only where the list can be read."""
    tree = reading.trees.get(FILE)
    missing = [name for name in LIMITS_READ if name not in reading.catalogue.limits]
    if not missing or not reading.catalogue.fluids or (tree and not reading.catalogue.limits):
        return
    if tree is None:
        yield missing_list(FILE)
        return
    message = f"no {' and no '.join(missing)} among the limits"
    fix = "Put it back: a rule of the program reads it, and a warning hangs on it."
    yield reading.problem(FILE, (), message, fix)


def limits_are_of_their_quantity(reading: Reading) -> Finding:
    """A rule holds each limit against one quantity, and so does the condition of a caution."""
    for limit in reading.catalogue.limits.values():
        wanted = LIMITS_READ.get(limit.id, limit.quantity)
        # An id that stands twice is a fault by itself: the copy is of something else.
        if limit.quantity != wanted and len(_positions(reading, limit.id)) == 1:
            message = f"{limit.id} is a limit of {wanted}: a rule of the program reads it as one"
            yield _problem(reading, limit.id, "quantity", message, f"Write  quantity: {wanted}.")
    for caution in reading.catalogue.cautions.values():
        for key, conditions in (("applies", caution.applies), ("unless", caution.unless)):
            for number, condition in enumerate(conditions):
                named = reading.catalogue.limits.get(condition.limit or "")
                if named is not None and named.quantity != condition.quantity:
                    message = f"{named.id} is a limit of {named.quantity}, not of "
                    message += f"{condition.quantity}"
                    place = (key, number, "limit")
                    fix = "Name a limit of the quantity that the condition compares."
                    yield reading.problem(f"cautions/{caution.id}.yml", place, message, fix)


def limits_ascend(reading: Reading) -> Finding:
    """Limits that divide one scale into words stand in its order."""
    for lower, higher in crossed(reading.catalogue.limits):
        message = f"{higher.id} is not above {lower.id}, which is {lower.value.text}"
        fix = "Write a higher figure here, or a lower one there."
        yield _problem(reading, higher.id, "value", message, fix)


def crossed(limits: Mapping[str, Limit]) -> Iterator[tuple[Limit, Limit]]:
    """The lower and the higher of two neighbours on one scale that are not in its order."""
    for scale in LIMITS_ASCENDING.values():
        listed = [limits[name] for name in scale if name in limits]
        yield from ((one, next_one) for one, next_one in pairwise(listed) if _fall(one, next_one))


def _fall(lower: Limit, higher: Limit) -> bool:
    low, high = lower.value.low, higher.value.low
    return low is not None and high is not None and low >= high


def _problem(reading: Reading, identifier: str, key: str, message: str, fix: str) -> Problem:
    """A problem at a key of one limit, which is found by its id: the last of that id counts."""
    number = _positions(reading, identifier)[-1]
    return reading.problem(FILE, ("limits", number, key), message, fix)


def _positions(reading: Reading, identifier: str) -> list[int]:
    items = reading.trees[FILE].root["limits"]
    return [number for number, item in enumerate(items) if item["id"] == identifier]
