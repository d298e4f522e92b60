"""A published copy in a real browser, over file://, with pages open while it is published anew."""

import shutil

import pytest

from isofolio.publishing.checksums import CHECKSUMS, write_checksums
from isofolio.publishing.publish import publish

PAGE = "fluids/glucose-5.html"
LOADED = "() => [...document.scripts].map((script) => script.src).filter(Boolean)"


@pytest.fixture
def share(site, tmp_path):
    """The real handbook, published once."""
    publish(site, tmp_path / "share")
    return tmp_path / "share"


@pytest.fixture
def next_edition(site, tmp_path):
    """The same handbook with every script changed."""
    folder = shutil.copytree(site, tmp_path / "next")
    for script in (folder / "scripts").rglob("*.js"):
        with script.open("a", encoding="utf-8") as file:
            file.write("\n/* another edition */\n")
    (folder / CHECKSUMS).unlink()
    write_checksums(folder)
    return folder


@pytest.fixture
def reader(window, chromium, share):
    """A window on the published copy."""
    context = chromium.new_context()
    opened = type(window)(share.as_uri() + "/", context.new_page())
    opened.watch(context)
    yield opened
    context.close()


def search(page):
    page.fill("#finder-box", "saline 0.9")
    page.wait_for_selector("#finder-results a")
    return page.get_attribute("#finder-results a", "href")


def test_finder_charts_comparison_and_pictures_find_their_data(reader):
    page = reader.open(PAGE)
    assert search(page).endswith("sodium-chloride-0-9.html")
    page.click("#finder-results a")
    assert "sodium chloride" in page.inner_text("h1").lower()
    page = reader.open("explore.html")
    page.wait_for_selector("#main .js-plotly-plot")
    page = reader.open("compare.html?with=glucose-5,sodium-chloride-0-9")
    page.wait_for_selector("#compare-shown:not([hidden])")
    page = reader.open("gallery.html")
    with page.expect_download():
        page.click("button[data-drawing]")
    assert reader.trouble == []


def test_a_page_opened_before_a_publish_still_finds_the_data_that_fits_it(
    reader, share, next_edition
):
    page = reader.open(PAGE)
    before = set(share.glob("scripts-*"))
    publish(next_edition, share)
    (old,), (new,) = before, set(share.glob("scripts-*")) - before
    assert search(page).endswith("sodium-chloride-0-9.html")
    assert {address.rpartition("/")[0] for address in page.evaluate(LOADED)} == {old.as_uri()}
    page = reader.open(PAGE)
    assert search(page).endswith("sodium-chloride-0-9.html")
    assert {address.rpartition("/")[0] for address in page.evaluate(LOADED)} == {new.as_uri()}
    assert reader.trouble == []
