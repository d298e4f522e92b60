"""Practice labels: what a generic label of a fluid says, with its blanks and one seeded fault."""

from collections.abc import Iterator
from dataclasses import dataclass

from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook, millilitres
from isofolio.teaching.lots import Lots
from isofolio.teaching.question import APART, measured, told
from isofolio.teaching.stock import LITRE, known_fluids, number
from isofolio.vocabulary.quantities import PARTICLE_QUANTITIES
from isofolio.wording.figures import rounded, written

NOT_REAL = "Practice label. Not a real label."
FOOT = "Batch ............   Expires ............"
BLANK = ".........."
SOURCES_DIFFER = "sources differ"
ROLES = ("ready", "concentrate", "colloid")
ROUTES = {
    "ready": "For infusion into a vein",
    "colloid": "For infusion into a vein",
    "concentrate": "Concentrate: dilute before use",
}


@dataclass(frozen=True)
class Line:
    """A line of a label. kind: what it tells; before: its words; figures: name, figure, unit."""

    kind: str
    before: str
    figures: tuple[tuple[str, float, str], ...]
    after: str = ""

    def text(self, *, blank: bool = False) -> str:
        """The line as printed, its figures left blank for practice."""
        parts = [
            f"{name} {BLANK if blank else told(figure)}{unit}".strip()
            for name, figure, unit in self.figures
        ]
        return f"{self.before}{', '.join(parts)}{self.after}"


@dataclass(frozen=True)
class Label:
    """A practice label: volume [mL] and kind of container, name, route, lines, pH.

    ph: as declared; the span of all sources where they differ.
    """

    volume: float
    container: str
    name: str
    route: str
    lines: tuple[Line, ...]
    ph: str


@dataclass(frozen=True)
class Fault:
    """One line of a label with a wrong figure; slip: its name; answer: what is wrong."""

    kind: str
    line: Line
    slip: str
    answer: str


def labelled(handbook: Handbook) -> list[Fluid]:
    """The fluids that have a practice label: all known of them, something in them, a container."""
    known = known_fluids(handbook, ROLES)
    return [f for f in known if f.containers and number(handbook, f, "osmolarity") > 0]


def label_of(handbook: Handbook, fluid: Fluid) -> Label:
    """The label of a fluid's commonest teaching size: half a litre, or its smallest ampoule."""
    sizes = {millilitres(container): container.kind for container in fluid.containers}
    concentrate = fluid.role == "concentrate"
    parts = [volume for volume in sizes if volume != LITRE] or list(sizes)
    volume = min(sizes) if concentrate else max(parts)
    lines = tuple(_lines(handbook, fluid, volume, volume if concentrate else LITRE))
    route = ROUTES[fluid.role]
    return Label(volume, sizes[volume], fluid.name, route, lines, _ph(fluid))


def _lines(handbook: Handbook, fluid: Fluid, volume: float, counted: float) -> Iterator[Line]:
    """Weighed contents and ions of the volume that labels count by, then what is in this one."""
    substances, share = handbook.catalogue.substances, counted / LITRE
    weighed = tuple(
        (substances[name].name.lower(), mass * share, " g")
        for name, mass in handbook.solution(fluid.id).masses.items()
        if mass is not None
    )
    if weighed:
        yield Line("weighed", f"{told(counted)} mL contain: ", weighed)
    yield Line("litre", f"mmol in {told(counted)} mL: ", _ions(handbook, fluid, counted))
    if volume != counted:
        yield Line("bag", f"mmol in this {told(volume)} mL: ", _ions(handbook, fluid, volume))
    osmolarity = number(handbook, fluid, "osmolarity")
    yield Line("osmolarity", "Osmolarity ", (("", osmolarity, ""),), " mOsm/L")


def _ions(handbook: Handbook, fluid: Fluid, volume: float) -> tuple[tuple[str, float, str], ...]:
    """Every ion and sugar with its amount in a volume [mmol]."""
    return tuple(
        (quantity.label, number(handbook, fluid, quantity.id) * volume / LITRE, "")
        for quantity in PARTICLE_QUANTITIES
        if number(handbook, fluid, quantity.id) > 0
    )


