"""Addresses of the frame as seen from a page."""

from isofolio.folio import NAVIGATION
from isofolio.shell.frame import SHEET, frame


def test_addresses_from_a_page_in_a_folder():
    found = frame("fluids/a.html", ("scripts/x.js",))
    assert found.root == "../"
    assert found.home == "../index.html"
    assert found.sheet == f"../{SHEET}"
    assert found.scripts[-1] == "../scripts/x.js"
    assert len(found.navigation) == len(NAVIGATION)


def test_addresses_from_the_home_page():
    found = frame("index.html", crumbs=(("Home", "index.html"),))
    assert found.root == ""
    assert found.sheet == SHEET
    assert found.crumbs[0].current


def test_addresses_of_a_page_that_is_shown_at_any_depth():
    found = frame("404.html", server_root="/handbook/")
    assert found.root == "/handbook/"
    assert found.home == "/handbook/index.html"
    assert all(link.address.startswith("/handbook/") for link in found.navigation)
