"""The page of one fluid: what is it, what happens, how is it hung."""

from collections.abc import Iterator
from typing import Any

from markupsafe import Markup

from isofolio.drawings.patterns import pattern_definitions
from isofolio.entries.fluids import Container, Fluid
from isofolio.findings.families import held
from isofolio.findings.strength import is_strong
from isofolio.handbook import Handbook, millilitres
from isofolio.pages import label
from isofolio.pages.answers import all_cautions, answers, boxes
from isofolio.pages.audit import audit_groups
from isofolio.pages.body import acid_base_sentence, body_rows
from isofolio.pages.citations import citations_of, cited, merged
from isofolio.pages.columns import drawing
from isofolio.pages.equipment import equipment_context
from isofolio.pages.holds import holds, sizes
from isofolio.pages.mixing import mixing_context
from isofolio.pages.page import Page, rendered
from isofolio.pages.shortage import alternatives_context
from isofolio.pages.stamp import stamp_line
from isofolio.pages.working import working_context
from isofolio.pages.worksheets import worksheets_for
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.vocabulary.terms import NAME_KINDS
from isofolio.wording.addresses import card_address, entry_address
from isofolio.wording.bag import osmolarity_parts
from isofolio.wording.figures import (
    HARD,
    amount,
    strength_pairs,
    typeset,
)

ROLE_WORDS = {
    "ready": "Ready to hang",
    "colloid": "Ready to hang, colloid",
    "blood-product": "Ready to hang, colloid",
    "concentrate": "Concentrate: dilute before use",
    "diluent": "For mixing only",
}
STATUS_WORDS = {"retired": "Retired", "not-for-use": "Not for use"}
STRONG = "Strong solution: check which strength"
# Titles of more characters are set a size smaller, so that they stay on one line.
LONG_TITLE = 42
# What must not be done stands before what they hold.
NEVER_ALONE = {"concentrate", "diluent"}
# Characters of names that fit beside the draft on a narrow desk; the role is set larger.
NAMES_ROOM, ROLE_LETTER = 50, 1.3


def fluid_page(handbook: Handbook, fluid: Fluid) -> Page:
    """The whole page of one fluid."""
    path = entry_address("fluids", fluid.id)
    svg, below = drawing(handbook, fluid.id)
    rows = list(holds(handbook, fluid))
    working = working_context(handbook, fluid)
    context: dict[str, Any] = {
        "fluid": fluid,
        "pairs": strength_pairs(fluid.name),
        "title_size": "long" if len(fluid.name) > LONG_TITLE else "",
        "role": role_words(handbook, fluid),
        "draft": stamp_line(fluid),
        "other_names": _first_names(fluid, role_words(handbook, fluid)),
        "sizes": [size.label for size in sizes(fluid)],
        "holds": rows,
        "this": f"This {_kind(fluid)} holds",
        "answers": answers(handbook, fluid, in_the_bag(handbook, fluid)),
        "caution_boxes": boxes(handbook, fluid, len(rows)),
        "cautions_first": fluid.role in NEVER_ALONE or fluid.status in STATUS_WORDS,
        "all_cautions": all_cautions(handbook, fluid),
        "body_rows": body_rows(handbook, fluid),
        "not_in_body": _not_in_body(handbook, fluid),
        "acid_base": acid_base_sentence(handbook, fluid),
        "patterns": Markup(pattern_definitions()),
        "drawing": Markup(svg),
        "below_drawing": below,
        "mistaken": list(_mistaken(handbook, fluid)),
        "weighed": list(label.weighed(handbook, fluid)),
        "beside_plasma": list(label.beside_plasma(handbook, fluid)),
        "plasma_cited": label.plasma_cited(handbook),
        "figures": list(label.figures(handbook, fluid)),
        "variants": list(label.variants(handbook, fluid)),
        "declared": audit_groups(handbook, fluid.id),
        "names": _names(fluid),
        "containers": [_container(container) for container in fluid.containers],
        "situations": [
            (handbook.catalogue.situations[s].name, entry_address("situations", s))
            for s in fluid.situations
        ],
        "giving": [(note.text, cited(note.cite, handbook.catalogue)) for note in fluid.giving],
        "diluents": _diluents(handbook, fluid),
        "status": _status(handbook, fluid),
        "sources": merged(citations_of(fluid), handbook.catalogue),
        "alternatives": alternatives_context(handbook, fluid),
        "kept": _kept_line(handbook, fluid),
        **working,
        **mixing_context(handbook, fluid),
        **equipment_context(handbook, fluid),
        "worksheets": worksheets_for(handbook, fluid),
        "card": "" if fluid.status == "retired" else card_address(fluid.id),
        "date": handbook.date,
        "digest": handbook.digest,
    }
    return Page(
        path=path,
        title=typeset(fluid.name),
        description=f"{fluid.name}: what the bag holds, beside plasma. {context['role']}.",
        body=rendered("fluid.html", path, context),
    )


def role_words(handbook: Handbook, fluid: Fluid) -> str:
    """The role in words; a ready fluid above a limit is a strong solution.

    What is withdrawn is ready for nothing, whatever bag it comes in.
    """
    if fluid.status in STATUS_WORDS:
        return STATUS_WORDS[fluid.status]
    if is_strong(fluid, handbook.catalogue, handbook.measures):
        return STRONG
    return ROLE_WORDS[fluid.role]


