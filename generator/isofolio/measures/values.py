"""A computed value: a number, or the reason why there is none. Unknown is never 0."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Value:
    """number: in the quantity's unit, or None; reason: why it is None, else ""."""

    number: float | None
    reason: str = ""

    def __post_init__(self) -> None:
        if (self.number is None) == (self.reason == ""):
            raise ValueError("a value has a number or a reason, never both and never neither")

    def times(self, share: float) -> "Value":
        """The same value for a share of a litre.

        >>> Value(154.0).times(0.5).number
        77.0
        """
        return self if self.number is None else Value(self.number * share)
