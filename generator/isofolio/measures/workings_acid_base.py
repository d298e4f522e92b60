"""The working of acid and base after a litre: what is mixed, and the pH that balances it."""

from collections.abc import Iterator

from isofolio.measures.workings_body import ADULT
from isofolio.measures.workings_case import Case, step
from isofolio.measures.workings_terms import (
    Parts,
    Pieces,
    Term,
    Working,
    exact,
    finer,
    settled,
    summed,
)
from isofolio.physiology.acid_base import (
    CARBON_DIOXIDE_SOLUBILITY,
    CARBONIC_ACID_PK,
    STANDARD_BICARBONATE,
    STANDARD_PH,
    albumin_charge,
    phosphate_charge,
    sid_effective,
)
from isofolio.physiology.compartments import EXTRACELLULAR_VOLUME, equilibrate
from isofolio.physiology.dilution import Blood, blood, infuse

QUANTITY = "ph_1l"
LITRE = exact(1.0, "L")
MIX = "(what was there × its volume + what is given × 1 L) ÷ volume after"


def acid_base_lines(case: Case) -> Iterator[Working]:
    """Mixing, the charges at the pH that is found, the pH they give back, the base excess."""
    number = case.number(QUANTITY)
    if number is None:
        return
    ph = settled(number, 4)
    after = _volume_line(case)
    mixed = _mixed(case, after.result)
    charges = _charge_lines(mixed, ph)
    left = _left_line(mixed, charges)
    yield from (after, *_mixing_lines(case, mixed, after.result), *charges, left)
    yield from _ph_line(case, mixed, left.result)
    yield from _base_excess_line(case, left.result, ph)


def _volume_line(case: Case) -> Working:
    """The extracellular volume after a litre; that of a colloid is taken to stay in it."""
    before = exact(EXTRACELLULAR_VOLUME, "L")
    gain: Parts = (LITRE,)
    litres, note = 1.0, f"The litre of a colloid is taken to stay outside the cells. {ADULT}"
    if case.number("ecf_gain") is not None:
        outside = case.term("ecf_gain")
        gain = (outside, "÷", exact(1000.0))
        litres, note = outside.printed / 1000.0, ""
    return step(
        QUANTITY,
        "extracellular water after a litre",
        equilibrate,
        "extracellular water before + what stays outside the cells",
        (before, "+", *gain),
        result=settled(EXTRACELLULAR_VOLUME + litres, 3, "L"),
        note=note,
    )


def _mixed(case: Case, after: Term) -> Blood:
    """The mixture, made of the numbers that the lines show."""
    standard = blood()
    return infuse(
        Blood(_before().printed, standard.pco2, standard.albumin, standard.phosphate),
        finer(case.term("sid_in_body")).printed,
        polyanion=case.term("polyanion_charge").printed,
        phosphate=case.term("phosphate").printed,
        volume_after=after.printed,
    )


def _before() -> Term:
    """The strong ion difference of the standard adult."""
    return settled(float(blood().strong_ions), 3, "mEq/L")


def _mixing_lines(case: Case, mixed: Blood, after: Term) -> Iterator[Working]:
    standard = blood()
    polyanion = case.term("polyanion_charge")
    ions = [
        (finer(case.term("sid_in_body")), 1.0),
        *([(polyanion, -1.0)] if polyanion.number else []),
    ]
    phosphate = case.term("phosphate")
    albumin = exact(float(standard.albumin), "g/L")
    of_plasma = exact(float(standard.phosphate), "mmol/L")
    colloid = "The charge on the colloid is an anion that is never burnt."
    yield _mix_line(
        "strong ions, mixed",
        [(_before(), EXTRACELLULAR_VOLUME), *ions],
        after,
        _strong(mixed),
        colloid if polyanion.number else "",
    )
    yield _mix_line("albumin, mixed", [(albumin, EXTRACELLULAR_VOLUME)], after, _albumin(mixed), "")
    given = [(phosphate, 1.0)] if phosphate.number else []
    yield _mix_line(
        "phosphate, mixed",
        [(of_plasma, EXTRACELLULAR_VOLUME), *given],
        after,
        _phosphate(mixed),
        "",
    )


