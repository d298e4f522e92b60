"""The method: the docstrings of the functions that compute, set as a page."""

import importlib
import inspect
import re
from collections.abc import Iterator
from types import FunctionType, ModuleType
from typing import Any

from isofolio.pages.page import Page, rendered
from isofolio.wording.addresses import METHOD

# The rooms whose functions compute what pages print, in reading order.
MODULES = (
    "isofolio.chemistry.formula",
    "isofolio.chemistry.composition",
    "isofolio.chemistry.charge",
    "isofolio.chemistry.osmosis",
    "isofolio.chemistry.energy",
)


def method_page() -> Page:
    """How each figure is made."""
    return Page(
        path=METHOD,
        title="Method",
        description="How each computed figure is made, from the program's own text.",
        body=rendered("method.html", METHOD, {"rooms": [_room(name) for name in MODULES]}),
    )


def _room(name: str) -> dict[str, Any]:
    module = importlib.import_module(name)
    title, _, summary = inspect.getdoc(module).partition(": ")  # type: ignore[union-attr]
    summary = summary or title
    return {
        "anchor": name.rpartition(".")[2],
        "title": name.rpartition(".")[2].replace("_", " ").capitalize(),
        "summary": " ".join(inspect.getdoc(module).split()),  # type: ignore[union-attr]
        "functions": list(_functions(module)),
    }


def _functions(module: ModuleType) -> Iterator[dict[str, Any]]:
    for name, function in vars(module).items():
        if isinstance(function, FunctionType) and _is_public(name, function, module):
            text, example = _parts(inspect.getdoc(function) or "")
            yield {
                "anchor": name.replace("_", "-"),
                "name": name.replace("_", " "),
                "paragraphs": [" ".join(part.split()) for part in text.split("\n\n") if part],
                "example": example,
            }


def _is_public(name: str, function: FunctionType, module: ModuleType) -> bool:
    return function.__module__ == module.__name__ and not name.startswith("_")


def _parts(docstring: str) -> tuple[str, str]:
    """The prose of a docstring and its first example."""
    found = re.search(r"^>>>", docstring, re.MULTILINE)
    if found is None:
        return docstring, ""
    example = docstring[found.start() :].partition("\n\n")[0]
    return docstring[: found.start()].strip(), example.strip()
