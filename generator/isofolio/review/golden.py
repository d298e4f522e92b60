"""Golden tables: every quantity and finding as text, so that a diff shows what a change does.

The tables stand in tests/golden/; a test compares them with what the catalogue gives now, and
`make golden` writes them anew. Six significant digits: more would differ between processors.
"""

from collections.abc import Iterator, Sequence

from isofolio.handbook import Handbook

DIGITS = 6
SHOWN_ALTERNATIVES = 3


def golden_tables(handbook: Handbook) -> dict[str, str]:
    """The golden tables by file name, each line a fluid or a fact of one."""
    return {
        "quantities.tsv": _table(quantities(handbook)),
        "findings.tsv": _table(findings(handbook)),
        "audit.tsv": _table(audit(handbook)),
    }


def quantities(handbook: Handbook) -> Iterator[Sequence[str]]:
    """A row a fluid and quantity: figure, or the reason for none; zeros are left out."""
    yield ("fluid", "quantity", "figure", "reason")
    for fluid in handbook.fluids:
        for quantity in handbook.quantities:
            value = handbook.value(fluid.id, quantity)
            if value.number != 0:
                figure = "" if value.number is None else f"{value.number:.{DIGITS}g}"
                yield (fluid.id, quantity, figure, value.reason)


def findings(handbook: Handbook) -> Iterator[Sequence[str]]:
    """A row a fluid and judgement."""
    yield ("fluid", "finding", "what", "because")
    for fluid in handbook.fluids:
        judgement = handbook.judgements[fluid.id]
        yield (fluid.id, "vein", judgement.vein.word, judgement.vein.because)
        yield (fluid.id, "blood", judgement.blood.text, judgement.blood.caution)
        yield (fluid.id, "body", judgement.body.word, judgement.body.because)
        for name, word in judgement.classes.items():
            yield (fluid.id, name, word or "", "")
        for caution in judgement.cautions:
            yield (fluid.id, "caution", caution.id, caution.signal)
        scored = [one for one in handbook.alternatives.get(fluid.id, ()) if one.score is not None]
        for one in scored[:SHOWN_ALTERNATIVES]:
            yield (fluid.id, "alternative", one.id, f"{one.score:.{DIGITS}g} {one.word}")


def audit(handbook: Handbook) -> Iterator[Sequence[str]]:
    """A row a declared value."""
    yield ("fluid", "quantity", "declared", "computed", "verdict", "source")
    for fluid in handbook.fluids:
        for line in handbook.audit.get(fluid.id, ()):
            figure = "" if line.computed is None else f"{line.computed:.{DIGITS}g}"
            yield (fluid.id, line.quantity, line.declared, figure, line.verdict, line.source)


def _table(rows: Iterator[Sequence[str]]) -> str:
    return "".join("\t".join(_plain(cell) for cell in row) + "\n" for row in rows)


def _plain(cell: str) -> str:
    """No-break spaces as plain ones: a golden table is read in a diff."""
    return cell.replace("\u00a0", " ").replace("\u202f", " ")
