"""The sheets of the workbook as plain rows: what stands where, and in which unit."""

from collections.abc import Iterator
from dataclasses import dataclass

from isofolio.entries.fluids import Fluid
from isofolio.exports import document, parts
from isofolio.exports.document import built_from
from isofolio.findings.audit import AuditLine
from isofolio.handbook import Handbook
from isofolio.vocabulary.purpose import PURPOSE
from isofolio.vocabulary.quantities import DECLARABLE, QUANTITY_BY_ID

Cell = str | float | int | None

NARROW, MIDDLE, WIDE = 12, 28, 70


@dataclass(frozen=True)
class Column:
    """A column: what its first row says, how wide it is [characters], decimals shown if figures."""

    header: str
    width: int = NARROW
    decimals: int | None = None


@dataclass(frozen=True)
class Sheet:
    """A sheet: its name, its columns, its rows below the header."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


ID = Column("id", MIDDLE)
FLUID = (ID, Column("name", MIDDLE))


def sheets(handbook: Handbook) -> tuple[Sheet, ...]:
    """Every sheet, in the order of the tabs."""
    return (
        _read_me(handbook),
        _fluids(handbook),
        _contents(handbook),
        _containers(handbook),
        _unknown(handbook),
        _cautions(handbook),
        _audit(handbook),
        _sources(handbook),
    )


def _read_me(handbook: Handbook) -> Sheet:
    lines = (
        ("what", "The figures of the Isofolio handbook, one sheet a subject."),
        ("purpose", PURPOSE),
        ("built from", built_from(handbook)),
        ("catalogue of", handbook.date),
        ("empty cell", "Unknown, never 0: the sheet 'unknown' gives the reason."),
        ("figures", "12 digits are kept; the decimals shown are those of the handbook's pages."),
        ("review", "draft: not yet checked by a pharmacist or doctor."),
        ("licence", "Text: CC BY 4.0, credit Isofolio. Facts and figures belong to nobody."),
    )
    return Sheet("read me", (Column("about", MIDDLE), Column("this workbook", WIDE)), lines)


def _fluids(handbook: Handbook) -> Sheet:
    """A row a fluid: every quantity per litre."""
    words = (Column("role"), Column("status"), Column("review"), Column("vein", MIDDLE))
    figures = tuple(_figures(q, QUANTITY_BY_ID[q].unit) for q in handbook.quantities)
    rows = tuple(_fluid_row(handbook, fluid) for fluid in handbook.fluids)
    return Sheet("fluids", (*FLUID, *words, *figures), rows)


def _fluid_row(handbook: Handbook, fluid: Fluid) -> tuple[Cell, ...]:
    stamp, vein = str(parts.review(fluid)["state"]), handbook.judgements[fluid.id].vein.word
    words = (fluid.id, fluid.name, fluid.role, fluid.status, stamp, vein)
    return (*words, *document.per_litre(handbook, fluid).values())


def _figures(quantity: str, unit: str) -> Column:
    known = QUANTITY_BY_ID[quantity]
    return Column(f"{known.label} [{unit}]", NARROW, known.decimals)


def _contents(handbook: Handbook) -> Sheet:
    """A row a substance or particle of a recipe, as weighed or as declared."""
    amounts = (Column("amount", decimals=3), Column("unit"))
    limits = (Column("low", decimals=3), Column("high", decimals=3), Column("reason", MIDDLE))
    columns = (*FLUID, Column("content", MIDDLE), Column("given as"), *amounts, *limits)
    rows = (row for fluid in handbook.fluids for row in _content_rows(handbook, fluid))
    return Sheet("contents", columns, tuple(rows))


def _content_rows(handbook: Handbook, fluid: Fluid) -> Iterator[tuple[Cell, ...]]:
    for content in document.contents(handbook, fluid):
        weighed = "substance" in content
        key, unit = ("g_per_l", "g/L") if weighed else ("mmol_per_l", "mmol/L")
        what = content["substance"] if weighed else content["particle"]
        low, high = content.get("ranges", {}).get(key, (None, None))
        row = (fluid.id, fluid.name, what, "substance" if weighed else "particle", content[key])
        yield (*row, unit, low, high, content.get("reasons", {}).get(key))


def _containers(handbook: Handbook) -> Sheet:
    """A row a size: what the whole of it holds."""
    scaling = [q for q in handbook.quantities if QUANTITY_BY_ID[q].scales]
    figures = tuple(_figures(q, QUANTITY_BY_ID[q].container_unit) for q in scaling)
    rows = tuple(
        (fluid.id, fluid.name, size["kind"], size["volume_ml"], *size["amounts"].values())
        for fluid in handbook.fluids
        for size in document.containers(handbook, fluid)
    )
    columns = (*FLUID, Column("container"), Column("volume [mL]", decimals=0), *figures)
    return Sheet("containers", columns, rows)


def _unknown(handbook: Handbook) -> Sheet:
    """A row a figure that is missing: why, and between what it lies where that is declared."""
    limits = (Column("low", decimals=1), Column("high", decimals=1), Column("unit"))
    columns = (ID, Column("quantity", MIDDLE), Column("reason", WIDE), *limits)
    rows = (row for fluid in handbook.fluids for row in _unknown_rows(handbook, fluid))
    return Sheet("unknown", columns, tuple(rows))


def _unknown_rows(handbook: Handbook, fluid: Fluid) -> Iterator[tuple[Cell, ...]]:
    ranges = document.ranges(handbook, fluid)
    for quantity, reason in document.reasons(handbook, fluid).items():
        known = QUANTITY_BY_ID[quantity]
        row = (fluid.id, known.label, reason)
        yield (*row, *ranges.get(quantity, (None, None)), known.unit)


def _cautions(handbook: Handbook) -> Sheet:
    """A row a caution that a fluid raises, most severe first."""
    columns = (ID, Column("signal word"), Column("caution", WIDE), Column("why", WIDE))
    rows = tuple(
        (fluid.id, caution.signal, caution.imperative, caution.text)
        for fluid in handbook.fluids
        for caution in handbook.judgements[fluid.id].cautions
    )
    return Sheet("cautions", columns, rows)


def _audit(handbook: Handbook) -> Sheet:
    """A row a printed figure beside ours."""
    figures = (Column("printed", MIDDLE), Column("computed", decimals=2), Column("unit"))
    words = (Column("verdict"), Column("explanation", WIDE), Column("source", MIDDLE))
    columns = (ID, Column("quantity", MIDDLE), *figures, *words)
    rows = (_audit_row(line) for fluid in handbook.fluids for line in handbook.audit[fluid.id])
    return Sheet("label audit", columns, tuple(rows))


def _audit_row(line: AuditLine) -> tuple[Cell, ...]:
    figures = (line.declared, line.computed, DECLARABLE[line.quantity].unit)
    return (line.fluid, line.quantity, *figures, line.verdict, line.explanation, line.source)


def _sources(handbook: Handbook) -> Sheet:
    """A row a place in a source that an entry cites."""
    who = (Column("source", MIDDLE), Column("title", WIDE), Column("body or authors", MIDDLE))
    where = (Column("year", decimals=0), Column("at", MIDDLE), Column("seen"), Column("on"))
    rows = (row for fluid in handbook.fluids for row in _source_rows(handbook, fluid))
    return Sheet("sources", (ID, *who, *where), tuple(rows))


def _source_rows(handbook: Handbook, fluid: Fluid) -> Iterator[tuple[Cell, ...]]:
    for source in parts.cited_sources(fluid, handbook.catalogue):
        who = (source["id"], source["title"], source.get("body") or source.get("authors"))
        for place in source["cited"]:
            row = (fluid.id, *who, source.get("year"))
            yield (*row, place["at"], place["seen"], place["on"])
