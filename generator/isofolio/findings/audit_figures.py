"""What a label prints, in our unit, and how near a computed figure comes to it.

The step of a printed figure is its last digit: 1 for "154", 0.01 for "2.04"; whole numbers of 1000
and more that end in zero are taken as rounded to ten. Thresholds: the audit limits of limits.yml.
"""

from dataclasses import dataclass

from isofolio.entries.reading import Catalogue
from isofolio.entries.scalars import Amount
from isofolio.findings.limits import figure_of
from isofolio.measures.solutions import concentration, millimoles_of_particle
from isofolio.vocabulary.quantities import DECLARABLE

LIMITS = (
    "audit-exact",
    "audit-rounded-units",
    "audit-rounded",
    "audit-nominal",
    "audit-saccharate-calcium",
    "audit-acid-or-base",
)

# How near a figure comes; "off" is farther than nominal.
EXACT, ROUNDED, NOMINAL, OFF = "exact", "rounded", "nominal", "off"

TRAILING_ZEROS_FROM = 1000.0
# What floating-point sums miss a threshold by.
SLIP = 1e-9


@dataclass(frozen=True)
class Thresholds:
    """exact, rounded_units: in steps of the printed figure; rounded, nominal: shares of ours.

    saccharate, acid_or_base: what is not in the contents may add so much [mmol/L].
    """

    exact: float
    rounded_units: float
    rounded: float
    nominal: float
    saccharate: float
    acid_or_base: float


def thresholds(catalogue: Catalogue) -> Thresholds | None:
    """The limits of the audit; None for a catalogue that lacks one."""
    if any(name not in catalogue.limits for name in LIMITS):
        return None
    return Thresholds(*(figure_of(catalogue.limits[name]) for name in LIMITS))


@dataclass(frozen=True)
class Printed:
    """A printed figure in the quantity's own unit.

    low, high: equal for one figure; low is None for "at most". step: of the last digit.
    equivalents: printed in mEq.
    """

    low: float | None
    high: float
    step: float
    equivalents: bool

    @property
    def one(self) -> bool:
        """Whether it is one figure, neither a range nor a bound."""
        return self.low == self.high


def printed(quantity: str, amount: Amount, catalogue: Catalogue) -> Printed | None:
    """A declared amount in the unit of its quantity; None where it has no figure in that unit.

    Milliequivalents become millimoles by the charge of the particle. Phosphate has none of its
    own, so that milliequivalents of phosphate cannot be compared.
    """
    scale = _scale(quantity, amount, catalogue)
    if amount.high is None or scale is None:
        return None
    low = None if amount.low is None else amount.low * scale
    equivalents = amount.unit.startswith("mEq")
    return Printed(low, amount.high * scale, last_digit(amount) * scale, equivalents)


def _scale(quantity: str, amount: Amount, catalogue: Catalogue) -> float | None:
    """What 1 in the printed unit is in the unit of the quantity."""
    particle = catalogue.particles.get(quantity)
    if particle is not None:
        return millimoles_of_particle(amount, 1.0, particle.charge)
    return concentration(amount, 1.0, DECLARABLE[quantity].unit)


def last_digit(amount: Amount) -> float:
    """What one in the last printed digit is, in the printed unit.

    >>> from isofolio.entries.scalars import parse_amount
    >>> [last_digit(parse_amount(text)) for text in ("154 mmol/L", "2.04 mOsm/mL", "1030 mOsm/L")]
    [1.0, 0.01, 10.0]
    """
    high = amount.high or 0.0
    whole = amount.decimals == 0
    if whole and high >= TRAILING_ZEROS_FROM and high % 10.0 == 0.0:
        return 10.0
    return float(10.0**-amount.decimals)


def distance(figure: Printed, computed: float) -> float:
    """How far the printed figure lies above a computed one, below where negative; 0 in a range."""
    if computed > figure.high:
        return figure.high - computed
    if figure.low is not None and computed < figure.low:
        return figure.low - computed
    return 0.0


def within(difference: float, allowed: float, computed: float) -> bool:
    """Whether a difference keeps a threshold, a threshold itself included."""
    return abs(difference) <= allowed + SLIP * max(1.0, abs(computed))


def nearness(figure: Printed, computed: float, limits: Thresholds) -> str:
    """Exact, rounded, nominal or off. What is not there never rounds to something.

    >>> limits = Thresholds(0.5, 1.0, 0.01, 0.03, 15.0, 1.0)
    >>> def near(text, ours):
    ...     return nearness(Printed(text, text, 1.0, False), ours, limits)
    >>> near(154.0, 154.5), near(154.0, 155.0), near(150.0, 154.0), near(1.0, 0.0)
    ('exact', 'rounded', 'nominal', 'off')
    """
    difference = distance(figure, computed)
    if within(difference, limits.exact * figure.step, computed):
        return EXACT
    if computed == 0:
        return OFF
    steps = limits.rounded_units * figure.step
    if within(difference, max(steps, limits.rounded * abs(computed)), computed):
        return ROUNDED
    return NOMINAL if within(difference, limits.nominal * abs(computed), computed) else OFF


def coarse(figure: Printed, limits: Thresholds) -> bool:
    """Whether one step is so large beside the figure that "within one step" says little.

    A calcium of 2 beside a computed 1 is one step away and twice as much.
    """
    return figure.step > limits.nominal * abs(figure.high)
