"""What a change does to judgements: words, warnings, verdicts, alternatives."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from isofolio.entries.cautions import Caution
from isofolio.findings.judgements import Judgement
from isofolio.handbook import Handbook
from isofolio.review.edits import ADDED, Edit
from isofolio.review.effects import Both, Effect, Pair
from isofolio.review.figures import beside_plasma, changed_figures

# As many alternatives as a golden table shows.
SHOWN_ALTERNATIVES = 3
LOUD_SIGNALS = ("danger", "warning")


def computed_effects(both: Both) -> list[Effect]:
    """Everything that can be seen by computing both sides."""
    found = [effect for look in LOOKS for pair in both.pairs for effect in look(both, pair)]
    return [*found, *changed_figures(both), *beside_plasma(both)]


def introduced(edits: Sequence[Edit], after: Handbook) -> dict[str, str]:
    """What each new fluid is, in the words of its page: vein, in the body, its loud warnings."""
    new = [e for e in edits if e.action == ADDED and e.kind == "fluids"]
    return {e.entry: _in_words(after.judgements[e.id]) for e in new if e.id in after.judgements}


def _in_words(judgement: Judgement) -> str:
    loud = [said(one) for one in judgement.cautions if one.signal in LOUD_SIGNALS]
    return ". ".join([f"Vein: {judgement.vein.word}", f"In the body: {judgement.body.word}", *loud])


def _words(both: Both, pair: Pair) -> Iterator[Effect]:
    """The answers of the first screen and the classes."""
    before, after = both.before.judgements[pair.old], both.after.judgements[pair.new]
    told = [
        ("vein", "", before.vein.word, after.vein.word),
        ("blood", "", before.blood.text, after.blood.text),
        ("body", "", before.body.word, after.body.word),
    ]
    told += [
        ("class", name, before.classes[name] or "not known", after.classes[name] or "not known")
        for name in after.classes
    ]
    for kind, what, old, new in told:
        if old != new:
            yield Effect(kind, pair.entry, what, old, new, loud=True)


def _cautions(both: Both, pair: Pair) -> Iterator[Effect]:
    """Cautions lost and gained, and those whose signal word or imperative line changes."""
    before = {_new_id(both, "cautions", c.id): c for c in both.before.judgements[pair.old].cautions}
    after = {_new_id(both, "cautions", c.id): c for c in both.after.judgements[pair.new].cautions}
    for name in sorted(before.keys() | after.keys()):
        yield from _caution(pair.entry, name, before.get(name), after.get(name))


def _caution(
    entry: str, name: str, before: Caution | None, after: Caution | None
) -> Iterator[Effect]:
    if before is not None and after is not None:
        if before.signal != after.signal:
            told = before.signal.upper(), after.signal.upper()
            yield Effect("signal word", entry, name, *told, loud=True)
        if before.imperative != after.imperative:
            told = before.imperative, after.imperative
            yield Effect("imperative", entry, name, *told, loud=True)
    elif before is not None:
        kind = "danger lost" if before.signal == "danger" else "caution lost"
        yield Effect(kind, entry, name, said(before), "", loud=True)
    elif after is not None:
        danger = after.signal == "danger"
        kind = "danger gained" if danger else "caution gained"
        yield Effect(kind, entry, name, "", said(after), loud=danger)


def said(caution: Caution) -> str:
    """A caution in one line: its signal word and its imperative."""
    return f"{caution.signal.upper()}: {caution.imperative}"


def _verdicts(both: Both, pair: Pair) -> Iterator[Effect]:
    """Declared values whose verdict flips."""
    before = _verdict_by_line(both.before.audit, pair.old)
    after = _verdict_by_line(both.after.audit, pair.new)
    for key in sorted(before.keys() & after.keys()):
        if before[key] != after[key]:
            what = f"{key[0]} in {key[1]}"
            yield Effect("audit", pair.entry, what, before[key], after[key], loud=True)


def _verdict_by_line(audit: Mapping[str, Any], fluid: str) -> dict[tuple[str, ...], str]:
    return {(one.quantity, one.source, one.at): one.verdict for one in audit.get(fluid, ())}


def _alternatives(both: Both, pair: Pair) -> Iterator[Effect]:
    """The first alternatives, where they or their order change."""
    before = both.before.alternatives.scored(pair.old, SHOWN_ALTERNATIVES)
    after = both.after.alternatives.scored(pair.new, SHOWN_ALTERNATIVES)
    old = [_new_id(both, "fluids", one.id) for one in before]
    new = [_new_id(both, "fluids", one.id) for one in after]
    if old != new:
        yield Effect("alternatives", pair.entry, "", ", ".join(old), ", ".join(new))


def _new_id(both: Both, kind: str, identifier: str) -> str:
    """The id that an entry has after the change."""
    return both.renamed.get(f"{kind}/{identifier}", f"{kind}/{identifier}").partition("/")[2]


LOOKS: tuple[Callable[[Both, Pair], Iterator[Effect]], ...] = (
    _words,
    _cautions,
    _verdicts,
    _alternatives,
)
