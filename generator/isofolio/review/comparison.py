"""Two catalogues compared: what was edited, what that does, who announced it, who checked it."""

import difflib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from isofolio.entries.problems import Problem
from isofolio.entries.stamps import state
from isofolio.handbook import Handbook
from isofolio.review.announced import announcements, is_announced, unmet
from isofolio.review.causes import Causes, causes_of, renamings
from isofolio.review.edits import Edit, edits_between
from isofolio.review.effects import LOUD, Effect, both_of
from isofolio.review.entered import entered_effects
from isofolio.review.figures import hazard_rank
from isofolio.review.judged import computed_effects, introduced
from isofolio.review.sides import Side, computed
from isofolio.vocabulary.terms import CHANGE_KINDS, SIGNAL_WORDS

DOUBLE_CHECKED = "double-checked"

Addresses = Mapping[str, frozenset[str]]
"""Every page of a handbook with its anchors."""


@dataclass(frozen=True)
class Unread:
    """A file that today's program does not read on one side, so that it is compared as text.

    side: which; lines: how many lines differ between the two texts, None where one is missing.
    """

    file: str
    side: str
    problem: Problem
    lines: int | None


@dataclass(frozen=True)
class Finding:
    """An effect, the entries whose edit explains it, and whether it was announced (None: this
    change announces nothing)."""

    effect: Effect
    causes: tuple[str, ...]
    announced: bool | None


@dataclass(frozen=True)
class Moves:
    """Addresses that come or go besides those of renamed and removed entries."""

    come: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()


@dataclass(frozen=True)
class Comparison:
    """Everything a report tells.

    problems: those of the new side; borrowed: lists of one side that stood in for the other's;
    without_figures: fluids that load on a side where they cannot be computed; introduced: what a
    new fluid is, in words; unmet: announced and not happened; unchecked: entries with a finding of
    the first three levels and no renewed double check; layout: files whose text differs and whose
    entry does not; names: of entries, by address.
    """

    before: str
    after: str
    unread: tuple[Unread, ...]
    problems: tuple[Problem, ...]
    borrowed: tuple[str, ...]
    without_figures: tuple[str, ...]
    edits: tuple[Edit, ...]
    findings: tuple[Finding, ...]
    introduced: Mapping[str, str]
    unmet: tuple[str, ...]
    unchecked: tuple[str, ...]
    moves: Moves
    layout: tuple[str, ...]
    names: Mapping[str, str]

    @property
    def loud(self) -> bool:
        """Whether anything in it asks for a second look."""
        return bool(self.unread) or any(is_safety_relevant(one) for one in self.findings)


def is_safety_relevant(finding: Finding) -> bool:
    """Whether a finding stands in the first three levels: loud, or not announced."""
    return finding.effect.level <= LOUD or finding.announced is False


def compare(
    before: Side,
    after: Side,
    addresses: tuple[Addresses, Addresses] | None = None,
) -> Comparison:
    """Compare two sides. addresses: of the pages of both, where they could be built."""
    edits = edits_between(before, after)
    start, borrowed = computed(before, after)
    end, also_borrowed = computed(after, before)
    effects = entered_effects(edits, after.reading.catalogue.limits)
    causes: Causes = {}
    if start is not None and end is not None:
        seen = computed_effects(both_of(start, end, renamings(edits)))
        causes = causes_of(seen, edits, (before, after), start)
        effects += seen
    findings = _findings(effects, causes, before, after)
    unread = tuple(_unread(before, after))
    return Comparison(
        before=before.label,
        after=after.label,
        unread=unread,
        problems=after.problems,
        borrowed=(*borrowed, *also_borrowed),
        without_figures=tuple(_without_figures((before, start), (after, end))),
        edits=edits,
        findings=findings,
        introduced={} if end is None else introduced(edits, end),
        unmet=tuple(unmet(announcements(before, after), effects)),
        unchecked=tuple(_unchecked(findings, unread, before, after)),
        moves=_moves(addresses, findings),
        layout=tuple(_layout(before, after, edits)),
        names=_names(before, after),
    )


def _findings(
    effects: Sequence[Effect], causes: Causes, before: Side, after: Side
) -> tuple[Finding, ...]:
    announced = announcements(before, after)
    found = [
        Finding(
            effect,
            causes.get(effect, (effect.entry,)),
            is_announced(effect, announced) if announced else None,
        )
        for effect in effects
    ]
    return tuple(sorted(found, key=lambda one: rank(one.effect)))


