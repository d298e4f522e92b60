"""The label audit: every declared value beside ours, with a verdict and one plain sentence.

Verdicts (`AUDIT_VERDICTS`): exact, within half of the last printed digit; rounded, within one or
within 1 %; nominal, within 3 %; convention, another hydrate, basis, unit or published recipe gives
the printed figure; explained, a reason that is known of such labels; error, none of these;
not-computed, no figure of ours, with the reason. A source is never accused of production
tolerances: pharmacopoeial assay limits are no part of this.

The ladder is walked in this order, the first step that holds wins: exact; rounded to balance
(explained); rounded, unless one step is more than the nominal share and a convention fits exactly;
a reason known of these labels; a convention; a reason of the recipe; error where two digits
exchanged fit exactly; nominal; error where one source mixes two readings; osmolality and osmolarity
confused (explained); error.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from isofolio.entries.fluids import Declared, Fluid
from isofolio.entries.reading import Catalogue
from isofolio.findings import audit_reasons as reasons
from isofolio.findings.audit_figures import (
    EXACT,
    NOMINAL,
    ROUNDED,
    coarse,
    distance,
    printed,
    thresholds,
)
from isofolio.findings.audit_lines import (
    OSMOLALITIES,
    Bench,
    Line,
    bench_of,
    computed,
    lines_of,
    ours,
    said,
)
from isofolio.findings.audit_options import Option, fitting
from isofolio.findings.audit_slips import accusation, ions_already, transposed
from isofolio.findings.when_asked import WhenAsked
from isofolio.measures.table import Table
from isofolio.vocabulary.terms import AUDIT_VERDICTS
from isofolio.wording.figures import RANGE, amount, unit_text

NO_LIMITS = "the catalogue sets no limits for the audit"


@dataclass(frozen=True)
class AuditLine:
    """One declared value of a fluid and what becomes of it.

    fluid, quantity, source: ids; at, seen: of the source. declared: as written; declared_low,
    declared_high: in the quantity's own unit, low None for a bound, both None without a figure.
    computed: ours in the same unit, None with the reason in the explanation.
    """

    fluid: str
    quantity: str
    declared: str
    declared_low: float | None
    declared_high: float | None
    computed: float | None
    verdict: str
    explanation: str
    source: str
    at: str
    seen: str

    def __post_init__(self) -> None:
        if self.verdict not in AUDIT_VERDICTS:
            raise ValueError(f"{self.verdict} is not a verdict: write one of AUDIT_VERDICTS.")


def audit_fluid(fluid: Fluid, catalogue: Catalogue, table: Table) -> tuple[AuditLine, ...]:
    """Every declared value of one fluid, in the order of its entry."""
    return _audited([fluid], catalogue, table)[fluid.id]


def audit_catalogue(catalogue: Catalogue, table: Table) -> Mapping[str, tuple[AuditLine, ...]]:
    """The audit of every fluid, by id; other readings of many are computed in one batch."""
    fluids = catalogue.fluids
    return WhenAsked(
        fluids, lambda names: _audited([fluids[name] for name in names], catalogue, table)
    )


def _audited(
    fluids: Iterable[Fluid], catalogue: Catalogue, table: Table
) -> dict[str, tuple[AuditLine, ...]]:
    limits = thresholds(catalogue)
    fluids = tuple(fluids)
    if limits is None:
        return {f.id: tuple(_without_limits(f, catalogue, table)) for f in fluids}
    groups = {
        f.id: [lines_of(f, group, catalogue, table, limits) for group in f.declared] for f in fluids
    }
    bench = bench_of(groups, catalogue, table, limits)
    return {
        f.id: tuple(
            _audit_line(f, declared, line, _judge(line, f, group, bench))
            for declared, group in zip(f.declared, groups[f.id], strict=True)
            for line in group
        )
        for f in fluids
    }


def _without_limits(fluid: Fluid, catalogue: Catalogue, table: Table) -> Iterable[AuditLine]:
    for declared in fluid.declared:
        for quantity, value in declared.values.items():
            figure = printed(quantity, value, catalogue)
            line = Line(str(quantity), value.text, figure, computed(table, fluid.id, quantity), "")
            yield _audit_line(fluid, declared, line, ("not-computed", _sentence(NO_LIMITS)))


def _audit_line(fluid: Fluid, declared: Declared, line: Line, judged: tuple[str, str]) -> AuditLine:
    return AuditLine(
        fluid=fluid.id,
        quantity=line.quantity,
        declared=line.text,
        declared_low=line.figure.low if line.figure else None,
        declared_high=line.figure.high if line.figure else None,
        computed=line.ours.number,
        verdict=judged[0],
        explanation=judged[1],
        source=str(declared.source),
        at=declared.at,
        seen=declared.seen,
    )


Group = tuple[Line, ...]


def _judge(line: Line, fluid: Fluid, group: Group, bench: Bench) -> tuple[str, str]:
    """The verdict of one line and its sentence."""
    if not line.near:
        return _not_compared(line, fluid, bench)
    if line.near == EXACT:
        inside = ", inside what is printed" if line.figure and not line.figure.one else ""
        return "exact", _sentence(_gives(line, fluid, bench) + inside)
    if line.near == ROUNDED:
        return _one_step_away(line, fluid, group, bench)
    return _farther(line, fluid, group, bench)


def _not_compared(line: Line, fluid: Fluid, bench: Bench) -> tuple[str, str]:
    too_low = ions_already(line, fluid, bench)
    if too_low:
        return "error", too_low
    if line.ours.number is not None:
        return "not-computed", "The source prints no figure that can be compared."
    return "not-computed", _sentence(
        f"we give no figure: {line.ours.reason}{_range(line, bench, fluid)}"
    )


def _range(line: Line, bench: Bench, fluid: Fluid) -> str:
    """The range that stands in place of our figure."""
    between = bench.table.solutions[fluid.id].ranges.get(line.quantity)
    return f", {amount(between[0])}{RANGE}{said(between[1], line.quantity)}" if between else ""


def _one_step_away(line: Line, fluid: Fluid, group: Group, bench: Bench) -> tuple[str, str]:
    balanced = reasons.against_another(line, group, bench)
    if balanced:
        return "explained", balanced
    if line.figure and coarse(line.figure, bench.limits):
        option, _ = fitting(line, fluid.id, group, bench)
        if option is not None:
            return _convention(option, line, bench)
    rounded = "" if line.quantity in OSMOLALITIES else "; the printed figure is rounded"
    return "rounded", _sentence(_gives(line, fluid, bench) + rounded)


def _farther(line: Line, fluid: Fluid, group: Group, bench: Bench) -> tuple[str, str]:
    known = next((s for why in reasons.WHY if (s := why(line, fluid, bench))), "")
    known = known or reasons.balancing(line, group, bench)
    if known:
        return "explained", known
    option, mixed = fitting(line, fluid.id, group, bench)
    if option is not None:
        return _convention(option, line, bench)
    other = next((s for why in reasons.WHY_ELSE if (s := why(line, fluid, bench))), "")
    if other:
        return "explained", other
    exchange = transposed(line, bench)
    if not exchange and (line.near == NOMINAL or _within_error(line, fluid, bench)):
        return "nominal", _sentence(f"{_gives(line, fluid, bench)}{_away(line)}")
    confused = "" if exchange or mixed else reasons.osmolality_word(line, fluid, bench)
    if confused:
        return "explained", confused
    return "error", accusation(line, _gives(line, fluid, bench), mixed, exchange)


def _within_error(line: Line, fluid: Fluid, bench: Bench) -> bool:
    if line.quantity not in OSMOLALITIES or line.figure is None:
        return False
    return reasons.within_estimate(line.figure, fluid.id, bench)


def _convention(option: Option, line: Line, bench: Bench) -> tuple[str, str]:
    return "convention", f"Fits {option.words}; {_contents_give(line, bench)}."


def _gives(line: Line, fluid: Fluid, bench: Bench) -> str:
    declared = any(line.quantity == content.particle for content in fluid.contents)
    if line.near == EXACT and declared and line.ours.number:
        return f"the entry is declared in ions and takes this one as {ours(line)}"
    if line.quantity in OSMOLALITIES:
        return f"our estimate is {reasons.estimate(fluid.id, bench)}"
    return _contents_give(line, bench)


def _contents_give(line: Line, bench: Bench) -> str:
    if line.ours.number == 0 and line.quantity in bench.catalogue.particles:
        return "the contents hold none"
    return f"the contents give {ours(line)}"


def _away(line: Line) -> str:
    """How far a nominal figure stands from ours, in per cent."""
    if line.figure is None or not line.ours.number:
        return ""
    share = 100.0 * distance(line.figure, line.ours.number) / line.ours.number
    side = "above" if share > 0 else "below"
    return f"; the printed figure is {amount(abs(share))}{unit_text('%')} {side}"


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}."
