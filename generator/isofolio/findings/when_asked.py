"""Findings by fluid that are worked out when somebody asks for them.

A build asks for all of them; `serve` shows a page or two after an edit, and asks for few.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import TypeVar

Finding = TypeVar("Finding")

# Fluids that are worked out at once: arrays pay for many, a page asks for one.
BLOCK = 32


class WhenAsked(Mapping[str, Finding]):
    """What `work_out` finds of each of some ids, worked out once, a block of neighbours at a time.

    work_out: from ids to a finding of each, which follows from nothing that changes later.
    """

    def __init__(
        self,
        ids: Iterable[str],
        work_out: Callable[[Sequence[str]], Mapping[str, Finding]],
        block: int = BLOCK,
    ) -> None:
        self._ids = tuple(ids)
        self._places = {identifier: place for place, identifier in enumerate(self._ids)}
        self._work_out = work_out
        self._block = block
        self._found: dict[str, Finding] = {}

    def __getitem__(self, identifier: str) -> Finding:
        if identifier not in self._found:
            start = self._places[identifier] // self._block * self._block
            self._found |= self._work_out(self._ids[start : start + self._block])
        return self._found[identifier]

    def __contains__(self, identifier: object) -> bool:
        return identifier in self._places

    def __iter__(self) -> Iterator[str]:
        return iter(self._ids)

    def __len__(self) -> int:
        return len(self._ids)
