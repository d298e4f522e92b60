"""The shape of every entry. One field, one line of the template in catalogue/README.md."""

from typing import Annotated, Any, Literal, Self

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
    """Where a figure comes from: the source, the place in it, how it was seen, and when.

    source: the source; left out only where seen is arithmetic.
    at: the place in it: a section, a table, a page.
    seen: read: the issuing body's own text; copy: another page that names the source;
      arithmetic: worked out here from printed inputs; memory: no source, refused on a page.
    on: the day you looked.
    """

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
_Written = Citation | Literal["common practice"]
Backing = Annotated[Citation | None, BeforeValidator(_backing, json_schema_input_type=_Written)]


class Review(Record):
    """A review stamp. Nobody but a named person's hand moves it from draft.

    state: draft until `isofolio review` writes something else.
    by: who checked it: a role or initials.
    second: who checked it again: another person.
    on: the day of the check.
    due: the day by which it is to be checked again.
    covers: the digest of what was checked; the program writes it.
    """

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
        if self.by and self.second and _person(self.second) == _person(self.by):
            fix = "Let another person check it too."
            raise fault("the second reviewer is the first", fix, "second")
        if self.on and self.due and self.due <= self.on:
            raise fault("it is due before it was checked", "Write a later day.", "due")
        return self


def _person(name: str) -> str:
    """A name as it counts: no capitals, points or spaces, so that "A. B." is "a b"."""
    return "".join(letter for letter in name.casefold() if letter.isalnum())


class AlsoKnownAs(Record):
    """Another name of a fluid, and what kind of name it is.

    name: the name as it is said or printed.
    kind: what kind of name it is; misspellings are found and never shown.
    where: where it is used, of a national name.
    """

    name: Title
    kind: Annotated[str, one_of(NAME_KINDS)]
    where: list[Annotated[str, one_of(JURISDICTIONS)]] = []


class Content(Record):
    """One weighed substance, or one declared particle, of a litre.

    substance: what is weighed, in the form it is weighed in.
    particle: an ion or molecule that the label declares, where no weighed recipe was read.
    amount: how much a litre holds.
    charge: the charge of a colloid, where a source declares it.
    """

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
    """Another published recipe of the same title.

    name: what tells this recipe apart.
    contents: what it weighs into a litre.
    cite: where it is printed.
    """

    name: Text
    contents: list[Content]
    cite: Citation


class Declared(Record):
    """What one source prints of a fluid.

    source: the source that prints the figures.
    at: the place in it: a section, a table, a page.
    seen: how it was seen: read, copy or arithmetic.
    on: the day you looked.
    values: each printed figure by its quantity, as printed.
    """

    source: SourceId
    at: Text
    seen: Annotated[str, one_of(GRADES)]
    on: Date
    values: dict[QuantityId, AmountField]


class Container(Record):
    """A size in which a fluid is sold.

    volume: the volume on the label.
    kind: what it is.
    """

    volume: AmountPresent
    kind: Annotated[str, one_of(CONTAINER_KINDS)]


class Note(Record):
    """A sentence and what backs it.

    text: one or two sentences.
    cite: what backs it: a citation, or the words common practice.
    """

    text: Text
    cite: Backing


class Diluent(Record):
    """What a concentrate is diluted in.

    fluids: the fluids it may be diluted in.
    cite: what backs it: a citation, or the words common practice.
    """

    fluids: list[FluidId]
    cite: Backing


class Route(Record):
    """What the product text of a title says of the vein.

    vein: the vein that the product text asks for.
    text: what it says, in a sentence.
    cite: what backs it: a citation, or the words common practice.
    """

    vein: Annotated[str, one_of(ROUTES)]
    text: Text
    cite: Backing


class Atc(Record):
    """A code of the anatomical therapeutic chemical classification.

    code: the code, only where verified.
    cite: where it was verified.
    """

    code: AtcCode
    cite: Citation


class Entry(Record):
    """What every entry with a page of its own has.

    id: the file name without .yml; it never changes and is never used again.
    name: the title or heading, as it is printed.
    """

    id: Identifier
    name: Title


class Fluid(Entry):
    """A fluid of the cupboard.

    name: the title on the label; a strength is written "figure space %".
    role: ready to hang, a concentrate to dilute, a colloid, a blood product, or only for
      mixing.
    status: current, retired or not-for-use; the last two need status_note.
    status_note: why it is not current.
    replaced_by: of a retired fluid: what took its place.
    jurisdiction: where this title and strength are sold.
    also_known_as: other names, so that the finder leads here.
    contents: what is weighed into a litre, or the ions that the label declares.
    contents_cite: what backs it: a citation, or the words common practice.
    complete: no where the source does not give the whole composition; otherwise leave it out.
    variants: other published recipes of the same title; the label audit tries them all.
    declared: what labels and tables print, a group a source.
    containers: the sizes in which it is sold.
    containers_cite: what backs it: a citation, or the words common practice.
    situations: what it is reached for.
    giving: sentences about giving it.
    diluent: of a concentrate: what it is diluted in.
    route: what the product text says of the vein.
    with_blood: what a source says of a line that carries blood; calcium and glucose are told by
      cautions.
    atc: its code in the classification, only where verified.
    review: the review stamp; a new or changed entry is a draft.
    """

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
    """A weighed acid: the base beside it decides the charge of its anion.

    particle: the anion that it leaves.
    up_to: how many charges the base can give one of them.
    """

    particle: ParticleId
    up_to: Times


