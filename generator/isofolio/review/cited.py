"""What vouches for an entry: citations of its figures, and the stamp of those who checked it."""

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from isofolio.entries.fluids import Fluid
from isofolio.entries.scalars import Amount
from isofolio.entries.stamps import state
from isofolio.review.edits import Edit
from isofolio.review.effects import Effect


def uncited(edit: Edit) -> Iterator[Effect]:
    """A declared figure that changes while its citation and the stamp stay as they were."""
    if edit.before is None or edit.after is None or _stamp_is_new(edit):
        return
    for what, (before, cite) in _declared(edit.before).items():
        after, now = _declared(edit.after).get(what, (None, None))
        if after is not None and after.text != before.text and cite == now:
            yield Effect("declared", edit.entry, what, before.text, after.text)


def _stamp_is_new(edit: Edit) -> bool:
    before, after = getattr(edit.before, "review", None), getattr(edit.after, "review", None)
    return after is not None and before != after


def _declared(record: BaseModel) -> dict[str, tuple[Amount, Any]]:
    """Every figure that an entry copies from a source, with its citation, by what it is."""
    found: dict[str, tuple[Amount, Any]] = {}
    if isinstance(record, Fluid):
        for content in record.contents:
            what = str(content.substance or content.particle)
            found[what] = (content.amount, record.contents_cite)
        for group in record.declared:
            for name, value in group.values.items():
                found[f"{name} in {group.source}, {group.at}"] = (value, (group.seen, group.on))
    for field in ("value", "interval"):
        if isinstance(getattr(record, field, None), Amount):
            found[field] = (getattr(record, field), getattr(record, "cite", None))
    return found


def stamp_lost(edit: Edit) -> Iterator[Effect]:
    """A stamp that no longer covers what it was set on."""
    stamped = [getattr(one, "review", None) is not None for one in (edit.before, edit.after)]
    if not all(stamped):
        return
    before, after = state(edit.before), state(edit.after)
    if before != after and after == "draft":
        kept = edit.after.review.state != "draft"
        why = "it covers another text than this" if kept else "set back"
        yield Effect("stamp", edit.entry, "", before, "draft", why)
