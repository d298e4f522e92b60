"""The tables of the report: every finding, once, in the order in which one would ask."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from isofolio.review.comparison import Comparison, Finding
from isofolio.review.markdown import code, escaped, listed, table
from isofolio.review.phrases import (
    ROWS_TOLD,
    grouped,
    ids,
    label,
    on,
    quantity_name,
    step,
    subject,
)
from isofolio.review.report_entries import addresses, entries
from isofolio.wording.figures import typeset

# More rows than these are counted: a pull request is read by a person. The JSON holds all.
MOST_ROWS = 60
UNCITED = {"declared": "the citation and the stamp are the old ones", "stamp": ""}


def sections(comparison: Comparison) -> list[str]:
    """Every section that has a row, under its heading."""
    lines: list[str] = []
    for heading, head, rows_of in SECTIONS:
        rows = list(rows_of(comparison))
        if rows:
            lines += [f"## {heading}", "", *table(head, rows[:MOST_ROWS])]
            rest = len(rows) - MOST_ROWS
            lines += [f"\n… and {rest} more rows: `--form json` holds all."] if rest > 0 else []
            lines.append("")
    return lines + _notes(comparison)


def _of(comparison: Comparison, wanted: Callable[[Finding], bool]) -> list[Finding]:
    return [one for one in comparison.findings if wanted(one)]


def _flips(comparison: Comparison) -> Iterator[list[str]]:
    """Words and warnings, then verdicts; figures and addresses have tables of their own."""
    elsewhere = {"figure", "address", "audit"}
    loud = _of(comparison, lambda one: one.effect.loud and one.effect.kind not in elsewhere)
    yield from _grouped_rows(comparison, loud)
    yield from _verdicts(comparison)


def _verdicts(comparison: Comparison) -> Iterator[list[str]]:
    """Declared values by how their verdict flips: of a fluid's own edit each by name, of an edit
    that touches many fluids their number in each."""
    groups: dict[tuple[str, ...], list[Finding]] = {}
    for one in _of(comparison, lambda f: f.effect.kind == "audit"):
        effect = one.effect
        own = effect.entry if effect.entry in one.causes else ""
        groups.setdefault((own, effect.before, effect.after, *one.causes), []).append(one)
    for (own, before, after, *_), same in groups.items():
        said = _by_name(comparison, own, same) if own else _by_number(comparison, same)
        yield ["label audit", before, after, said, _because(same)]


def _by_name(comparison: Comparison, entry: str, found: Sequence[Finding]) -> str:
    values = listed([escaped(quantity_name(one.effect.what)) for one in found], ROWS_TOLD)
    return f"{subject(comparison, entry)}: {values}"


def _by_number(comparison: Comparison, found: Sequence[Finding]) -> str:
    numbers = Counter(one.effect.entry for one in found)
    said = [f"{subject(comparison, entry)} ({number})" for entry, number in numbers.items()]
    return listed(said, ROWS_TOLD)


def _gained(comparison: Comparison) -> Iterator[list[str]]:
    found = _of(comparison, lambda one: one.effect.kind == "caution gained")
    for effect, same in grouped(found).items():
        entries = [one.effect.entry for one in same]
        said = escaped(typeset(effect.after))
        yield [said, on(comparison, entries, ROWS_TOLD), _because(same)]


def _beside(comparison: Comparison) -> Iterator[list[str]]:
    found = _of(comparison, lambda one: one.effect.kind == "plasma")
    for row in _grouped_rows(comparison, found):
        yield [row[0].removeprefix("beside plasma, "), *row[1:]]


def _grouped_rows(comparison: Comparison, found: Sequence[Finding]) -> Iterator[list[str]]:
    for effect, same in grouped(found).items():
        size = f" ({escaped(effect.size)})" if effect.size else ""
        yield [
            label(comparison, effect).rstrip(","),
            escaped(typeset(effect.before)) or "–",
            (escaped(typeset(effect.after)) or "–") + size,
            on(comparison, [one.effect.entry for one in same], ROWS_TOLD),
            _because(same),
        ]


def _because(found: Sequence[Finding]) -> str:
    """The edits that explain some findings; nothing where the entry's own edit does."""
    causes = {cause for one in found for cause in one.causes if cause != one.effect.entry}
    unexplained = any(not one.causes for one in found)
    said = [*map(code, sorted(causes)), *(["several edits together"] if unexplained else [])]
    return listed(said, 3)


