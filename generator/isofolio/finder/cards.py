"""What the finder knows of each page: its names, what to show of it, what it can be found by."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from isofolio.entries.fluids import Fluid
from isofolio.entries.lists import Source
from isofolio.entries.records import Entry
from isofolio.entries.substances import Substance
from isofolio.finder.measured import Held, held, without_hydrate
from isofolio.findings.strength import is_strong
from isofolio.handbook import Handbook, millilitres
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.vocabulary.terms import ROLES, STATUSES
from isofolio.wording.addresses import entry_address, source_address
from isofolio.wording.figures import HARD, amount, strength_pairs, typeset

ROLE_WORDS = {
    "ready": "ready to hang",
    "concentrate": "must be diluted",
    "colloid": "colloid, ready to hang",
    "blood-product": "colloid, ready to hang",
    "diluent": "for mixing only",
}
STRONG = "strong solution"
# Words that a reader may use for a role, besides those shown.
ROLE_ASKED = {"concentrate": "concentrate concentrated strong dilute", "diluent": "diluent"}
STATUS_WORDS = {"current": "", "retired": "retired", "not-for-use": "not for use"}


# What a hit of a folder is called.
KINDS = {
    "situations": "situation",
    "equipment": "equipment",
    "mixing": "mixing",
    "comparisons": "comparison",
}


@dataclass(frozen=True)
class Card:
    """One page, as the finder knows it.

    title: pairs of name and strength. names: every other name and its kind. about: further words
    that it can be found by. sizes: volumes of its containers [mL]. alike: ids of what it is easily
    mistaken for, and the figure that tells them apart.
    """

    id: str
    address: str
    kind: str
    title: tuple[tuple[str, str], ...]
    names: tuple[tuple[str, str], ...] = ()
    role: str = ""
    status: str = ""
    potassium: str = ""
    about: tuple[str, ...] = ()
    held: tuple[Held, ...] = ()
    sizes: tuple[float, ...] = ()
    alike: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Prose:
    """A section that can be found by its text. address: with its anchor; title: of its page."""

    address: str
    title: str
    heading: str
    text: str


def cards(handbook: Handbook) -> tuple[Card, ...]:
    """Every page of an entry: fluids first, sources last. Of equals the first wins."""
    catalogue = handbook.catalogue
    return (
        *(_fluid(handbook, fluid) for fluid in sorted(handbook.fluids, key=_reach)),
        *(_entry("situations", one, "situation") for one in catalogue.situations.values()),
        *(_entry("equipment", one, one.kind) for one in catalogue.equipment.values()),
        *(_entry("mixing", one, f"mixing {one.kind}") for one in catalogue.mixing.values()),
        *(_entry("comparisons", one, "compare") for one in catalogue.comparisons.values()),
        *(_substance(substance) for substance in catalogue.substances.values()),
        *(_source(source) for source in catalogue.sources.values()),
    )


def notes(handbook: Handbook) -> Iterator[Prose]:
    """The sentences of entries: how a fluid is given, why one is not for use."""
    for fluid in sorted(handbook.fluids, key=_reach):
        told = [fluid.status_note, *fluid.giving]
        for text in (note.text for note in told if note is not None):
            address = entry_address("fluids", fluid.id, "how-is-it-hung")
            yield Prose(address, typeset(fluid.name), "How is it hung", typeset(text))


def _reach(fluid: Fluid) -> tuple[int, int, int, str]:
    """Current before others, ready before concentrates, what serves many situations first."""
    status, role = STATUSES.index(fluid.status), ROLES.index(fluid.role)
    everyday = 0 if fluid.role == "ready" else 1 + (role == ROLES.index("diluent"))
    return status, everyday, -len(fluid.situations), fluid.name


def _fluid(handbook: Handbook, fluid: Fluid) -> Card:
    strong = is_strong(fluid, handbook.catalogue, handbook.measures)
    return Card(
        id=fluid.id,
        address=entry_address("fluids", fluid.id),
        kind="fluid",
        title=_title(fluid.name),
        names=tuple((other.name, other.kind) for other in fluid.also_known_as),
        role=STRONG if strong else ROLE_WORDS[fluid.role],
        status=STATUS_WORDS[fluid.status],
        potassium=_potassium(handbook, fluid),
        about=tuple(_about(handbook, fluid)),
        held=tuple(held(handbook, fluid)),
        sizes=tuple(sorted({millilitres(container) for container in fluid.containers})),
        alike=tuple(_alike(handbook, fluid)),
    )


def _title(name: str) -> tuple[tuple[str, str], ...]:
    return tuple((typeset(words), strength) for words, strength in strength_pairs(name))


def _potassium(handbook: Handbook, fluid: Fluid) -> str:
    """Potassium per litre in words; per mL as well for what comes in ampoules."""
    quantity = QUANTITY_BY_ID["potassium"]
    number = handbook.value(fluid.id, quantity.id).number
    bounds = handbook.solution(fluid.id).ranges.get(quantity.id)
    if number == 0:
        return f"no {quantity.label}"
    if number is not None:
        text = f"{quantity.label} {amount(number)}{HARD}{quantity.unit}"
        if fluid.role == "concentrate":
            text += f" ({amount(number / 1000.0)}{HARD}mmol in 1{HARD}mL)"
        return text
    if bounds is not None:
        return f"{quantity.label} at most {amount(bounds[1])}{HARD}{quantity.unit}"
    return f"{quantity.label} not declared"


def _about(handbook: Handbook, fluid: Fluid) -> Iterator[str]:
    """Containers, role, situations and contents: found, but never shown as a name."""
    catalogue = handbook.catalogue
    yield ROLE_WORDS[fluid.role]
    yield ROLE_ASKED.get(fluid.role, "")
    yield STATUS_WORDS[fluid.status]
    for container in fluid.containers:
        yield f"{container.volume.text} {container.kind}"
    for content in fluid.contents:
        if content.substance is not None:
            yield without_hydrate(catalogue.substances[content.substance])
        elif content.particle is not None:
            yield catalogue.particles[content.particle].name
    for particle, number in handbook.solution(fluid.id).composition.known.items():
        if number > 0:
            yield catalogue.particles[particle].name
    yield from (catalogue.situations[situation].name for situation in fluid.situations)
    yield fluid.atc.code if fluid.atc else ""


def _alike(handbook: Handbook, fluid: Fluid) -> Iterator[tuple[str, str]]:
    for identifier, quantity, number in handbook.look_alikes[fluid.id]:
        shown = QUANTITY_BY_ID[quantity]
        name = shown.label.partition(",")[0]
        told = f"{name} {amount(number)}{HARD}{shown.unit}" if number else f"no {name}"
        yield identifier, told


def _entry(folder: str, entry: Entry, about: str) -> Card:
    """The page of an entry that is neither fluid, substance nor source, by its title."""
    address = entry_address(folder, entry.id)
    return Card(entry.id, address, KINDS[folder], _title(entry.name), about=(about,))


def _substance(substance: Substance) -> Card:
    return Card(
        id=substance.id,
        address=entry_address("substances", substance.id),
        kind="substance",
        title=((substance.name, ""),),
        about=tuple(filter(None, (substance.hydrate, substance.colloid, "substance molar mass"))),
    )


def _source(source: Source) -> Card:
    details: Sequence[str | None] = (source.authors, source.body, source.kind, source.identifier)
    year = None if source.year is None else str(source.year)
    return Card(
        id=source.id,
        address=source_address(source.id),
        kind="source",
        title=((source.title, ""),),
        about=tuple(filter(None, (*details, year, "source"))),
    )
