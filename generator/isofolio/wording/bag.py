"""Sentences about what is in the bag, from figures."""

from collections.abc import Mapping, Sequence

from isofolio.measures.values import Value
from isofolio.wording.figures import HARD, amount, rounded

SUGARS = ("glucose", "mannitol")


def listed(words: Sequence[str]) -> str:
    """Words as a list in a sentence.

    >>> listed(["sodium", "potassium", "chloride"])
    'sodium, potassium and chloride'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def osmolarity_parts(osmolarity: Value, particles: Mapping[str, float]) -> str:
    """The osmolarity in the bag and what makes it up; never a class word.

    particles: name -> mmol/L of everything dissolved, in the order of tables.

    >>> osmolarity_parts(Value(358.0), {"glucose": 277.5, "potassium": 40.2, "chloride": 40.2})
    '358\\xa0mOsm/L: 278 glucose, 80 potassium and chloride'
    """
    if osmolarity.number is None:
        return osmolarity.reason
    total = f"{rounded(osmolarity.number, 0)}{HARD}mOsm/L"
    there = {name: number for name, number in particles.items() if number > 0}
    sugars = [name for name in there if name in SUGARS]
    salts = [name for name in there if name not in SUGARS]
    if not there:
        return f"{total}: water alone"
    if not sugars or not salts:
        return f"{total}: {listed(list(there))}"
    parts = [f"{rounded(there[name], 0)} {name}" for name in sugars]
    rest = sum(there[name] for name in salts)
    return f"{total}: {', '.join(parts)}, {rounded(rest, 0)} {listed(salts)}"


def beside_interval(number: float, low: float, high: float, unit: str) -> str:
    """Where a figure stands beside a reference interval, and by how much.

    >>> beside_interval(154.0, 135.0, 145.0, "mmol/L")
    'above, by 9\\xa0mmol/L'
    """
    if number == 0:
        return "none"
    if number < low:
        return f"below, by {amount(low - number)}{HARD}{unit}"
    if number > high:
        return f"above, by {amount(number - high)}{HARD}{unit}"
    return "within"
