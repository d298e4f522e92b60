"""What the charts of all fluids show: four pairs of figures, and what sort each fluid is of."""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from isofolio.drawings.chart_plan import Axis, Chart, Guide, Kind, Mark, step_of
from isofolio.entries.fluids import Fluid
from isofolio.findings.limits import at_least
from isofolio.findings.vein import CENTRAL, DILUTE
from isofolio.handbook import Handbook, interval_of
from isofolio.pages.body import BEFORE_EXCESS
from isofolio.pages.live import level
from isofolio.physiology.tonicity import PLASMA_EFFECTIVE_OSMOLARITY
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.figures import HARD, figure, rounded, typeset, unit_text

# Sort by sort: an id, the words of the key, a shape, and the family whose fill it wears.
KINDS = (
    Kind("saline", "sodium chloride, Ringer’s", "circle", "sodium"),
    Kind("glucose", "glucose alone", "square", "rest"),
    Kind("mixture", "glucose with salts", "diamond", "chloride"),
    Kind("potassium", "with potassium added", "triangle-up", "potassium"),
    Kind("balanced", "with lactate, acetate or the like", "cross", "bicarbonate"),
    Kind("alkali", "bicarbonate or lactate alone", "star", "magnesium"),
    Kind("colloid", "colloid", "triangle-down", "calcium"),
    Kind("mannitol", "mannitol", "hexagon", "rest"),
)
PLACES = 6  # significant digits by which two fluids stand on one spot
ROOM = 1.04  # the share of an axis that stays free beyond the last everyday fluid
OURS = Kind("anhydrous", f"4.0{HARD}kcal for a gram of anhydrous glucose", "circle", "rest")
AMERICAN = Kind(
    "monohydrate",
    f"3.4{HARD}kcal for a gram of the monohydrate, as American labels",
    "cross",
    "potassium",
)


Guides = Callable[[Axis, Axis], tuple[Guide, ...]]


@dataclass(frozen=True)
class Told:
    """A chart and the words round it; beyond: the names of fluids that it does not reach."""

    chart: Chart
    says: str
    beyond: tuple[str, ...]
    whole: tuple[Axis, Axis]


@dataclass(frozen=True)
class Pair:
    """Two quantities that make a chart: its id and title, and what goes to the right and up."""

    id: str
    title: str
    across: str
    up: str


OSMOLARITIES = Pair(
    "bag-and-body", "Osmolarity in the bag and in the body", "osmolarity", "effective_osmolarity"
)
SODIUM_CHLORIDE = Pair("sodium-and-chloride", "Sodium and chloride", "sodium", "chloride")
STRONG_IONS = Pair(
    "strong-ion-difference",
    "Strong ion difference and base excess",
    "sid_in_body",
    "base_excess_1l",
)
GLUCOSE = Pair("glucose-and-calories", "Glucose and calories", "glucose_mass", "energy")
BURNT = (
    "To the right: particles in the bag. Upwards: what still counts in the body once the sugar is "
    "burnt. On the slanting line nothing is burnt; how far a point lies below it is sugar. Not "
    "while blood glucose is high and the sugar unburnt."
)
SALT = (
    "On the slanting line there is as much chloride as sodium. Below it another anion, or none, "
    "stands in for chloride; above it other cations, mostly potassium, bring chloride along. The "
    "frame is plasma."
)
BASE = (
    "To the right: the strong ion difference that a litre leaves in the body. Upwards: the "
    "standard base excess after that litre, in the model. A fluid without strong ion difference "
    "lowers it; bicarbonate and what becomes it raise it. The dashed line is where the model "
    "starts."
)
CALORIES = (
    "One sugar, two ways to count its calories. By the gram of anhydrous glucose the points lie on "
    "the upper line, by the American convention, which counts the monohydrate, on the lower one."
)


def hung(handbook: Handbook) -> list[Fluid]:
    """The fluids on the charts: what is hung as it is, and may still be used."""
    left_out = {"concentrate", "diluent"}
    return [f for f in handbook.fluids if f.role not in left_out and f.status != "retired"]


