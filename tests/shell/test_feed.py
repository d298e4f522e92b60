"""The feed in a built site: there with a site_url, absent without, never with the clock's date."""

from pathlib import Path
from xml.etree import ElementTree

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from isofolio.handbook import open_handbook
from isofolio.shell.contents import Contents
from isofolio.shell.feed import feed_address, feed_files

BASE = Path(__file__).parents[1] / "bad" / "base"


@pytest.fixture
def built(project, small_site, monkeypatch):
    """A function that builds the small site with a handbook, at a given site_url."""
    handbook = open_handbook(BASE).handbook
    files = tuple(small_site["pages"]().values())
    contents = Contents(files=files, digest="0123456789ab", date="2026-11-25", handbook=handbook)
    monkeypatch.setattr("isofolio.shell.plugin.site_files", lambda *_: contents)

    def run(site_url, command="build"):
        plugins = [{"isofolio": {"catalogue": str(project / "catalogue")}}]
        settings = {"site_dir": str(project / "site"), "plugins": plugins, "site_url": site_url}
        config = load_config(str(project / "mkdocs.yml"), **settings)
        config.plugins.on_startup(command=command, dirty=False)
        build(config)
        return Path(config.site_dir)

    return run


def test_a_site_that_knows_its_address_has_a_feed_and_says_so(built):
    site = built("https://fluids.example/handbook/")
    feed = ElementTree.parse(site / "changes.atom").getroot()
    assert feed[0].text == "https://fluids.example/handbook/changes.html"
    page = (site / "fluids" / "glucose-5.html").read_text(encoding="utf-8")
    assert '<link rel="alternate" type="application/atom+xml"' in page
    assert 'href="../changes.atom"' in page


def test_a_site_without_an_address_has_none(built):
    site = built("")
    assert not (site / "changes.atom").exists()
    assert "changes.atom" not in (site / "index.html").read_text(encoding="utf-8")


def test_a_preview_has_none(built):
    """MkDocs gives a preview the address of its own server."""
    site = built("http://127.0.0.1:8000/", command="serve")
    page = (site / "404.html").read_text(encoding="utf-8")  # the others wait to be asked for
    assert "atom+xml" not in page
    assert not (site / "changes.atom").exists()


def test_no_handbook_no_feed():
    assert feed_address(Contents(), "https://fluids.example/") == ""
    assert feed_files(Contents(), "https://fluids.example/", "Isofolio") == []
