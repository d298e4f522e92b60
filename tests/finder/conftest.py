"""A small page with the finder, opened over file:// in a real browser."""

import re
from pathlib import Path

import pytest

from isofolio.finder.index import finder_data
from isofolio.handbook import open_handbook

PROJECT = Path(__file__).parents[2]
SCRIPTS = PROJECT / "site_src" / "scripts"
STYLE = PROJECT / "site_src" / "styles" / "finder.css"

# The header as the shell writes it, on a page one folder deep.
PAGE = """<!doctype html>
<html lang="en" data-root="../">
<head><meta charset="utf-8"><title>Test</title>
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="../styles/finder.css">
<script src="../scripts/finder.js" defer></script>
<style>:root { --ink: #1b1f24; --ink-2: #4a5560; --paper: #fff; --raised: #f4f6f6;
--rule: #c9d0d5; --accent: #0a5c63; }</style></head>
<body><header class="site-header"><div class="site-header-row">
<div class="finder" role="search"><label for="finder-box">Find a fluid</label>
<input id="finder-box" type="text" role="combobox" autocomplete="off" aria-expanded="false"
aria-controls="finder-results"><div id="finder-results"></div></div>
<a id="after" href="#after">after</a></div></header>
<main><textarea id="notes"></textarea></main></body></html>
"""


@pytest.fixture(scope="session")
def handbook():
    opened = open_handbook(PROJECT / "catalogue")
    assert not opened.problems
    return opened.handbook


@pytest.fixture(scope="session")
def data(handbook):
    """The index of the real catalogue."""
    return finder_data(handbook)


def write_site(folder, data):
    """A site of empty pages, and one with the finder: fluids/here.html, which is returned."""
    for name in ("scripts", "styles", "fluids"):
        (folder / name).mkdir()
    for script in SCRIPTS.glob("finder*.js"):
        text = script.read_text(encoding="utf-8")
        (folder / "scripts" / script.name).write_text(text, encoding="utf-8")
    (folder / "styles" / "finder.css").write_text(STYLE.read_text(encoding="utf-8"), "utf-8")
    if data is not None:
        (folder / "scripts" / "finder-data.js").write_text(data, encoding="utf-8")
    for address in set(re.findall(r'"at":"(fluids/[\w-]+\.html)"', data or "")):
        (folder / address).write_text("<!doctype html><title>A page</title>", encoding="utf-8")
    page = folder / "fluids" / "here.html"
    page.write_text(PAGE, encoding="utf-8")
    return page


@pytest.fixture
def site():
    """The function that writes the small site, for tests that open it themselves."""
    return write_site


@pytest.fixture
def open_page(chromium, tmp_path):
    """A function that opens the page with an index; it fails on any script error."""
    contexts, errors = [], []

    def opened(data, **options):
        context = chromium.new_context(**options)
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: errors.append(str(error)))
        page.goto(write_site(tmp_path, data).as_uri())
        return page

    yield opened
    for context in contexts:
        context.close()
    assert errors == []


SEARCH = """question => {
  const data = window.isofolio.finderData;
  const found = window.isofolio.finder.search(question);
  const id = (at) => at.replace(/^.*[/#]/, "").replace(".html", "");
  return {
    sure: found.sure, silent: found.silent, asks: found.ask ? found.ask.apart : "",
    hits: found.hits.map((hit) => hit.section === undefined
      ? { id: id(data.records[hit.place].at), kind: data.records[hit.place].kind,
          loose: hit.loose, missing: hit.missing, why: hit.why }
      : { id: data.prose[hit.section].at, kind: "section", loose: false, missing: [], why: [] }),
  };
}"""


class Search:
    """The search alone, asked in the page."""

    def __init__(self, page):
        page.focus("#finder-box")
        page.wait_for_function("() => window.isofolio.finder")
        self.page = page

    def __call__(self, question):
        return self.page.evaluate(SEARCH, question)

    def ids(self, question):
        return [hit["id"] for hit in self(question)["hits"]]


@pytest.fixture
def searching(open_page):
    """A function from an index to its search."""
    return lambda data: Search(open_page(data))


@pytest.fixture(scope="module")
def search(chromium, data, tmp_path_factory):
    """The search over the real catalogue, opened once a module."""
    context = chromium.new_context()
    page = context.new_page()
    page.goto(write_site(tmp_path_factory.mktemp("finder"), data).as_uri())
    yield Search(page)
    context.close()
