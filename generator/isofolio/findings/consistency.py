"""What no single field can show to be wrong: charge, units, citations, names.

Runs on the sound entries whose references are sound, so that one fault is one problem.
"""

from collections.abc import Callable, Iterator

from isofolio.chemistry.charge import label_tolerance
from isofolio.entries.problems import Problem
from isofolio.entries.reading import Catalogue, Reading
from isofolio.entries.records import Content, Fluid
from isofolio.entries.references import references
from isofolio.entries.scalars import Amount
from isofolio.entries.tree import Path
from isofolio.measures.columns import columns_from
from isofolio.measures.solutions import concentration, converts, solution_of
from isofolio.measures.table import MEASURES, table_from
from isofolio.vocabulary.quantities import DECLARABLE

Finding = Iterator[Problem]

# What weighed salts may miss electrical balance by: rounding of floating-point sums [mEq/L].
EXACT = 1e-6


def problems(reading: Reading) -> tuple[Problem, ...]:
    """Every consistency problem of the sound entries, sorted by file and line."""
    sound = sound_fluids(reading)
    found = [
        problem for check in FLUID_CHECKS for fluid in sound for problem in check(reading, fluid)
    ]
    found += [problem for check in CATALOGUE_CHECKS for problem in check(reading)]
    return tuple(sorted(found))


def sound_fluids(reading: Reading) -> tuple[Fluid, ...]:
    """The fluids whose substances and particles were all read."""
    catalogue = reading.catalogue
    there = {"substances": catalogue.substances, "particles": catalogue.particles}
    return tuple(
        fluid
        for fluid in catalogue.fluids.values()
        if all(ref in there.get(ref.kind, {ref}) for _, ref in references(fluid))
    )


def _file(fluid: Fluid) -> str:
    return f"fluids/{fluid.id}.yml"


def _recipes(fluid: Fluid) -> Iterator[tuple[Path, list[Content]]]:
    yield ("contents",), fluid.contents
    for number, variant in enumerate(fluid.variants):
        yield ("variants", number, "contents"), variant.contents


def units_fit(reading: Reading, fluid: Fluid) -> Finding:
    """Every amount of a recipe can be a concentration; every declared value has its dimension."""
    for path, contents in _recipes(fluid):
        for number, content in enumerate(contents):
            if not converts(content, reading.catalogue):
                what = content.substance or content.particle
                message = f'"{content.amount.text}" cannot be a concentration of {what}'
                fix = "Write grams of a substance, or millimoles of a particle, per volume."
                yield reading.problem(_file(fluid), (*path, number, "amount"), message, fix)
    for number, group in enumerate(fluid.declared):
        for key, amount in group.values.items():
            if amount.high is not None and not _declarable(key, amount):
                message = f'"{amount.text}" is not a value of {key} ({DECLARABLE[key].unit})'
                fix = f"Write it in {DECLARABLE[key].unit}, or in a unit that converts to it."
                place = ("declared", number, "values", key)
                yield reading.problem(_file(fluid), place, message, fix)
    for number, container in enumerate(fluid.containers):
        if container.volume.state != "exact" or container.volume.unit not in {"mL", "L"}:
            message = f'"{container.volume.text}" is not the volume of a container'
            where: Path = ("containers", number, "volume")
            yield reading.problem(_file(fluid), where, message, "Write it as in 500 mL.")


def _declarable(key: str, amount: Amount) -> bool:
    wanted = DECLARABLE[key].unit
    units = [wanted, "mEq/L"] if wanted == "mmol/L" else [wanted]
    units += ["kJ/L"] if wanted == "kcal/L" else []
    return any(concentration(amount, amount.high, unit) is not None for unit in units)


def charge_closes(reading: Reading, fluid: Fluid) -> Finding:
    """Cations equal anions: exactly for weighed salts, within the label's rounding for ions."""
    if not all(converts(content, reading.catalogue) for content in fluid.contents):
        return
    solution = solution_of(fluid, reading.catalogue)
    columns = columns_from([fluid.id], [solution], reading.catalogue)
    chosen = [m for m in MEASURES if m.quantity == "charge_gap"]
    gap = table_from(columns, reading.catalogue, chosen).value(fluid.id, "charge_gap").number
    if gap is None:
        return
    allowed = EXACT if solution.weighed is not None else _label_tolerance(fluid, reading.catalogue)
    if abs(gap) > allowed:
        message = (
            f"the charge does not close: cations are {gap:+.2f} mEq/L against anions, "
            f"and rounding explains {allowed:.2g}"
        )
        fix = "Look for a missing ion, a wrong amount, or a base that was left out."
        yield reading.problem(_file(fluid), ("contents",), message, fix)


