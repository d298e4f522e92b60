"""Imports between rooms go one way. The dict below is the map; the test reads every module."""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "generator" / "isofolio"

# room -> the rooms it may import from (a room may always import from itself)
FOUNDATIONS = {"vocabulary"}
CHEMISTRY = FOUNDATIONS | {"chemistry"}
MEASURED = FOUNDATIONS | {"entries", "chemistry", "physiology"}
BELOW_HANDBOOK = MEASURED | {"measures", "wording", "findings"}
BELOW_PAGES = BELOW_HANDBOOK | {"handbook", "teaching", "review", "drawings"}
BELOW_SHELL = BELOW_PAGES | {"pages", "finder", "exports", "folio", "publishing"}
ALLOWED = {
    "vocabulary": set(),
    "entries": FOUNDATIONS,
    "chemistry": FOUNDATIONS,
    "physiology": CHEMISTRY,
    "measures": MEASURED,
    "wording": MEASURED | {"measures"},
    "findings": MEASURED | {"measures", "wording"},
    "handbook": BELOW_HANDBOOK,
    "teaching": BELOW_HANDBOOK | {"handbook"},
    "review": BELOW_HANDBOOK | {"handbook"},
    "drawings": BELOW_HANDBOOK | {"handbook"},
    "finder": BELOW_HANDBOOK | {"handbook"},
    "exports": BELOW_HANDBOOK | {"handbook"},
    "pages": BELOW_PAGES,
    "folio": BELOW_PAGES | {"pages", "finder", "exports"},
    "publishing": BELOW_PAGES | {"pages", "finder", "exports", "folio"},
    "shell": BELOW_SHELL,
    "commands": BELOW_SHELL | {"shell"},
    "cli": {"commands"},
    "__main__": {"cli"},
    "__init__": set(),
}

MODULES = sorted(PACKAGE.rglob("*.py"))


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def faults_of(source: str, room: str) -> list[str]:
    """What is wrong with the imports of one module of a room."""
    faults = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.ImportFrom) and node.level:
            faults.append(f"line {node.lineno}: a relative import")
        elif isinstance(node, ast.ImportFrom) and node.module == "isofolio":
            names = {alias.name for alias in node.names} - {"__version__"}
            faults += [f"line {node.lineno}: from isofolio import {name}" for name in names]
        elif isinstance(node, ast.ImportFrom):
            faults += _judged([str(node.module)], room, node.lineno)
        elif isinstance(node, ast.Import):
            faults += _judged([alias.name for alias in node.names], room, node.lineno)
    return faults


def _judged(modules: list[str], room: str, line: int) -> list[str]:
    ours = [module.split(".") for module in modules if module.split(".")[0] == "isofolio"]
    return [
        f"line {line}: {room} imports from {parts[1] if len(parts) > 1 else 'the package'}"
        for parts in ours
        if len(parts) < 2 or (parts[1] != room and parts[1] not in ALLOWED[room])
    ]


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_a_module_imports_only_from_rooms_below_it(path: Path) -> None:
    assert faults_of(path.read_text(encoding="utf-8"), room_of(path)) == []


def test_the_map_has_no_circle() -> None:
    for room, allowed in ALLOWED.items():
        assert all(room not in ALLOWED[other] for other in allowed), room


@pytest.mark.parametrize(
    "source",
    [
        "from isofolio.pages.page import Page",
        "import isofolio.pages.page",
        "from isofolio import cli",
        "from . import amounts",
        "from ..pages import page",
        "import isofolio",
        "def late():\n    from isofolio.entries.records import Fluid",
    ],
)
def test_an_arrow_upward_is_seen(source: str) -> None:
    assert faults_of(source, "chemistry")


def test_an_arrow_downward_is_no_fault() -> None:
    assert faults_of("from isofolio.vocabulary.terms import ROLES", "entries") == []
