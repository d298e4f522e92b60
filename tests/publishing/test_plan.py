"""Where a published copy holds its assets, and how its pages ask for them.

No published source: the project's own way of naming.
"""

import pytest

from isofolio.publishing.checksums import CHECKSUMS, write_checksums
from isofolio.publishing.copies import open_copy
from isofolio.publishing.plan import PlanError, plan_of, with_assets

FOLDERS = {"scripts": "scripts-1", "styles": "styles-2", "drawings": "drawings-3"}


@pytest.mark.parametrize(
    ("path", "before", "after"),
    [
        (
            "index.html",
            '<a href="drawings/a.svg" download>',
            '<a href="drawings-3/a.svg" download>',
        ),
        ("a/b.html", "<img src='../drawings/a.svg'>", '<img src="../drawings-3/a.svg">'),
        ("index.html", '<a href="drawings/a.svg#b">', '<a href="drawings-3/a.svg#b">'),
        (
            "index.html",
            '<script src="scripts/compare/x.js" defer>',
            '<script src="scripts-1/compare/x.js" defer>',
        ),
        ("404.html", '<script src="/base/scripts/a.js">', '<script src="/base/scripts-1/a.js">'),
    ],
)
def test_an_asset_is_asked_for_where_it_is(path, before, after):
    assert with_assets(path, before, FOLDERS) == after


@pytest.mark.parametrize(
    "text",
    [
        '<a href="scripts.html">',
        '<a href="fluids/scripts/a.js">',
        '<a href="https://example.org/scripts/a.js">',
        '<a href="#scripts/a">',
        '<a title="scripts/a.js">',
        '<p data-of="drawings/a.svg">',
        'the folder scripts/ and src="scripts/a.js" in a text',
        "<script>x = 'scripts/a.js'</script>",
        '<link rel="icon" href="data:,">',
    ],
)
def test_nothing_else_is_touched(text):
    assert with_assets("index.html", text, FOLDERS) == text


def test_the_name_of_a_folder_is_its_content(make_site):
    names = []
    for edition in ("one", "two"):
        site = make_site(edition)
        (site / "styles" / "handbook.css").write_text("the same", encoding="utf-8")
        (site / CHECKSUMS).unlink()
        write_checksums(site)
        with open_copy(site) as copy:
            names.append(plan_of(copy).folders)
    assert names[0]["styles"] == names[1]["styles"]
    assert names[0]["scripts"] != names[1]["scripts"]


def rewritten(site, path, text):
    (site / path).write_text(text, encoding="utf-8")
    (site / CHECKSUMS).unlink()
    write_checksums(site)
    return site


def test_a_style_sheet_that_loads_from_another_asset_folder_is_refused(make_site):
    """Its address would have to change, and with it the name of its own folder."""
    site = rewritten(make_site("one"), "styles/handbook.css", "a{mask:url(../drawings/bag.svg)}")
    with open_copy(site) as copy, pytest.raises(PlanError, match="leads nowhere"):
        plan_of(copy)


def test_a_page_with_a_dead_link_is_refused(make_site):
    site = rewritten(make_site("one"), "fluids/a.html", '<a href="gone.html">x</a>')
    with open_copy(site) as copy, pytest.raises(PlanError, match=r"there is no fluids/gone\.html"):
        plan_of(copy)


@pytest.mark.parametrize("name", ["index.html", "404.html", "built-from.txt"])
def test_an_incomplete_site_is_refused(make_site, name):
    site = make_site("one")
    (site / name).unlink()
    (site / CHECKSUMS).unlink()
    write_checksums(site)
    with open_copy(site) as copy, pytest.raises(PlanError, match=f"{name} is missing"):
        plan_of(copy)


def test_a_name_that_windows_refuses_is_refused(make_site):
    site = rewritten(make_site("one"), "fluids/con.html", "<p>")
    with open_copy(site) as copy, pytest.raises(PlanError, match="reserved on Windows"):
        plan_of(copy)
