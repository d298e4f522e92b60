"""What a change does that the entries themselves show, without any computing.

It works where nothing can be computed too: on entries with problems, on a catalogue of long ago.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence

from isofolio.entries.fluids import Content, Fluid
from isofolio.entries.lists import Limit
from isofolio.entries.scalars import Amount
from isofolio.review.cited import stamp_lost, uncited
from isofolio.review.edits import ADDED, LISTED, REMOVED, RENAMED, Edit, in_words
from isofolio.review.effects import Effect
from isofolio.review.figures import JUMP, relative_size
from isofolio.review.judged import said
from isofolio.wording.addresses import CAUTIONS, CONFUSIONS, GLOSSARY, SOURCES, entry_address

# Fields that decide what a substance or an ion becomes in every fluid that holds it.
DECISIVE = {
    "substances": ("formula", "hydrate", "colloid", "releases", "base", "acid"),
    "particles": ("charge", "strong", "fate", "counts_as"),
}
# Entries that are a place on one page; others have a page of their own.
ON_ONE_PAGE = {
    "cautions": CAUTIONS,
    "glossary": GLOSSARY,
    "confusions": CONFUSIONS,
    "sources": SOURCES,
}
WITH_PAGE = ("fluids", "substances", "situations", "comparisons", "mixing", "equipment")


def entered_effects(edits: Sequence[Edit], limits: Mapping[str, Limit]) -> list[Effect]:
    """Every effect of every edit. limits: those after the change, for a hospital's own."""
    found = [effect for look in LOOKS for edit in edits for effect in look(edit)]
    stock = [edit for edit in edits if edit.kind == "stock"]
    return found + [effect for edit in stock for effect in _stock_limits(edit, limits)]


def _recipe(edit: Edit) -> Iterator[Effect]:
    """What is weighed in: another substance or ion, one more, one less, or another amount."""
    if not (isinstance(edit.before, Fluid) and isinstance(edit.after, Fluid)):
        return
    before, after = _by_what(edit.before.contents), _by_what(edit.after.contents)
    gone = [name for name in before if name not in after]
    come = [name for name in after if name not in before]
    for number in range(max(len(gone), len(come))):
        old = _told(before, gone[number]) if number < len(gone) else ""
        new = _told(after, come[number]) if number < len(come) else ""
        what = come[number] if number < len(come) else gone[number]
        yield Effect("recipe", edit.entry, what, old, new, loud=True)
    for name in (name for name in before if name in after):
        size, loud = _step(before[name].amount, after[name].amount)
        if size:
            told = _told(before, name), _told(after, name)
            yield Effect("recipe", edit.entry, name, *told, size, loud)


def _by_what(contents: Sequence[Content]) -> dict[str, Content]:
    return {str(one.substance or one.particle): one for one in contents}


def _told(contents: Mapping[str, Content], name: str) -> str:
    return f"{name.replace('-', ' ')} {contents[name].amount.text}"


def _step(before: Amount, after: Amount) -> tuple[str, bool]:
    """The size of a step between two amounts, "" for none; and whether it is a jump."""
    same = ("state", "low", "high", "unit", "per_millilitres")
    if all(getattr(before, name) == getattr(after, name) for name in same):
        return "", False
    comparable = before.unit == after.unit and before.per_millilitres == after.per_millilitres
    if not (comparable and before.low and after.low and before.state == after.state == "exact"):
        return "another form", True
    jump = abs(after.low - before.low) >= JUMP * before.low * (1 - 1e-9)
    return relative_size(before.low, after.low), jump


def _role_and_status(edit: Edit) -> Iterator[Effect]:
    for field in ("role", "status"):
        before, after = getattr(edit.before, field, None), getattr(edit.after, field, None)
        if edit.kind == "fluids" and before and after and before != after:
            yield Effect(field, edit.entry, "", before, after, loud=True)


def _substance(edit: Edit) -> Iterator[Effect]:
    """What a substance is or an ion does."""
    if edit.before is None or edit.after is None:
        return
    for field in DECISIVE.get(edit.kind, ()):
        before, after = getattr(edit.before, field), getattr(edit.after, field)
        if before != after:
            told = in_words(before) or "none", in_words(after) or "none"
            yield Effect("substance", edit.entry, field, *told, loud=True)


