"""The dated lines of the catalogue as an Atom feed (RFC 4287).

A feed names its entries by absolute addresses, so there is none for a site that does not know where
it stands. Its dates are the catalogue's; the clock is never read.
"""

from urllib.parse import urljoin
from xml.etree.ElementTree import Element, SubElement, tostring

from isofolio.entries.lists import Change
from isofolio.handbook import Handbook
from isofolio.wording.addresses import CHANGES, FEED, change_address

ATOM = "http://www.w3.org/2005/Atom"


def atom_feed(handbook: Handbook, site_url: str, site_name: str) -> bytes:
    """The feed of a site that stands at `site_url` (absolute, ending in a slash).

    Raises ValueError for a catalogue without a dated line: a feed must say when it was changed.
    """
    if not handbook.changes:
        raise ValueError("no dated line in changes.yml: a feed needs at least one")
    feed = Element("feed", {"xmlns": ATOM, "xml:lang": "en"})
    page = urljoin(site_url, CHANGES)
    _put(feed, "id", page)
    _put(feed, "title", f"{site_name}: what changed")
    _put(feed, "updated", _moment(handbook.date))
    _put(SubElement(feed, "author"), "name", site_name)
    SubElement(feed, "link", {"rel": "self", "href": urljoin(site_url, FEED)})
    SubElement(feed, "link", {"rel": "alternate", "type": "text/html", "href": page})
    for change in handbook.changes:
        _entry(feed, change, urljoin(site_url, change_address(change.on, change.text)))
    return bytes(tostring(feed, encoding="utf-8", xml_declaration=True)) + b"\n"


def _entry(feed: Element, change: Change, address: str) -> None:
    entry = SubElement(feed, "entry")
    _put(entry, "id", address)
    _put(entry, "title", change.text.partition(". ")[0].removesuffix("."))
    _put(entry, "updated", _moment(change.on))
    SubElement(entry, "link", {"rel": "alternate", "type": "text/html", "href": address})
    _put(entry, "content", change.text, type="text")


def _put(parent: Element, name: str, text: str, **attributes: str) -> None:
    SubElement(parent, name, attributes).text = text


def _moment(day: str) -> str:
    """The first moment of a day as RFC 3339 writes it."""
    return f"{day}T00:00:00Z"
