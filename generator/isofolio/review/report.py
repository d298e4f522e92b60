"""The report of a change, in Markdown for a pull request: what harms first, in the first lines."""

from collections.abc import Iterator, Sequence

from isofolio.entries.problems import Problem
from isofolio.review.comparison import Comparison, Finding, Unread
from isofolio.review.edits import CHANGED
from isofolio.review.effects import LOUD
from isofolio.review.figures import HAZARDS
from isofolio.review.markdown import code, escaped
from isofolio.review.phrases import ARROW, counted, headline, subject
from isofolio.review.report_tables import sections
from isofolio.vocabulary.terms import CHANGE_KINDS

# So many edits, files and causes stand at the top; the tables and the JSON hold all.
HEADLINES, FILES_TOLD, CAUSES_TOLD = 20, 5, 3
# What is told of an edit's own doing although it is not loud: the step that does the rest.
OWN_STEP = ("recipe", "limit", "substance")


def report(comparison: Comparison) -> str:
    """The whole report; one line where nothing changed."""
    if not (comparison.edits or comparison.findings or comparison.unread or comparison.problems):
        return _nothing(comparison)
    lines = [f"# Changes: {escaped(comparison.before)} {ARROW} {escaped(comparison.after)}", ""]
    lines += [_summary(comparison), "", *_first(comparison), *sections(comparison)]
    return "\n".join(lines).rstrip() + "\n"


def _nothing(comparison: Comparison) -> str:
    sides = f"{escaped(comparison.before)} and {escaped(comparison.after)}"
    said = f"No change between {sides}: every entry, figure and finding is the same."
    if comparison.layout:
        said += f" Comments or layout differ in {counted(len(comparison.layout), 'file')}."
    return said + "\n"


def _summary(comparison: Comparison) -> str:
    """How much to look at, what was announced, and what nobody has double-checked."""
    loud = len(_by_cause([one for one in comparison.findings if one.effect.level == LOUD]))
    said = [
        f"**{counted(loud, 'edit')} to look at twice.**" if loud else "Nothing to look at twice."
    ]
    if comparison.findings and comparison.findings[0].announced is None:
        said.append("The author announced nothing.")
    if comparison.unchecked:
        count = len(comparison.unchecked)
        noun = "1 entry carries" if count == 1 else f"{count} entries carry"
        said.append(f"{noun} no double check newer than the change.")
    return " ".join([*said, *_problems(comparison.problems)])


def _problems(problems: Sequence[Problem]) -> list[str]:
    """That the new catalogue is not sound, and the first thing to mend."""
    if not problems:
        return []
    first = problems[0]
    where = f"{first.file}:{first.place.line}:{first.place.column}"
    count = counted(len(problems), "problem")
    said = f"**The new catalogue has {count}; run `isofolio check`.**"
    return [f"{said} First: {code(where)}: {escaped(first.message)}."]


def _first(comparison: Comparison) -> list[str]:
    """What no longer loads; what was not announced; what was and did not happen; what is loud."""
    lines = _unread_lines(comparison.unread)
    findings = comparison.findings
    if findings and findings[0].announced is None:
        return lines + _numbered(_headlines(comparison, findings))
    surprising = [one for one in findings if one.announced is False]
    if surprising:
        said = _headlines(comparison, surprising, every=True)
        lines += ["## Not announced", "", *_numbered(said)]
    if comparison.unmet:
        lines += ["## Announced, and it did not happen", ""]
        lines += [*(f"* {escaped(one)}" for one in comparison.unmet), ""]
    expected = _headlines(comparison, [one for one in findings if one.announced])
    if expected:
        lines += ["## Announced, and to look at twice", "", *_numbered(expected)]
    return lines


def _unread_lines(unread: Sequence[Unread]) -> list[str]:
    lines = [f"* {_unread(one)}" for one in unread[:FILES_TOLD]]
    rest = len(unread) - FILES_TOLD
    lines += [f"* … and {counted(rest, 'more file')} that do not load."] if rest > 0 else []
    return [*lines, ""] if lines else []


def _unread(one: Unread) -> str:
    apart = "it stands on one side only"
    if one.lines is not None:
        apart = f"{counted(one.lines, 'line')} apart"
    why = escaped(f"line {one.problem.place.line}: {one.problem.message}")
    where = f"**{code(one.file)} does not load** in {escaped(one.side)}"
    return f"{where} ({why}). Compared as text: {apart}."


def _numbered(items: Sequence[str]) -> list[str]:
    lines = [f"{number}. {item}" for number, item in enumerate(items[:HEADLINES], start=1)]
    rest = len(items) - HEADLINES
    lines += ["", f"… and {counted(rest, 'more edit')}: see the tables."] if rest > 0 else []
    return [*lines, ""] if lines else []


def _headlines(
    comparison: Comparison, findings: Sequence[Finding], every: bool = False
) -> list[str]:
    """A line an edit, for each that does something loud; for every edit where asked."""
    said = []
    for causes, found in _by_cause(findings).items():
        if every or any(one.effect.loud for one in found):
            chosen = sorted(found if every else _chosen(found), key=_order)
            line = f"{_title(comparison, causes)}: {headline(comparison, causes[0], chosen)}"
            said.append(line if line.endswith(".**") else f"{line}.")
    return said


def _title(comparison: Comparison, causes: tuple[str, ...]) -> str:
    names = [_titled(comparison, one) for one in causes[:CAUSES_TOLD]]
    rest = len(causes) - CAUSES_TOLD
    return " with ".join(names) + (f" and {rest} more" if rest > 0 else "")


def _titled(comparison: Comparison, entry: str) -> str:
    """An entry by name and file, and how it was edited where it is more than a change."""
    edit = next((one for one in comparison.edits if one.entry == entry), None)
    file, action = (f"{entry}.yml", CHANGED) if edit is None else (edit.file, edit.action)
    how = "" if action == CHANGED else f", {action}"
    return f"**{subject(comparison, entry)}** ({code(file)}{how})"


def _by_cause(findings: Sequence[Finding]) -> dict[tuple[str, ...], list[Finding]]:
    """Findings by the edit that explains them, in the order of the worst that each does."""
    groups: dict[tuple[str, ...], list[Finding]] = {}
    for one in findings:
        groups.setdefault(one.causes or (one.effect.entry,), []).append(one)
    return dict(sorted(groups.items(), key=lambda group: _worst(group[1])))


def _worst(found: Sequence[Finding]) -> tuple[int, int]:
    """How far up an edit stands: a step of the first hazard, then by the worst kind it does."""
    loud = [one.effect for one in found if one.effect.loud]
    first = any(one.kind == "figure" and one.what == HAZARDS[0] for one in loud)
    worst = min((CHANGE_KINDS.index(one.kind) for one in loud), default=len(CHANGE_KINDS))
    return (0 if first else 1, worst)


def _chosen(found: Sequence[Finding]) -> Iterator[Finding]:
    """Of an edit that does something loud: that, its own step, its figures, and the cautions that
    come for those that go."""
    loud = {one.effect.kind for one in found if one.effect.loud}
    for one in found:
        effect = one.effect
        own = effect.kind in OWN_STEP and effect.entry in one.causes
        figure = effect.kind == "figure"
        instead = effect.kind == "caution gained" and "caution lost" in loud
        if effect.loud or own or figure or instead:
            yield one


def _order(finding: Finding) -> tuple[int, int]:
    """An edit's own step first, then figures, then the rest; loud before what is not."""
    kind = finding.effect.kind
    place = 0 if kind in OWN_STEP else 1 if kind == "figure" else 2
    return place, CHANGE_KINDS.index(kind)