def _label_tolerance(fluid: Fluid, catalogue: Catalogue) -> float:
    declared = [c for c in fluid.contents if c.particle is not None]
    units = {str(c.particle): 10.0**-c.amount.decimals for c in declared}
    charges = {p: float(catalogue.particles[p].charge) for p in units}
    return label_tolerance(units, charges)


def nothing_from_memory(reading: Reading) -> Finding:
    """A figure that somebody remembers is not printed with a source."""
    for file, tree in reading.trees.items():
        if tree.root is None:
            continue
        for path, value in _leaves(tree.root):
            if path and path[-1] == "seen" and value == "memory":
                message = "a figure from memory would be printed as if it had a source"
                fix = "Read a source for it, write  cite: common practice, or leave the figure out."
                yield reading.problem(file, path, message, fix)


def _leaves(node: object, path: Path = ()) -> Iterator[tuple[Path, object]]:
    if isinstance(node, dict):
        for key, item in node.items():
            yield from _leaves(item, (*path, key))
    elif isinstance(node, list):
        for number, item in enumerate(node):
            yield from _leaves(item, (*path, number))
    else:
        yield path, node


def names_are_single(reading: Reading) -> Finding:
    """No two fluids share a name of one kind, unless words.yml says that the word is ambiguous."""
    ambiguous = {_plain(word.word) for word in reading.catalogue.words}
    owners: dict[tuple[str, str], str] = {}
    for fluid in reading.catalogue.fluids.values():
        named: list[tuple[str, str, Path]] = [("title", fluid.name, ("name",))]
        named += [
            (other.kind, other.name, ("also_known_as", number, "name"))
            for number, other in enumerate(fluid.also_known_as)
        ]
        for kind, name, path in named:
            owner = owners.setdefault((kind, _plain(name)), fluid.id)
            if owner != fluid.id and _plain(name) not in ambiguous:
                message = f'the {kind} "{name}" belongs to {owner} already'
                fix = "Make it longer, or declare the word in words.yml with both candidates."
                yield reading.problem(_file(fluid), path, message, fix)


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())


def lists_have_single_ids(reading: Reading) -> Finding:
    """No id stands twice in a list file."""
    for file, key in (("particles.yml", "particles"), ("limits.yml", "limits")):
        tree = reading.trees.get(file)
        root = tree.root if tree is not None else None
        items = root.get(key) if isinstance(root, dict) else None
        seen: set[str] = set()
        for number, item in enumerate(items if isinstance(items, list) else ()):
            identifier = item.get("id") if isinstance(item, dict) else None
            if identifier in seen:
                message = f'the id "{identifier}" stands twice'
                yield reading.problem(file, (key, number, "id"), message, "Keep one of the two.")
            seen.add(str(identifier))


def salts_are_neutral(reading: Reading) -> Finding:
    """What a salt releases carries no net charge; an acid and a base are balanced in the fluid."""
    particles = reading.catalogue.particles
    for substance in reading.catalogue.substances.values():
        if substance.base or substance.acid or not set(substance.releases) <= set(particles):
            continue
        charge = sum(particles[p].charge * n for p, n in substance.releases.items())
        if charge:
            message = f"the particles it releases carry a net charge of {charge:+d}"
            fix = "Correct the counts, or say base: or acid:."
            place = ("releases",)
            yield reading.problem(f"substances/{substance.id}.yml", place, message, fix)


def one_interval_beside(reading: Reading) -> Finding:
    """One interval a quantity is the one printed beside the fluids."""
    chosen: dict[str, int] = {}
    for number, interval in enumerate(reading.catalogue.intervals):
        if not interval.beside:
            continue
        if interval.quantity in chosen:
            message = f"two intervals of {interval.quantity} are marked beside: yes"
            fix = "Keep the mark on one of them."
            yield reading.problem("plasma.yml", ("intervals", number, "beside"), message, fix)
        chosen.setdefault(interval.quantity, number)


FLUID_CHECKS: tuple[Callable[[Reading, Fluid], Finding], ...] = (units_fit, charge_closes)
CATALOGUE_CHECKS: tuple[Callable[[Reading], Finding], ...] = (
    nothing_from_memory,
    names_are_single,
    lists_have_single_ids,
    salts_are_neutral,
    one_interval_beside,
)
