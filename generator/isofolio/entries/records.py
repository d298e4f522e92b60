"""The shape of every entry. One field, one line of the template in catalogue/README.md."""

from typing import Annotated, Any, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, model_validator

from isofolio.entries.problems import quoted
from isofolio.entries.scalars import (
    Address,
    AmountField,
    AmountPresent,
    Count,
    Date,
    FluidId,
    Identifier,
    Number,
    ParticleId,
    SituationId,
    SourceId,
    SubstanceId,
    Text,
    Times,
    Title,
    YesNo,
    fault,
    one_of,
    patterned,
)
from isofolio.vocabulary.quantities import DECLARABLE, IN_PLASMA
from isofolio.vocabulary.terms import (
    COLLOIDS,
    COLOURS,
    COMMON_PRACTICE,
    CONTAINER_KINDS,
    FATES,
    GRADES,
    HYDRATES,
    JURISDICTIONS,
    NAME_KINDS,
    NOT_INSTEAD_CASES,
    PATTERNS,
    REVIEW_STATES,
    ROLES,
    ROUTES,
    SOURCE_KINDS,
    STATUSES,
    STRICTER,
)

Digest = Annotated[
    str, patterned("[0-9a-f]{12}", "a digest of twelve hex digits", "`isofolio review` writes it.")
]
AtcCode = Annotated[
    str, patterned("[A-Z][0-9]{2}[A-Z]{2}[0-9]{2}", "an ATC code", "Write it as in B05BA03.")
]
InchiKey = Annotated[
    str, patterned("[A-Z]{14}-[A-Z]{10}-[A-Z]", "an InChIKey", "It is 14, 10 and 1 capitals.")
]
Unii = Annotated[str, patterned("[0-9A-Z]{10}", "a UNII", "It is ten digits and capitals.")]
CasNumber = Annotated[
    str, patterned("[0-9]{2,7}-[0-9]{2}-[0-9]", "a CAS number", "Write it as in 7647-14-5.")
]
Formula = Annotated[
    str,
    patterned(
        r"([A-Z][a-z]?[0-9]*|\(([A-Z][a-z]?[0-9]*)+\)[0-9]*)+",
        "a formula",
        "Write it as in NaCl, C6H12O6 or, with water of crystallisation, CaCl2(H2O)2.",
    ),
]
QuantityId = Annotated[str, one_of(tuple(DECLARABLE), "a quantity")]


class Record(BaseModel):
    """What all entries share: nothing unknown gets in, nothing changes afterwards."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


class Citation(Record):
    """Where a figure comes from: the source, the place in it, how it was seen, and when."""

    source: SourceId | None = None
    at: Text
    seen: Annotated[str, one_of(GRADES)]
    on: Date

    @model_validator(mode="after")
    def _names_its_source(self) -> Self:
        if self.source is None and self.seen not in {"arithmetic", "memory"}:
            raise fault(
                "the citation names no source", "Add source: with the id of an entry in sources/."
            )
        return self


def _backing(value: Any) -> Any:
    """`common practice` is written as text; everything else is a citation."""
    if isinstance(value, str):
        if value == COMMON_PRACTICE:
            return None
        said = "the value is empty" if not value.strip() else f"{quoted(value)} is not a citation"
        raise fault(said, f"Write {{source, at, seen, on}}, or the words {COMMON_PRACTICE}.")
    return value


# None stands for "common practice, no source": the page says so in these words.
Backing = Annotated[Citation | None, BeforeValidator(_backing)]


class Review(Record):
    """A review stamp. Nobody but a named person's hand moves it from draft."""

    state: Annotated[str, one_of(REVIEW_STATES)]
    by: Text | None = None
    second: Text | None = None
    on: Date | None = None
    due: Date | None = None
    covers: Digest | None = None

    @model_validator(mode="after")
    def _is_whole(self) -> Self:
        needed = {"draft": (), "checked": ("by", "on", "due", "covers")}.get(
            self.state, ("by", "second", "on", "due", "covers")
        )
        missing = [name for name in needed if getattr(self, name) is None]
        if missing:
            raise fault(
                f"a {self.state} stamp without {', '.join(missing)}",
                "Let `isofolio review` write the stamp, or set state: draft.",
            )
        if self.by and self.second and self.second.casefold() == self.by.casefold():
            fix = "Let another person check it too."
            raise fault("the second reviewer is the first", fix, "second")
        return self


