"""Questions about what a fluid meets: a drug in the line, and the air in its container."""

from isofolio.entries.fluids import Fluid
from isofolio.entries.mixing import Mixing
from isofolio.handbook import Handbook, millilitres
from isofolio.teaching.lots import Lots
from isofolio.teaching.question import Answer, Question, question, told
from isofolio.wording.addresses import entry_address
from isofolio.wording.figures import typeset

HUNG = {"ready", "colloid", "blood-product"}

WAYS = {
    "same bag": "in the same bag",
    "same line": "in the same line",
    "same vein after a flush": "in the same vein, one after the other with a flush",
    "diluent": "the second being what the first is put into",
}
FOUND = {
    "does not mix": "it does not mix: something falls out, breaks or does harm",
    "loses activity": "it loses activity, seen or unseen",
    "mixes": "it mixes, in the way and at the strength that was tested",
    "is taken up by plastic": "the plastic takes it up",
}
"""What may have been found. A question asks about the first three: what a plastic takes up is told
by its way of meeting, and what depends on the strength has no short answer."""
SLIPS = {
    "does not mix": "a warning of another pair",
    "loses activity": "a slow loss guessed at",
    "mixes": "no data or no cloud taken for a pass",
    "is taken up by plastic": "the bag blamed for the fluid",
}

OPEN, SHUT, BY_LABEL = "open", "shut", "as the label of the bottle says"
PRESSED = "open, with a pressure cuff round it"
INLETS = {"glass bottle": OPEN, "bag": SHUT, "bottle": BY_LABEL}
"""The air inlet of the set, by container: a French teaching unit on infusion by gravity (OMEDIT),
which the pages of equipment cite."""
PIECES = {"glass bottle": "glass-bottle", "bag": "soft-bag", "bottle": "semi-rigid-bottle"}
AIR = {
    "glass bottle": "glass cannot fall in: air must replace the fluid, or the flow stops",
    "bag": "a bag falls in as it empties: air would come in for nothing, and could follow",
    "bottle": "some plastic bottles fall in and some do not: only the label tells",
}
OF_AIR = {
    OPEN: "taken for a container that cannot fall in",
    SHUT: "taken for a container that falls in",
    BY_LABEL: "taken for a plastic bottle",
    PRESSED: "pressure on what holds air",
}


def compatibility(handbook: Handbook, lots: Lots) -> Question | None:
    """What did those find who looked at a pair?"""
    looked_at = handbook.catalogue.mixing.values()
    pool = [one for one in looked_at if one.finding in FOUND and one.mode in WAYS]
    if not pool:
        return None
    # The finding is drawn first: most of what is looked at does not mix.
    finding = lots.pick(sorted({one.finding for one in pool}))
    entry = lots.pick([one for one in pool if one.finding == finding])
    asked = (
        f"{_capital(entry.first)} and {entry.second}, {WAYS[entry.mode]}: what did those find who "
        "looked?"
    )
    because = f"of this pair it was found that {FOUND[finding]}"
    others = [Answer(FOUND[one], SLIPS[one], typeset(because)) for one in FOUND if one != finding]
    answers = (Answer(FOUND[finding]), *others)
    address = entry_address("mixing", entry.id)
    return question("compatibility", asked, answers, _told_of(entry), (entry.name, address))


def _told_of(entry: Mixing) -> str:
    """What happens and what to use instead."""
    return f"{entry.what_happens} {entry.instead} Another way of meeting is another question."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def air_inlet(handbook: Handbook, lots: Lots) -> Question | None:
    """How does the air inlet of the set stand for a container?"""
    pool = [
        (fluid, container)
        for fluid in handbook.fluids
        if fluid.role in HUNG and fluid.status == "current"
        for container in fluid.containers
        if container.kind in INLETS
    ]
    kinds = sorted({container.kind for _, container in pool})
    if not kinds or not set(PIECES.values()) <= set(handbook.catalogue.equipment):
        return None
    kind = lots.pick(kinds)
    fluid, container = lots.pick([one for one in pool if one[1].kind == kind])
    piece = handbook.catalogue.equipment[PIECES[kind]]
    others = [
        Answer(inlet, OF_AIR[inlet], _why_not(kind, inlet))
        for inlet in lots.shuffled((OPEN, SHUT, BY_LABEL, PRESSED))
        if inlet != INLETS[kind]
    ]
    working = f"{_capital(AIR[kind])}. Never put pressure on a container that holds air."
    answers = (Answer(INLETS[kind]), *others)
    teaches = (piece.name, entry_address("equipment", piece.id))
    return question("vents", _hung(fluid, millilitres(container), kind), answers, working, teaches)


def _hung(fluid: Fluid, volume: float, kind: str) -> str:
    return (
        f"{fluid.name}, {told(volume)} mL in a {kind}, is hung. How does the air inlet of the "
        "set stand?"
    )


def _why_not(kind: str, inlet: str) -> str:
    return "the air follows the fluid into the vein" if inlet == PRESSED else AIR[kind]
