"""The method: the docstrings of the functions that compute, set as a page."""

import importlib
import inspect
import re
from collections.abc import Callable, Iterator
from types import FunctionType, ModuleType
from typing import Any

from isofolio.measures.methods import METHODS, anchor_of, method_anchor
from isofolio.pages.page import Page, rendered
from isofolio.vocabulary.quantities import QUANTITIES
from isofolio.wording.addresses import METHOD
from isofolio.wording.figures import unit_text

# The modules whose functions compute what pages print, in reading order, and what they are about.
ROOMS = (
    ("isofolio.chemistry.formula", "Molar masses"),
    ("isofolio.chemistry.composition", "From grams to millimoles, and mixing"),
    ("isofolio.chemistry.charge", "Electric charge"),
    ("isofolio.chemistry.osmosis", "Osmolarity and osmolality"),
    ("isofolio.chemistry.solutes", "Osmotic behaviour of salts and sugars"),
    ("isofolio.chemistry.energy", "Energy"),
    ("isofolio.physiology.traits", "What the body does with each particle"),
    ("isofolio.physiology.tonicity", "Tonicity and free water"),
    ("isofolio.physiology.strong_ions", "Strong ion difference"),
    ("isofolio.physiology.compartments", "Where a litre goes"),
    ("isofolio.physiology.acid_base", "Acid and base in plasma"),
    ("isofolio.physiology.dilution", "Acid and base after a litre"),
    ("isofolio.physiology.sodium", "Change of plasma sodium"),
    ("isofolio.physiology.rates", "Rates, for the worksheets"),
)


def method_page() -> Page:
    """How each figure is made."""
    context = {
        "rooms": [_room(module, title) for module, title in ROOMS],
        "quantities": list(_quantities()),
    }
    return Page(
        path=METHOD,
        title="Method",
        description="How each computed figure is made, from the program's own text.",
        body=rendered("method.html", METHOD, context),
    )


def method_address(quantity: str) -> str:
    """The address of the function that makes a quantity; "" for one that is only declared.

    >>> method_address("osmolarity")
    'method.html#osmosis-theoretical-osmolarity'
    """
    anchor = method_anchor(quantity)
    return f"{METHOD}#{anchor}" if anchor else ""


def _quantities() -> Iterator[dict[str, str]]:
    """Every quantity of the tables, and the function that makes it."""
    for quantity in QUANTITIES:
        function = METHODS.get(quantity.id)
        yield {
            "name": quantity.label,
            "unit": unit_text(quantity.unit).strip(),
            "anchor": "" if function is None else anchor_of(function),
            "function": "declared, never computed" if function is None else _spoken(function),
        }


def _room(name: str, title: str) -> dict[str, Any]:
    module = importlib.import_module(name)
    return {
        "anchor": name.rpartition(".")[2].replace("_", "-"),
        "title": title,
        "paragraphs": _paragraphs(inspect.getdoc(module) or ""),
        "functions": list(_described(module)),
    }


def _described(module: ModuleType) -> Iterator[dict[str, Any]]:
    """The public functions and records that a module defines, in its own order."""
    for name, thing in vars(module).items():
        if _is_public(name, thing, module):
            text, example = _parts(inspect.getdoc(thing) or "")
            yield {
                "anchor": _anchor(thing),
                "name": _spoken(thing),
                "paragraphs": _paragraphs(text),
                "example": example,
            }


def _is_public(name: str, thing: object, module: ModuleType) -> bool:
    """Whether a module defines a thing itself, for others; a cached function is one too."""
    is_code = isinstance(thing, FunctionType | type) or hasattr(thing, "__wrapped__")
    return is_code and thing.__module__ == module.__name__ and not name.startswith("_")


def _anchor(thing: Callable[..., Any]) -> str:
    """The anchor of a function, or of a record, which may have the name of a function."""
    return f"{anchor_of(thing).lower()}-record" if isinstance(thing, type) else anchor_of(thing)


_QUOTED = re.compile(r"`([^`]*)`")
_MINUS = re.compile(r"(?<= )-(?= )|(?<=[ (^])-(?=[\d(p])")

# What is not read as it is written.
SPOKEN = {"us": "US", "sid": "strong ion difference", "ph": "pH", "pco2": "PaCO₂"}


def _spoken(thing: Callable[..., Any]) -> str:
    """A name of the program as words.

    >>> _spoken(method_address)
    'method address'
    """
    words = _words(re.sub(r"(?<=[a-z])(?=[A-Z])", "_", thing.__name__).lower())
    return f"{words}, the record" if isinstance(thing, type) else words


def _words(name: str) -> str:
    return " ".join(SPOKEN.get(word, word) for word in name.split("_"))


def _paragraphs(text: str) -> list[str]:
    """Paragraphs of a docstring as prose: names in backticks as words, true minus signs."""
    parts = [" ".join(part.split()) for part in text.split("\n\n") if part.strip()]
    return [_MINUS.sub("−", _QUOTED.sub(lambda found: _words(found[1]), part)) for part in parts]


def _parts(docstring: str) -> tuple[str, str]:
    """The prose of a docstring and its first example."""
    found = re.search(r"^>>>", docstring, re.MULTILINE)
    if found is None:
        return docstring, ""
    example = docstring[found.start() :].partition("\n\n")[0]
    return docstring[: found.start()].strip(), example.strip()
