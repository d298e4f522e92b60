"""What a fluid is in the body, in words: by the ratio of its effective osmolarity to plasma's."""

from collections.abc import Mapping
from dataclasses import dataclass

from isofolio.entries.lists import Limit
from isofolio.findings.conditions import Subject
from isofolio.findings.limits import above, at_least, below
from isofolio.physiology.tonicity import PLASMA_EFFECTIVE_OSMOLARITY
from isofolio.wording.figures import HARD, amount, capital, rounded, unit_text

DILUTED = "Depends on what it is diluted in"
WHILE_UNBURNT = "Not while blood glucose is high and the sugar unburnt."
NOT_KNOWN = "Not known"


@dataclass(frozen=True)
class BodyStatement:
    """word: hypotonic ... hypertonic; because: both numbers; note: a condition, or ""."""

    word: str
    because: str
    note: str = ""


def body_of(subject: Subject) -> BodyStatement:
    """The word, the numbers behind it, and the condition under which it holds."""
    if subject.fluid.role == "concentrate":
        return BodyStatement(DILUTED, "Never given undiluted.")
    if subject.fluid.role == "diluent":
        return BodyStatement("Bursts red cells", "Water alone; never given alone.")
    if subject.solution.colloid:
        return _colloid(subject)
    ratio = subject.number("tonicity_ratio")
    if ratio is None:
        reason = subject.table.value(subject.fluid.id, "tonicity_ratio").reason
        return BodyStatement(NOT_KNOWN, f"{capital(reason)}.")
    note = WHILE_UNBURNT if subject.number("glucose") else ""
    return BodyStatement(tonicity_word(subject, ratio), beside_plasma(subject), note)


def tonicity_word(subject: Subject, ratio: float) -> str:
    """The word for a ratio, with how much of it is water, or how many times plasma it is."""
    limits = subject.catalogue.limits
    if below(ratio, limits["tonicity-hypotonic"]):
        return _hypotonic(subject.number("free_water"), limits)
    if below(ratio, limits["tonicity-slightly-hypotonic"]):
        return "Slightly hypotonic"
    if not above(ratio, limits["tonicity-slightly-hypertonic"]):
        return "Isotonic"
    if not above(ratio, limits["tonicity-hypertonic"]):
        return "Slightly hypertonic"
    return f"Hypertonic: {rounded(ratio, 1)} times plasma"


def _hypotonic(water: float | None, limits: Mapping[str, Limit]) -> str:
    if at_least(water, limits["water-nearly"]):
        return "Hypotonic: nearly water"
    if at_least(water, limits["water-half"]):
        return "Hypotonic: more than half water"
    return "Hypotonic"


def beside_plasma(subject: Subject) -> str:
    """Both numbers: "278 beside plasma's 310 (90 %)"."""
    effective = subject.number("effective_osmolarity") or 0.0
    plasma = PLASMA_EFFECTIVE_OSMOLARITY
    share = rounded(100.0 * effective / plasma, 0) + unit_text("%")
    return (
        f"{rounded(effective, 0)} beside plasma’s {rounded(plasma, 0)}{HARD}mOsm/L "
        f"({share}), effective particles."
    )


def _colloid(subject: Subject) -> BodyStatement:
    """A colloid solution by its sodium and potassium; its own pull on water is not counted."""
    sodium, potassium = subject.number("sodium"), subject.number("potassium")
    kinds = subject.catalogue.substances
    names = {kinds[c.substance].colloid for c in subject.fluid.contents if c.substance}
    colloid = min((name for name in names if name), default="colloid")
    uncounted = f"Ions only; the {colloid} is not counted."
    if sodium is None:
        return BodyStatement("Read the label", f"Its sodium is not one figure. {uncounted}")
    word = f"Sodium {amount(sodium)}{HARD}mmol/L"
    if potassium == 0 and amount(sodium) == amount(SALINE_SODIUM):
        word += f", as 0.9{unit_text('%')} saline"
    return BodyStatement(word, uncounted)


SALINE_SODIUM = 154.0  # mmol/L: sodium chloride 9 g/L over 58.44 g/mol


def classes_of(subject: Subject) -> dict[str, str | None]:
    """hypo, iso or hyper by the class limits, in the bag and in the body; None where unknown."""
    in_body = subject.number("effective_osmolarity")
    if subject.number("tonicity_ratio") is None:
        in_body = None
    return {
        "osmolarity_class": _class(subject, subject.number("osmolarity")),
        "tonicity_class": _class(subject, in_body),
    }


def _class(subject: Subject, osmolarity: float | None) -> str | None:
    limits = subject.catalogue.limits
    if osmolarity is None:
        return None
    if below(osmolarity, limits["class-osmolarity-low"]):
        return "hypo"
    return "hyper" if above(osmolarity, limits["class-osmolarity-high"]) else "iso"
