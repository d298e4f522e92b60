"""Reasons why a true label may print another figure than its contents give.

Each function returns a sentence, or "" where its reason does not hold.
"""

from isofolio.entries.fluids import Fluid
from isofolio.findings.audit_figures import (
    EXACT,
    NOMINAL,
    OFF,
    ROUNDED,
    Printed,
    distance,
    nearness,
    within,
)
from isofolio.findings.audit_lines import MEASURED, OSMOLALITIES, Bench, Line, ours, said
from isofolio.findings.audit_recipes import HEAVY, LIGHT, VARIANT
from isofolio.wording.figures import HARD, amount, unit_text, written

Group = tuple[Line, ...]


def against_another(line: Line, group: Group, bench: Bench) -> str:
    """Two ions of like charge, one rounded down and one up, so that the printed charges balance."""
    mine = _charge(line, bench)
    if not mine or not _balance(group, bench):
        return ""
    for other in group:
        theirs = _charge(other, bench)
        if other is line or other.near != ROUNDED or theirs * mine <= 0 or not _off(line):
            continue
        if _cancel(mine * _off(line), theirs * _off(other), bench):
            return (
                f"Rounded so that the printed ions balance, beside {other.quantity} "
                f"{written(other.text)}; the contents give {ours(line)}."
            )
    return ""


def _cancel(one: float, other: float, bench: Bench) -> bool:
    """Whether two differences in charge [mEq/L] nearly cancel: half of the first is not left."""
    return abs(one + other) < bench.limits.exact * abs(one)


def balancing(line: Line, group: Group, bench: Bench) -> str:
    """An ion printed as the sum that balances the others, which are rounded themselves."""
    ions = [other for other in group if _charge(other, bench)]
    others = [other for other in ions if other is not line]
    rounded = any(other.near == ROUNDED for other in others)
    near = all(other.near in {EXACT, ROUNDED} for other in others)
    if line not in ions or line.near != NOMINAL or not (rounded and near):
        return ""
    if not _balance(group, bench):
        return ""
    return f"It balances the other ions as they are printed; the contents give {ours(line)}."


def _charge(line: Line, bench: Bench) -> float:
    particle = bench.catalogue.particles.get(line.quantity)
    return 0.0 if particle is None else float(particle.charge)


def _balance(group: Group, bench: Bench) -> bool:
    """Whether the printed charges of a source cancel."""
    return within(sum(_charge(i, bench) * i.figure.high for i in group if i.figure), 0.0, 0.0)


def _off(line: Line) -> float:
    if line.figure is None or line.ours.number is None:
        return 0.0
    return distance(line.figure, line.ours.number)


def saccharate(line: Line, fluid: Fluid, bench: Bench) -> str:
    """Calcium saccharate, which keeps calcium gluconate in solution and is not in the contents."""
    particles = {"calcium": 1.0, "osmolarity": 2.0}.get(line.quantity, 0.0)
    gluconate = any(str(c.substance).startswith("calcium-gluconate") for c in fluid.contents)
    if not gluconate or not _above(line, particles * bench.limits.saccharate, bench):
        return ""
    return (
        "The label may also count the calcium saccharate that keeps it in solution; "
        f"the gluconate alone gives {ours(line)}."
    )


def acid_or_base(line: Line, _: Fluid, bench: Bench) -> str:
    """Hydrochloric acid or sodium hydroxide that sets the pH."""
    agent = {"chloride": "hydrochloric acid", "sodium": "sodium hydroxide"}.get(line.quantity)
    if agent is None or not line.ours.number or not _above(line, bench.limits.acid_or_base, bench):
        return ""
    return f"The label may count {agent} that sets the pH; the contents give {ours(line)}."


def _above(line: Line, most: float, bench: Bench) -> bool:
    """Whether the printed figure lies above ours, by no more than an addition would explain."""
    if line.figure is None or line.ours.number is None:
        return False
    allowed = most + bench.limits.exact * line.figure.step
    return _off(line) > 0 and within(_off(line), allowed, line.ours.number) and most > 0


def halved(line: Line, _: Fluid, bench: Bench) -> str:
    """Millimoles that are whole milliequivalents, already rounded, divided by the charge."""
    charge = abs(_charge(line, bench))
    figure, number = line.figure, line.ours.number
    if charge <= 1 or not number or figure is None or not figure.one or figure.equivalents:
        return ""
    whole = round(figure.high * charge)
    if whole == 0 or abs(whole - figure.high * charge) > 1e-9:
        return ""
    if not within(whole - number * charge, bench.limits.exact, number):
        return ""
    return (
        f"It is {whole}{HARD}mEq/L, which labels print for {amount(number * charge)}, divided by "
        f"{charge:.0f}; the contents give {ours(line)}."
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
    if line.quantity != "osmolarity" or not bench.table.solutions[fluid.id].colloid:
        return ""
    variants = [r for r in bench.recipes.get(fluid.id, ()) if r.sort == VARIANT]
    sums = [line.ours.number, *(bench.reading(variant, "osmolarity") for variant in variants)]
    for ions in sums:
        if ions and line.figure and _little_more(line.figure, ions, bench):
            return (
                f"The ions alone make {said(ions, 'osmolarity')}; the label may count the colloid."
            )
    return ""


def _little_more(figure: Printed, ions: float, bench: Bench) -> bool:
    return distance(figure, ions) > 0 and nearness(figure, ions, bench.limits) != OFF


def osmolality_word(line: Line, fluid: Fluid, bench: Bench) -> str:
    """An osmolality printed as an osmolarity, or the reverse."""
    if line.figure is None:
        return ""
    estimated = f"our estimate is {estimate(fluid.id, bench)}"
    if line.quantity == "osmolarity" and within_estimate(line.figure, fluid.id, bench):
        return f"It fits an osmolality ({estimated}), not the osmolarity, {ours(line)}."
    osmolarity = bench.table.value(fluid.id, "osmolarity").number
    if line.quantity not in OSMOLALITIES or osmolarity is None:
        return ""
    if nearness(line.figure, osmolarity, bench.limits) == OFF:
        return ""
    shown = said(osmolarity, "osmolarity")
    return f"It fits the osmolarity, {shown}, not an osmolality ({estimated})."


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
    return f"{said(number, MEASURED)} ±{HARD}{amount(error)}{unit_text('%')}"


WHY = (saccharate, halved, acid_or_base)
"""Reasons that go before another convention, because they are known of these labels."""

WHY_ELSE = (rounded_masses, colloid)
"""Reasons where no convention fits."""
