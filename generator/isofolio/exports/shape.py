"""The shape of the exported document, schema 1: every key with its meaning.

The JSON Schema is generated from these classes, and the tests hold every export against it. A key
that is sometimes left out is `NotRequired`; a null is explained by the `reasons` of its object.
"""

from collections.abc import Mapping
from typing import Annotated, Literal, NotRequired

from pydantic import Field, WithJsonSchema
from typing_extensions import TypedDict

from isofolio.vocabulary.exports import POLICY, SCHEMA
from isofolio.vocabulary.quantities import QUANTITIES, QUANTITY_BY_ID
from isofolio.vocabulary.terms import (
    AUDIT_VERDICTS,
    CONTAINER_KINDS,
    GRADES,
    JURISDICTIONS,
    NAME_KINDS,
    REVIEW_STATES,
    ROLES,
    STATUSES,
    VEIN_WORDS,
)
from isofolio.vocabulary.ucum import ucum_code


def _one_of(words: tuple[str, ...]) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "enum": list(words)})


def _amounts(units: Mapping[str, str]) -> WithJsonSchema:
    """Quantities in their units, of which none is left out: each a number, or null if unknown."""
    properties = {
        quantity: {
            "type": ["number", "null"],
            "description": f"{QUANTITY_BY_ID[quantity].label} [{unit}]",
            "x-unit": unit,
            "x-ucum": ucum_code(unit),
        }
        for quantity, unit in units.items()
    }
    return WithJsonSchema(
        {
            "type": "object",
            "description": "Null where unknown, with its reason; never 0 for unknown.",
            "properties": properties,
            "required": list(properties),
            "additionalProperties": {"type": ["number", "null"]},
        }
    )


PER_LITRE = _amounts({q.id: q.unit for q in QUANTITIES})
PER_CONTAINER = _amounts({q.id: q.container_unit for q in QUANTITIES if q.scales})


Date = Annotated[str, WithJsonSchema({"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$"})]
Reasons = Annotated[dict[str, str], Field(description="Why a value is null, by its key.")]
Range = Annotated[list[float], Field(min_length=2, max_length=2)]
Ranges = Annotated[
    dict[str, Range],
    Field(description="Low and high of what is declared as a range or a bound."),
]
Mass = Annotated[float | None, Field(description="Grams a litre, in the form as weighed.", ge=0)]
Millimoles = Annotated[float | None, Field(description="Millimoles a litre.", ge=0)]
Grade = Annotated[str, _one_of(GRADES)]


class Interval(TypedDict):
    """A reference interval of plasma that is printed beside the fluids."""

    low: float
    high: float
    unit: str
    population: str
    source: str | None
    at: str
    seen: Grade


class SubstanceCodes(TypedDict):
    """Codes of a substance in the form as weighed; one that is not known is left out."""

    inchikey: NotRequired[str]
    unii: NotRequired[str]
    cas: NotRequired[str]


class FluidCodes(TypedDict):
    """The class that a fluid belongs to, where the entry cites one; no code names the fluid."""

    atc: NotRequired[str]


class Substance(TypedDict):
    """What is weighed: a salt or a sugar with its water of crystallisation, or a colloid."""

    id: str
    name: str
    formula: str | None
    g_per_mol: Annotated[float | None, Field(description="Molar mass of the form as weighed.")]
    releases: Annotated[
        dict[str, int], Field(description="Particles a formula unit sets free, by quantity.")
    ]
    codes: SubstanceCodes
    reasons: Reasons


class WeighedContent(TypedDict):
    """A weighed substance of a recipe."""

    substance: str
    g_per_l: Mass
    reasons: NotRequired[Reasons]
    ranges: NotRequired[Ranges]


class DeclaredContent(TypedDict):
    """A declared particle, where no weighed recipe has been read."""

    particle: str
    mmol_per_l: Millimoles
    reasons: NotRequired[Reasons]
    ranges: NotRequired[Ranges]


class Name(TypedDict):
    """Another name; `where` names the countries that use it (none: not known)."""

    name: str
    kind: Annotated[str, _one_of(NAME_KINDS)]
    where: list[Annotated[str, _one_of(JURISDICTIONS)]]


class Classes(TypedDict):
    """Judged from the class limits of the catalogue: this project's choice, no published fact."""

    osmolarity_class: Literal["hypo", "iso", "hyper"] | None
    tonicity_class: Literal["hypo", "iso", "hyper"] | None
    reasons: Reasons


class Container(TypedDict):
    """A size in which the fluid is sold; a null is explained by the fluid's reasons."""

    volume_ml: float
    kind: Annotated[str, _one_of(CONTAINER_KINDS)]
    amounts: Annotated[dict[str, float | None], PER_CONTAINER]


class Vein(TypedDict):
    """What the vein may have to bear, and the figure that decides it."""

    word: Annotated[str, _one_of(VEIN_WORDS)]
    because: str


class AuditLine(TypedDict):
    """A printed figure beside ours; a null is explained by `explanation`."""

    quantity: str
    declared: Annotated[str, Field(description="As the source prints it.")]
    computed: float | None
    verdict: Annotated[str, _one_of(AUDIT_VERDICTS)]
    explanation: str
    source: str


class Alternative(TypedDict):
    """What may be discussed when the fluid is missing; no score where something stops it."""

    id: str
    score: float | None
    stops: list[str]
    reasons: list[str]


class Place(TypedDict):
    """Where in a source a figure stands, how it was seen, and when."""

    at: str
    seen: Grade
    on: Date


class Source(TypedDict):
    """A published source that the entry cites."""

    id: str
    title: str
    body: NotRequired[str]
    authors: NotRequired[str]
    year: NotRequired[int]
    identifier: NotRequired[str]
    address: NotRequired[str]
    cited: list[Place]


class Review(TypedDict):
    """The stamp as it stands: a draft as soon as the entry is no longer what was checked."""

    state: Annotated[str, _one_of(REVIEW_STATES)]
    by: NotRequired[str]
    second: NotRequired[str]
    on: NotRequired[Date]
    due: NotRequired[Date]
    covers: NotRequired[str]


class Fluid(TypedDict):
    """One fluid of the cupboard."""

    id: Annotated[str, Field(description="Never changes, and is never used again.")]
    name: str
    role: Annotated[str, _one_of(ROLES)]
    status: Annotated[str, _one_of(STATUSES)]
    jurisdiction: list[Annotated[str, _one_of(JURISDICTIONS)]]
    also_known_as: list[Name]
    codes: FluidCodes
    contents: list[WeighedContent | DeclaredContent]
    complete: Annotated[
        bool, Field(description="Whether what is not listed is absent; otherwise it is unknown.")
    ]
    per_litre: Annotated[dict[str, float | None], PER_LITRE]
    ranges: Ranges
    classes: Classes
    reasons: Reasons
    containers: list[Container]
    vein: Vein
    cautions: Annotated[list[str], Field(description="Ids, most severe first.")]
    audit: list[AuditLine]
    alternatives: list[Alternative]
    sources: list[Source]
    review: Review


class Document(TypedDict):
    """Every fluid of the handbook with its contents, figures, reasons, judgements and sources."""

    schema: Annotated[int, WithJsonSchema({"const": SCHEMA, "description": " ".join(POLICY)})]
    built_from: Annotated[str, Field(description="Digest of the catalogue; version of Isofolio.")]
    plasma: dict[str, Interval]
    substances: list[Substance]
    fluids: list[Fluid]
