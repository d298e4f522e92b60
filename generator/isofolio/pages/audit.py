"""The label audit: every declared value of every fluid beside ours, worst first."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, partial
from typing import Any

from isofolio.entries.lists import Limit
from isofolio.findings.audit import AuditLine
from isofolio.findings.limits import figure_of
from isofolio.handbook import Handbook
from isofolio.pages.citations import SEEN, Cited, short_name
from isofolio.pages.page import Page, rendered
from isofolio.pages.parts import in_parts, part_address, part_links, part_title
from isofolio.vocabulary.quantities import DECLARABLE, QUANTITY_BY_ID
from isofolio.vocabulary.terms import AUDIT_VERDICTS
from isofolio.wording.addresses import AUDIT, entry_address, source_address
from isofolio.wording.figures import NARROW, RANGE, amount, figure, typeset, unit_text, written

# Worst first; what is not computed is no verdict on a source and comes last.
ORDER = (*reversed(AUDIT_VERDICTS[:-1]), AUDIT_VERDICTS[-1])

# Figures of one part of a page that is cut.
ROWS = 2_500

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


@dataclass(frozen=True)
class Cut:
    """The audited lines, cut into parts; links: to each part; verdicts: word, count, address."""

    parts: list[Sequence[AuditLine]]
    links: list[tuple[str, str]]
    verdicts: list[tuple[str, int, str]]


def audit_pages(handbook: Handbook) -> Iterator[tuple[str, Callable[[], Page]]]:
    """Address and maker of the page of every audited value, or of each part of it.

    How many parts there are is known without a verdict: each declared value is one line.
    """
    declared = sum(len(group.values) for fluid in handbook.fluids for group in fluid.declared)
    cut = cache(partial(_cut, handbook))
    for number in range(1, len(in_parts(range(declared), ROWS)) + 1):
        yield part_address(AUDIT, number), partial(_page, handbook, cut, number)


def _cut(handbook: Handbook) -> Cut:
    lines = [line for fluid in handbook.fluids for line in handbook.audit[fluid.id]]
    lines.sort(key=lambda line: ORDER.index(line.verdict))
    parts = in_parts(lines, ROWS)
    links = part_links(AUDIT, [_named(handbook, line) for part in parts for line in part[:1]])
    where = {
        line.verdict: part_address(AUDIT, number)
        for number, part in reversed(list(enumerate(parts, 1)))
        for line in part
    }
    counts = Counter(line.verdict for line in lines)
    verdicts = [(word, counts[word], f"{where[word]}#{word}") for word in ORDER if counts[word]]
    return Cut(parts, links, verdicts)


def _named(handbook: Handbook, line: AuditLine) -> str:
    return f"{line.verdict}, {typeset(handbook.catalogue.fluids[line.fluid].name)}"


def _page(handbook: Handbook, cut: Callable[[], Cut], number: int) -> Page:
    whole = cut()
    counts = {word: count for word, count, _ in whole.verdicts}
    lines = whole.parts[number - 1]
    sections = [
        {"word": word, "means": _means(handbook, word), "rows": rows}
        for word in ORDER
        if (rows := [_row(handbook, line) for line in lines if line.verdict == word])
    ]
    here, title = part_address(AUDIT, number), part_title("Label audit", number, len(whole.parts))
    context = {
        "title": title,
        "here": here,
        "parts": whole.links,
        "verdicts": whole.verdicts,
        "sections": sections,
        "total": sum(counts.values()),
        "printed": PRINTED,
        "left_out": sum(count for word, count in counts.items() if word not in PRINTED),
    }
    return Page(
        path=here,
        title=title,
        description="Every figure that a source prints, beside what the contents give.",
        body=rendered("audit.html", here, context),
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
