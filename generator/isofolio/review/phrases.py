"""How a finding is said: the words of the report, in Markdown, for a reader who is in a hurry."""

from collections.abc import Callable, Mapping, Sequence

from isofolio.review.comparison import Comparison, Finding
from isofolio.review.effects import Effect
from isofolio.review.markdown import code, escaped, listed
from isofolio.vocabulary.quantities import DECLARABLE
from isofolio.wording.figures import typeset

ARROW = "→"
# So many figures of an edit, and so many entries it shows on, stand in its one line.
FIGURES_TOLD, GROUPS_TOLD, FLIPS_TOLD, ENTRIES_TOLD, ROWS_TOLD = 3, 2, 3, 4, 12

NOUNS = {
    "substances": "Substance",
    "situations": "Situation",
    "sources": "Source",
    "cautions": "Caution",
    "comparisons": "Comparison",
    "mixing": "Mixing",
    "equipment": "Equipment",
    "stock": "Stock",
    "glossary": "Term",
    "confusions": "Confusion",
    "particles": "Particle",
    "limits": "Limit",
    "plasma": "Reference interval",
    "words": "Ambiguous word",
    "not-instead": "Not instead",
    "changes": "Dated line",
}

# The kind of a finding as a person says it, before its two sides.
LABELS = {
    "recipe": "weighed in",
    "danger lost": "lost",
    "caution lost": "lost",
    "signal word": "signal word of",
    "imperative": "line of",
    "note lost": "lost",
    "limit": "limit",
    "substance": "",
    "role": "role",
    "status": "status",
    "danger gained": "gained",
    "vein": "vein",
    "blood": "with blood",
    "body": "in the body",
    "mixing": "",
    "class": "",
    "audit": "label audit,",
    "address": "address",
    "caution gained": "gained",
    "plasma": "beside plasma,",
    "alternatives": "alternatives",
    "declared": "no new citation and no new stamp for",
    "stamp": "stamp lost,",
}
# Kinds whose `what` is told beside the label.
WITH_WHAT = ("substance", "mixing", "class", "audit", "plasma", "declared")
ABOUT_RAISED = ("danger lost", "caution lost", "danger gained", "caution gained")
ABOUT_CAUTIONS = ("signal word", "imperative")


def subject(comparison: Comparison, entry: str) -> str:
    """An entry by its kind and name."""
    kind, _, name = entry.partition("/")
    said = escaped(typeset(comparison.names.get(entry, name)))
    noun = NOUNS.get(kind, "")
    return f"{noun} {said}".strip()


def quantity_name(what: str) -> str:
    """A quantity by its label; anything else by its id without hyphens."""
    return DECLARABLE[what].label if what in DECLARABLE else what.replace("_", " ")


def step(before: str, after: str, size: str = "") -> str:
    """From what to what, and how far.

    >>> step("ready", "concentrate"), step("", "iso", "now known")
    ('ready → concentrate', 'none → iso (now known)')
    """
    told = f"{escaped(typeset(before) or 'none')} {ARROW} {escaped(typeset(after) or 'none')}"
    return told + (f" ({size})" if size else "")


def label(comparison: Comparison, effect: Effect) -> str:
    """What a finding is about, before its two sides."""
    words = LABELS[effect.kind]
    if effect.kind in ABOUT_CAUTIONS:
        return f"{words} {subject(comparison, f'cautions/{effect.what}').lower()}"
    if effect.kind in WITH_WHAT or (effect.kind == "limit" and effect.what):
        return f"{words} {escaped(quantity_name(effect.what))}".strip()
    return words


def told(comparison: Comparison, effect: Effect) -> str:
    """One finding in a few words."""
    said = label(comparison, effect)
    if effect.kind in (*ABOUT_RAISED, "note lost"):
        return f"{said} **{escaped(typeset(effect.before or effect.after))}**"
    if effect.kind == "address":
        return _address(effect)
    if effect.kind == "limit" and not effect.what:
        return step(effect.before, effect.after, effect.size)
    if effect.kind == "alternatives":
        return f"{said} {ids(effect.before)} {ARROW} {ids(effect.after)}"
    return f"{said} {step(effect.before, effect.after, effect.size)}".strip()


def ids(text: str) -> str:
    """Some ids, each as code.

    >>> ids("glucose-5, glucose-10"), ids("")
    ('`glucose-5`, `glucose-10`', 'none')
    """
    return ", ".join(code(one) for one in text.split(", ")) if text else "none"