def _ph(fluid: Fluid) -> str:
    """The pH as the sources print it; "" where none does.

    Where they disagree no one of them is right for every bag, so the label spans them all and says
    so. A single figure within the span of the others (a measured bag) is no disagreement.
    """
    declared = [group.values["ph"] for group in fluid.declared if "ph" in group.values]
    ends = [(a.low, a.high) for a in declared if a.low is not None and a.high is not None]
    if not ends:
        return f"pH {written(declared[0].text)}" if declared else ""
    low, high = min(low for low, _ in ends), max(high for _, high in ends)
    spans = {end for end in ends if end[0] < end[1]}
    widest = next((a for a in declared if (a.low, a.high) == (low, high)), None)
    if widest is not None and len(spans) <= 1:
        return f"pH {written(widest.text)}"
    return f"pH {written(f'{rounded(low, 1)} to {rounded(high, 1)}')} ({SOURCES_DIFFER})"


def fault_of(handbook: Handbook, fluid: Fluid, label: Label) -> Fault | None:
    """One fault of a label, drawn by the fluid's id; None where no slip changes a figure."""
    lines = {line.kind: line for line in label.lines}
    found = [
        fault
        for fault in (
            _litre_for_bag(lines, label),
            _point_moved(lines),
            _charge_counted(handbook, lines),
            _one_half_counted(handbook, fluid, lines),
        )
        if fault is not None
    ]
    return Lots(f"fault/{fluid.id}").pick(found) if found else None


def _litre_for_bag(lines: dict[str, Line], label: Label) -> Fault | None:
    line = lines.get("bag")
    if line is None:
        return None
    wrong = Line(line.kind, line.before, lines["litre"].figures)
    answer = f"It prints the figures of a litre: {told(label.volume)} mL hold {_listed(line)} mmol."
    return Fault("bag", wrong, "per litre printed as per bag", answer)


def _point_moved(lines: dict[str, Line]) -> Fault | None:
    line = lines.get("weighed")
    if line is None:
        return None
    name, mass, unit = line.figures[0]
    figures = ((name, mass * 10, unit), *line.figures[1:])
    answer = f"It prints ten times the {name}: {measured(mass, 'g')} fits the other figures."
    return Fault("weighed", Line(line.kind, line.before, figures), "decimal point moved", answer)


def _charge_counted(handbook: Handbook, lines: dict[str, Line]) -> Fault | None:
    """Ions of two charges printed in mEq under the heading of mmol."""
    line = lines["litre"]
    charges = {p.name: abs(p.charge) for p in handbook.catalogue.particles.values()}
    double = [name for name, _, _ in line.figures if charges.get(name, 1) > 1]
    if not double:
        return None
    figures = tuple((n, figure * charges.get(n, 1), unit) for n, figure, unit in line.figures)
    shown = ", ".join(f"{n} {told(figure)}" for n, figure, _ in line.figures if n in double)
    answer = f"It prints mEq as mmol: it should say {shown}."
    return Fault("litre", Line(line.kind, line.before, figures), "mEq printed as mmol", answer)


def _one_half_counted(handbook: Handbook, fluid: Fluid, lines: dict[str, Line]) -> Fault | None:
    """An osmolarity that counts each salt as one particle: its anions are left out."""
    line = lines["osmolarity"]
    charges = {p.id: p.charge for p in handbook.catalogue.particles.values()}
    known = handbook.solution(fluid.id).composition.known
    counted = sum(amount for name, amount in known.items() if charges[name] >= 0)
    whole = line.figures[0][1]
    if whole - counted <= APART * whole:
        return None
    wrong = Line(line.kind, line.before, (("", counted, ""),), line.after)
    answer = f"It counts no anions: all particles together are {measured(whole, 'mOsm/L')}."
    return Fault("osmolarity", wrong, "each salt counted as one particle", answer)


def _listed(line: Line) -> str:
    return ", ".join(f"{name} {told(figure)}" for name, figure, _ in line.figures)
