"""The label audit: every declared value of every fluid beside ours, worst first."""

from typing import Any

from isofolio.entries.lists import Limit
from isofolio.findings.audit import AuditLine
from isofolio.findings.limits import figure_of
from isofolio.handbook import Handbook
from isofolio.pages.citations import SEEN, Cited, short_name
from isofolio.pages.page import Page, rendered
from isofolio.vocabulary.quantities import DECLARABLE, QUANTITY_BY_ID
from isofolio.vocabulary.terms import AUDIT_VERDICTS
from isofolio.wording.addresses import AUDIT, entry_address, source_address
from isofolio.wording.figures import NARROW, RANGE, amount, figure, typeset, unit_text, written

# Worst first; what is not computed is no verdict on a source and comes last.
ORDER = (*reversed(AUDIT_VERDICTS[:-1]), AUDIT_VERDICTS[-1])

# What a reader takes to a desk: on paper all figures would fill a hundred sheets.
PRINTED = ("error", "explained", "convention")

MEANS = {
    "error": "Neither the contents nor a hydrate, basis, unit or published recipe that we know "
    "gives the printed figure. This is a finding about a printed text or table.",
    "explained": "Another figure than ours, for a reason that is known of such labels.",
    "convention": "Another hydrate, basis, unit or published recipe gives the printed figure.",
    "not-computed": "We give no figure of our own, for the reason that stands beside it.",
}
LIMITS = {
    "nominal": ("audit-nominal",),
    "rounded": ("audit-rounded-units", "audit-rounded"),
    "exact": ("audit-exact",),
}


def audit_page(handbook: Handbook) -> Page:
    """Every audited value, a row each."""
    lines = [line for fluid in handbook.fluids for line in handbook.audit[fluid.id]]
    context = {
        "total": len(lines),
        "printed": PRINTED,
        "left_out": sum(line.verdict not in PRINTED for line in lines),
        "verdicts": [
            {"word": word, "means": _means(handbook, word), "rows": rows}
            for word in ORDER
            if (rows := [_row(handbook, line) for line in lines if line.verdict == word])
        ],
    }
    return Page(
        path=AUDIT,
        title="Label audit",
        description="Every figure that a source prints, beside what the contents give.",
        body=rendered("audit.html", AUDIT, context),
    )


def audit_groups(handbook: Handbook, fluid_id: str) -> list[tuple[Cited, list[dict[str, Any]]]]:
    """The declared values of one fluid, a group a source, in the order of its entry."""
    groups: dict[Cited, list[dict[str, Any]]] = {}
    for line in handbook.audit[fluid_id]:
        row = _row(handbook, line)
        groups.setdefault(row["cited"], []).append(row)
    return list(groups.items())


def _means(handbook: Handbook, verdict: str) -> str:
    """What a verdict means; the thresholds in the words of limits.yml."""
    limits = (handbook.catalogue.limits.get(name) for name in LIMITS.get(verdict, ()))
    return " ".join(_limit(limit) for limit in limits if limit) or MEANS.get(verdict, "")


def _limit(limit: Limit) -> str:
    if limit.quantity != "audit_fraction":
        return limit.text
    return f"{limit.text.removesuffix('.')} ({amount(100.0 * figure_of(limit))}{NARROW}%)."


def _row(handbook: Handbook, line: AuditLine) -> dict[str, Any]:
    source = handbook.catalogue.sources[line.source]
    place = source_address(source.id)
    return {
        "fluid": typeset(handbook.catalogue.fluids[line.fluid].name),
        "address": entry_address("fluids", line.fluid, "label"),
        "quantity": DECLARABLE[line.quantity].label,
        "declared": written(line.declared),
        "converted": _converted(line),
        "computed": "" if line.computed is None else _shown(line.computed, line.quantity),
        "verdict": line.verdict,
        "explanation": typeset(line.explanation),
        "cited": Cited(short_name(source), place, line.at, SEEN[line.seen], ""),
    }


def _shown(number: float, quantity: str) -> str:
    ours = QUANTITY_BY_ID["osmolality"] if quantity == "osmolality_measured" else None
    known = ours or DECLARABLE[quantity]
    return figure(number, known) + unit_text(known.unit)


def _converted(line: AuditLine) -> str:
    """A figure that was printed in another unit, in ours."""
    unit = DECLARABLE[line.quantity].unit
    if line.declared_high is None or line.declared.endswith(unit) or unit == "1":
        return ""
    high = _shown(line.declared_high, line.quantity)
    if line.declared_low == line.declared_high:
        return high
    if line.declared_low is None:
        return f"at most {high}"
    return figure(line.declared_low, DECLARABLE[line.quantity]) + RANGE + high
