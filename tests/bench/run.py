"""How fast, as ratios within one run: `make bench`. Seconds hold only for one machine."""

import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pint
from synthetic import enlarged

from isofolio.chemistry.formula import molar_mass
from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import Catalogue, read_catalogue
from isofolio.findings.alternatives import alternatives_of
from isofolio.findings.audit import audit_catalogue
from isofolio.findings.judgements import judge
from isofolio.measures.table import table_of

CATALOGUE = Path(__file__).parents[2] / "catalogue"
SIZE = 5_000
SAMPLE = 200  # fluids of the slow way; its time per fluid does not depend on how many


def seconds(work: Callable[[], object]) -> float:
    """Wall time of one call, the best of three."""
    best = float("inf")
    for _ in range(3):
        start = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - start)
    return best


def one_at_a_time(catalogue: Catalogue) -> None:
    """Every sum of the table with pint quantities, one fluid and one figure at a time.

    What the table does besides (osmotic coefficients, acid-base by bisection, reasons) is left
    out here, in favour of the slow way.
    """
    units = pint.get_application_registry()
    per_litre, grams = units.millimole / units.litre, units.gram / units.mole
    nothing = 0.0 * per_litre
    for fluid in list(catalogue.fluids.values())[:SAMPLE]:
        held = _held(fluid, catalogue, units)
        for name in catalogue.particles:
            held.get(name, nothing).to(per_litre)
        for weights in _weights(catalogue):
            total = sum((held[name] * weights.get(name, 0.0) for name in held), nothing)
            total.to(per_litre)
        glucose = held.get("glucose", nothing)
        for mass, kilocalories in ((180.156, 4.0), (198.171, 3.4)):
            weighed = (glucose * mass * grams).to("gram / litre")
            (weighed * kilocalories * units.kilocalorie / units.gram).to("kilocalorie / litre")


def _held(fluid: Fluid, catalogue: Catalogue, units: Any) -> dict[str, Any]:
    """The particles of a litre as pint quantities."""
    held: dict[str, Any] = {}
    for content in fluid.contents:
        amount = content.amount.low or 0.0
        substance = catalogue.substances.get(content.substance or "")
        if substance is None:
            parts = {str(content.particle): amount * units.millimole / units.litre}
        elif substance.formula is None:
            continue
        else:
            mass = molar_mass(substance.formula) * units.gram / units.mole
            moles = amount * units.gram / units.litre / mass
            parts = {str(p): moles * count for p, count in substance.releases.items()}
        for name, part in parts.items():
            held[name] = held[name] + part if name in held else part
    return held


def _weights(catalogue: Catalogue) -> list[dict[str, float]]:
    """What each particle counts for in the sums: charges, osmolarities, strong ions."""
    particles = catalogue.particles.values()
    burnt = {"burnt"}
    turned = {"becomes-bicarbonate", "may-become-bicarbonate"}
    strong = [p for p in particles if p.strong]
    return [
        {p.id: float(p.charge) for p in particles if p.charge > 0},
        {p.id: float(-p.charge) for p in particles if p.charge < 0},
        {p.id: float(p.charge) for p in particles},
        {p.id: 1.0 for p in particles},
        {p.id: 1.0 for p in particles if p.fate not in burnt},
        {p.id: float(p.charge) for p in strong},
        {p.id: float(p.charge) for p in strong if p.fate not in turned},
        {p.id: float(p.charge) for p in strong if p.fate != "becomes-bicarbonate"},
        {p.id: float(abs(p.charge)) for p in particles if p.fate in turned},
    ]


def main() -> None:
    """Print the times and the ratios."""
    reading = read_catalogue(CATALOGUE)
    catalogue = enlarged(reading.catalogue, SIZE)
    table = table_of(catalogue)
    whole_table = seconds(lambda: table_of(catalogue))
    rows = [
        ("read the catalogue from disk", seconds(lambda: read_catalogue(CATALOGUE))),
        (f"whole table, {SIZE} fluids", whole_table),
        (f"judgements, {SIZE} fluids", seconds(lambda: dict(judge(catalogue, table)))),
        (f"label audit, {SIZE} fluids", seconds(lambda: dict(audit_catalogue(catalogue, table)))),
        (f"alternatives, {SIZE} fluids", seconds(lambda: dict(alternatives_of(catalogue, table)))),
    ]
    slow = seconds(lambda: one_at_a_time(catalogue)) / SAMPLE
    for name, took in rows:
        sys.stdout.write(f"{name:40} {took:8.3f} s\n")
    ratio = slow / (whole_table / SIZE)
    sys.stdout.write(f"{'pint, one fluid at a time':40} {slow * SIZE:8.3f} s (from {SAMPLE})\n")
    sys.stdout.write(f"the table is {ratio:.0f} times faster a fluid than pint one at a time\n")


if __name__ == "__main__":
    main()