def rank(effect: Effect) -> tuple[int, int, int, str, str]:
    """The order of a report: level, kind, hazard; then by name, so that two runs are alike."""
    kind = CHANGE_KINDS.index(effect.kind)
    return effect.level, kind, _within_kind(effect), effect.entry, effect.what


def _within_kind(effect: Effect) -> int:
    """Among cautions the more severe first, among figures the more hazardous."""
    word = (effect.before or effect.after).partition(":")[0].lower()
    if word in SIGNAL_WORDS and effect.kind != "signal word":
        return SIGNAL_WORDS.index(word)
    return hazard_rank(effect.what)


def _without_figures(*sides: tuple[Side, Handbook | None]) -> Iterator[str]:
    """Fluids that load and cannot be computed, for a problem of their own or of a list."""
    for side, handbook in sides:
        there = handbook.catalogue.fluids if handbook is not None else {}
        yield from (f"fluids/{name}" for name in side.records["fluids"] if name not in there)


def _unread(before: Side, after: Side) -> Iterator[Unread]:
    for side, other in ((before, after), (after, before)):
        for file, problem in sorted(side.unread.items()):
            lines = _lines_apart(side.text(file), other.text(file))
            yield Unread(file, side.label, problem, lines)


def _lines_apart(one: str | None, other: str | None) -> int | None:
    if one is None or other is None:
        return None
    apart = difflib.ndiff(one.splitlines(), other.splitlines())
    return sum(line[:2] in {"- ", "+ "} for line in apart)


def _unchecked(
    findings: Sequence[Finding], unread: Sequence[Unread], before: Side, after: Side
) -> Iterator[str]:
    """What nobody has double-checked since it changed, each once.

    A limit or a substance carries no stamp: it is checked where every fluid that it touches is; one
    that touches none cannot be shown to be checked.
    """
    relevant = [one for one in findings if is_safety_relevant(one)]
    asked = {one.effect.entry for one in relevant}
    asked |= {one.file.removesuffix(".yml") for one in unread}
    touching = {cause for f in relevant if _is_fluid(f.effect.entry) for cause in f.causes}
    for entry in sorted(asked):
        by_its_fluids = not _is_fluid(entry) and entry in touching
        if not by_its_fluids and not _is_checked_anew(entry, before, after):
            yield entry


def _is_fluid(entry: str) -> bool:
    return entry.startswith("fluids/")


def _is_checked_anew(entry: str, before: Side, after: Side) -> bool:
    """Whether an entry carries a valid double check that the old side does not carry."""
    kind, _, name = entry.partition("/")
    record = after.records.get(kind, {}).get(name)
    if record is None or not hasattr(record, "review") or state(record) != DOUBLE_CHECKED:
        return False
    old = before.records.get(kind, {}).get(name)
    return old is None or old.review != record.review


def _moves(addresses: tuple[Addresses, Addresses] | None, findings: Sequence[Finding]) -> Moves:
    if addresses is None:
        return Moves()
    told = {a for f in findings for a in (f.effect.before, f.effect.after)}
    before, after = (_all_of(one) for one in addresses)
    return Moves(
        come=tuple(sorted(_without_anchors_of_pages(after - before) - told)),
        gone=tuple(sorted(_without_anchors_of_pages(before - after) - told)),
    )


def _all_of(addresses: Addresses) -> set[str]:
    anchors = {f"{page}#{anchor}" for page, inside in addresses.items() for anchor in inside}
    return anchors | set(addresses)


def _without_anchors_of_pages(addresses: set[str]) -> set[str]:
    """A page that comes or goes takes its anchors with it: it is told once."""
    return {a for a in addresses if "#" not in a or a.partition("#")[0] not in addresses}


def _layout(before: Side, after: Side, edits: Sequence[Edit]) -> Iterator[str]:
    """Files whose text differs while their entries do not: comments, order, layout."""
    told = {edit.file for edit in edits} | set(before.unread) | set(after.unread)
    for file in sorted(before.reading.trees.keys() & after.reading.trees.keys()):
        announcement = file.startswith("expected/")
        if before.text(file) != after.text(file) and file not in told and not announcement:
            yield file


def _names(before: Side, after: Side) -> Mapping[str, str]:
    return {
        f"{kind}/{name}": str(getattr(record, "name", name))
        for side in (before, after)
        for kind, records in side.records.items()
        for name, record in records.items()
    }
