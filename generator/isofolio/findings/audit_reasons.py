"""Reasons why a true label may print another figure than its contents give.

Each function returns a sentence, or "" where its reason does not hold.
"""

from isofolio.chemistry.osmosis import theoretical_osmolarity
from isofolio.entries.records import Fluid
from isofolio.findings.audit_figures import (
    NOMINAL,
    OFF,
    ROUNDED,
    Printed,
    distance,
    nearness,
    within,
)
from isofolio.findings.audit_lines import MEASURED, OSMOLALITIES, Bench, Line, said
from isofolio.findings.audit_recipes import HEAVY, LIGHT, VARIANT
from isofolio.wording.figures import HARD, amount, written

CALCIUM_SACCHARATE = 15.0
"""Most calcium that the stabiliser of calcium gluconate adds [mmol/L]: 0.15 mmol in 10 mL, a UK
product text, as copied in the entry calcium-gluconate-10."""

ACID_OR_BASE = 1.0
"""What acid or base that sets the pH adds to chloride or sodium [mmol/L], about: common practice,
no source."""

Group = tuple[Line, ...]


def balancing(line: Line, group: Group, bench: Bench) -> str:
    """Ions rounded against one another so that the printed charges balance."""
    charges = {item.quantity: _charge(item, bench) for item in group}
    mine = charges[line.quantity]
    if not mine or abs(_total(group, charges)) > 1e-6:
        return ""
    for other in group:
        same = other is not line and charges[other.quantity] * mine > 0 and other.near == ROUNDED
        if same and _off(other) * _off(line) < 0:
            return (
                f"Rounded so that the printed ions balance, beside {other.quantity} "
                f"{written(other.text)}; the contents give {_ours(line)}."
            )
    return ""


def _charge(line: Line, bench: Bench) -> float:
    particle = bench.catalogue.particles.get(line.quantity)
    return 0.0 if particle is None else float(particle.charge)


def _total(group: Group, charges: dict[str, float]) -> float:
    return sum(charges[i.quantity] * i.figure.high for i in group if i.figure is not None)


def _off(line: Line) -> float:
    if line.figure is None or line.ours.number is None:
        return 0.0
    return distance(line.figure, line.ours.number)


def _ours(line: Line) -> str:
    return said(line.ours.number or 0.0, line.quantity)


def saccharate(line: Line, fluid: Fluid, bench: Bench) -> str:
    """Calcium saccharate, which keeps calcium gluconate in solution and is not in the contents."""
    particles = {"calcium": 1.0, "osmolarity": 2.0}.get(line.quantity, 0.0)
    gluconate = any(str(c.substance).startswith("calcium-gluconate") for c in fluid.contents)
    if not gluconate or not _above(line, particles * CALCIUM_SACCHARATE, bench):
        return ""
    return (
        "The label may also count the calcium saccharate that keeps it in solution; "
        f"the gluconate alone gives {_ours(line)}."
    )


def acid_or_base(line: Line, _: Fluid, bench: Bench) -> str:
    """Hydrochloric acid or sodium hydroxide that sets the pH."""
    agent = {"chloride": "hydrochloric acid", "sodium": "sodium hydroxide"}.get(line.quantity)
    if agent is None or not line.ours.number or not _above(line, ACID_OR_BASE, bench):
        return ""
    return f"The label may count {agent} that sets the pH; the contents give {_ours(line)}."


def _above(line: Line, most: float, bench: Bench) -> bool:
    """Whether the printed figure lies above ours, by no more than an addition would explain."""
    if line.figure is None or line.ours.number is None:
        return False
    allowed = most + bench.limits.exact * line.figure.step
    return _off(line) > 0 and within(_off(line), allowed, line.ours.number) and most > 0


def halved(line: Line, _: Fluid, bench: Bench) -> str:
    """Millimoles that are whole milliequivalents, already rounded, divided by the charge."""
    charge = abs(_charge(line, bench))
    figure, ours = line.figure, line.ours.number
    if charge <= 1 or not ours or figure is None or not figure.one or figure.equivalents:
        return ""
    whole = round(figure.high * charge)
    if whole == 0 or abs(whole - figure.high * charge) > 1e-9:
        return ""
    if not within(whole - ours * charge, bench.limits.exact, ours):
        return ""
    return (
        f"It is {whole}{HARD}mEq/L, which labels print for {amount(ours * charge)}, divided by "
        f"{charge:.0f}; the contents give {_ours(line)}."
    )


