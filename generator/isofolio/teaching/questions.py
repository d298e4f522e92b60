"""The self-test: questions out of the catalogue, and papers of them.

A paper is drawn from its seed and the catalogue alone: one seed gives a whole class one paper.
"""

from collections.abc import Callable
from dataclasses import dataclass

from isofolio.handbook import Handbook
from isofolio.teaching.amounts import (
    bag_and_litre,
    hydrate,
    label_reading,
    percent_to_grams,
    salt_and_ion,
    sodium_load,
    strength_to_amount,
)
from isofolio.teaching.body import (
    acid_direction,
    equivalents,
    mixture,
    strong_ions,
    tonicity,
    which_is_hypotonic,
)
from isofolio.teaching.losses import burns_clock, replaced_loss
from isofolio.teaching.lots import Lots
from isofolio.teaching.meeting import air_inlet, compatibility
from isofolio.teaching.question import Question, shuffled
from isofolio.teaching.rates import drops, per_kilogram, potassium_rate

Asker = Callable[[Handbook, Lots], Question | None]

KINDS: tuple[tuple[str, str, Asker], ...] = (
    ("strength", "From strength to amount", strength_to_amount),
    ("percent", "Per cent and grams", percent_to_grams),
    ("equivalents", "mEq and mmol", equivalents),
    ("salt-ion", "Salt and ion", salt_and_ion),
    ("drops", "Drops", drops),
    ("per-kg", "Per kilogram", per_kilogram),
    ("sodium-load", "Sodium load", sodium_load),
    ("tonicity", "Tonicity in the body", tonicity),
    ("hydrate", "Water of the hydrate", hydrate),
    ("potassium-rate", "Potassium an hour", potassium_rate),
    ("label", "Reading a label", label_reading),
    ("strong-ions", "Strong ion difference", strong_ions),
    ("acid-base", "Towards acid or base", acid_direction),
    ("mixture", "Osmolarity of a mixture", mixture),
    ("hypotonic", "Which is hypotonic", which_is_hypotonic),
    ("bag-litre", "Per bag and per litre", bag_and_litre),
    ("losses", "What a loss leaves short", replaced_loss),
    ("compatibility", "When two meet", compatibility),
    ("vents", "Air for the container", air_inlet),
    ("burns", "The clock of a burn", burns_clock),
)

TITLES = {kind: title for kind, title, _ in KINDS}
ASKERS = {kind: asker for kind, _, asker in KINDS}

TRIES = 30
"""How often a kind is drawn anew when its slips do not lead to answers that differ."""


@dataclass(frozen=True)
class Paper:
    """The questions of one seed, each kind once before any comes again."""

    seed: str
    questions: tuple[Question, ...]


def asked(handbook: Handbook, kind: str, seed: str) -> Question | None:
    """One question of a kind; None where the catalogue has nothing to ask it about.

    Raises KeyError for a kind that is not in KINDS.
    """
    lots = Lots(f"{seed}/{kind}")
    for _ in range(TRIES):
        made = ASKERS[kind](handbook, lots)
        if made is not None:
            return shuffled(made, lots)
    return None


def paper(handbook: Handbook, seed: str, size: int) -> Paper:
    """A paper of `size` questions; fewer only where the catalogue cannot fill a single one.

    The same handbook, seed and size give the same paper on every machine.
    Raises ValueError for a size below 1.
    """
    if size < 1:
        raise ValueError(f"a paper of {size} questions is none: ask for 1 or more.")
    questions: list[Question] = []
    for turn in range(size):
        order = Lots(f"{seed}/order/{turn}").shuffled(tuple(ASKERS))
        found = [asked(handbook, kind, f"{seed}/{turn}") for kind in order]
        made = [one for one in found if one is not None]
        if not made:
            break
        questions += made[: size - len(questions)]
        if len(questions) == size:
            break
    return Paper(seed, tuple(questions))
