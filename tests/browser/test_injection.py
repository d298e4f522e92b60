"""Script, markup, links and formulas in every text of a catalogue and of a hospital's stock: inert.

The whole handbook is built of a catalogue in which every text is an attack (poison.py), its pages
are parsed, and it is opened in Chromium. Sources: OWASP, cross-site scripting prevention and CSV
injection (memory); HTML Living Standard 13.2 for what a parser takes for a tag.
"""

import csv
import io
import json
import runpy
import zipfile
from html.parser import HTMLParser
from pathlib import Path
from types import SimpleNamespace
from xml.etree import ElementTree

import openpyxl
import pytest

from isofolio.entries.files import FOLDERS, LISTS
from isofolio.entries.reading import read_catalogue
from isofolio.findings import consistency
from isofolio.folio import build_site
from isofolio.handbook import handbook_of
from isofolio.shell.contents import Contents
from isofolio.shell.policy import inline_scripts, script_hash
from isofolio.wording.addresses import FEED

PROJECT = Path(__file__).parents[2]
poison = SimpleNamespace(**runpy.run_path(str(Path(__file__).with_name("poison.py"))))
ADDRESSES = {"href", "src", "action", "formaction", "xlink:href", "data", "srcdoc", "poster"}
SITE_URL = "https://handbook.invalid/"
RUN = ("javascript:", "vbscript:", "data:text")
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
FOREIGN = {"iframe", "object", "embed", "base", "frame", "foreignobject"}


@pytest.fixture(scope="module")
def reading():
    """The catalogue with every text poisoned."""
    assert poison.are_accepted()
    changed, met = poison.poisoned(read_catalogue(PROJECT / "catalogue"))
    wanted = set()
    # An announcement is read by `changes` alone, whose report escapes: tests/review.
    kinds = [kind for folder, kind in FOLDERS.items() if folder != "expected"]
    for kind in (*kinds, *(kind for kind, _ in LISTS.values())):
        poison.text_fields(kind, wanted)
    assert wanted - met == poison.CLOSED, "a text field is not poisoned"
    return changed


@pytest.fixture(scope="module")
def files(reading):
    """The files of the poisoned handbook, as a poisoned hospital keeps it."""
    assert consistency.problems(reading) == ()
    return build_site(handbook_of(reading, "lindenmoor"))


@pytest.fixture(scope="module")
def poisoned_site(reading, files, tmp_path_factory):
    """The folder of the poisoned handbook, built by MkDocs with our own frame."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    handbook = handbook_of(reading, "lindenmoor")
    contents = Contents(files, digest=handbook.digest, date=handbook.date, handbook=handbook)
    folder = tmp_path_factory.mktemp("poisoned") / "site"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("isofolio.shell.plugin.site_files", lambda *_: contents)
        config = load_config(str(PROJECT / "mkdocs.yml"), site_dir=str(folder), site_url=SITE_URL)
        config.plugins.on_startup(command="build", dirty=False)
        try:
            build(config)
        finally:
            config.plugins.on_shutdown()
    return folder


class Seen(HTMLParser):
    """What of a page would act: scripts, event attributes, addresses that run, foreign parts."""

    def __init__(self, html):
        super().__init__(convert_charrefs=True)
        self.acting, self.scripts, self.text = [], 0, []
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self.scripts += tag == "script"
        if tag in FOREIGN:
            self.acting.append(f"<{tag}>")
        for name, value in attrs:
            address = (value or "").strip().lower()
            if name.startswith("on") or (tag == "img" and address == "x"):
                self.acting.append(f"<{tag} {name}={value!r}>")
            if name in ADDRESSES and address.startswith(RUN):
                self.acting.append(f"<{tag} {name}={value!r}>")

    def handle_data(self, data):
        self.text.append(data)


def allowed_inline(html):
    """Whether each inline script of the page is named by hash in the page's own policy."""
    return all(script_hash(script) in html for script in inline_scripts(html))


def test_no_page_holds_anything_that_acts(poisoned_site):
    pages = sorted(poisoned_site.rglob("*.html"))
    assert len(pages) > 300
    attacked = 0
    for page in pages:
        html = page.read_text(encoding="utf-8")
        seen = Seen(html)
        assert seen.acting == [], page.name
        assert allowed_inline(html), page.name
        assert html.count("<script") == seen.scripts, page.name
        assert "alert(1)" not in "".join(inline_scripts(html)), page.name
        attacked += "alert(1)" in "".join(seen.text)
    assert attacked > 200, "the payloads do not reach the pages"


def test_titles_and_descriptions_are_text(poisoned_site):
    html = (poisoned_site / "fluids" / "glucose-5.html").read_text(encoding="utf-8")
    head = html[: html.index("</head>")]
    assert head.count("<title>") == head.count("</title>") == 1
    assert "<img" not in head
    assert "49" not in head[head.index("<title>") : head.index("</title>")]