class AlsoKnownAs(Record):
    """Another name of a fluid, and what kind of name it is."""

    name: Title
    kind: Annotated[str, one_of(NAME_KINDS)]
    where: list[Annotated[str, one_of(JURISDICTIONS)]] = []


class Content(Record):
    """One weighed substance, or one declared particle, of a litre."""

    substance: SubstanceId | None = None
    particle: ParticleId | None = None
    amount: AmountPresent
    charge: AmountPresent | None = None

    @model_validator(mode="after")
    def _is_one_thing(self) -> Self:
        if (self.substance is None) == (self.particle is None):
            raise fault(
                "a content is either a substance or a particle",
                "Write substance: for what is weighed, or particle: for what a label declares.",
            )
        return self


class Variant(Record):
    """Another published recipe of the same title."""

    name: Text
    contents: list[Content]
    cite: Citation


class Declared(Record):
    """What one source prints of a fluid."""

    source: SourceId
    at: Text
    seen: Annotated[str, one_of(GRADES)]
    on: Date
    values: dict[QuantityId, AmountField]


class Container(Record):
    """A size in which a fluid is sold."""

    volume: AmountPresent
    kind: Annotated[str, one_of(CONTAINER_KINDS)]


class Note(Record):
    """A sentence and what backs it."""

    text: Text
    cite: Backing


class Diluent(Record):
    """What a concentrate is diluted in."""

    fluids: list[FluidId]
    cite: Backing


class Route(Record):
    """What the product text of a title says of the vein."""

    vein: Annotated[str, one_of(ROUTES)]
    text: Text
    cite: Backing


class Atc(Record):
    """A code of the anatomical therapeutic chemical classification."""

    code: AtcCode
    cite: Citation


class Entry(Record):
    """What every entry with a page of its own has."""

    id: Identifier
    name: Title


class Fluid(Entry):
    """A fluid of the cupboard."""

    role: Annotated[str, one_of(ROLES)]
    status: Annotated[str, one_of(STATUSES)]
    status_note: Note | None = None
    replaced_by: FluidId | None = None
    jurisdiction: list[Annotated[str, one_of(JURISDICTIONS)]] = []
    also_known_as: list[AlsoKnownAs] = []
    contents: list[Content]
    contents_cite: Backing
    complete: YesNo = True
    variants: list[Variant] = []
    declared: list[Declared] = []
    containers: list[Container] = []
    containers_cite: Backing = None
    situations: list[SituationId] = []
    giving: list[Note] = []
    diluent: Diluent | None = None
    route: Route | None = None
    with_blood: Note | None = None
    atc: Atc | None = None
    review: Review

    @model_validator(mode="after")
    def _status_is_explained(self) -> Self:
        if self.status != "current" and self.status_note is None:
            raise fault(
                f"the status {self.status} without a reason",
                "Add status_note: {text, cite}.",
                "status",
            )
        return self


class Acid(Record):
    """A weighed acid: the base beside it decides the charge of its anion."""

    particle: ParticleId
    up_to: Times


class Osmosis(Record):
    """How the osmolality estimate treats a substance: Pitzer parameters, a likeness or a slope."""

    b0: Number | None = None
    b1: Number | None = None
    b2: Number | None = None
    c: Number | None = None
    like: SubstanceId | None = None
    slope: Number | None = None
    ratio: Number | None = None
    cite: Backing

    @model_validator(mode="after")
    def _is_one_way(self) -> Self:
        pitzer = [self.b0, self.b1, self.c]
        given = [way is not None for way in (*pitzer, self.b2)]
        others = sum(way is not None for way in (self.like, self.slope, self.ratio))
        whole = all(given[:3]) and others == 0
        if not whole and (any(given) or others != 1):
            raise fault(
                "no single and whole way to estimate it is given",
                "Give b0, b1 and c; or like; or slope; or ratio.",
            )
        return self


