"""The tables of the report that are about entries and where they stand."""

from collections.abc import Iterator, Sequence

from isofolio.review.comparison import Comparison
from isofolio.review.edits import ADDED, CHANGED, REMOVED, RENAMED, RETIRED, Edit, FieldChange
from isofolio.review.markdown import code, escaped
from isofolio.review.phrases import ARROW, subject

ACTIONS = (ADDED, RENAMED, CHANGED, RETIRED, REMOVED)
# Characters of an edited field, and how many of them stand before the place where the two part.
WORDS_TOLD, LEAD = 80, 20
# Characters of what is told of a new fluid.
INTRODUCED = 400


def entries(comparison: Comparison) -> Iterator[list[str]]:
    """A row an edit, with the fields that were edited."""
    for edit in sorted(comparison.edits, key=lambda one: ACTIONS.index(one.action)):
        fields = "; ".join(_field(one) for one in edit.fields)
        fields = fields or escaped(comparison.introduced.get(edit.entry, ""), INTRODUCED)
        yield [edit.action, _entry(comparison, edit), fields or "–"]


def _entry(comparison: Comparison, edit: Edit) -> str:
    was = f" (was {code(edit.old)})" if edit.old != edit.id else ""
    return f"{subject(comparison, edit.entry)}, {code(edit.file)}{was}"


def _field(change: FieldChange) -> str:
    before, after = (escaped(one, WORDS_TOLD) for one in from_where_they_part(change))
    told = f"{before or 'none'} {ARROW} {after or 'none'}" if before or after else "another order"
    return f"{code(change.field)}: {told}"


def from_where_they_part(change: FieldChange) -> tuple[str, str]:
    """Both texts of a field, without what a long one begins with on both sides.

    >>> from_where_they_part(FieldChange("text", "so " * 40 + "it is", "so " * 40 + "it was"))
    ('… so so so so so so it is', '… so so so so so so it was')
    """
    before, after = change.before, change.after
    if max(len(before), len(after)) <= WORDS_TOLD:
        return before, after
    apart = (n for n, (old, new) in enumerate(zip(before, after, strict=False)) if old != new)
    same = next(apart, min(len(before), len(after)))
    start = before.rfind(" ", 0, max(0, same - LEAD)) + 1
    return (f"… {before[start:]}", f"… {after[start:]}") if start else (before, after)


def addresses(comparison: Comparison) -> Iterator[list[str]]:
    """A row an address that moves, goes or comes; every link to the first two is broken."""
    for one in (f for f in comparison.findings if f.effect.kind == "address"):
        moved = one.effect.after != ""
        yield ["moved" if moved else "gone", code(one.effect.before), code(one.effect.after) or "–"]
    for address in _worth_telling(comparison, comparison.moves.gone):
        yield ["gone", code(address), "–"]
    for address in _worth_telling(comparison, comparison.moves.come):
        yield ["new", "–", code(address)]


def _worth_telling(comparison: Comparison, addresses: Sequence[str]) -> list[str]:
    """Without the places on pages that are named after an entry which comes, goes or moves, its
    card, and the places of cautions on the pages of fluids: all of these are told already."""
    edits = [e for e in comparison.edits if e.action in {ADDED, RENAMED, REMOVED}]
    ids = [name for edit in edits for name in (edit.old, edit.id)]
    return [a for a in addresses if not _is_told(a, ids)]


def _is_told(address: str, ids: Sequence[str]) -> bool:
    page, mark, anchor = address.partition("#")
    if page.startswith("cards/") or anchor.startswith("caution-"):
        return True
    return bool(mark) and any(name in anchor for name in ids)