def test_nothing_is_evaluated_by_a_template(poisoned_site):
    text = "".join(
        "".join(Seen(page.read_text(encoding="utf-8")).text)
        for page in sorted((poisoned_site / "fluids").glob("*.html"))[:40]
    )
    assert "{{7*7}}${7*7}" in text


def content(file):
    """The bytes of a file of the site, made now if it was only planned."""
    return b"".join(file.made().pieces())


def test_drawings_are_sound_and_silent(files):
    drawings = [file for file in files if file.path.endswith(".svg")]
    assert len(drawings) > 50
    told = 0
    for file in drawings:
        root = ElementTree.fromstring(content(file))
        for part in root.iter():
            assert part.tag.rpartition("}")[2] not in {"script", "foreignObject", "a", "image"}
            assert not [name for name in part.attrib if name.lower().startswith("on")]
        told += "alert(1)" in "".join(root.itertext())
    assert told > 20, "the payloads do not reach the drawings"


def test_no_cell_of_the_table_is_a_formula(files):
    text = next(content(f) for f in files if f.path.endswith(".csv")).decode("utf-8-sig")
    cells = [cell for row in csv.reader(io.StringIO(text)) for cell in row]
    assert any("HYPERLINK" in cell for cell in cells), "the payloads do not reach the table"
    assert [cell for cell in cells if cell.startswith(FORMULA) and not is_number(cell)] == []


def is_number(text):
    try:
        float(text)
    except ValueError:
        return False
    return True


def test_the_json_keeps_every_text_as_it_is(files):
    document = json.loads(next(content(f) for f in files if f.path.endswith("isofolio.json")))
    names = [fluid["name"] for fluid in document["fluids"]]
    assert any(name.startswith('" onmouseover="alert(1)" x="') for name in names)


def test_no_cell_of_the_workbook_is_a_formula(files):
    written = next(content(file) for file in files if file.path.endswith(".xlsx"))
    book = openpyxl.load_workbook(io.BytesIO(written))
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row]
    assert any("HYPERLINK" in str(cell.value) for cell in cells), "the payloads do not reach it"
    assert [cell.coordinate for cell in cells if cell.data_type == "f" or cell.hyperlink] == []
    with zipfile.ZipFile(io.BytesIO(written)) as parts:  # a text that begins with = stays text
        assert not [name for name in parts.namelist() if b"<f>" in parts.read(name)]


@pytest.mark.parametrize("name", ["isofolio.json", "fhir.json", ".jsonld"])
def test_what_is_json_is_json_and_keeps_its_texts(files, name):
    for text in [content(file) for file in files if file.path.endswith(name)]:
        assert "alert(1)" in json.dumps(json.loads(text))


def test_the_feed_is_sound(poisoned_site):
    """Atom: every text escaped, no element of a payload."""
    feed = ElementTree.parse(poisoned_site / FEED).getroot()
    tags = {part.tag.rpartition("}")[2] for part in feed.iter()}
    assert tags <= {"feed", "id", "title", "updated", "link", "entry", "author", "name", "summary",
                    "content", "subtitle", "generator", "rights", "category"}  # fmt: skip
    payloads = (
        "alert(1)",
        "HYPERLINK",
        "{{7*7}}",
        "SUM(1)",
        "calc",
        "CDATA",
        "=1+1",
        "-1+1",
        "<!--",
    )
    assert any(payload in "".join(feed.itertext()) for payload in payloads)


def watched(context, site):
    """Every dialog, word of the console, fault of a script and request outside of the site."""
    trouble = []
    inside = (site.as_uri() + "/", "data:")
    context.on("dialog", lambda dialog: (trouble.append(dialog.message), dialog.dismiss()))
    context.on("console", lambda message: trouble.append(message.text))
    context.on("weberror", lambda error: trouble.append(str(error.error)))
    context.on("request", lambda r: None if r.url.startswith(inside) else trouble.append(r.url))
    return trouble


def test_nothing_happens_in_a_browser(chromium, poisoned_site):
    """Every kind of page is opened and the finder asked."""
    context = chromium.new_context()
    trouble, page = watched(context, poisoned_site), context.new_page()
    # The page for a missing address is shown at any depth of a server: its links begin there.
    pages = [path for path in sorted(poisoned_site.glob("*.html")) if path.name != "404.html"]
    for folder in sorted(path for path in poisoned_site.iterdir() if path.is_dir()):
        pages += sorted(folder.glob("*.html"))[:2]
    for path in pages:
        page.goto(path.as_uri())
    box, hits = page.locator("#finder-box"), page.locator("#finder-results")
    for words in ("hyperlink", "<img", "potassium 20 in 500", "glucose 5"):
        box.fill(words)
        hits.locator("*").first.wait_for()
        assert hits.locator("img, script, iframe").count() == 0
    hits.get_by_text("alert(1)").first.wait_for()
    context.close()
    assert trouble == []