class Osmosis(Record):
    """How the osmolality estimate treats a substance: Pitzer parameters, a likeness or a slope.

    b0: Pitzer parameter β(0) [kg/mol].
    b1: Pitzer parameter β(1) [kg/mol].
    b2: Pitzer parameter β(2) [kg/mol], of salts of two divalent ions.
    c: Pitzer parameter Cφ [kg²/mol²].
    like: a substance of the same charges whose coefficient is taken.
    slope: by how much the osmotic coefficient of an uncharged substance rises [per mol/kg].
    ratio: the measured osmotic coefficient itself.
    cite: what backs it: a citation, or the words common practice.
    """

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
    """Codes of a substance, each only where verified.

    inchikey: the InChIKey of the form that is weighed.
    unii: the code of the substance register.
    cas: the registry number.
    """

    inchikey: InchiKey | None = None
    unii: Unii | None = None
    cas: CasNumber | None = None


class Substance(Entry):
    """What is weighed: a salt or a sugar by its formula, or a colloid by its kind.

    name: the name of the form that is weighed, with its water.
    formula: the formula as weighed, water in brackets; not of a colloid.
    hydrate: the water of crystallisation that the formula holds.
    colloid: of a colloid: its kind; it releases nothing.
    releases: what one formula unit becomes in water: how many of each particle.
    base: mEq of base per mmol; it neutralises an acid or a polyanion.
    acid: of a weighed acid: the anion that it leaves.
    osmosis: how its osmolality is estimated; leave it out of a colloid.
    identifiers: codes, only where verified.
    identifiers_cite: where the codes were verified.
    note: what a reader should know of it.
    """

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
    """An ion or a molecule in solution.

    id: the key by which substances and fluids name it.
    name: the name in a sentence.
    symbol: how a chemist writes it, with its charge.
    charge: its charge, with a minus for an anion.
    strong: whether it is a strong ion, wholly dissociated at the pH of plasma.
    fate: what the body makes of it.
    pattern: its pattern in the drawings.
    colour: the name of its colour in the drawings.
    volume: its partial molar volume at 25 °C [cm³/mol].
    counts_as: the quantity under which it is counted, where that has another name.
    note: what a reader should know of it.
    volume_cite: what backs the volume: a citation, or the words common practice.
    """

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
    """particles.yml

    particles: the ions and molecules, in the order in which drawings stack them.
    """

    particles: list[Particle]


class Interval(Record):
    """A reference interval of plasma.

    quantity: the quantity.
    interval: from and to, with the unit.
    population: whom it was measured in.
    beside: yes for the one that stands beside the fluids; otherwise leave it out.
    cite: where it is printed.
    note: what a reader should know of it.
    """

    quantity: Annotated[str, one_of(tuple(IN_PLASMA), "a quantity")]
    interval: AmountField
    population: Text
    beside: YesNo = False
    cite: Citation
    note: Text | None = None


class Plasma(Record):
    """plasma.yml

    intervals: the reference intervals, source by source.
    """

    intervals: list[Interval]


class Disagreement(Record):
    """What another source says of the same limit.

    value: its value.
    text: what it says, and of whom.
    cite: where it says so.
    """

    value: AmountField
    text: Text
    cite: Citation


class Limit(Record):
    """A threshold that a rule reads.

    id: the key by which rules and hospitals name it.
    quantity: the quantity that is held against it.
    value: the threshold, written at the precision at which it is compared.
    stricter: whether a lower or a higher value is stricter; a hospital may only set a stricter
      one.
    text: what it means, in a sentence that pages print.
    cite: where it is printed.
    disagree: what other sources say of the same threshold.
    """

    id: Identifier
    quantity: Text
    value: AmountField
    stricter: Annotated[str, one_of(STRICTER)]
    text: Text
    cite: Citation
    disagree: list[Disagreement] = []


class Limits(Record):
    """limits.yml

    limits: the thresholds.
    """

    limits: list[Limit]


class Word(Record):
    """A word that means more than one fluid.

    word: the word as it is said.
    candidates: the fluids that it may mean.
    tells_apart: what tells them apart, in a sentence or two.
    """

    word: Title
    candidates: list[FluidId]
    tells_apart: Text


class Words(Record):
    """words.yml

    words: the words.
    """

    words: list[Word]


class NotInstead(Record):
    """What an alternative is not for, by a case out of a closed list; loud: told as a warning.

    id: a key of its own.
    case: what speaks against taking one for the other.
    loud: yes where it is told as a warning; otherwise it ends a line.
    text: the sentence, or what follows "Not instead of this for".
    cite: what backs it: a citation, or the words common practice.
    """

    id: Identifier
    case: Annotated[str, one_of(NOT_INSTEAD_CASES)]
    loud: YesNo = False
    text: Text
    cite: Backing


class NotInsteads(Record):
    """not-instead.yml

    cases: the cases, in the order in which they are told.
    """

    cases: list[NotInstead]


class Source(Record):
    """A published source.

    id: the file name without .yml, by which entries cite it.
    kind: what kind of publication it is.
    title: its title, without brand or maker.
    body: the body that issued it.
    authors: its authors, where no body issued it.
    year: the year of publication.
    edition: its edition or date.
    identifier: a doi, pmid, isbn or number of a standard.
    address: where it can be read.
    note: what a reader should know of it.
    """

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
    """A dated line of what a reader should know.

    on: the day of the change.
    text: what changed, in a sentence for readers.
    pages: the pages it touches, as in fluids/glucose-5.
    """

    on: Date
    text: Text
    pages: list[Text] = []


class Changes(Record):
    """changes.yml

    changes: the changes, in any order.
    """

    changes: list[Change]