def rounded_masses(line: Line, fluid: Fluid, bench: Bench) -> str:
    """Masses of the recipe that are themselves printed with two figures or fewer."""
    ends = [
        bench.reading(recipe, line.quantity)
        for recipe in bench.recipes.get(fluid.id, ())
        if recipe.sort in (LIGHT, HEAVY)
    ]
    numbers = [end for end in ends if end is not None]
    if line.figure is None or len(numbers) != 2 or numbers[0] == numbers[1]:
        return ""
    low, high = min(numbers), max(numbers)
    half = bench.limits.exact * line.figure.step
    if line.figure.high < low - half or (line.figure.low or 0.0) > high + half:
        return ""
    return (
        f"The masses of the recipe are rounded too: they allow {said(low, line.quantity)} to "
        f"{said(high, line.quantity)}."
    )


def colloid(line: Line, fluid: Fluid, bench: Bench) -> str:
    """A colloid that the printed osmolarity counts as well; we count ions only."""
    if line.quantity != "osmolarity" or not bench.table.value(fluid.id, "colloid_mass").number:
        return ""
    variants = [r for r in bench.recipes.get(fluid.id, ()) if r.sort == VARIANT]
    sums = [line.ours.number, *(bench.reading(variant, "osmolarity") for variant in variants)]
    for ions in sums:
        if ions and line.figure and _little_more(line.figure, ions, bench):
            return f"The ions alone make {said(ions, 'osmolarity')}; the label may count the colloid."
    return ""


def _little_more(figure: Printed, ions: float, bench: Bench) -> bool:
    return distance(figure, ions) > 0 and nearness(figure, ions, bench.limits) != OFF


def osmolality_word(line: Line, fluid: Fluid, bench: Bench) -> str:
    """An osmolality printed as an osmolarity, or the reverse."""
    if line.figure is None:
        return ""
    if line.quantity == "osmolarity" and within_estimate(line.figure, fluid.id, bench):
        return (
            f"It fits an osmolality (our estimate is {estimate(fluid.id, bench)}), "
            f"not the osmolarity, {_ours(line)}."
        )
    osmolarity = bench.table.value(fluid.id, "osmolarity").number
    if line.quantity in OSMOLALITIES and osmolarity is not None:
        if nearness(line.figure, osmolarity, bench.limits) != OFF:
            return (
                f"It fits the osmolarity, {said(osmolarity, 'osmolarity')}, not an osmolality "
                f"(our estimate is {estimate(fluid.id, bench)})."
            )
    return ""


def within_estimate(figure: Printed, fluid: str, bench: Bench) -> bool:
    """Whether a figure lies within the printed error of our estimate of the osmolality."""
    number = bench.table.value(fluid, "osmolality").number
    error = bench.table.value(fluid, "osmolality_error").number
    if number is None or error is None:
        return False
    return within(distance(figure, number), number * error / 100.0, number)


def estimate(fluid: str, bench: Bench) -> str:
    """Our estimate of the osmolality with its error, in words."""
    number = bench.table.value(fluid, "osmolality").number or 0.0
    error = bench.table.value(fluid, "osmolality_error").number or 0.0
    return f"{said(number, MEASURED)} ±{HARD}{amount(error)}{PERCENT}"


PERCENT = "\u202f%"


def ions_already(line: Line, fluid: Fluid, bench: Bench) -> str:
    """A printed osmolarity below the sum of what is known of a composition that is not whole."""
    solution = bench.table.solutions[fluid.id]
    known = solution.composition.known
    if line.quantity != "osmolarity" or line.figure is None or not known:
        return ""
    least = float(theoretical_osmolarity(known))
    if distance(line.figure, least) >= 0 or nearness(line.figure, least, bench.limits) != OFF:
        return ""
    return (
        f"{written(line.text)} is less than the ions printed beside it, which alone make "
        f"{said(least, 'osmolarity')}; what else it holds is not published."
    )


WHY = (saccharate, halved, acid_or_base)
"""Reasons that go before another convention, because they are known of these labels."""

WHY_ELSE = (rounded_masses, colloid)
"""Reasons where no convention fits."""

__all__ = ["NOMINAL", "WHY", "WHY_ELSE"]
