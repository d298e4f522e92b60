"""What a vein may have to bear: the worst of the figures, with the figure that decides."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from isofolio.entries.lists import Limit
from isofolio.findings.conditions import Subject
from isofolio.findings.limits import above, at_least
from isofolio.vocabulary.quantities import DECLARABLE, QUANTITY_BY_ID
from isofolio.vocabulary.terms import VEIN_WORDS
from isofolio.wording.figures import capital, figure, spoken, typeset, unit_text

SMALL, UNKNOWN, LARGE, CENTRAL, DILUTE, NOT_USED = VEIN_WORDS
# Without either of these figures nobody can say that nothing speaks against a small vein.
NEEDED = ("osmolarity", "potassium")
NOT_ALONE = {
    "concentrate": "A concentrate: it is diluted before use.",
    "diluent": "Alone it bursts red cells: it only dissolves and dilutes.",
}


@dataclass(frozen=True)
class VeinStatement:
    """word: one of VEIN_WORDS; because: the deciding figure and its limit, as a sentence."""

    word: str
    because: str
    limit: str = ""


Judge = Callable[[float | None, Limit], bool]

# limit, how a figure is held against it, the word that follows, and how the sentence goes
RULES: tuple[tuple[str, Judge, str, str], ...] = (
    ("vein-central-preferred", above, CENTRAL, "above the limit of"),
    ("potassium-small-vein", above, CENTRAL, "above the limit of"),
    ("vein-glucose", above, CENTRAL, "above the limit of"),
    ("potassium-small-vein", at_least, LARGE, "at the limit for a small vein of"),
    ("vein-watch-site", above, LARGE, "above the limit of"),
    ("vein-ph-high", above, LARGE, "above the limit of"),
)


def vein_of(subject: Subject) -> VeinStatement:
    """The worst that the role, the published route or a figure calls for; never "safe"."""
    if subject.fluid.status == "not-for-use":
        return VeinStatement(NOT_USED, "No vein is named for a fluid that is not to be hung.")
    if subject.fluid.role in NOT_ALONE:
        return VeinStatement(DILUTE, NOT_ALONE[subject.fluid.role])
    found = [*_by_route(subject), *_by_figures(subject), *_by_what_is_missing(subject)]
    if not found:
        return VeinStatement(SMALL, _nothing_against(subject))
    return max(found, key=lambda statement: VEIN_WORDS.index(statement.word))


def _by_route(subject: Subject) -> Iterator[VeinStatement]:
    """What the product text of this title says of the vein."""
    route = subject.fluid.route
    if route is not None:
        yield VeinStatement({"large": LARGE, "central": CENTRAL}[route.vein], route.text)


def _by_figures(subject: Subject) -> Iterator[VeinStatement]:
    for name, judge, word, phrase in RULES:
        limit = subject.catalogue.limits.get(name)
        if limit is None:
            continue
        number = _highest(subject, limit.quantity)
        if judge(number, limit) and number is not None:
            yield VeinStatement(word, _sentence(limit, number, phrase), name)


def _by_what_is_missing(subject: Subject) -> Iterator[VeinStatement]:
    """An unknown figure is no figure below a limit."""
    for quantity in NEEDED:
        if subject.number(quantity) is None:
            name = capital(QUANTITY_BY_ID[quantity].label)
            yield VeinStatement(UNKNOWN, f"{name} is not known here.")


def _highest(subject: Subject, quantity: str) -> float | None:
    """The figure of a fluid; of pH, which is declared and never computed, the highest declared."""
    if quantity != "ph":
        return subject.number(quantity)
    declared = [group.values["ph"].high for group in subject.fluid.declared if "ph" in group.values]
    known = [high for high in declared if high is not None]
    return max(known, default=None)


def _sentence(limit: Limit, number: float, phrase: str) -> str:
    shown = DECLARABLE[limit.quantity]
    amount = figure(number, shown) + unit_text(shown.unit)
    return f"{capital(shown.label)} {amount}, {phrase} {typeset(limit.value.text)}."


def _nothing_against(subject: Subject) -> str:
    """What was looked at, where nothing speaks against a small vein: both figures are known."""
    text = f"Osmolarity {_spoken(subject, 'osmolarity')}"
    limit = subject.catalogue.limits.get("vein-watch-site")
    if limit is not None:
        text += f", not above {typeset(limit.value.text)}"
    if subject.number("potassium"):
        text += f"; potassium {_spoken(subject, 'potassium')}"
    return text + "."


def _spoken(subject: Subject, quantity: str) -> str:
    return spoken(subject.table.value(subject.fluid.id, quantity), quantity)
