"""The shape of a fluid. One field, one line of the template in catalogue/README.md."""

from typing import Annotated, Self

from pydantic import model_validator

from isofolio.entries.records import (
    Backing,
    Citation,
    Entry,
    Note,
    QuantityId,
    Record,
    Review,
    Shared,
)
from isofolio.entries.scalars import (
    AmountField,
    AmountPresent,
    Date,
    FluidId,
    ParticleId,
    SituationId,
    SourceId,
    SubstanceId,
    Text,
    Title,
    YesNo,
    fault,
    one_of,
    patterned,
)
from isofolio.vocabulary.terms import (
    CONTAINER_KINDS,
    GRADES,
    JURISDICTIONS,
    NAME_KINDS,
    ROLES,
    ROUTES,
    STATUSES,
)

AtcCode = Annotated[
    str, patterned("[A-Z][0-9]{2}[A-Z]{2}[0-9]{2}", "an ATC code", "Write it as in B05BA03.")
]


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
    contents: list[Shared[Content]]
    cite: Shared[Citation]


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
    cite: Shared[Citation]


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
    status_note: Shared[Note] | None = None
    replaced_by: FluidId | None = None
    jurisdiction: list[Annotated[str, one_of(JURISDICTIONS)]] = []
    also_known_as: list[AlsoKnownAs] = []
    contents: list[Shared[Content]]
    contents_cite: Backing
    complete: YesNo = True
    variants: list[Variant] = []
    declared: list[Declared] = []
    containers: list[Shared[Container]] = []
    containers_cite: Backing = None
    situations: list[SituationId] = []
    giving: list[Shared[Note]] = []
    diluent: Diluent | None = None
    route: Route | None = None
    with_blood: Shared[Note] | None = None
    atc: Shared[Atc] | None = None
    review: Shared[Review]

    @model_validator(mode="after")
    def _status_is_explained(self) -> Self:
        if self.status != "current" and self.status_note is None:
            raise fault(
                f"the status {self.status} without a reason",
                "Add status_note: {text, cite}.",
                "status",
            )
        return self