class Identifiers(Record):
    """Codes of a substance, each only where verified."""

    inchikey: InchiKey | None = None
    unii: Unii | None = None
    cas: CasNumber | None = None


class Substance(Entry):
    """What is weighed: a salt or a sugar by its formula, or a colloid by its kind."""

    formula: Formula | None = None
    hydrate: Annotated[str, one_of(HYDRATES)] | None = None
    colloid: Annotated[str, one_of(COLLOIDS)] | None = None
    releases: dict[ParticleId, Times] = {}
    base: Times = 0
    acid: Acid | None = None
    osmosis: Osmosis | None = None
    identifiers: Identifiers | None = None
    identifiers_cite: Backing = None
    note: Text | None = None

    @model_validator(mode="after")
    def _is_formula_or_colloid(self) -> Self:
        if self.formula is None and self.colloid is None:
            fix = "Add formula: and hydrate: of what is weighed, or colloid: and its kind."
            raise fault("a substance with neither a formula nor a colloid kind", fix)
        if self.formula is not None and self.colloid is not None:
            fix = "Keep one of the two."
            raise fault("a substance with a formula and a colloid kind", fix, "colloid")
        if self.formula is not None and self.hydrate is None:
            fix = f"Add hydrate: and one of {', '.join(HYDRATES)}."
            raise fault("a formula without its hydrate", fix, "formula")
        return self


class Particle(Record):
    """An ion or a molecule in solution."""

    id: Identifier
    name: Title
    symbol: Title
    charge: Count
    strong: YesNo
    fate: Annotated[str, one_of(FATES)]
    pattern: Annotated[str, one_of(PATTERNS)]
    colour: Annotated[str, one_of(COLOURS)]
    volume: Number | None = None
    counts_as: Identifier | None = None
    note: Text | None = None
    volume_cite: Backing = None


class Particles(Record):
    """particles.yml"""

    particles: list[Particle]


class Interval(Record):
    """A reference interval of plasma."""

    quantity: Annotated[str, one_of(tuple(IN_PLASMA), "a quantity")]
    interval: AmountField
    population: Text
    beside: YesNo = False
    cite: Citation
    note: Text | None = None


class Plasma(Record):
    """plasma.yml"""

    intervals: list[Interval]


class Disagreement(Record):
    """What another source says of the same limit."""

    value: AmountField
    text: Text
    cite: Citation


class Limit(Record):
    """A threshold that a rule reads."""

    id: Identifier
    quantity: Text
    value: AmountField
    stricter: Annotated[str, one_of(STRICTER)]
    text: Text
    cite: Citation
    disagree: list[Disagreement] = []


class Limits(Record):
    """limits.yml"""

    limits: list[Limit]


class Word(Record):
    """A word that means more than one fluid."""

    word: Title
    candidates: list[FluidId]
    tells_apart: Text


class Words(Record):
    """words.yml"""

    words: list[Word]


class NotInstead(Record):
    """What an alternative is not for, by a case out of a closed list; loud: told as a warning."""

    id: Identifier
    case: Annotated[str, one_of(NOT_INSTEAD_CASES)]
    loud: YesNo = False
    text: Text
    cite: Backing


class NotInsteads(Record):
    """not-instead.yml"""

    cases: list[NotInstead]


class Source(Record):
    """A published source."""

    id: Identifier
    kind: Annotated[str, one_of(SOURCE_KINDS)]
    title: Title
    body: Title | None = None
    authors: Title | None = None
    year: Count | None = None
    edition: Text | None = None
    identifier: Text | None = None
    address: Address | None = None
    note: Text | None = None

    @model_validator(mode="after")
    def _says_who(self) -> Self:
        if self.body is None and self.authors is None:
            raise fault("the source names neither body nor authors", "Add body: or authors:.")
        return self


class Change(Record):
    """A dated line of what a reader should know."""

    on: Date
    text: Text
    pages: list[Text] = []


class Changes(Record):
    """changes.yml"""

    changes: list[Change]
