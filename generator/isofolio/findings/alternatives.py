"""What may be discussed with pharmacy when the shelf is empty: other fluids, by how far they are.

A judgement of this project, not validated. Nothing is ranked beside a concentrate, water, a
colloid, mannitol or an alkalinising fluid, nor is one of them ranked; nothing retired is compared.

Pairs are compared when asked for, in blocks of rows, so that no array of fluids by fluids is ever
held. Of each fluid the positions of the nearest few are kept; their sentences are made when asked
for.
"""

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import compress

import numpy as np
from numpy.typing import NDArray

from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import Catalogue
from isofolio.findings import not_instead, stops
from isofolio.findings.conditions import Subject
from isofolio.findings.differences import (
    Side,
    differences,
    not_described,
    scale_of,
    score,
    word_for,
)
from isofolio.findings.limits import above
from isofolio.findings.when_asked import BLOCK, WhenAsked
from isofolio.measures.columns import Array
from isofolio.measures.table import Table

# Alternatives with a score that are kept of each fluid; further ones are counted.
KEPT = 12
# In a catalogue of up to so many fluids the stopped ones are listed too; beyond it, counted.
STOPPED_LISTED = 200
# Pairs compared at once: 2 MB an array.
PAIRS = 250_000
# Scores are rounded to so many decimals: noise of the machine must not decide an order.
DECIMALS = 9


@dataclass(frozen=True)
class Alternative:
    """Another fluid beside the one that is missing.

    score: weighted steps, None where stopped; stops: why. word: "small difference" ..., "" where
    stopped. reasons: what differs, what counts most first, another base last. warnings: printed
    loud.
    not_instead_for: ends of the line "Not instead of this for ...".
    """

    id: str
    score: float | None
    stops: tuple[str, ...] = ()
    word: str = ""
    reasons: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    not_instead_for: tuple[str, ...] = ()


# Positions of the nearest fluids that are kept, and how many have a score, kept or not.
Nearest = tuple[NDArray[np.int64], int]


@dataclass(frozen=True, eq=False)
class Ranking(Mapping[str, tuple[Alternative, ...]]):
    """The alternatives of every fluid, by id: by score, then id; then the stopped ones, by id.

    fluids: those that are compared, by id; side: their figures; nearest: of each, what is kept;
    why_not: of each fluid beside which nothing is ranked, the reason.
    """

    catalogue: Catalogue = field(default_factory=Catalogue)
    table: Table = field(default_factory=lambda: Table((), {}, {}, {}, {}))
    fluids: tuple[Fluid, ...] = ()
    side: Side = field(default_factory=dict)
    nearest: Mapping[str, Nearest] = field(default_factory=dict)
    why_not: Mapping[str, str] = field(default_factory=dict)

    def __getitem__(self, fluid_id: str) -> tuple[Alternative, ...]:
        if fluid_id in self.why_not:
            return ()
        nearest, _ = self.nearest[fluid_id]
        row = bisect_left(self.fluids, fluid_id, key=_id)
        scored = (self._scored(row, int(other)) for other in nearest)
        return (*scored, *self._stopped(row))

    def scored(self, fluid_id: str, most: int = KEPT) -> tuple[Alternative, ...]:
        """The first alternatives that have a score; none where nothing is ranked."""
        row = bisect_left(self.fluids, fluid_id, key=_id)
        nearest = self.nearest[fluid_id][0] if fluid_id in self.nearest else ()
        return tuple(self._scored(row, int(other)) for other in nearest[:most])

    def counted(self, fluid_id: str) -> int:
        """How many fluids have a score beside one, kept or not."""
        return self.nearest[fluid_id][1] if fluid_id in self.nearest else 0

    def __iter__(self) -> Iterator[str]:
        return iter((*self.nearest, *self.why_not))

    def __len__(self) -> int:
        return len(self.nearest) + len(self.why_not)

    def left_out(self, fluid_id: str) -> int:
        """How many further fluids were compared with one and are not listed."""
        return 0 if fluid_id in self.why_not else len(self.fluids) - 1 - len(self[fluid_id])

    def _stopped(self, row: int) -> Iterator[Alternative]:
        """The stopped ones; none in a catalogue so large that they are only counted."""
        if len(self.fluids) > STOPPED_LISTED:
            return
        mine, limits = _rows(self.side, [row]), self.catalogue.limits
        flags = np.array([stop.applies(mine, self.side, limits)[0] for stop in stops.STOPS])
        for other in np.flatnonzero(np.any(flags, axis=0)):
            theirs = _rows(self.side, [int(other)])
            applied = compress(stops.STOPS, flags[:, other])
            why = tuple(stop.words(mine, theirs, limits) for stop in applied)
            if other != row:
                yield Alternative(self.fluids[other].id, None, why)

    def _scored(self, row: int, other: int) -> Alternative:
        mine, theirs = _rows(self.side, [row]), _rows(self.side, [other])
        scale = scale_of(self.catalogue.limits)
        points = float(np.round(score(mine, theirs, scale), DECIMALS).item())
        subjects = self._subject(row), self._subject(other)
        raised, swap = not_instead.raised(*subjects), not_instead.anion_swap(*subjects)
        return Alternative(
            id=self.fluids[other].id,
            score=points,
            word=word_for(points, scale),
            reasons=(*differences(mine, theirs, scale), *([swap] if swap else [])),
            warnings=tuple(entry.text for entry in raised if entry.loud),
            not_instead_for=tuple(entry.text for entry in raised if not entry.loud),
        )

    def _subject(self, row: int) -> Subject:
        return Subject(self.fluids[row], self.catalogue, self.table)


