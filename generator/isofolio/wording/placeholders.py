"""Live figures in prose: an entry names a figure, the page prints what the handbook computes.

`{glucose-5 osmolarity}` is a figure of a litre, `{glucose-5 glucose_mass in 500 mL}` of a
container, `{plasma sodium}` the interval beside the fluids, `{glucose-5}` the name.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

PLASMA = "plasma"

_BRACES = re.compile(r"\{([^{}]*)\}")
_INSIDE = re.compile(
    r"(?P<subject>[a-z0-9]+(?:-[a-z0-9]+)*)"
    r"(?: (?P<quantity>[a-z0-9_]+)(?: in (?P<volume>[1-9][0-9]{0,4}) mL)?)?"
)


@dataclass(frozen=True)
class Placeholder:
    """subject: the id of a fluid, or "plasma"; quantity: its id, "" for the name of the fluid;
    millilitres: the volume of which the figure is told, None for a litre."""

    subject: str
    quantity: str = ""
    millilitres: float | None = None


def read_placeholder(inside: str) -> Placeholder | None:
    """What stands between two braces; None where it is no placeholder.

    >>> read_placeholder("glucose-5 glucose_mass in 500 mL")
    Placeholder(subject='glucose-5', quantity='glucose_mass', millilitres=500.0)
    >>> read_placeholder("glucose-5, osmolarity") is None
    True
    """
    found = _INSIDE.fullmatch(inside)
    if found is None:
        return None
    volume = float(found["volume"]) if found["volume"] else None
    return Placeholder(found["subject"], found["quantity"] or "", volume)


def placeholders(text: str) -> Iterator[tuple[str, Placeholder | None]]:
    """Every placeholder of a text as written and as read; None for a brace that opens none.

    >>> list(placeholders("as {glucose-5} or {"))
    [('glucose-5', Placeholder(subject='glucose-5', quantity='', millilitres=None)), ('{', None)]
    """
    for found in _BRACES.finditer(text):
        yield found[1], read_placeholder(found[1])
    for brace in re.findall(r"[{}]", _BRACES.sub("", text)):
        yield brace, None


def filled(text: str, told: Callable[[Placeholder], str]) -> str:
    """The text with each placeholder replaced by what `told` says of it.

    Raises ValueError for what is none: `isofolio check` keeps such a text out of a handbook.

    >>> filled("about {glucose-5 osmolarity}", lambda one: f"[{one.quantity}]")
    'about [osmolarity]'
    """

    def one(found: re.Match[str]) -> str:
        read = read_placeholder(found[1])
        if read is None:
            raise ValueError(f"{found[0]} is no placeholder: check the catalogue first.")
        return told(read)

    return _BRACES.sub(one, text)
