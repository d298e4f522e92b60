"""The one read-only thing that pages, finder and exports receive."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from isofolio.entries.files import LastReading
from isofolio.entries.fluids import Container, Fluid
from isofolio.entries.lists import Change, Interval
from isofolio.entries.mixing import Mixing
from isofolio.entries.overlay import with_stock
from isofolio.entries.problems import Place, Problem, bounded
from isofolio.entries.reading import Catalogue, Reading, read_catalogue
from isofolio.findings import consistency
from isofolio.findings.alternatives import Ranking, alternatives_of
from isofolio.findings.audit import AuditLine, audit_catalogue
from isofolio.findings.families import LookAlike, look_alikes_of
from isofolio.findings.judgements import Judgement, judge
from isofolio.findings.mixing import mixing_of
from isofolio.measures.solutions import Solution
from isofolio.measures.table import Table, table_of
from isofolio.measures.values import Value
from isofolio.vocabulary.quantities import QUANTITIES, QUANTITY_BY_ID

if TYPE_CHECKING:
    import pandas

UNDATED = "no date"


@dataclass(frozen=True)
class Handbook:
    """A catalogue without problems, and everything computed from it.

    digest: 12 hex digits of the catalogue; date: of its newest change; beside: the interval of
    each quantity that is printed beside the fluids; judgements: by fluid;
    audit: every declared value of each fluid beside ours;
    mixing: the pairs that speak of each fluid; look_alikes: what each is easily mistaken for;
    alternatives: of each fluid what may be discussed when it is missing.
    """

    catalogue: Catalogue
    measures: Table
    digest: str
    date: str
    beside: Mapping[str, Interval]
    judgements: Mapping[str, Judgement]
    audit: Mapping[str, tuple[AuditLine, ...]]
    mixing: Mapping[str, tuple[Mixing, ...]] = field(default_factory=dict)
    look_alikes: Mapping[str, tuple[LookAlike, ...]] = field(default_factory=dict)
    alternatives: Ranking = field(default_factory=Ranking)

    @property
    def fluids(self) -> tuple[Fluid, ...]:
        """Every fluid, retired ones included, by id."""
        return tuple(self.catalogue.fluids.values())

    @property
    def changes(self) -> tuple[Change, ...]:
        """Every dated line, newest first; those of one day in the order of the file, none twice."""
        single = {(change.on, change.text): change for change in self.catalogue.changes}
        return tuple(sorted(single.values(), key=lambda change: change.on, reverse=True))

    def solution(self, fluid_id: str) -> Solution:
        """What a litre of a fluid holds."""
        return self.measures.solutions[fluid_id]

    def value(self, fluid_id: str, quantity_id: str) -> Value:
        """A quantity per litre, in its unit; or the reason why there is none."""
        return self.measures.value(fluid_id, quantity_id)

    def in_container(self, fluid_id: str, quantity_id: str, millilitres: float) -> Value:
        """What a container holds of a quantity. Raises ValueError for one that does not scale."""
        if not QUANTITY_BY_ID[quantity_id].scales:
            raise ValueError(f"{quantity_id} does not scale with a volume: print it per litre.")
        factor = QUANTITY_BY_ID[quantity_id].container_factor
        return self.value(fluid_id, quantity_id).times(factor * millilitres / 1000.0)

    def table(self) -> "pandas.DataFrame":
        """Every quantity of every fluid as a frame, for csv, xlsx and charts. NaN where unknown."""
        import pandas

        columns = {q.id: self.measures.numbers[q.id] for q in QUANTITIES if q.id in self.quantities}
        return pandas.DataFrame(columns, index=pandas.Index(self.measures.fluids, name="id"))

    @property
    def quantities(self) -> tuple[str, ...]:
        """The ids of all computed quantities, in their order."""
        return tuple(self.measures.numbers)


def millilitres(container: Container) -> float:
    """The volume of a container [mL].

    >>> millilitres(Container(volume="1 L", kind="bag"))
    1000.0
    """
    amount = container.volume
    if amount.low is None:
        raise ValueError(f'"{amount.text}" is not a volume: check the catalogue first.')
    return amount.low * (1000.0 if amount.unit == "L" else 1.0)


@dataclass(frozen=True)
class Opened:
    """A handbook, or the problems that keep it shut; notices either way."""

    handbook: Handbook | None
    problems: tuple[Problem, ...]
    notices: tuple[Problem, ...]


def check_catalogue(
    folder: Path, last: LastReading | None = None
) -> tuple[Reading, tuple[Problem, ...]]:
    """Read a catalogue and judge it: shape and references first, then what only sense can tell."""
    reading = read_catalogue(folder, last)
    return reading, bounded([*reading.problems, *consistency.problems(reading)])


def open_handbook(
    catalogue: Path, stock: str | None = None, last: LastReading | None = None
) -> Opened:
    """The handbook of a catalogue folder; only a catalogue without problems becomes one.

    last: what `serve` remembers of the files, which need not be read again where they are the same.
    """
    reading, problems = check_catalogue(catalogue, last)
    if problems:
        return Opened(None, problems, reading.notices)
    if stock is not None and stock not in reading.catalogue.stock:
        missing = Problem(
            f"stock/{stock}.yml", Place(1, 1), "there is no such stock", _kept(reading)
        )
        return Opened(None, (missing,), reading.notices)
    # A sound catalogue is asked for no line any more: let the trees go before the work begins.
    reading = replace(reading, trees={})
    return Opened(handbook_of(reading, stock), (), reading.notices)


def _kept(reading: Reading) -> str:
    names = ", ".join(reading.catalogue.stock) or "none yet"
    return f"Name one of: {names}; or write stock/<hospital>.yml."


def handbook_of(reading: Reading, stock: str | None = None) -> Handbook:
    """Compute everything from a sound reading, as one hospital keeps it if `stock` names one."""
    catalogue = reading.catalogue
    if stock is not None:
        catalogue = with_stock(catalogue, catalogue.stock[stock])
    table = table_of(catalogue)
    return Handbook(
        catalogue=catalogue,
        measures=table,
        digest=reading.digest,
        date=max((change.on for change in catalogue.changes), default=UNDATED),
        beside={i.quantity: i for i in catalogue.intervals if i.beside},
        judgements=judge(catalogue, table),
        mixing=mixing_of(catalogue, table),
        look_alikes=look_alikes_of(catalogue, table),
        audit=audit_catalogue(catalogue, table),
        alternatives=alternatives_of(catalogue, table),
    )


def interval_of(interval: Interval) -> tuple[float, float]:
    """Low and high of a reference interval, as declared."""
    amount = interval.interval
    if amount.low is None or amount.high is None:
        raise ValueError(f'"{amount.text}" is not an interval: write it as in 135 to 145 mmol/L.')
    return amount.low, amount.high