def alternatives_of(catalogue: Catalogue, table: Table, pairs: int = PAIRS) -> Ranking:
    """The ranking of a whole catalogue.

    pairs: how many pairs are compared at once; it bounds the memory and changes no result.
    Where limits.yml does not describe the ranking, nothing is ranked, and `why_not` says so.
    """
    why = not_described(catalogue.limits, (*stops.NEEDED, *not_instead.NEEDED))
    if why:
        return Ranking(why_not=dict.fromkeys(catalogue.fluids, why))
    every = sorted(catalogue.fluids.values(), key=_id)
    why_not = {f.id: why for f in every if (why := why_not_ranked(Subject(f, catalogue, table)))}
    fluids = tuple(fluid for fluid in every if fluid.status == "current")
    side = stops.side_of(fluids, catalogue, table)
    rows = {fluid.id: row for row, fluid in enumerate(fluids) if fluid.id not in why_not}

    def found(names: Sequence[str]) -> dict[str, Nearest]:
        scores = _scores([rows[name] for name in names], side, catalogue)
        return {name: _nearest(scores[place]) for place, name in enumerate(names)}

    block = min(BLOCK, max(1, pairs // max(1, len(fluids))))
    return Ranking(catalogue, table, fluids, side, WhenAsked(rows, found, block), why_not)


def why_not_ranked(subject: Subject) -> str:
    """Why nothing is ranked beside a fluid; "" where other fluids are."""
    fluid, number = subject.fluid, subject.number
    base = subject.catalogue.limits[stops.BASE]
    unknown = any(number(quantity) is None for quantity in stops.LOOKED_AT)
    reasons = (
        (fluid.status == "retired", "it is retired"),
        (fluid.status == "not-for-use", "it is not for use"),
        (fluid.role == "concentrate", "it is a concentrate, diluted before use"),
        (fluid.role == "diluent", "it is for mixing only"),
        (fluid.role != "ready" or subject.solution.colloid, "it is a colloid"),
        (bool(number("mannitol")), "it holds mannitol, which is given to draw water"),
        (above(number("bicarbonate_yield"), base), "it is given to raise bicarbonate"),
        (unknown, "not every figure that would be compared is known"),
    )
    return next((words for holds, words in reasons if holds), "")


def _id(fluid: Fluid) -> str:
    return fluid.id


def _rows(side: Side, rows: Sequence[int]) -> Side:
    """Some fluids of a side as a column, to be laid against the row of all."""
    return {key: figures[rows][:, np.newaxis] for key, figures in side.items()}


def _nearest(scores: Array) -> Nearest:
    """Of one fluid's scores: positions of the nearest, by score and id; how many have a score."""
    finite = np.isfinite(scores)
    last = min(KEPT, len(scores)) - 1
    near = np.flatnonzero(finite & (scores <= np.partition(scores, last)[last]))
    order = np.lexsort((near, scores[near]))[:KEPT]
    return near[order], int(np.count_nonzero(finite))


def _scores(rows: Sequence[int], side: Side, catalogue: Catalogue) -> Array:
    """Scores of some fluids with all [1]; infinite for a stopped one and for a fluid and itself."""
    mine = _rows(side, rows)
    scores = np.round(score(mine, side, scale_of(catalogue.limits)), DECIMALS)
    scores[stops.stopped(mine, side, catalogue.limits)] = np.inf
    scores[np.arange(len(rows)), rows] = np.inf
    return scores