def _figures(comparison: Comparison) -> Iterator[list[str]]:
    """Fluid by fluid, loud ones first; in each the most hazardous figure first."""
    found = _of(comparison, lambda one: one.effect.kind == "figure" and not _is_shared(one))
    places = {one.effect.entry: place for place, one in reversed(list(enumerate(found)))}
    last = ""
    for one in sorted(found, key=lambda f: places[f.effect.entry]):
        effect = one.effect
        size = f"**{escaped(effect.size)}**" if effect.loud else escaped(effect.size)
        name = "" if effect.entry == last else subject(comparison, effect.entry)
        said = [quantity_name(effect.what), escaped(effect.before), escaped(effect.after)]
        last = effect.entry
        yield [name, *said, size]


def _is_shared(finding: Finding) -> bool:
    """Whether another entry's edit explains a finding: one edit, and maybe many fluids."""
    return finding.effect.entry not in finding.causes


def _shared_figures(comparison: Comparison) -> Iterator[list[str]]:
    """A row an edit and quantity, with the fluids it moves."""
    groups: dict[tuple[str, ...], list[Finding]] = {}
    for one in _of(comparison, lambda f: f.effect.kind == "figure" and _is_shared(f)):
        groups.setdefault((one.effect.what, *one.causes), []).append(one)
    for (what, *_), same in groups.items():
        sizes = dict.fromkeys(escaped(one.effect.size) for one in same)
        steps = [_step_of(comparison, one) for one in same]
        yield [
            _because(same),
            quantity_name(what),
            listed(list(sizes), 3),
            str(len(same)),
            listed(steps, ROWS_TOLD),
        ]


def _step_of(comparison: Comparison, finding: Finding) -> str:
    effect = finding.effect
    return f"{subject(comparison, effect.entry)} {step(effect.before, effect.after)}"


def _alternatives(comparison: Comparison) -> Iterator[list[str]]:
    for one in _of(comparison, lambda f: f.effect.kind == "alternatives"):
        effect = one.effect
        name = subject(comparison, effect.entry)
        yield [name, ids(effect.before), ids(effect.after), _because([one])]


def _uncited(comparison: Comparison) -> Iterator[list[str]]:
    for one in _of(comparison, lambda f: f.effect.kind in UNCITED):
        effect = one.effect
        note = effect.size or UNCITED[effect.kind]
        what = escaped(quantity_name(effect.what)) or "stamp"
        before, after = escaped(typeset(effect.before)), escaped(typeset(effect.after))
        yield [subject(comparison, effect.entry), what, before, after, note]


def _notes(comparison: Comparison) -> list[str]:
    """What the comparison leaned on, and what it leaves out."""
    notes = []
    if comparison.without_figures:
        fluids = on(comparison, comparison.without_figures, ROWS_TOLD)
        notes.append(f"Figures and findings not compared, for problems of the catalogue: {fluids}.")
    if comparison.borrowed:
        lists = listed([code(f"{one}.yml") for one in comparison.borrowed], 3)
        notes.append(f"{lists} does not load on one side: that of the other stood in for it.")
    if comparison.layout:
        files = listed([code(one) for one in comparison.layout], 5)
        notes.append(f"Comments or layout only: {files}.")
    return [line for note in notes for line in (note, "")]


Section = tuple[str, Sequence[str], Callable[[Comparison], Iterator[list[str]]]]

SECTIONS: tuple[Section, ...] = (
    ("Words, warnings and verdicts that flip", ("what", "before", "after", "on", "by"), _flips),
    ("Entries", ("", "entry", "what was edited"), entries),
    ("Figures", ("fluid", "quantity", "before", "after", "size"), _figures),
    (
        "Figures moved by the edit of another entry",
        ("by", "quantity", "size", "fluids", ""),
        _shared_figures,
    ),
    ("Beside plasma", ("figure", "before", "after", "on", "by"), _beside),
    ("Cautions gained", ("caution", "on", "by"), _gained),
    ("Alternatives", ("fluid", "before", "after", "by"), _alternatives),
    ("Addresses", ("", "before", "after"), addresses),
    ("Declared figures and stamps", ("entry", "what", "before", "after", ""), _uncited),
)
