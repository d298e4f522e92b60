"""The shape of what is weighed, and of what it releases."""

from typing import Annotated, Self

from pydantic import model_validator

from isofolio.entries.records import Backing, Entry, Record
from isofolio.entries.scalars import (
    Count,
    Identifier,
    Number,
    ParticleId,
    SubstanceId,
    Text,
    Times,
    Title,
    YesNo,
    fault,
    one_of,
    patterned,
)
from isofolio.vocabulary.terms import (
    COLLOIDS,
    COLOURS,
    FATES,
    HYDRATES,
    PATTERNS,
)

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
