"""No dose and no rate without who says so and when: situations, mixing, equipment.

A dose or a rate here is an amount for a kilogram, a minute, an hour or a day. It stands in a line
with a citation, and the source has a year, or the line says that the text is undated.
"""

import re
from collections.abc import Iterator

from isofolio.entries.equipment import Equipment
from isofolio.entries.mixing import Mixing
from isofolio.entries.problems import Problem, quoted
from isofolio.entries.reading import Catalogue, Reading
from isofolio.entries.records import Citation
from isofolio.entries.situations import PublishedTable, Situation
from isofolio.entries.tree import Path

Finding = Iterator[Problem]

UNDATED = "undated"
DOSE = re.compile(
    r"\d[\d.]*(?: to [\d.]+)? ?(?:µg|mg|g|mmol|mEq|mOsm|mL|L|units?|kcal) ?(?:of [a-z]+ )?"
    r"(?:/kg|/h\b|/min|/day|(?:a|in an?|per) ?(?:kg|kilogram|minute|hour|day)\b|an hour)"
)

Line = tuple[Path, str, Citation | None, bool]
"""Where a text stands, the text, who says so, and whether the line itself gives a year."""


def doses_have_source_and_year(reading: Reading) -> Finding:
    """A problem for each dose or rate that nobody is named for, or no year."""
    catalogue = reading.catalogue
    for situation in catalogue.situations.values():
        yield from _judged(reading, f"situations/{situation.id}.yml", _of_situation(situation))
    for entry in catalogue.mixing.values():
        yield from _judged(reading, f"mixing/{entry.id}.yml", _of_mixing(catalogue, entry))
    for piece in catalogue.equipment.values():
        yield from _judged(reading, f"equipment/{piece.id}.yml", _of_equipment(piece))


def mixing_has_a_source(reading: Reading) -> Finding:
    """A pair that nobody looked at is no entry: a blank is told as "not looked up"."""
    for entry in reading.catalogue.mixing.values():
        if not entry.cites:
            fix = "Name the source that looked at this pair, or delete the entry."
            where: Path = ("cites",)
            message = "no source looked at this pair"
            yield reading.problem(f"mixing/{entry.id}.yml", where, message, fix)


def _judged(reading: Reading, file: str, lines: Iterator[Line]) -> Finding:
    for path, text, cite, dated in lines:
        found = DOSE.search(text)
        if found is None or (cite is not None and cite.seen == "arithmetic"):
            continue
        told = f"the dose or rate {quoted(found[0])}"
        if cite is None:
            fix = "Take it out, or write it into a line that has a cite."
            yield reading.problem(file, path, f"{told} has no source", fix)
        elif not (dated or UNDATED in text + cite.at or _year(reading.catalogue, cite)):
            fix = f"Give the year of the source, or say {UNDATED} in the line."
            yield reading.problem(file, path, f"{told} has no year", fix)


def _year(catalogue: Catalogue, cite: Citation) -> bool:
    source = catalogue.sources.get(cite.source or "")
    return source is not None and source.year is not None


def _of_situation(one: Situation) -> Iterator[Line]:
    for key in ("summary", "first", "replaced"):
        yield (key,), getattr(one, key) or "", None, False
    for place, candidate in enumerate(one.fluids):
        yield ("fluids", place, "why"), candidate.why, None, False
    for place, text in enumerate(one.call):
        yield ("call", place), text, None, False
    if one.trap is not None:
        yield ("trap", "text"), one.trap.text, one.trap.cite, False
    for place, asked in enumerate(one.compare):
        yield ("compare", place, "question"), asked.question, asked.cite, False
    yield from _of_tables("tables", one.tables)
    for key, lines in (("guidance", one.guidance), ("disagree", one.disagree)):
        for place, line in enumerate(lines):
            yield (key, place, "text"), line.text, line.cite, line.year is not None


def _of_tables(key: str, tables: list[PublishedTable]) -> Iterator[Line]:
    """Rows of published tables; their columns may name the unit, so a row is read with them."""
    for place, table in enumerate(tables):
        yield (key, place, "caption"), table.caption, None, False
        for number, row in enumerate(table.rows):
            for column, cell in enumerate(row.cells):
                said = " ".join((cell, *([UNDATED] if UNDATED in " ".join(row.cells) else [])))
                yield (key, place, "rows", number, "cells", column), said, row.cite, False


def _of_mixing(catalogue: Catalogue, entry: Mixing) -> Iterator[Line]:
    """The whole entry is backed by its sources: by one with a year, where there is one."""
    dated = [cite for cite in entry.cites if _year(catalogue, cite)]
    backing = next(iter(dated or entry.cites), None)
    for key in ("what_happens", "tested", "instead", "note"):
        yield (key,), getattr(entry, key) or "", backing, False
    for place, view in enumerate(entry.disagree):
        yield ("disagree", place, "text"), view.text, view.cite, False


def _of_equipment(piece: Equipment) -> Iterator[Line]:
    yield ("summary",), piece.summary, None, False
    for place, part in enumerate(piece.parts):
        yield ("parts", place, "text"), part.text, part.cite, False
    for key in ("how", "facts", "goes_wrong", "disagree"):
        for place, note in enumerate(getattr(piece, key)):
            yield (key, place, "text"), note.text, note.cite, False
    for place, need in enumerate(piece.needed_by):
        yield ("needed_by", place, "why"), need.why, need.cite, False
    yield from _of_tables("figures", piece.figures)
