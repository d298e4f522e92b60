"""What is wrong with a printed figure that nothing explains, in a sentence."""

import re
from collections.abc import Iterator
from itertools import pairwise

from isofolio.chemistry.osmosis import theoretical_osmolarity
from isofolio.entries.fluids import Fluid
from isofolio.entries.scalars import parse_amount
from isofolio.findings.audit_figures import EXACT, OFF, distance, nearness, printed
from isofolio.findings.audit_lines import OSMOLALITIES, Bench, Line, said
from isofolio.findings.audit_options import Option
from isofolio.wording.figures import HARD, amount, written

KCAL_PER_G_ANHYDROUS = 4.0

_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")


def ions_already(line: Line, fluid: Fluid, bench: Bench) -> str:
    """A printed osmolarity below the sum of what is known of a composition that is not whole."""
    known = bench.table.solutions[fluid.id].composition.known
    if line.quantity != "osmolarity" or line.figure is None or not known:
        return ""
    least = float(theoretical_osmolarity(known))
    if distance(line.figure, least) >= 0 or nearness(line.figure, least, bench.limits) != OFF:
        return ""
    return (
        f"{written(line.text)} is printed, but the known ions alone make "
        f"{said(least, 'osmolarity')}; what else it holds is not published."
    )


def transposed(line: Line, bench: Bench) -> str:
    """The printed text with two neighbouring digits exchanged, where that fits exactly; else "".

    An osmolality is left alone: our estimate is no figure to fit exactly.
    """
    number = line.ours.number
    if line.figure is None or number is None or not line.figure.one:
        return ""
    if line.quantity in OSMOLALITIES:
        return ""
    for text in exchanged(line.text):
        figure = printed(line.quantity, parse_amount(text), bench.catalogue)
        if figure is not None and nearness(figure, number, bench.limits) == EXACT:
            return text
    return ""


def exchanged(text: str) -> Iterator[str]:
    """Every text with two different neighbouring digits of its first number exchanged.

    >>> list(exchanged("287 mOsm/L"))
    ['827 mOsm/L', '278 mOsm/L']
    """
    found = _NUMBER.match(text)
    places = [i for i, sign in enumerate(found[0]) if sign.isdigit()] if found else []
    for one, two in pairwise(places):
        signs = list(text)
        signs[one], signs[two] = text[two], text[one]
        swapped = "".join(signs)
        leads = swapped.startswith("0") and not swapped.startswith("0.")
        if text[one] != text[two] and not leads:
            yield swapped


def accusation(line: Line, gives: str, mixed: Option | None, exchange: str) -> str:
    """The sentence of an error. gives: what the contents give, in words."""
    start = f"{written(line.text)} is printed, but {gives}"
    if exchange:
        return f"{start}; with two digits exchanged, {written(exchange)}, it would fit."
    if mixed is not None:
        return (
            f"{start}; it fits {mixed.words}, which another figure of the same source does not: "
            "the source mixes two readings."
        )
    if line.ours.number == 0:
        return f"{start}."
    needed = ""
    if line.quantity == "energy" and line.figure is not None:
        grams = amount(line.figure.high / KCAL_PER_G_ANHYDROUS)
        needed = f"; it would take {grams}{HARD}g/L of anhydrous glucose"
    return f"{start}{needed}, and no hydrate, basis, unit or recipe that we know explains it."
