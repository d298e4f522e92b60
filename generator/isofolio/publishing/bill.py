"""The bill of materials: which software made a handbook, and which of it is in the handbook.

Form: CycloneDX 1.6, JSON (ECMA-424), only what is known from what is installed here: name, version,
licence, package address, and who needs whom. No time, no serial number: same parts, same bytes.
"""

import re
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from typing import Any

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

PROGRAM = "isofolio"
CHART_LIBRARY = re.compile(rb"plotly\.js v(\d+(?:\.\d+)+)")
LICENCE_CLASS = "License :: "
# A licence field longer than this holds the licence's text, not its name.
LONGEST_NAME = 80


class BillError(Exception):
    """The parts cannot be told from here; the message says what to do."""


def bill_of_materials(chart_library: bytes | None) -> dict[str, Any]:
    """The bill of a handbook built by the program as it is installed here. Raises BillError.

    chart_library: the one script of others that a site holds, where it holds it.
    """
    parts = installed_parts(PROGRAM)
    shipped = [] if chart_library is None else [_chart_library(chart_library)]
    return {
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": {"component": _component(parts[PROGRAM], "application")},
        "components": [
            *(
                _component(part, "library")
                for name, part in sorted(parts.items())
                if name != PROGRAM
            ),
            *shipped,
        ],
        "dependencies": [
            {"ref": _address(part), "dependsOn": [_address(parts[name]) for name in _needs(part)]}
            for _, part in sorted(parts.items())
        ],
    }


def installed_parts(program: str) -> dict[str, Distribution]:
    """The program and every package that it needs, and these need, by name. Raises BillError."""
    parts: dict[str, Distribution] = {}
    wanted = [program]
    while wanted:
        name = wanted.pop()
        if name not in parts:
            parts[name] = _installed(name)
            wanted += _needs(parts[name])
    return parts


def _installed(name: str) -> Distribution:
    try:
        return distribution(name)
    except PackageNotFoundError:
        raise BillError(
            f"The package {name} is not installed here, so its version is not known. "
            "Install the program with pip, then make the bundle again."
        ) from None


def _needs(part: Distribution) -> list[str]:
    """The packages that one needs on this system, without its extras."""
    needed = (Requirement(text) for text in part.requires or ())
    return sorted(
        {
            canonicalize_name(one.name)
            for one in needed
            if one.marker is None or one.marker.evaluate({"extra": ""})
        }
    )


def _component(part: Distribution, kind: str) -> dict[str, Any]:
    component: dict[str, Any] = {
        "type": kind,
        "bom-ref": _address(part),
        "name": canonicalize_name(part.name),
        "version": part.version,
        "purl": _address(part),
    }
    if licences := _licences(part):
        component["licenses"] = licences
    return component


def _address(part: Distribution) -> str:
    """The package's address by its name: a purl (ECMA-427), no place to download from."""
    return f"pkg:pypi/{canonicalize_name(part.name)}@{part.version}"


def _licences(part: Distribution) -> list[dict[str, Any]]:
    """An SPDX expression where the package gives one; else the names it gives."""
    if expressions := _field(part, "License-Expression"):
        return [{"expression": expressions[0]}]
    classes = [one for one in _field(part, "Classifier") if one.startswith(LICENCE_CLASS)]
    names = {one.rpartition(" :: ")[2] for one in classes} or {
        one for one in _field(part, "License") if "\n" not in one and len(one) <= LONGEST_NAME
    }
    return [{"license": {"name": name}} for name in sorted(names)]


def _field(part: Distribution, name: str) -> list[str]:
    """The lines of a package's own description that begin with a name."""
    return [text for value in part.metadata.get_all(name) or [] if (text := str(value).strip())]


def _chart_library(content: bytes) -> dict[str, Any]:
    """The chart library, which says its version in its first lines."""
    found = CHART_LIBRARY.search(content[:2000])
    component = {"type": "library", "name": "plotly.js"}
    if found is None:
        return component
    version = found.group(1).decode("ascii")
    address = f"pkg:npm/plotly.js@{version}"
    return component | {"bom-ref": address, "version": version, "purl": address}