def _limit(edit: Edit) -> Iterator[Effect]:
    """A limit that lets more through, that is gone, or that is held against something else."""
    if edit.kind != "limits" or edit.before is None:
        return
    before = edit.before.value.text
    if edit.after is None:
        yield Effect("limit", edit.entry, "", before, "no limit", "removed", loud=True)
        return
    moved = [f for f in ("quantity", "stricter") if _differs(edit, f)]
    for field in moved:
        told = getattr(edit.before, field), getattr(edit.after, field)
        yield Effect("limit", edit.entry, field, *told, "another rule", loud=True)
    size, _ = _step(edit.before.value, edit.after.value)
    if size:
        loud = loosened(edit.before.stricter, edit.before.value, edit.after.value)
        told = before, edit.after.value.text
        size = f"{'loosened' if loud else 'stricter'}, {size}"
        yield Effect("limit", edit.entry, "", *told, size, loud)


def _differs(edit: Edit, field: str) -> bool:
    return bool(getattr(edit.before, field) != getattr(edit.after, field))


def loosened(stricter: str, before: Amount, after: Amount) -> bool:
    """Whether a limit lets more through; one that is no longer one figure does.

    >>> from isofolio.entries.scalars import parse_amount as amount
    >>> loosened("lower", amount("40 mmol/L"), amount("60 mmol/L"))
    True
    """
    if before.low is None or after.low is None or before.unit != after.unit:
        return True
    return after.low > before.low if stricter == "lower" else after.low < before.low


def _stock_limits(edit: Edit, limits: Mapping[str, Limit]) -> Iterator[Effect]:
    """A hospital's own limit that is loosened or gone."""
    before = {str(one.limit): one.value for one in edit.before.limits} if edit.before else {}
    after = {str(one.limit): one.value for one in edit.after.limits} if edit.after else {}
    for name, value in before.items():
        stricter = limits[name].stricter if name in limits else "lower"
        if name not in after:
            yield Effect("limit", edit.entry, name, value.text, "no limit", "removed", loud=True)
        elif loosened(stricter, value, after[name]):
            told = value.text, after[name].text
            yield Effect("limit", edit.entry, name, *told, "loosened", loud=True)


def _caution_gone(edit: Edit) -> Iterator[Effect]:
    """A caution that is removed, whether any fluid raised it or not."""
    if edit.kind == "cautions" and edit.action == REMOVED:
        kind = "danger lost" if edit.before.signal == "danger" else "caution lost"
        yield Effect(kind, edit.entry, edit.id, said(edit.before), "", loud=True)


def _not_instead(edit: Edit) -> Iterator[Effect]:
    """What an alternative is not for, told as a warning and no longer told so."""
    if edit.kind == "not-instead" and edit.before is not None and edit.before.loud:
        if edit.after is None:
            said = f"WARNING: {edit.before.text}"
            yield Effect("caution lost", edit.entry, edit.id, said, "", loud=True)
        elif not edit.after.loud:
            yield Effect("signal word", edit.entry, edit.id, "WARNING", "told quietly", loud=True)


def _notes(edit: Edit) -> Iterator[Effect]:
    """Sentences about giving that go, where not as many come for them: one reworded is not lost."""
    if not (isinstance(edit.before, Fluid) and isinstance(edit.after, Fluid)):
        return
    before, after = ([note.text for note in fluid.giving] for fluid in (edit.before, edit.after))
    lost = [text for text in before if text not in after]
    if len(lost) > len([text for text in after if text not in before]):
        for text in lost:
            yield Effect("note lost", edit.entry, "", text, "", loud=True)


def _mixing(edit: Edit) -> Iterator[Effect]:
    """What a pair was found to do, and in which way of mixing."""
    if edit.kind != "mixing" or edit.action in {ADDED, RENAMED}:
        return
    for field in ("finding", "mode"):
        before = getattr(edit.before, field)
        after = "not looked up" if edit.after is None else getattr(edit.after, field)
        if before != after and (edit.after is not None or field == "finding"):
            yield Effect("mixing", edit.entry, field, before, after, loud=True)


def _address(edit: Edit) -> Iterator[Effect]:
    """An address that goes or moves: every link to it is broken."""
    if edit.action in {REMOVED, RENAMED} and edit.kind not in LISTED:
        before = address_of(edit.kind, edit.old)
        after = address_of(edit.kind, edit.id) if edit.action == RENAMED else ""
        if before:
            yield Effect("address", edit.entry, "", before, after, loud=True)


def address_of(kind: str, identifier: str) -> str:
    """Where an entry stands in the handbook; "" where it has no place of its own."""
    if kind in ON_ONE_PAGE:
        return f"{ON_ONE_PAGE[kind]}#{identifier}"
    return entry_address(kind, identifier) if kind in WITH_PAGE else ""


LOOKS: tuple[Callable[[Edit], Iterator[Effect]], ...] = (
    _recipe,
    _role_and_status,
    _substance,
    _limit,
    _caution_gone,
    _not_instead,
    _notes,
    _mixing,
    _address,
    uncited,
    stamp_lost,
)
