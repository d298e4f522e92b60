"""A new entry to start from: commented, and asking for nothing that the program can know."""

import re
from pathlib import Path

TEMPLATE = """\
id: {id}
# The title on the label; a strength is written "figure space %".
name: {name}
role: ready  # ready | concentrate | colloid | blood-product | diluent
status: current
jurisdiction: []  # UK IE EU US AU NZ IN CA WHO
# - {{name: G5, kind: abbreviation}}  (synonym, ward word, misspelling, national name)
also_known_as: []
# What is weighed into a litre, in the form it is weighed in, or, where no weighed recipe was read,
# the ions that the label declares:  - {{particle: sodium, amount: 154 mmol/L}}
contents:
  - {{substance: , amount: }}
# An id of sources/; the section; read | copy | arithmetic; the day you looked.
contents_cite: {{source: , at: , seen: , on: }}
# What a label prints: - {{source: , at: , seen: , on: , values: {{osmolarity: 308 mOsm/L}}}}
declared: []
containers: []  # - {{volume: 500 mL, kind: bag}}
containers_cite: common practice
situations: []  # ids of situations/
giving: []  # - {{text: , cite: {{source: , at: , seen: , on: }}}}
review: {{state: draft}}
"""


class NewEntryError(Exception):
    """The entry was not written; the message says why and what to do."""


def write_new_fluid(catalogue: Path, identifier: str) -> Path:
    """Write the template of a fluid. Raises NewEntryError; never overwrites.

    The strength in an id becomes the strength in the name: glucose-7-5 -> "Glucose 7.5 %".
    """
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", identifier):
        message = f'"{identifier}" is not an id: use small letters a to z, digits, single hyphens.'
        raise NewEntryError(message)
    path = catalogue / "fluids" / f"{identifier}.yml"
    text = TEMPLATE.format(id=identifier, name=name_from(identifier))
    try:
        path.parent.mkdir(exist_ok=True)
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except OSError as error:
        if path.parent.is_dir() and isinstance(error, FileExistsError):
            raise NewEntryError(f"{path} exists already. Edit it, or choose another id.") from None
        why = f"{path} cannot be written ({error.strerror})."
        raise NewEntryError(f"{why} Choose a shorter id, or look at that folder.") from None
    return path


def name_from(identifier: str) -> str:
    """A first guess at the title.

    >>> name_from("sodium-chloride-0-45-glucose-2-5")
    'Sodium chloride 0.45 % glucose 2.5 %'
    """
    spaced = re.sub(r"(\d+)-(\d+)", r"\1.\2", identifier).replace("-", " ")
    named = re.sub(r"(\d+(?:\.\d+)?)(?= |$)", r"\1 %", spaced)
    return named[0].upper() + named[1:]