def _kind(fluid: Fluid) -> str:
    """The word for what is in the hand: true of every size that the contents table shows.

    A bag where no container is declared; "container" where the sizes come in different kinds.
    """
    shown = {size.millilitres for size in sizes(fluid)}
    held_in = [one for one in fluid.containers if millilitres(one) in shown] or fluid.containers
    kinds = {container.kind.removeprefix("glass ") for container in held_in} or {"bag"}
    return kinds.pop() if len(kinds) == 1 else "container"


def _first_names(fluid: Fluid, role: str) -> str:
    """Other names for the line under the title, as many as fit on it beside role and draft."""
    room = NAMES_ROOM - ROLE_LETTER * len(role)
    kinds = ("synonym", "abbreviation", "ward word")
    names = [other.name for kind in kinds for other in fluid.also_known_as if other.kind == kind]
    line = ""
    for name in names:
        longer = f"{line} · {name}" if line else name
        if len(longer) > room:
            break
        line = longer
    return typeset(line)


def in_the_bag(handbook: Handbook, fluid: Fluid) -> str:
    """Osmolarity in the bag and what makes it up."""
    known = {
        QUANTITY_BY_ID[q].label: number
        for q in held(fluid.id, handbook.measures)
        if (number := handbook.value(fluid.id, q).number) is not None
    }
    osmolarity = handbook.value(fluid.id, "osmolarity")
    if osmolarity.number is None:
        return f"Not known: {osmolarity.reason}."
    text = osmolarity_parts(osmolarity, known)
    colloid = handbook.solution(fluid.id).colloid
    return f"{text}; ions only, the colloid is not counted" if colloid else text


def _mistaken(handbook: Handbook, fluid: Fluid) -> Iterator[dict[str, str]]:
    """What it is mistaken for, each with its figure in the last column of the contents table."""
    litres = sizes(fluid)[-1].millilitres / 1000
    for identifier, quantity, number in handbook.look_alikes[fluid.id]:
        shown = QUANTITY_BY_ID[quantity]
        unit = shown.unit.removesuffix("/L")
        symbol = shown.symbol.rstrip("⁺⁻²") or shown.label.split(",")[0]
        yield {
            "name": typeset(handbook.catalogue.fluids[identifier].name),
            "address": entry_address("fluids", identifier),
            "differs": f"{symbol}{HARD}{amount(number * litres)}{HARD}{unit}",
        }


def _names(fluid: Fluid) -> list[tuple[str, str]]:
    grouped = []
    for kind in NAME_KINDS:
        names = [
            typeset(other.name) + (f" ({', '.join(other.where)})" if other.where else "")
            for other in fluid.also_known_as
            if other.kind == kind
        ]
        if names:
            grouped.append((PLURALS[kind], " · ".join(names)))
    return grouped


PLURALS = {
    "synonym": "synonyms",
    "abbreviation": "abbreviations",
    "ward word": "ward words",
    "misspelling": "also typed as",
    "national name": "national names",
}


def _container(container: Container) -> str:
    return f"{typeset(container.volume.text)} {container.kind}"


def _not_in_body(handbook: Handbook, fluid: Fluid) -> str:
    """Why no figure in the body is given; empty where the answer above has said so already."""
    reason = handbook.value(fluid.id, "ph_1l").reason.capitalize() + "."
    return "" if reason == handbook.judgements[fluid.id].body.because else reason


def _diluents(handbook: Handbook, fluid: Fluid) -> dict[str, Any] | None:
    if fluid.diluent is None:
        return None
    links = [
        (typeset(handbook.catalogue.fluids[f].name), entry_address("fluids", f))
        for f in fluid.diluent.fluids
    ]
    return {"links": links, "cited": cited(fluid.diluent.cite, handbook.catalogue)}


def _status(handbook: Handbook, fluid: Fluid) -> dict[str, Any] | None:
    if fluid.status == "current" or fluid.status_note is None:
        return None
    word = STATUS_WORDS[fluid.status] + "."
    successor = fluid.replaced_by
    return {
        "word": word,
        "text": fluid.status_note.text,
        "cited": cited(fluid.status_note.cite, handbook.catalogue),
        "successor": entry_address("fluids", successor) if successor else "",
        "successor_name": handbook.catalogue.fluids[successor].name if successor else "",
    }


def _kept_line(handbook: Handbook, fluid: Fluid) -> str:
    """What the hospital of this copy keeps of a fluid; "" in a copy for no hospital."""
    stock = handbook.catalogue.stocked
    if stock is None:
        return ""
    kept = next((one for one in stock.fluids if one.fluid == fluid.id), None)
    if kept is None:
        return f"{stock.name} does not keep it."
    sizes = ", ".join(typeset(size.text) for size in kept.sizes)
    parts = [f"{stock.name} keeps it" + (f" in {sizes}" if sizes else "")]
    parts += [f"on: {', '.join(kept.wards)}"] if kept.wards else []
    return "; ".join(parts) + "." + (f" {kept.note}" if kept.note else "")