def _address(effect: Effect) -> str:
    if not effect.after:
        return f"address gone {code(effect.before)}"
    return f"address moved {code(effect.before)} {ARROW} {code(effect.after)}"


def figures(comparison: Comparison, entry: str, found: Sequence[Finding]) -> str:
    """The figures of one line: of one fluid the most hazardous; of many each with an example."""
    loud_first = sorted(found, key=lambda one: not one.effect.loud)
    entries = {one.effect.entry for one in found}
    if entries == {entry}:
        said = [_figure(one.effect) for one in loud_first[:FIGURES_TOLD]]
        rest = len(found) - len(said)
    else:
        by_quantity: dict[str, list[Finding]] = {}
        for one in loud_first:
            by_quantity.setdefault(one.effect.what, []).append(one)
        chosen = list(by_quantity.values())[:FIGURES_TOLD]
        said = [_in_fluids(comparison, same) for same in chosen]
        rest = len(by_quantity) - len(said)
    return ", ".join(said) + (f" and {counted(rest, 'more figure')}" if rest else "")


def _figure(effect: Effect) -> str:
    name = escaped(quantity_name(effect.what))
    return f"**{name} {step(effect.before, effect.after, effect.size)}**"


def _in_fluids(comparison: Comparison, same: Sequence[Finding]) -> str:
    first = same[0].effect
    name = subject(comparison, first.entry)
    count = f"{counted(len(same), 'fluid')}, as" if len(same) > 1 else "of"
    example = f"{name} {step(first.before, first.after, first.size)}"
    word = "of" if len(same) > 1 else ""
    return f"**{escaped(quantity_name(first.what))}** {word} {count} {example}".replace("  ", " ")


def counted(number: int, noun: str) -> str:
    """A number of things.

    >>> counted(1, "edit"), counted(2, "edit")
    ('1 edit', '2 edits')
    """
    return f"{number} {noun}{'' if number == 1 else 's'}"


def grouped(found: Sequence[Finding]) -> dict[Effect, list[Finding]]:
    """Findings that say the same of several entries, by the first of them."""
    groups: dict[tuple[str, ...], list[Finding]] = {}
    for one in found:
        effect = one.effect
        key = (effect.kind, effect.what, effect.before, effect.after, effect.size)
        groups.setdefault(key, []).append(one)
    return {same[0].effect: same for same in groups.values()}


def on(comparison: Comparison, entries: Sequence[str], most: int) -> str:
    """The entries that a finding shows on."""
    fluids = [entry for entry in entries if entry.startswith("fluids/")]
    chosen = dict.fromkeys(fluids or entries)
    return listed([subject(comparison, entry) for entry in chosen], most)


def headline(comparison: Comparison, entry: str, found: Sequence[Finding]) -> str:
    """One edit and what it does, in one line: what harms first stands first."""
    parts = []
    by_kind: dict[str, list[Finding]] = {}
    for one in found:
        by_kind.setdefault(one.effect.kind, []).append(one)
    for kind, same in by_kind.items():
        teller: Teller = figures if kind == "figure" else TELLERS.get(kind, _words)
        parts.append(teller(comparison, entry, same))
    return "; ".join(parts)


Teller = Callable[[Comparison, str, Sequence[Finding]], str]


def _words(comparison: Comparison, entry: str, found: Sequence[Finding]) -> str:
    groups = grouped(found)
    said = []
    most = 1 if found[0].effect.kind in ABOUT_RAISED else GROUPS_TOLD
    for effect, same in list(groups.items())[:most]:
        others = [f.effect.entry for f in same if f.effect.entry != entry]
        shown = f" on {on(comparison, others, ENTRIES_TOLD)}" if others else ""
        said.append(told(comparison, effect) + shown)
    rest = len(groups) - len(said)
    return "; ".join(said) + (f" and {rest} more" if rest else "")


def _verdicts(_: Comparison, __: str, found: Sequence[Finding]) -> str:
    """Many declared values flip at once: their number, by how they flip."""
    counts: dict[str, int] = {}
    for one in found:
        flip = step(one.effect.before, one.effect.after)
        counts[flip] = counts.get(flip, 0) + 1
    worst_first = sorted(counts, key=lambda flip: not flip.endswith("error"))
    flips = [f"{counts[flip]} {flip}" for flip in worst_first]
    return f"label audit of {counted(len(found), 'declared value')}: {listed(flips, FLIPS_TOLD)}"


TELLERS: Mapping[str, Teller] = {"audit": _verdicts}