def _mix_line(name: str, pieces: Pieces, after: Term, result: Term, note: str) -> Working:
    held = summed(pieces)
    expression: Parts = ("(", *held, ")", "÷", after) if len(pieces) > 1 else (*held, "÷", after)
    return step(QUANTITY, name, infuse, MIX, expression, result=result, note=note)


def _charge_lines(mixed: Blood, ph: Term) -> tuple[Working, Working]:
    """The charges of albumin and phosphate at the pH that is found."""
    albumin, phosphate = _albumin(mixed), _phosphate(mixed)
    return (
        step(
            QUANTITY,
            f"charge of albumin at pH {ph.printed:.4f}",
            albumin_charge,
            "albumin × (0.123 × pH − 0.631)",
            (albumin, "×", "(", exact(0.123), "×", ph, "−", exact(0.631), ")"),
            result=settled(float(albumin_charge(albumin.printed, ph.printed)), 3, "mEq/L"),
            note="The pH is found by trying: the last line of this working must give it back.",
        ),
        step(
            QUANTITY,
            f"charge of phosphate at pH {ph.printed:.4f}",
            phosphate_charge,
            "phosphate × (0.309 × pH − 0.469)",
            (phosphate, "×", "(", exact(0.309), "×", ph, "−", exact(0.469), ")"),
            result=settled(float(phosphate_charge(phosphate.printed, ph.printed)), 3, "mEq/L"),
        ),
    )


def _left_line(mixed: Blood, charges: tuple[Working, Working]) -> Working:
    """What is left of the strong ions is balanced by bicarbonate."""
    albumin, phosphate = (line.result for line in charges)
    strong = _strong(mixed)
    return step(
        QUANTITY,
        "bicarbonate that balances the rest",
        sid_effective,
        "strong ions − charge of albumin − charge of phosphate",
        summed([(strong, 1.0), (albumin, -1.0), (phosphate, -1.0)]),
        result=settled(strong.printed - albumin.printed - phosphate.printed, 3, "mmol/L"),
    )


def _ph_line(case: Case, mixed: Blood, left: Term) -> Iterator[Working]:
    dissolved = (exact(CARBON_DIOXIDE_SOLUBILITY), "×", exact(float(mixed.pco2), "mmHg"))
    yield from case.line(
        QUANTITY,
        "6.1 + log (bicarbonate ÷ (0.0307 × PaCO₂))",
        (exact(CARBONIC_ACID_PK), "+", "log", "(", left, "÷", "(", *dissolved, ")", ")"),
        3,
        "The pH that was put in comes out: both sides are equal. PaCO₂ stays at 40 mmHg; kidneys, "
        "cells and haemoglobin are left out, so that the change is overstated.",
    )


def _base_excess_line(case: Case, bicarbonate: Term, ph: Term) -> Iterator[Working]:
    yield from case.line(
        "base_excess_1l",
        "0.9287 × (bicarbonate − 24.4 + 14.83 × (pH − 7.4))",
        (
            *(exact(0.9287), "×", "(", bicarbonate, "−", exact(STANDARD_BICARBONATE), "+"),
            *(exact(14.83), "×", "(", ph, "−", exact(STANDARD_PH), ")", ")"),
        ),
        1,
        "0.09 before the litre.",
    )


def _strong(mixed: Blood) -> Term:
    return settled(float(mixed.strong_ions), 3, "mEq/L")


def _albumin(mixed: Blood) -> Term:
    return settled(float(mixed.albumin), 3, "g/L")


def _phosphate(mixed: Blood) -> Term:
    return settled(float(mixed.phosphate), 4, "mmol/L")
