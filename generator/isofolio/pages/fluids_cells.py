"""The cells of the table of all fluids: what is read, and the token that sorts and filters it."""

import re
from dataclasses import dataclass
from string import ascii_lowercase

from isofolio.entries.fluids import Fluid
from isofolio.handbook import Handbook
from isofolio.pages.fluid import ROLE_WORDS, STRONG, role_words
from isofolio.pages.holds import range_text
from isofolio.physiology.tonicity import PLASMA_EFFECTIVE_OSMOLARITY
from isofolio.vocabulary.quantities import PARTICLE_QUANTITIES, QUANTITY_BY_ID
from isofolio.vocabulary.terms import VEIN_WORDS
from isofolio.wording.figures import HARD, amount, figure, rounded

# Tokens for what is no figure: nothing is known; it is there, in an amount that is not one figure.
UNKNOWN = "?"
HELD = "+"
NONE = "none"
DIGITS = 6  # significant ones of a token: they order rows, nothing is read from them

STATUS_WORDS = {"retired": "Retired", "not-for-use": "Not for use"}
ROLE_ORDER = ("ready", "strong", "colloid", "concentrate", "diluent", *STATUS_WORDS)
COLLOID_BODY = "Colloid: told by its sodium"

# What has a column of its own, in this order; every other particle stands under "others".
FIGURES = (
    "sodium",
    "potassium",
    "calcium",
    "magnesium",
    "chloride",
    "bicarbonate",
    "lactate",
    "acetate",
    "glucose_mass",
)
OTHERS = tuple(q.id for q in PARTICLE_QUANTITIES if q.id not in {*FIGURES, "glucose"})
OSMOLARITIES = ("osmolarity", "effective_osmolarity")


@dataclass(frozen=True)
class Cell:
    """text: what is read; detail: in smaller letters below it; reason: why nothing is known, ""
    where it is; token: what the row is sorted by; words: whether it holds words or a figure."""

    text: str
    token: str
    detail: str = ""
    reason: str = ""
    words: bool = False


class Marks:
    """A letter for every reason why a figure is not known, in the order of their first use."""

    def __init__(self) -> None:
        self.letters: dict[str, str] = {}

    def of(self, reason: str) -> str:
        """The letter of a reason; "" for none.

        >>> marks = Marks()
        >>> marks.of("declared as a range"), marks.of("not declared"), marks.of("")
        ('a', 'b', '')
        """
        if not reason:
            return ""
        return self.letters.setdefault(reason, ascii_lowercase[len(self.letters)])


def slug(text: str) -> str:
    """Words as they stand in an address: those before the first colon or semicolon.

    >>> slug("Small vein: nothing in these figures against it")
    'small-vein'
    """
    return re.sub(r"[^a-z]+", "-", re.split("[:;]", text.lower())[0]).strip("-")


def token(number: float | None) -> str:
    """A figure as a row carries it.

    >>> token(277.5386), token(0.0), token(None)
    ('277.539', '0', '?')
    """
    return UNKNOWN if number is None else f"{number:.{DIGITS}g}"


def figure_cell(handbook: Handbook, fluid: Fluid, quantity: str) -> Cell:
    """A figure per litre; the range where a range is declared; else why there is none."""
    value = handbook.value(fluid.id, quantity)
    if value.number is not None:
        return Cell(figure(value.number, QUANTITY_BY_ID[quantity]), token(value.number))
    ranged = range_text(handbook, fluid, quantity, 1.0)
    if ranged:
        return Cell(ranged, particle_token(handbook, fluid, quantity))
    return Cell(UNKNOWN, UNKNOWN, reason=value.reason)


def particle_token(handbook: Handbook, fluid: Fluid, quantity: str) -> str:
    """The token of a particle: a range that does not begin at nothing says that it is there."""
    number = handbook.value(fluid.id, quantity).number
    low, _ = handbook.solution(fluid.id).ranges.get(quantity, (0.0, 0.0))
    return HELD if number is None and low > 0 else token(number)


def others_text(handbook: Handbook, fluid: Fluid) -> str:
    """What a litre holds besides the columns: "gluconate 23", in mmol/L, and colloids in g/L."""
    figures = {QUANTITY_BY_ID[q].label: handbook.value(fluid.id, q).number for q in OTHERS}
    parts = [f"{label}{HARD}{amount(number)}" for label, number in figures.items() if number]
    grams = handbook.value(fluid.id, "colloid_mass").number
    if grams:
        parts.append(f"{_colloid(handbook, fluid)}{HARD}{amount(grams)}{HARD}g")
    return ", ".join(parts)


def _colloid(handbook: Handbook, fluid: Fluid) -> str:
    substances = handbook.catalogue.substances
    kinds = [substances[name].colloid for name in handbook.solution(fluid.id).masses]
    return next(kind for kind in kinds if kind)


def others_cell(handbook: Handbook, fluid: Fluid, order: int) -> Cell:
    """The rest of a litre; `order`: where its words stand among those of all fluids."""
    reasons = [handbook.value(fluid.id, quantity).reason for quantity in OTHERS]
    reason = next((reason for reason in reasons if reason), "")
    text = others_text(handbook, fluid)
    sorted_by = str(order) if text else UNKNOWN
    if reason:
        text = f"{text}, {UNKNOWN}" if text else UNKNOWN
    return Cell(text or NONE, sorted_by, reason=reason, words=True)


def role_of(handbook: Handbook, fluid: Fluid) -> tuple[str, str]:
    """Key and words of the role; for what is retired or not for use, that and nothing else."""
    if fluid.status in STATUS_WORDS:
        return fluid.status, STATUS_WORDS[fluid.status]
    words = role_words(handbook, fluid)
    if words == STRONG:
        return "strong", words
    return next(role for role, said in ROLE_WORDS.items() if said == words), words


def role_cell(handbook: Handbook, fluid: Fluid) -> Cell:
    key, words = role_of(handbook, fluid)
    return Cell(words, str(ROLE_ORDER.index(key)), words=True)


def body_kind(handbook: Handbook, fluid: Fluid) -> str:
    """What a fluid is filtered by: the word in the body without what follows the colon."""
    word = handbook.judgements[fluid.id].body.word
    if handbook.value(fluid.id, "tonicity_ratio").number is not None:
        return word.partition(":")[0]
    return COLLOID_BODY if handbook.solution(fluid.id).colloid else word


def body_cell(handbook: Handbook, fluid: Fluid) -> Cell:
    """The word in the body, never without its number; sorted by the ratio to plasma."""
    statement = handbook.judgements[fluid.id].body
    ratio = handbook.value(fluid.id, "tonicity_ratio").number
    effective = handbook.value(fluid.id, "effective_osmolarity").number
    detail = statement.because
    if ratio is not None and effective is not None:
        detail = f"{rounded(effective, 0)} beside {rounded(PLASMA_EFFECTIVE_OSMOLARITY, 0)}"
    return Cell(statement.word, token(ratio), detail, words=True)


def vein_cell(handbook: Handbook, fluid: Fluid) -> Cell:
    """The word for the vein, sorted by severity."""
    word = handbook.judgements[fluid.id].vein.word
    return Cell(word, str(VEIN_WORDS.index(word)), words=True)