def kind_of(handbook: Handbook, fluid: Fluid) -> str:
    """Which sort of mark a fluid is, by what it holds."""

    def has(*quantities: str) -> bool:
        return any(handbook.value(fluid.id, quantity).number != 0 for quantity in quantities)

    if handbook.solution(fluid.id).colloid:
        return "colloid"
    if at_least(
        handbook.value(fluid.id, "potassium").number, handbook.catalogue.limits["potassium-caution"]
    ):
        return "potassium"
    if has("lactate", "acetate", "gluconate", "malate", "bicarbonate"):
        return "balanced" if has("chloride") else "alkali"
    if has("mannitol"):
        return "mannitol"
    if has("glucose"):
        return "mixture" if has("sodium", "chloride") else "glucose"
    return "saline"


def _asks_for_a_central_line(handbook: Handbook, fluid: Fluid) -> bool:
    """Whether it asks for a central line: such a fluid would press all others into a corner."""
    return handbook.judgements[fluid.id].vein.word in {CENTRAL, DILUTE}


def _spots(handbook: Handbook, across: str, up: str) -> tuple[Mark, ...]:
    """A mark for every place on which fluids of one sort stand."""
    return _gathered(
        (point, kind_of(handbook, fluid), fluid)
        for fluid in hung(handbook)
        if (point := _point(handbook, fluid, across, up)) is not None
    )


def _point(handbook: Handbook, fluid: Fluid, across: str, up: str) -> tuple[float, float] | None:
    x = level(handbook.value(fluid.id, across)).number
    y = level(handbook.value(fluid.id, up)).number
    return None if x is None or y is None else (_short(x), _short(y))


def _short(number: float) -> float:
    return float(f"{number:.{PLACES}g}")


def _gathered(points: Iterable[tuple[tuple[float, float], str, Fluid]]) -> tuple[Mark, ...]:
    found: dict[tuple[tuple[float, float], str], list[str]] = {}
    for point, kind, fluid in points:
        found.setdefault((point, kind), []).append(typeset(fluid.name))
    return tuple(Mark(*point, kind, tuple(names)) for (point, kind), names in found.items())


def _axis(quantity: str, values: Iterable[float], title: str = "") -> Axis:
    """An axis from zero, or from the lowest value below it, to a round figure past the highest."""
    several = [0.0, *values]
    low = min(several)
    high = max(max(several) * ROOM, low + 1.0)  # a cupboard of one fluid may hold only zeros
    step = step_of(low, high)
    low, high = step * math.floor(low / step), step * math.ceil(high / step)
    return Axis(title or _titled(quantity), low, high, quantity)


def _titled(quantity: str) -> str:
    shown = QUANTITY_BY_ID[quantity]
    return typeset(f"{shown.label},{unit_text(shown.unit)}")


def _drawn(handbook: Handbook, pair: Pair, guides: Guides) -> Chart:
    """A chart whose axes reach the everyday fluids; strong ones lie beyond it."""
    marks = _spots(handbook, pair.across, pair.up)
    strong = {typeset(f.name) for f in hung(handbook) if _asks_for_a_central_line(handbook, f)}
    everyday = [mark for mark in marks if not strong.issuperset(mark.names)]
    axes = (
        _axis(pair.across, (mark.x for mark in everyday)),
        _axis(pair.up, (mark.y for mark in everyday)),
    )
    said = _said(pair.title, marks)
    return Chart(pair.id, pair.title, said, *axes, KINDS, marks, guides(*axes))


def _said(title: str, marks: Sequence[Mark]) -> str:
    return f"{title}. {len(marks)} points; every figure stands in the table of this page."


def _evenly(across: Axis, up: Axis, words: str) -> Guide:
    """The slanting line on which both figures are the same."""
    top = min(across.high, up.high)
    return Guide(words, (0.0, 0.0), (top, top))


def _level(across: Axis, height: float, words: str) -> Guide:
    """A line from one side to the other."""
    return Guide(words, (across.low, height), (across.high, height))


