"""Whether a condition of a caution holds for a fluid: one small function a shape."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial

from isofolio.entries.cautions import Condition
from isofolio.entries.fluids import Fluid
from isofolio.entries.lists import Limit
from isofolio.entries.reading import Catalogue
from isofolio.findings.limits import above, at_least, at_most, below
from isofolio.measures.solutions import Solution
from isofolio.measures.table import Table


@dataclass(frozen=True)
class Subject:
    """A fluid, with what is known of it."""

    fluid: Fluid
    catalogue: Catalogue
    table: Table

    @property
    def solution(self) -> Solution:
        """What a litre of it holds."""
        return self.table.solutions[self.fluid.id]

    def number(self, quantity: str) -> float | None:
        """A figure of the fluid per litre, or None."""
        return self.table.value(self.fluid.id, quantity).number


def holds(condition: Condition, subject: Subject) -> bool:
    """Whether a condition holds. An unknown figure satisfies no threshold and is not "free of"."""
    return SHAPES[condition.when](condition, subject)


def _meets(
    judge: Callable[[float | None, Limit], bool], condition: Condition, subject: Subject
) -> bool:
    """Whether a figure meets a threshold, which always names its quantity and its limit."""
    limit = subject.catalogue.limits[str(condition.limit)]
    return judge(subject.number(str(condition.quantity)), limit)


def _may_hold(particle: str, subject: Subject) -> bool:
    """Above nothing, or declared as a range, a bound or a trace."""
    solution = subject.solution
    if solution.composition.known.get(particle, 0.0) > 0 or particle in solution.ranges:
        return True
    return solution.composition.reason(particle).endswith("trace")


def _holds(condition: Condition, subject: Subject) -> bool:
    return any(_may_hold(particle, subject) for particle in condition.particles)


def _holds_all(condition: Condition, subject: Subject) -> bool:
    return all(_may_hold(particle, subject) for particle in condition.particles)


def _free_of(condition: Condition, subject: Subject) -> bool:
    composition = subject.solution.composition
    return all(
        composition.reason(particle) == "" and composition.known.get(particle, 0.0) == 0
        for particle in condition.particles
    )


def _weighed(condition: Condition, subject: Subject) -> bool:
    return any(content.substance in condition.substances for content in subject.fluid.contents)


def _colloid(condition: Condition, subject: Subject) -> bool:
    substances = subject.catalogue.substances
    weighed = [c.substance for c in subject.fluid.contents if c.substance is not None]
    return any(substances[name].colloid in condition.kinds for name in weighed)


def _role(condition: Condition, subject: Subject) -> bool:
    return subject.fluid.role in condition.roles


def _status(condition: Condition, subject: Subject) -> bool:
    return subject.fluid.status in condition.statuses


def _situation(condition: Condition, subject: Subject) -> bool:
    return any(situation in condition.situations for situation in subject.fluid.situations)


def _container(condition: Condition, subject: Subject) -> bool:
    return any(container.kind in condition.kinds for container in subject.fluid.containers)


def _fluid(condition: Condition, subject: Subject) -> bool:
    return subject.fluid.id in condition.ids


SHAPES: Mapping[str, Callable[[Condition, Subject], bool]] = {
    "above": partial(_meets, above),
    "at-least": partial(_meets, at_least),
    "below": partial(_meets, below),
    "at-most": partial(_meets, at_most),
    "holds": _holds,
    "holds-all": _holds_all,
    "free-of": _free_of,
    "weighed": _weighed,
    "colloid": _colloid,
    "role": _role,
    "status": _status,
    "situation": _situation,
    "container": _container,
    "fluid": _fluid,
}
