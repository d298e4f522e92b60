"""Where every page stands, and how one page names another: the only maker of links."""

import hashlib
import posixpath
from functools import lru_cache

HOME = "index.html"
ALL_FLUIDS = "fluids.html"
SUBSTANCES = "substances.html"
AUDIT = "audit.html"
CAUTIONS = "cautions.html"
MIXING = "mixing.html"
EQUIPMENT = "equipment.html"
SITUATIONS = "situations.html"
SHORTAGE = "shortage.html"
STOCK = "stock.html"
SOURCES = "sources.html"
METHOD = "method.html"
REVIEWS = "reviews.html"
ABOUT = "about.html"
DOWNLOADS = "downloads.html"
COMPARE = "compare.html"
EXPLORE = "explore.html"
GALLERY = "gallery.html"
WORKSHEETS = "worksheets.html"
TEACHING = "teaching.html"
CONFUSIONS = "confusions.html"
GLOSSARY = "glossary.html"
SELF_TEST = "self-test.html"
PRACTICE_LABELS = "practice-labels.html"
CHANGES = "changes.html"
FEED = "changes.atom"
COMPARE_DATA = "scripts/compare-data.js"
EXPLORE_DATA = "scripts/explore-data.js"
CHART_LIBRARY = "scripts/plotly.min.js"


def entry_address(folder: str, identifier: str, anchor: str = "") -> str:
    """The address of an entry's page, from the root of the site.

    >>> entry_address("fluids", "glucose-5", "working")
    'fluids/glucose-5.html#working'
    """
    return f"{folder}/{identifier}.html" + (f"#{anchor}" if anchor else "")


def page_address(written: str) -> str:
    """The address of a page that an entry names without its ending.

    >>> page_address("fluids/glucose-5#figures"), page_address("glossary")
    ('fluids/glucose-5.html#figures', 'glossary.html')
    """
    path, mark, anchor = written.partition("#")
    return f"{path}.html{mark}{anchor}"


def fluid_data(identifier: str) -> str:
    """The data script of one fluid for the page where fluids are compared."""
    return f"scripts/compare/{identifier}.js"


def drawing_address(identifier: str) -> str:
    """The file of a drawing that stands alone."""
    return f"drawings/{identifier}.svg"


def drawing_data(identifier: str) -> str:
    """The same drawing as a script, from which the page of all drawings makes a PNG."""
    return f"scripts/gallery/{identifier}.js"


def download_address(file: str) -> str:
    """A file to take away."""
    return f"downloads/{file}"


def card_address(fluid_id: str) -> str:
    """The address of the one-page card of a fluid.

    >>> card_address("glucose-5")
    'cards/glucose-5.html'
    """
    return entry_address("cards", fluid_id)


def source_address(identifier: str) -> str:
    """The address of a source: its place on the one page of sources."""
    return f"{SOURCES}#{identifier}"


def change_anchor(on: str, text: str) -> str:
    """The anchor of a dated line: by what it says, so that a line more moves no other.

    >>> change_anchor("2026-11-25", "The catalogue opens.")
    'on-2026-11-25-178185'
    """
    return f"on-{on}-{hashlib.sha256(text.encode()).hexdigest()[:6]}"


def change_address(on: str, text: str) -> str:
    """The address of a dated line, from the root of the site."""
    return f"{CHANGES}#{change_anchor(on, text)}"


def relative(here: str, there: str) -> str:
    """The address `there` as a link on the page `here`; both from the root of the site.

    >>> relative("fluids/glucose-5.html", "sources.html#bjn-2008-saline")
    '../sources.html#bjn-2008-saline'
    """
    path, mark, anchor = there.partition("#")
    if path == here:
        return mark + anchor if anchor else posixpath.basename(here)
    return _from_folder(posixpath.dirname(here) or ".", path) + mark + anchor


# Pages stand in few folders and link to the same pages.
@lru_cache(maxsize=10_000)
def _from_folder(folder: str, path: str) -> str:
    return posixpath.relpath(path, folder)
