"""Every name we take from MkDocs and its theme is looked up in the installed packages."""

import ast
import importlib
import inspect
import logging
from fnmatch import filter as matching
from pathlib import Path

import mkdocs
import pytest
from mkdocs.theme import Theme

from isofolio.shell.theme_names import (
    CLASSES,
    LOGGER,
    STATIC_TEMPLATES,
    STYLESHEET,
    THEME,
    TOUCHED,
)

SHELL = Path(__file__).parents[2] / "generator" / "isofolio" / "shell"


@pytest.fixture(scope="module")
def theme():
    return Theme(name=THEME)


def files_of(theme):
    return {
        path.relative_to(folder).as_posix(): path
        for folder in map(Path, theme.dirs)
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_there_is_one_style_sheet_and_it_knows_our_classes(theme):
    files = files_of(theme)
    (sheet,) = matching(files, STYLESHEET)
    text = files[sheet].read_text(encoding="utf-8")
    for name in CLASSES:
        assert f".{name}{{" in text


def test_templates_that_bypass_page_events_are_all_known(theme):
    assert theme.static_templates == set(STATIC_TEMPLATES)


def test_the_classes_are_used_by_our_template():
    from isofolio.shell.plugin import OVERRIDES

    template = (OVERRIDES / "main.html").read_text(encoding="utf-8")
    used = {word for word in template.replace('"', " ").split() if word.startswith("md-")}
    assert used == set(CLASSES)


def test_strict_counts_on_the_logger_we_look_at():
    from mkdocs.commands import build
    from mkdocs.utils import CountHandler

    source = Path(build.__file__).read_text(encoding="utf-8")
    assert f"logging.getLogger('{LOGGER}').addHandler(warning_counter)" in source
    assert issubclass(CountHandler, logging.Handler)


def test_the_version_is_the_one_these_names_were_read_in():
    assert mkdocs.__version__ == "1.6.1"


def class_of(dotted):
    module, _, name = dotted.rpartition(".")
    return getattr(importlib.import_module(module), name)


@pytest.mark.parametrize("dotted", TOUCHED)
def test_every_name_we_touch_is_there(dotted):
    """As a member of the class, or set on its objects in the text of the class."""
    kind = class_of(dotted)
    text = inspect.getsource(kind)
    for name in TOUCHED[dotted]:
        assert hasattr(kind, name) or f"self.{name} = " in text, f"{dotted}.{name}"


def test_every_name_we_touch_is_listed():
    """Of every argument of the shell whose class is MkDocs' own: what is asked of it by name."""
    listed = {dotted.rpartition(".")[2]: set(names) for dotted, names in TOUCHED.items()}
    asked = {name: set() for name in listed}
    for path in SHELL.glob("*.py"):
        for function in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(function, ast.FunctionDef):
                for kind, name in asked_of_arguments(function):
                    asked.setdefault(kind, set()).add(name)
    ours = {"made", "let_go"}  # of our own pages, which are also pages of MkDocs
    for kind, names in listed.items():
        assert asked[kind] - ours <= names, kind
    assert all(asked[kind] for kind in ("Files", "Page", "MkDocsConfig"))


def asked_of_arguments(function):
    """Class and attribute wherever a function asks one of its annotated arguments."""
    arguments = [*function.args.args, *function.args.kwonlyargs]
    kinds = {a.arg: a.annotation.id for a in arguments if isinstance(a.annotation, ast.Name)}
    for node in ast.walk(function):
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            kind = kinds.get(node.value.id)
            if kind is not None:
                yield kind, node.attr


@pytest.mark.parametrize("ours", ["VirtualPage", "VirtualFile"])
def test_what_our_pages_and_files_replace_is_listed(ours):
    kind = class_of(f"isofolio.shell.virtual.{ours}")
    theirs = next(base for base in kind.__mro__ if base.__module__.startswith("mkdocs."))
    replaced = {name for name in vars(kind) if name in vars(theirs) and not name.startswith("_")}
    assert replaced
    assert replaced <= set(TOUCHED[f"{theirs.__module__}.{theirs.__qualname__}"])
