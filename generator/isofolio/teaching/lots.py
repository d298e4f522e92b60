"""Drawing lots that always fall the same way: one seed, one paper, on every machine.

Not from `random` or `hash`: their results may change with the version or with the process.
"""

import hashlib
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")


class Lots:
    """Lots drawn one after another from a seed, each by the SHA-256 of the seed and its number.

    >>> Lots("paper 1").pick("abc") == Lots("paper 1").pick("abc")
    True
    """

    def __init__(self, seed: str) -> None:
        self._seed = seed
        self._drawn = 0

    def below(self, end: int) -> int:
        """A whole number from 0 to one below `end`. Raises ValueError where there is none."""
        if end < 1:
            raise ValueError("no lot can be drawn from nothing.")
        self._drawn += 1
        text = f"{self._seed}/{self._drawn}"
        return int.from_bytes(hashlib.sha256(text.encode()).digest()[:8], "big") % end

    def pick(self, things: Sequence[T]) -> T:
        """One of the things. Raises ValueError where there is none."""
        return things[self.below(len(things))]

    def shuffled(self, things: Sequence[T]) -> tuple[T, ...]:
        """All of the things in a drawn order.

        >>> sorted(Lots("a").shuffled((3, 1, 2)))
        [1, 2, 3]
        """
        left = list(things)
        return tuple(left.pop(self.below(len(left))) for _ in things)