def _particles(handbook: Handbook, pair: Pair) -> Chart:
    plasma = PLASMA_EFFECTIVE_OSMOLARITY

    def guides(across: Axis, up: Axis) -> tuple[Guide, ...]:
        there = _level(across, plasma, f"plasma {rounded(plasma, 0)}")
        return (there, _evenly(across, up, "nothing burnt"))

    return _drawn(handbook, pair, guides)


def _salts(handbook: Handbook, pair: Pair) -> Chart:
    plasma = _plasma_area(handbook)

    def guides(across: Axis, up: Axis) -> tuple[Guide, ...]:
        return (_evenly(across, up, "as much chloride as sodium"), *plasma)

    return _drawn(handbook, pair, guides)


def _plasma_area(handbook: Handbook) -> tuple[Guide, ...]:
    """Plasma as an area, where the catalogue has both intervals."""
    intervals = [handbook.beside.get(q) for q in ("sodium", "chloride")]
    known = [interval_of(one) for one in intervals if one is not None]
    if len(known) < len(intervals):
        return ()
    (left, right), (bottom, top) = known
    return (Guide("plasma", (left, bottom), (right, top), area=True),)


def _base(handbook: Handbook, pair: Pair) -> Chart:
    def guides(across: Axis, _: Axis) -> tuple[Guide, ...]:
        return (_level(across, BEFORE_EXCESS, f"before: {rounded(BEFORE_EXCESS, 1)}"),)

    return _drawn(handbook, pair, guides)


def _calories(handbook: Handbook, pair: Pair) -> Chart:
    both = ((OURS.id, pair.up), (AMERICAN.id, "energy_us"))
    sugary = [f for f in hung(handbook) if handbook.value(f.id, pair.across).number]
    marks = _gathered(
        (point, kind, fluid)
        for kind, quantity in both
        for fluid in sugary
        if (point := _point(handbook, fluid, pair.across, quantity)) is not None
    )
    everyday = [f for f in sugary if not _asks_for_a_central_line(handbook, f)]
    across = _axis(pair.across, _numbers(handbook, everyday, pair.across))
    up = _axis(pair.up, _numbers(handbook, everyday, pair.up), f"energy,{HARD}kcal/L")
    said = _said(pair.title, marks)
    return Chart(pair.id, pair.title, said, across, up, (OURS, AMERICAN), marks)


def _numbers(handbook: Handbook, fluids: Iterable[Fluid], quantity: str) -> list[float]:
    return [handbook.value(fluid.id, quantity).number or 0.0 for fluid in fluids]


# The four charts, in their order on the page: what each is of, what draws it, what is said of it.
CHARTS: tuple[tuple[Pair, Callable[[Handbook, Pair], Chart], str], ...] = (
    (OSMOLARITIES, _particles, BURNT),
    (SODIUM_CHLORIDE, _salts, SALT),
    (STRONG_IONS, _base, BASE),
    (GLUCOSE, _calories, CALORIES),
)


def charts(handbook: Handbook) -> tuple[Told, ...]:
    """Every chart with the words round it."""
    return tuple(_told(chart(handbook, pair), says) for pair, chart, says in CHARTS)


def _told(chart: Chart, says: str) -> Told:
    outside = [mark for mark in chart.marks if not chart.holds(mark)]
    names = sorted({name for mark in outside for name in mark.names})
    whole = (
        _axis(chart.across.quantity, (mark.x for mark in chart.marks), chart.across.title),
        _axis(chart.up.quantity, (mark.y for mark in chart.marks), chart.up.title),
    )
    return Told(chart, says, tuple(names), whole)


def cell_text(handbook: Handbook, fluid: Fluid, quantity: str) -> tuple[str, bool]:
    """What the table beside the charts shows, and whether it is a figure."""
    value = level(handbook.value(fluid.id, quantity))
    if value.number is None:
        return value.reason, False
    return figure(value.number, QUANTITY_BY_ID[quantity]), True
