"""All fluids in one table: whole without a script, sorted and filtered by scripts/fluids.js.

The script knows no quantity. It reads the tokens of each row, in the order that the table names,
and the choices of the form; a further choice is one more list there and one more word a row.
"""

import re
from collections.abc import Iterator, Mapping
from itertools import islice
from typing import Any

from isofolio.entries.fluids import Fluid
from isofolio.findings.body import WHILE_UNBURNT
from isofolio.handbook import Handbook
from isofolio.pages.fluids_cells import (
    FIGURES,
    NONE,
    OSMOLARITIES,
    OTHERS,
    ROLE_ORDER,
    UNKNOWN,
    Cell,
    Marks,
    body_cell,
    body_kind,
    figure_cell,
    others_cell,
    others_text,
    particle_token,
    role_cell,
    role_of,
    slug,
    vein_cell,
)
from isofolio.pages.page import Page, rendered
from isofolio.physiology.tonicity import PLASMA_EFFECTIVE_OSMOLARITY
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.vocabulary.terms import VEIN_WORDS
from isofolio.wording.addresses import ALL_FLUIDS, entry_address
from isofolio.wording.figures import RANGE, rounded, typeset

SCRIPT = "scripts/fluids.js"
PLASMA = rounded(PLASMA_EFFECTIVE_OSMOLARITY, 0)

SOFT = "\u00ad"
HYPHENATED = {"bicarbonate": f"bicar{SOFT}bonate"}

# key, label, unit, whether the column holds words
COLUMNS: tuple[tuple[str, str, str, bool], ...] = (
    ("role", "role", "", True),
    *((key, HYPHENATED.get(key, key), "", False) for key in FIGURES[:-1]),
    ("glucose_mass", "anhydrous glucose", "g/L", False),
    ("others", "others", "", True),
    ("osmolarity", "in the bag", "mOsm/L", False),
    ("effective_osmolarity", "effective in the body", "mOsm/L", False),
    ("body", f"in the body, beside plasma’s {PLASMA}", "mOsm/L", True),
    ("vein", "vein", "", True),
)

# What the tokens of a row are, in their order; and which of them are ions and sugars.
TOKENS = (*(key for key, *_ in COLUMNS), *OTHERS)
PARTICLES = {*FIGURES, *OTHERS}

# Words in the body, and the limits of the ratio to plasma between which each is said.
BODY_WORDS = (
    ("Hypotonic", "", "tonicity-hypotonic"),
    ("Slightly hypotonic", "tonicity-hypotonic", "tonicity-slightly-hypotonic"),
    ("Isotonic", "tonicity-slightly-hypotonic", "tonicity-slightly-hypertonic"),
    ("Slightly hypertonic", "tonicity-slightly-hypertonic", "tonicity-hypertonic"),
    ("Hypertonic", "tonicity-hypertonic", ""),
)

KEPT, NOT_KEPT = ("kept", "kept"), ("not-kept", "not kept")

# Of a longer table the browser parses and lays out at once only a body that fills a screen; the
# script adds the rest in short steps, and without a script it stands in a second table.
LONG = 400
ROWS_A_BODY = 14


def fluids_page(handbook: Handbook) -> Page:
    """The table of every fluid, by name."""
    marks = Marks()
    fluids = sorted(handbook.fluids, key=lambda fluid: natural(fluid.name))
    texts = sorted({others_text(handbook, fluid) for fluid in fluids})
    others = {text: order for order, text in enumerate(texts)}
    rows = [_row(handbook, fluid, others, marks) for fluid in fluids]
    is_long = len(rows) > LONG
    at_once = ROWS_A_BODY if is_long else len(rows)
    context = {
        "columns": [
            {"key": key, "label": label, "unit": unit, "words": words}
            for key, label, unit, words in COLUMNS
        ],
        "tokens": " ".join(TOKENS),
        "bodies": list(_in_bodies(rows[:at_once])),
        "rest": list(_in_bodies(rows[at_once:])),
        "count": len(rows),
        "is_long": is_long,
        "ions": [(key, QUANTITY_BY_ID[key].label.partition(",")[0]) for key in _held(rows)],
        "choices": list(_choices(handbook, rows)),
        "reasons": [(letter, reason) for reason, letter in marks.letters.items()],
        "plasma": PLASMA,
        "unburnt": WHILE_UNBURNT,
    }
    return Page(
        path=ALL_FLUIDS,
        title="All fluids",
        description="Every fluid of the cupboard in one table, per litre: sort it, filter it.",
        body=rendered("fluids.html", ALL_FLUIDS, context),
        scripts=(SCRIPT,),
    )


