"""The workings of a standard adult: tonicity, free water, strong ions, compartments."""

from collections.abc import Iterator
from dataclasses import replace

from isofolio.measures.workings_case import Case
from isofolio.measures.workings_terms import Parts, Term, Working, digits, exact, finer, summed
from isofolio.physiology.compartments import (
    EXTRACELLULAR_VOLUME,
    INTRACELLULAR_VOLUME,
    PLASMA_SHARE,
)
from isofolio.physiology.tonicity import PLASMA_EFFECTIVE_OSMOLARITY, PLASMA_WATER_CATIONS
from isofolio.physiology.traits import (
    BECOMES_BICARBONATE,
    BICARBONATE,
    BURNT,
    MAY_BECOME_BICARBONATE,
    METABOLISED,
    Trait,
)

ADULT = "Model: an adult of 70 kg with 42 L of water. It does not scale to children."
SUGAR_BURNT = "Glucose is burnt and counts 0; not while blood glucose is high and unburnt."
LITRE = exact(1.0, "L")
MILLILITRES = exact(1000.0, "mL/L")
TURNED = {BECOMES_BICARBONATE, MAY_BECOME_BICARBONATE}


def effective_lines(case: Case) -> Iterator[Working]:
    """Particles that still hold water outside cells; burnt sugar is shown as times 0."""
    there = list(case.particles())
    pieces = [(term, _left_behind(trait)) for _, term, trait in there]
    fates = {trait.fate for _, _, trait in there}
    burnt = SUGAR_BURNT if BURNT in fates else ""
    turned = "An organic anion leaves one bicarbonate for each charge." if TURNED & fates else ""
    yield from case.sum_line(
        "effective_osmolarity",
        "sum of millimoles × particles left after metabolism",
        pieces,
        f"{burnt} {turned}".strip(),
    )


def tonicity_lines(case: Case) -> Iterator[Working]:
    """The ratio to plasma, and the water that sodium and potassium leave free."""
    ratio = case.number("tonicity_ratio")
    plasma = exact(PLASMA_EFFECTIVE_OSMOLARITY, "mOsm/L")
    if ratio is not None:
        yield from case.line(
            "tonicity_ratio",
            "effective osmolarity ÷ that of plasma water",
            (case.term("effective_osmolarity"), "÷", plasma),
            digits(ratio, 3, least=1, most=3),
            "309.7 is twice the sodium and potassium of a litre of plasma water. "
            "A laboratory measures about 290.",
        )
    cations = [(term, 1.0) for p, term, _ in case.particles() if p.id in {"sodium", "potassium"}]
    held: Parts = ("(", *summed(cations), ")") if len(cations) > 1 else summed(cations)
    yield from case.line(
        "free_water",
        "1 − (sodium + potassium) ÷ 154.84",
        (exact(1.0), "−", *(held or (exact(0.0),)), "÷", exact(PLASMA_WATER_CATIONS, "mmol/L")),
        3,
        "154.84 mmol/L is the sodium and potassium of a litre of plasma water, 144 ÷ 0.93.",
    )


def strong_ion_lines(case: Case) -> Iterator[Working]:
    """Strong ion differences: in the bag, in the body, and there with gluconate kept."""
    colloid = "Small ions only: the charge on the colloid stands by itself."
    note = colloid if case.number("polyanion_charge") else ""
    kept = "Gluconate leaves unchanged in the urine and still counts."
    yield from _strong_ion_line(case, "sid_in_bag", frozenset(), note)
    yield from _strong_ion_line(case, "sid_in_body", METABOLISED, f"{_gone(case)} {note}".strip())
    yield from _strong_ion_line(
        case,
        "sid_in_body_low",
        METABOLISED - {MAY_BECOME_BICARBONATE},
        kept if _may_leave(case) else "No gluconate: as above.",
    )


def bicarbonate_lines(case: Case) -> Iterator[Working]:
    """Bicarbonate that a litre is or becomes."""
    yield from case.sum_line(
        "bicarbonate_yield",
        "bicarbonate, and millimoles × charge number of every anion that is burnt",
        case.pieces(_becomes),
        "Gluconate is counted in full." if _may_leave(case) else "",
    )


def compartment_lines(case: Case) -> Iterator[Working]:
    """Where a litre goes: into cells first, then what is left outside, then plasma's part."""
    number = case.number("icf_gain")
    if number is None:
        return
    leaving = "Below zero, water leaves the cells. " if number < 0 else ""
    yield from case.line(
        "icf_gain",
        "water in cells × osmolarity before ÷ osmolarity after − water in cells",
        _into_cells(case.term("effective_osmolarity")),
        0,
        f"Osmolarity after: all particles ÷ all water. {leaving}{ADULT}",
    )


def outside_lines(case: Case) -> Iterator[Working]:
    """What stays outside cells, once it is known what goes into them."""
    if case.number("ecf_gain") is not None:
        expression = summed([(MILLILITRES, 1.0), (case.term("icf_gain"), -1.0)])
        formula = "1 litre − what goes into the cells"
        yield from case.line("ecf_gain", formula, expression, 0)


def plasma_lines(case: Case) -> Iterator[Working]:
    """Plasma's part of what stays outside."""
    if case.number("plasma_gain") is not None:
        expression: Parts = (case.term("ecf_gain"), "×", exact(PLASMA_SHARE))
        formula = "a quarter of what stays outside the cells"
        yield from case.line("plasma_gain", formula, expression, 0)


def _into_cells(effective: Term) -> Parts:
    cells, osmolarity = exact(INTRACELLULAR_VOLUME, "L"), exact(PLASMA_EFFECTIVE_OSMOLARITY)
    water = exact(EXTRACELLULAR_VOLUME + INTRACELLULAR_VOLUME, "L")
    given = replace(finer(effective), unit="")
    return (
        *(MILLILITRES, "×", "(", cells, "×", osmolarity, "×", "(", water, "+", LITRE, ")", "÷"),
        *("(", osmolarity, "×", water, "+", given, "×", LITRE, ")", "−", cells, ")"),
    )


def _left_behind(trait: Trait) -> float:
    if trait.fate == BURNT:
        return 0.0
    return abs(float(trait.charge)) if trait.fate in TURNED else 1.0


def _strong_ion_line(
    case: Case, quantity: str, gone: frozenset[str], note: str
) -> Iterator[Working]:
    def counted(_: str, charge: float, trait: Trait) -> float:
        return charge if trait.strong and trait.fate not in gone else 0.0

    formula = "sum of millimoles × charge number over the strong ions"
    yield from case.sum_line(quantity, formula, case.pieces(counted), note)


def _gone(case: Case) -> str:
    """Which strong anions no longer count once they are burnt."""
    burnt = [p.name for p, _, t in case.particles() if t.strong and t.fate in METABOLISED]
    return f"Burnt, and no longer counted: {', '.join(burnt)}." if burnt else ""


def _may_leave(case: Case) -> bool:
    return any(trait.fate == MAY_BECOME_BICARBONATE for _, _, trait in case.particles())


def _becomes(particle: str, charge: float, trait: Trait) -> float:
    if particle == BICARBONATE:
        return 1.0
    return abs(charge) if trait.fate in TURNED else 0.0
