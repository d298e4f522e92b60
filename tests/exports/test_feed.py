"""The Atom feed: the elements that RFC 4287 requires, dates of the catalogue, text as text.

Source: RFC 4287 (IETF, 2005), sections 3.3, 4.1.1, 4.1.2, 4.2.6, 4.2.7; from memory, beside a
summary of its required elements that was read. RFC 3339 gives the form of a date.
"""

import datetime
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from isofolio.entries.lists import Change
from isofolio.exports.feed import atom_feed
from isofolio.pages.changes import changes_page

ATOM = "{http://www.w3.org/2005/Atom}"
SITE = "https://fluids.example/handbook/"
LINES = (
    ("2026-11-25", "The catalogue opens. Every entry is a draft."),
    ("2027-02-01", 'Potassium < 40 & "more" <script>alert(1)</script>'),
    ("2026-12-24", "A limit was mended."),
    ("2026-11-25", "The catalogue opens. Every entry is a draft."),
)


def with_changes(handbook, lines):
    changes = tuple(Change(on=day, text=text) for day, text in lines)
    catalogue = replace(handbook.catalogue, changes=changes)
    return replace(handbook, catalogue=catalogue, date=max(day for day, _ in lines))


@pytest.fixture(scope="module")
def changed(handbook):
    return with_changes(handbook, LINES)


@pytest.fixture(scope="module")
def feed(changed):
    return ElementTree.fromstring(atom_feed(changed, SITE, "Isofolio"))


def once(node, name):
    """The text of an element that must stand exactly once."""
    (found,) = node.findall(f"{ATOM}{name}")
    assert found.text
    return found.text


def links(node):
    return {link.get("rel"): link.get("href") for link in node.findall(f"{ATOM}link")}


def test_what_a_feed_must_have(feed):
    assert feed.tag == f"{ATOM}feed"
    assert once(feed, "id") == f"{SITE}changes.html"
    assert once(feed, "title") == "Isofolio: what changed"
    assert once(feed.find(f"{ATOM}author"), "name") == "Isofolio"
    assert links(feed) == {"self": f"{SITE}changes.atom", "alternate": f"{SITE}changes.html"}


def test_what_an_entry_must_have(feed):
    entries = feed.findall(f"{ATOM}entry")
    assert len(entries) == 3
    for entry in entries:
        assert once(entry, "title")
        assert once(entry, "content")
        assert entry.find(f"{ATOM}content").get("type") == "text"
        assert links(entry) == {"alternate": once(entry, "id")}
    ids = [once(entry, "id") for entry in entries]
    assert len(set(ids)) == len(ids)
    assert all(identifier.startswith(SITE) for identifier in ids)


def test_the_title_is_the_first_sentence(feed):
    titles = [once(entry, "title") for entry in feed.findall(f"{ATOM}entry")]
    assert titles[1:] == ["A limit was mended", "The catalogue opens"]


def test_dates_are_the_catalogues_and_the_newest_comes_first(feed):
    told = [once(entry, "updated") for entry in feed.findall(f"{ATOM}entry")]
    assert told == [f"{day}T00:00:00Z" for day in ("2027-02-01", "2026-12-24", "2026-11-25")]
    assert once(feed, "updated") == max(told)
    for moment in told:
        assert datetime.datetime.fromisoformat(moment).utcoffset() == datetime.timedelta(0)


def test_a_hostile_line_is_text(feed):
    first = feed.find(f"{ATOM}entry")
    assert once(first, "content") == LINES[1][1]
    assert len(first.find(f"{ATOM}content")) == 0


def test_ids_are_addresses_of_lines_on_the_page(changed, feed):
    body = changes_page(changed).body
    for entry in feed.findall(f"{ATOM}entry"):
        anchor = once(entry, "id").partition("#")[2]
        assert f'id="{anchor}"' in body


def test_a_line_more_moves_no_address(handbook, feed):
    more = with_changes(handbook, (("2028-01-01", "One more."), *LINES))
    again = ElementTree.fromstring(atom_feed(more, SITE, "Isofolio"))
    before = [once(entry, "id") for entry in feed.findall(f"{ATOM}entry")]
    assert [once(entry, "id") for entry in again.findall(f"{ATOM}entry")][1:] == before


def test_without_a_dated_line_there_is_no_feed(handbook_of_one):
    with pytest.raises(ValueError, match=r"changes\.yml"):
        atom_feed(handbook_of_one(contents=[]), SITE, "Isofolio")
