"""The first screen's answers and boxes: what must not be done, vein, blood, body, bag."""

from dataclasses import replace
from typing import Any

from isofolio.entries.cautions import Caution
from isofolio.entries.fluids import Fluid
from isofolio.findings.vein import VeinStatement
from isofolio.handbook import Handbook
from isofolio.pages.citations import Cited, cited
from isofolio.vocabulary.terms import SIGNAL_WORDS
from isofolio.wording.addresses import CAUTIONS
from isofolio.wording.figures import typeset

# Cautions on the first screen by rows of the contents table; all others stand below.
ROOM = ((7, 1), (6, 2), (0, 3))
SHOWN = SIGNAL_WORDS[:3]  # a notice never takes room on the first screen


def boxes(handbook: Handbook, fluid: Fluid, rows: int) -> list[dict[str, Any]]:
    """The cautions of the first screen, those of one signal word in one box.

    rows: of the contents table; a tall table leaves room for fewer, never for none.
    """
    chosen = [c for c in _cautions(handbook, fluid) if c.said_by is None and c.signal in SHOWN]
    room = next(most for least_rows, most in ROOM if rows >= least_rows)
    grouped: dict[str, list[dict[str, Any]]] = {}
    for caution in chosen[:room]:
        grouped.setdefault(caution.signal, []).append(_line(handbook, caution))
    found = [{"signal": s, "lines": lines, "more": 0} for s, lines in grouped.items()]
    if found:
        found[-1]["more"] = max(0, len(chosen) - room)
    return found


def all_cautions(handbook: Handbook, fluid: Fluid) -> list[dict[str, Any]]:
    """Every caution of a fluid, for the list further down the page."""
    return [_line(handbook, caution) for caution in _cautions(handbook, fluid)]


def _cautions(handbook: Handbook, fluid: Fluid) -> tuple[Caution, ...]:
    return handbook.judgements[fluid.id].cautions


def _line(handbook: Handbook, caution: Caution) -> dict[str, Any]:
    return {
        "id": caution.id,
        "signal": caution.signal,
        "name": caution.name,
        "imperative": typeset(caution.imperative),
        "text": typeset(caution.text),
        "cited": cited(caution.cite, handbook.catalogue),
        "disagree": [
            (typeset(view.text), cited(view.cite, handbook.catalogue)) for view in caution.disagree
        ],
        "address": f"{CAUTIONS}#{caution.id}",
    }


def answers(handbook: Handbook, fluid: Fluid, in_the_bag: str) -> list[dict[str, Any]]:
    """Four answers in reading order: vein, in the body, with blood, in the bag."""
    judgement = handbook.judgements[fluid.id]
    blood = judgement.blood
    return [
        _answer("vein", "Vein", judgement.vein.word, _vein_because(handbook, judgement.vein)),
        _answer("body", "In the body", judgement.body.word, typeset(judgement.body.because))
        | {"note": _body_note(handbook, fluid)},
        _answer("blood", "With blood", typeset(blood.text), "")
        | {"cited": _backed(handbook, fluid)},
        _answer("bag", "In the bag", in_the_bag, ""),
    ]


def _answer(identifier: str, question: str, word: str, because: str) -> dict[str, Any]:
    """because: what is never shown without the word; note: what a phone shows further down."""
    known = {"id": identifier, "question": question, "word": word, "because": because}
    return known | {"note": "", "cited": None}


def _vein_because(handbook: Handbook, vein: VeinStatement) -> str:
    """The deciding figure and its limit, and whose limit it is where a hospital drew it tighter."""
    stock = handbook.catalogue.stocked
    drawn = {str(one.limit) for one in stock.limits} if stock else set()
    whose = f" A limit of {stock.name}." if stock and vein.limit in drawn else ""
    return typeset(vein.because + whose)


def _backed(handbook: Handbook, fluid: Fluid) -> Cited | None:
    """Who says so, without the section: that stands with the caution below."""
    cite = handbook.judgements[fluid.id].blood.cite
    return None if cite is None else replace(cited(cite, handbook.catalogue), at="", seen="")


def _body_note(handbook: Handbook, fluid: Fluid) -> str:
    """The condition under which the word holds, and what the cautions of the body are about."""
    judgement = handbook.judgements[fluid.id]
    watched = [c.short for c in judgement.cautions if c.said_by == "body" and c.short]
    watch = f"Watch: {', '.join(dict.fromkeys(watched))}." if watched else ""
    return typeset(" ".join(part for part in (judgement.body.note, watch) if part))
