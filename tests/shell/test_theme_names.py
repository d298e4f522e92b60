"""Every name we take from MkDocs and its theme is looked up in the installed packages."""

import logging
from fnmatch import filter as matching
from pathlib import Path

import mkdocs
import pytest
from mkdocs.theme import Theme

from isofolio.shell.theme_names import CLASSES, LOGGER, STATIC_TEMPLATES, STYLESHEET, THEME


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
