"""A new entry to start from: commented, and asking for nothing that the program can know."""

import re
from pathlib import Path

from isofolio.entries.schema import modeline
from isofolio.vocabulary.terms import (
    CONTAINER_KINDS,
    JURISDICTIONS,
    NAME_KINDS,
    ROLES,
    ROUTES,
    STATUSES,
)

# Every key of a fluid, in the order of its record; the keys in comments may be left out.
TEMPLATE = """\
{modeline}
id: {id}
# The title on the label; a strength is written "figure space %".
name: {name}
role: ready  # {roles}
status: current  # {statuses}
# Needed unless it is current; replaced_by names what took the place of a retired fluid.
# status_note: {{text: , cite: {{source: , at: , seen: , on: }}}}
# replaced_by: another-fluid
jurisdiction: []  # where it is sold: {jurisdictions}
# - {{name: G5, kind: abbreviation}}
# kind: {name_kinds}; where: [UK] of a national name
also_known_as: []
# What is weighed into a litre, in the form it is weighed in, or, where no weighed recipe was read,
# the ions that the label declares:  - {{particle: sodium, amount: 154 mmol/L}}
contents:
  - {{substance: , amount: }}
# An id of sources/; the section; read | copy | arithmetic; the day you looked.
contents_cite: {{source: , at: , seen: , on: }}
# Where the source does not give the whole composition:
# complete: no
# Another published recipe of the same title:
# - {{name: , contents: [{{substance: , amount: }}], cite: {{source: , at: , seen: , on: }}}}
variants: []
# What a label prints:
# - {{source: , at: , seen: , on: , values: {{osmolarity: 308 mOsm/L}}}}
declared: []
# - {{volume: 500 mL, kind: bag}}
# kind: {container_kinds}
containers: []
containers_cite: common practice  # or as contents_cite
situations: []  # ids of situations/
# - {{text: , cite: {{source: , at: , seen: , on: }}}}
giving: []
# Of a concentrate, what it is diluted in:
# diluent: {{fluids: [sodium-chloride-0-9], cite: {{source: , at: , seen: , on: }}}}
# Where the product text asks for a vein, {routes}:
# route: {{vein: large, text: , cite: {{source: , at: , seen: , on: }}}}
# Where a source speaks of a line that carries blood:
# with_blood: {{text: , cite: {{source: , at: , seen: , on: }}}}
# Its code in the classification, where you verified it:
# atc: {{code: , cite: {{source: , at: , seen: , on: }}}}
review: {{state: draft}}
"""


STOCK = """\
{modeline}
id: {id}
# The hospital, as it stands in the head of its copy.
name: {name}
# What a reader should know of this stock:
# note: A sentence.
# What is kept, in which sizes and where, and what it is called here; only the fluid is needed.
# No key here can change what a bag holds: another composition is another entry of fluids/.
# - {{fluid: glucose-5, sizes: [500 mL], wards: [every ward], local_names: [], note: A sentence.}}
fluids:
  - {{fluid: }}
# A limit of limits.yml that is drawn tighter here, never looser:
# - {{limit: vein-central-preferred, value: 800 mOsm/L, why: who decided so.}}
limits: []
review: {{state: draft}}
"""


class NewEntryError(Exception):
    """The entry was not written; the message says why and what to do."""


def write_new(catalogue: Path, kind: str, identifier: str) -> Path:
    """Write the template of a kind of KINDS. Raises NewEntryError; never overwrites.

    The strength in an id becomes the strength in the name: glucose-7-5 -> "Glucose 7.5 %".
    """
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", identifier):
        message = f'"{identifier}" is not an id: use small letters a to z, digits, single hyphens.'
        raise NewEntryError(message)
    folder, text_of = KINDS[kind]
    path = catalogue / folder / f"{identifier}.yml"
    try:
        _refuse_taken(catalogue, path)
        path.parent.mkdir(exist_ok=True)
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text_of(identifier))
    except OSError as error:
        why = f"{path} cannot be written ({error.strerror})."
        raise NewEntryError(f"{why} Choose a shorter id, or look at that folder.") from None
    return path


def _refuse_taken(catalogue: Path, path: Path) -> None:
    """An id is the address of a page, and what an editor says: two entries never share one."""
    for other in sorted(catalogue.glob(f"*/{path.name}")):
        taken = "exists already" if other == path else "has that id already"
        fix = "Edit it, or choose another id."
        raise NewEntryError(f"{other.parent.name}/{other.name} {taken}. {fix}")


def new_fluid(identifier: str) -> str:
    """The text of a new fluid; the closed lists stand in it as the records know them."""
    return TEMPLATE.format(
        modeline=modeline(f"fluids/{identifier}.yml"),
        id=identifier,
        name=name_from(identifier),
        roles=" | ".join(ROLES),
        statuses=" | ".join(STATUSES),
        jurisdictions=" ".join(JURISDICTIONS),
        name_kinds=" | ".join(NAME_KINDS),
        container_kinds=" | ".join(CONTAINER_KINDS),
        routes=" or ".join(ROUTES),
    )


def new_stock(identifier: str) -> str:
    """The text of a new hospital's stock."""
    return STOCK.format(
        modeline=modeline(f"stock/{identifier}.yml"), id=identifier, name=name_from(identifier)
    )


def name_from(identifier: str) -> str:
    """A first guess at the title.

    >>> name_from("sodium-chloride-0-45-glucose-2-5")
    'Sodium chloride 0.45 % glucose 2.5 %'
    """
    spaced = re.sub(r"(\d+)-(\d+)", r"\1.\2", identifier).replace("-", " ")
    named = re.sub(r"(\d+(?:\.\d+)?)(?= |$)", r"\1 %", spaced)
    return named[0].upper() + named[1:]


# What `new` can write -> the folder of the catalogue, and the function that writes its text.
KINDS = {"fluid": ("fluids", new_fluid), "stock": ("stock", new_stock)}
