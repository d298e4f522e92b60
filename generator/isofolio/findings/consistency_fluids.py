"""Whether the amounts of one fluid can be what they say, and whether its charge closes."""

from collections.abc import Iterator, Sequence

from isofolio.chemistry.charge import label_tolerance
from isofolio.entries.fluids import Content, Fluid
from isofolio.entries.problems import Problem
from isofolio.entries.reading import Catalogue, Reading
from isofolio.entries.scalars import Amount
from isofolio.entries.tree import Path
from isofolio.measures.columns import columns_from
from isofolio.measures.solutions import concentration, converts, solution_of
from isofolio.measures.table import MEASURES, table_from
from isofolio.vocabulary.quantities import DECLARABLE

Finding = Iterator[Problem]

# What weighed salts may miss electrical balance by: rounding of floating-point sums [mEq/L].
EXACT = 1e-6


def units_fit(reading: Reading, fluids: Sequence[Fluid]) -> Finding:
    """Every amount of a fluid is one of what it stands for."""
    for fluid in fluids:
        yield from _amounts_fit(reading, fluid)


def _amounts_fit(reading: Reading, fluid: Fluid) -> Finding:
    for path, contents in recipes(fluid):
        for number, content in enumerate(contents):
            for key, message, fix in _faults(content, reading.catalogue):
                yield reading.problem(_file(fluid), (*path, number, key), message, fix)
    for number, group in enumerate(fluid.declared):
        for key, amount in group.values.items():
            if amount.high is not None and not _declarable(key, amount):
                unit = DECLARABLE[key].unit
                message = f'"{amount.text}" is not a value of {key}'
                fix = f"Write it in {unit}, or in a unit that converts to it."
                fix = "Write it as a number without a unit." if unit == "1" else fix
                place = ("declared", number, "values", key)
                yield reading.problem(_file(fluid), place, message, fix)
    for number, container in enumerate(fluid.containers):
        if not is_volume(container.volume):
            message = f'"{container.volume.text}" is not the volume of a container'
            where = ("containers", number, "volume")
            yield reading.problem(_file(fluid), where, message, "Write it as in 500 mL.")


def recipes(fluid: Fluid) -> Iterator[tuple[Path, list[Content]]]:
    """The contents and those of every variant, each with its place: all that a fluid weighs."""
    yield ("contents",), fluid.contents
    for number, variant in enumerate(fluid.variants):
        yield ("variants", number, "contents"), variant.contents


def _faults(content: Content, catalogue: Catalogue) -> Iterator[tuple[str, str, str]]:
    """What is wrong with the amount of a content and with its charge: key, message, fix."""
    if not converts(content, catalogue):
        what = content.substance or content.particle
        message = f'"{content.amount.text}" cannot be a concentration of {what}'
        yield (
            "amount",
            message,
            "Write grams of a substance, or millimoles of a particle, per volume.",
        )
    if content.charge is None:
        return
    if content.substance is None or catalogue.substances[content.substance].colloid is None:
        fix = "Delete the key: the charge of a particle stands in particles.yml."
        yield "charge", "only a colloid has its charge declared here", fix
    elif content.charge.high is not None and not _fits(content.charge, "mEq/L"):
        message = f'"{content.charge.text}" cannot be a concentration of charge'
        yield "charge", message, "Write it as in 34 mEq/L."


def _file(fluid: Fluid) -> str:
    return f"fluids/{fluid.id}.yml"


def _fits(amount: Amount, unit: str) -> bool:
    return concentration(amount, amount.high, unit) is not None


def _declarable(key: str, amount: Amount) -> bool:
    wanted = DECLARABLE[key].unit
    return _fits(amount, wanted) or (wanted == "mmol/L" and _fits(amount, "mEq/L"))


def is_volume(amount: Amount) -> bool:
    """Whether an amount is one volume, and not a share of another one."""
    whole = amount.state == "exact" and amount.per_millilitres is None
    return whole and amount.unit in {"mL", "L"} and bool(amount.low)


def charge_closes(reading: Reading, fluids: Sequence[Fluid]) -> Finding:
    """Cations equal anions: exactly for weighed salts, within the label's rounding for ions."""
    catalogue = reading.catalogue
    fit = [
        f for f in fluids if not any(fault for c in f.contents for fault in _faults(c, catalogue))
    ]
    solutions = [solution_of(fluid, catalogue) for fluid in fit]
    columns = columns_from([fluid.id for fluid in fit], solutions, catalogue)
    table = table_from(columns, catalogue, [m for m in MEASURES if "charge_gap" in m.quantities])
    for fluid in fit:
        gap = table.value(fluid.id, "charge_gap").number
        if gap is not None:
            yield from _gap_explained(reading, fluid, gap)


def _gap_explained(reading: Reading, fluid: Fluid, gap: float) -> Finding:
    allowed = _label_tolerance(fluid, reading.catalogue)
    if abs(gap) > allowed + EXACT:
        message = (
            f"the charge does not close: {_shown(abs(gap))} mEq/L more of "
            f"{'cations than of anions' if gap > 0 else 'anions than of cations'}, "
            f"and rounding explains {_explains(allowed)}"
        )
        fix = "Look for a missing ion, a wrong amount, or a base that was left out."
        yield reading.problem(_file(fluid), ("contents",), message, fix)


def _shown(gap: float) -> str:
    return f"{gap:.2f}" if gap >= 0.005 else "less than 0.01"


def _explains(allowed: float) -> str:
    return f"{allowed:.2f}" if allowed else "none of it"


def _label_tolerance(fluid: Fluid, catalogue: Catalogue) -> float:
    """What rounding of the declared ions explains [mEq/L]: nothing where all is weighed."""
    declared = [c for c in fluid.contents if c.particle is not None]
    units = {str(c.particle): 10.0**-c.amount.decimals for c in declared}
    charges = {p: float(catalogue.particles[p].charge) for p in units}
    return label_tolerance(units, charges)
