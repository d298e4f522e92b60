"""The ion columns of a fluid, made from the handbook's figures."""

from collections.abc import Sequence
from dataclasses import replace

from isofolio.drawings.ions import Column, Segment, Sugar, comparison, ion_columns
from isofolio.handbook import Handbook, interval_of
from isofolio.wording.figures import HARD, amount, rounded, typeset

TALLEST = 300.0  # mEq/L: above it a fluid is drawn diluted
FITS = 156.0
DILUTIONS = (2, 4, 5, 10, 20, 50, 100)
FRACTIONS = {
    2: "half",
    4: "a quarter",
    5: "a fifth",
    10: "a tenth",
    20: "a twentieth",
    50: "a fiftieth",
    100: "a hundredth",
}


def plasma_column(handbook: Handbook) -> Column:
    """Plasma at the middle of the reference intervals printed beside the fluids."""
    middles = {q: sum(interval_of(i)) / 2 for q, i in handbook.beside.items()}
    particles = handbook.catalogue.particles
    cations = [
        _segment(p, middles[p] * particles[p].charge, handbook)
        for p in ("sodium", "potassium", "calcium", "magnesium")
        if p in middles
    ]
    anions = [
        _segment(p, middles[p], handbook) for p in ("chloride", "bicarbonate") if p in middles
    ]
    rest = sum(s.milliequivalents for s in cations) - sum(s.milliequivalents for s in anions)
    words = "proteins and unmeasured ions"
    if rest > 0:
        anions.append(Segment("rest", words, rest, "rest", f"{words} {rounded(rest, 0)}"))
    return Column("plasma", tuple(cations), tuple(anions), None, "")


def fluid_column(handbook: Handbook, fluid_id: str, diluted: int = 1) -> Column:
    """A fluid's own columns; `diluted` 10 draws it at a tenth of its strength."""
    solution = handbook.solution(fluid_id)
    particles = handbook.catalogue.particles
    cations: list[Segment] = []
    anions: list[Segment] = []
    for particle, millimoles in solution.composition.known.items():
        charge = solution.charges.get(particle, float(particles[particle].charge))
        equivalents = millimoles * abs(charge) / diluted
        if charge and equivalents:
            (cations if charge > 0 else anions).append(_segment(particle, equivalents, handbook))
    order = list(particles)
    cations.sort(key=lambda s: order.index(s.particle))
    anions.sort(key=lambda s: order.index(s.particle))
    if solution.polyanion.number:
        rest = solution.polyanion.number / diluted
        anions.append(Segment("rest", "colloid", rest, "rest", f"colloid {amount(rest)}"))
    title = "this bag" if diluted == 1 else f"diluted to {FRACTIONS[diluted]}"
    column = Column(title, tuple(cations), tuple(anions), _sugar(handbook, fluid_id, diluted))
    return replace(column, whole=not solution.composition.unknown)


def _segment(particle: str, equivalents: float, handbook: Handbook) -> Segment:
    record = handbook.catalogue.particles[particle]
    text = f"{record.symbol}{HARD}{amount(equivalents)}"
    return Segment(particle, record.symbol, equivalents, record.colour, text)


def _sugar(handbook: Handbook, fluid_id: str, diluted: int) -> Sugar | None:
    known = handbook.solution(fluid_id).composition.known
    found = [(name, known[name] / diluted) for name in ("glucose", "mannitol") if known.get(name)]
    if not found:
        return None
    name, millimoles = found[0]
    fate = "gone once burnt" if name == "glucose" else "stays outside cells"
    return Sugar(millimoles, f"{name} {amount(millimoles)}{HARD}mmol, no charge, {fate}")


def dilution_for(handbook: Handbook, fluid_id: str) -> int:
    """1 for a fluid that is drawn as it is; else the least dilution that fits the scale."""
    tallest = tallest_of(handbook, fluid_id)
    if tallest <= TALLEST:
        return 1
    return next((d for d in DILUTIONS if tallest / d <= FITS), DILUTIONS[-1])


def tallest_of(handbook: Handbook, fluid_id: str) -> float:
    """The tallest stack of a fluid as it is: cations, anions [mEq/L] or sugar [mmol/L]."""
    column = fluid_column(handbook, fluid_id)
    return max(
        sum(s.milliequivalents for s in column.cations),
        sum(s.milliequivalents for s in column.anions),
        column.sugar.millimoles if column.sugar else 0.0,
    )


def common_dilution(handbook: Handbook, fluid_ids: Sequence[str]) -> int:
    """The least dilution at which every one of the fluids can be drawn beside the others."""
    tallest = max(tallest_of(handbook, fluid_id) for fluid_id in fluid_ids)
    return next((d for d in (1, *DILUTIONS) if tallest / d <= TALLEST), DILUTIONS[-1])


def named_column(handbook: Handbook, fluid_id: str, diluted: int) -> Column:
    """A fluid under its own name, with a note where it is drawn weaker than it is."""
    note = "" if diluted == 1 else f"drawn diluted to {FRACTIONS[diluted]}"
    name = typeset(handbook.catalogue.fluids[fluid_id].name)
    return replace(fluid_column(handbook, fluid_id, diluted), title=name, note=note)


def named_drawing(handbook: Handbook, fluid_id: str, identifier: str) -> str:
    """A fluid beside plasma, each under its own name: for a slide, away from any page."""
    column = named_column(handbook, fluid_id, dilution_for(handbook, fluid_id))
    plasma = plasma_column(handbook)
    return ion_columns(
        column,
        plasma,
        identifier=identifier,
        title=f"Ions of {column.title} beside plasma",
        description=f"{described(column)} Plasma: {described(plasma)}",
    )


def compared(handbook: Handbook, fluid_ids: Sequence[str], plasma: bool, identifier: str) -> str:
    """Fluids side by side, all drawn at one strength; plasma last, never diluted."""
    diluted = common_dilution(handbook, fluid_ids)
    columns = [named_column(handbook, fluid_id, diluted) for fluid_id in fluid_ids]
    if plasma:
        columns.append(plasma_column(handbook))
    return comparison(
        columns,
        identifier=identifier,
        title="Ions side by side: " + ", ".join(column.title for column in columns),
        description=" ".join(f"{column.title}: {described(column)}" for column in columns),
    )


def drawing(handbook: Handbook, fluid_id: str) -> tuple[str, str]:
    """The drawing of a fluid beside plasma as svg, and a sentence below it ("" for none)."""
    fluid = handbook.catalogue.fluids[fluid_id]
    diluted = dilution_for(handbook, fluid_id)
    column = fluid_column(handbook, fluid_id, diluted)
    title = f"Ions of {fluid.name} beside plasma"
    svg = ion_columns(
        column,
        plasma_column(handbook),
        identifier="ion-columns",
        title=title,
        description=f"{described(column)} Plasma: {described(plasma_column(handbook))}",
    )
    sentence = (
        ""
        if diluted == 1
        else (f"Drawn diluted to {FRACTIONS[diluted]}: too strong to stand beside plasma.")
    )
    if not column.whole:
        sentence = f"{sentence} Only declared ions are drawn.".strip()
    return svg, sentence


def described(column: Column) -> str:
    """The labels of a column in a sentence, for people who do not see it."""
    ions = [s.text for s in (*column.cations, *column.anions)]
    sugar = [column.sugar.text] if column.sugar else []
    return (", ".join([*ions, *sugar]) or column.empty) + "."
