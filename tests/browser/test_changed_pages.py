"""Which pages a change touches, told from two sites; the pictures themselves are for eyes."""

import importlib.util
from pathlib import Path

import pytest

SCRIPT = Path(__file__).with_name("changed_pages.py")
COPY = '<p class="stamp">Draft. This copy: catalogue of {day}, {digest}.</p>'


@pytest.fixture(scope="module")
def changed_pages():
    specification = importlib.util.spec_from_file_location("changed_pages", SCRIPT)
    module = importlib.util.module_from_spec(specification)
    specification.loader.exec_module(module)
    return module


def site(folder, pages, day, digest):
    for address, said in pages.items():
        path = folder / address
        path.parent.mkdir(parents=True, exist_ok=True)
        copy = COPY.format(day=day, digest=digest)
        path.write_text(
            f"<header>{digest}</header><main>{said}{copy}</main><footer>{day}</footer>",
            encoding="utf-8",
        )
    return folder


def test_a_page_that_says_something_else_is_told_and_another_copy_is_not(changed_pages, tmp_path):
    before = {"audit.html": "a", "fluids/a.html": "50 g", "fluids/b.html": "same", "old.html": "x"}
    after = {"audit.html": "b", "fluids/a.html": "51 g", "fluids/b.html": "same", "new.html": "y"}
    changed, gone = changed_pages.compared(
        site(tmp_path / "before", before, "2026-11-25", "0123456789ab"),
        site(tmp_path / "after", after, "2026-11-26", "ba9876543210"),
    )
    assert changed == ["fluids/a.html", "audit.html", "new.html"]
    assert gone == ["old.html"]
    told = changed_pages.listing(changed, gone)
    assert told.startswith("3 pages new or changed:\n  fluids/a.html\n")
    assert told.endswith("gone: old.html\n")


def test_nothing_changed_is_said(changed_pages):
    assert changed_pages.listing([], []) == "No page changed.\n"


def test_a_change_of_everything_says_how_many_are_pictured(changed_pages):
    told = changed_pages.listing([f"fluids/{n}.html" for n in range(100)], [])
    assert told.startswith("100 pages new or changed (pictures of the first 60):\n")
