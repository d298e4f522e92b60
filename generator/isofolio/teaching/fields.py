"""What a worksheet asks, and how it refuses an answer: the shapes of `sheets`."""

from dataclasses import dataclass

from isofolio.teaching.needs import Backing
from isofolio.wording.figures import rounded


@dataclass(frozen=True)
class Field:
    """One question of a worksheet.

    kind: number | fluid | choice. fluids: which fluids are offered (see `worksheets_data`).
    options: value and label of a choice. needed: whether it may be left empty; an empty fluid
    and an empty volume of the same pair may be left out only together.
    """

    id: str
    label: str
    kind: str
    example: str
    unit: str = ""
    low: float = 0.0
    high: float = 0.0
    fluids: str = ""
    options: tuple[tuple[str, str], ...] = ()
    needed: bool = True
    pair: str = ""

    @property
    def refusal(self) -> str:
        """What the reader is told who writes something else.

        >>> Field("volume", "Volume", "number", "500", "mL", 1.0, 20000.0).refusal
        'Write the volume in mL as a number from 1 to 20000, such as 500.'
        """
        name = self.label[0].lower() + self.label[1:]
        if self.kind != "number":
            return f"Choose one in the list: {name}."
        if self.pair:
            return f"{self._bounds(name)} Or leave out both this volume and its fluid."
        return self._bounds(name)

    def _bounds(self, name: str) -> str:
        within = f"from {plain(self.low)} to {plain(self.high)}"
        such = f", such as {self.example}" if self.example else ""
        return f"Write the {name} in {self.unit} as a number {within}{such}."


@dataclass(frozen=True)
class Sheet:
    """One worksheet. limits: pairs of a result and the limit of the catalogue it is held beside.

    lesson: the tutorial that teaches it.
    worked: the sum with the reader's numbers, where {name} is a field or a result; each: the
    same, once for each row of the table.
    """

    id: str
    title: str
    does: str
    fields: tuple[Field, ...]
    formula: str
    worked: str
    backing: tuple[Backing, ...]
    caution: str
    lesson: str
    each: str = ""
    limits: tuple[tuple[str, str], ...] = ()


def plain(number: float) -> str:
    """A bound as a person writes it.

    >>> plain(0.1), plain(20000.0)
    ('0.1', '20000')
    """
    return rounded(number, 0) if number == int(number) else rounded(number, 2).rstrip("0")