def natural(name: str) -> tuple[str | float, ...]:
    """The key that puts 5 % before 10 %: words and figures in turn.

    >>> natural("Glucose 10 %")
    ('glucose ', 10.0, ' %')
    """
    parts = re.split(r"(\d+(?:\.\d+)?)", name.casefold())
    return tuple(float(part) if place % 2 else part for place, part in enumerate(parts))


def _row(
    handbook: Handbook, fluid: Fluid, others: Mapping[str, int], marks: Marks
) -> dict[str, Any]:
    cells = [
        role_cell(handbook, fluid),
        *(figure_cell(handbook, fluid, quantity) for quantity in FIGURES),
        others_cell(handbook, fluid, others[others_text(handbook, fluid)]),
        *(figure_cell(handbook, fluid, quantity) for quantity in OSMOLARITIES),
        body_cell(handbook, fluid),
        vein_cell(handbook, fluid),
    ]
    rest = [particle_token(handbook, fluid, quantity) for quantity in OTHERS]
    return {
        "name": typeset(fluid.name),
        "address": entry_address("fluids", fluid.id),
        "tokens": " ".join([*(cell.token for cell in cells), *rest]),
        "words": " ".join(_words(handbook, fluid)),
        "cells": [_shown(cell, marks) for cell in cells],
    }


def _shown(cell: Cell, marks: Marks) -> dict[str, Any]:
    return {
        "text": cell.text,
        "detail": cell.detail,
        "reason": cell.reason,
        "spoken": f"{cell.text.removesuffix(UNKNOWN)}not known: {cell.reason}",
        "mark": marks.of(cell.reason),
        "words": cell.words,
        "none": cell.text in {"0", NONE},
    }


def _in_bodies(rows: list[dict[str, Any]]) -> Iterator[list[dict[str, Any]]]:
    left = iter(rows)
    while body := list(islice(left, ROWS_A_BODY)):
        yield body


def _held(rows: list[dict[str, Any]]) -> list[str]:
    """The ions and sugars that at least one fluid holds, in the order of the tokens."""
    carried = [row["tokens"].split() for row in rows]
    there = [set(column) - {"0", UNKNOWN} for column in zip(*carried, strict=True)]
    return [key for key, some in zip(TOKENS, there, strict=True) if some and key in PARTICLES]


def _words(handbook: Handbook, fluid: Fluid) -> Iterator[str]:
    """The words of a row as they stand in an address, in the order of the lists of the form."""
    yield role_of(handbook, fluid)[0]
    yield slug(body_kind(handbook, fluid))
    yield slug(handbook.judgements[fluid.id].vein.word)
    stock = handbook.catalogue.stocked
    if stock is not None:
        yield (KEPT if any(one.fluid == fluid.id for one in stock.fluids) else NOT_KEPT)[0]


def _lists(handbook: Handbook) -> Iterator[tuple[str, str, list[tuple[str, str]]]]:
    """Key, label and all words of each list of the form; the stock's in a hospital's copy alone."""
    yield "role", "role", _roles(handbook)
    yield "body", "in the body", _bodies(handbook)
    yield "vein", "vein", [(slug(word), word) for word in VEIN_WORDS]
    if handbook.catalogue.stocked is not None:
        yield "stock", handbook.catalogue.stocked.name, [KEPT, NOT_KEPT]


def _choices(handbook: Handbook, rows: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    """The lists of the form, each with the words that some fluid has."""
    for place, (key, label, offered) in enumerate(_lists(handbook)):
        used = {row["words"].split()[place] for row in rows}
        options = [(value, said) for value, said in offered if value in used]
        yield {"key": key, "label": label, "options": options}


def _roles(handbook: Handbook) -> list[tuple[str, str]]:
    found = {role_of(handbook, fluid) for fluid in handbook.fluids}
    return sorted(found, key=lambda role: ROLE_ORDER.index(role[0]))


def _bodies(handbook: Handbook) -> list[tuple[str, str]]:
    """The five words with the ratios between which each is said, then what has no such word."""
    limits = handbook.catalogue.limits
    named = []
    for word, low, high in BODY_WORDS:
        ends = [limits[end].value.text for end in (low, high) if end]
        between = RANGE.join(ends) if len(ends) == 2 else f"{'above' if low else 'under'} {ends[0]}"
        named.append((slug(word), f"{word}: {between} of plasma’s"))
    words = {word for word, _, _ in BODY_WORDS}
    others = dict.fromkeys(body_kind(handbook, fluid) for fluid in handbook.fluids)
    return named + [(slug(word), word) for word in others if word not in words]
