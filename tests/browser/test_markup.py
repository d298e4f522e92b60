"""What a parser of HTML makes of every page: tags closed in turn, names given once, and figures
that hold on to their units.
"""

import re
from collections import Counter
from html.parser import HTMLParser

import pytest

# Elements that hold nothing and have no closing tag (HTML Living Standard, void elements).
VOID = {"br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


class Tags(HTMLParser):
    """Which tags stand open, and which were closed out of turn."""

    def __init__(self):
        super().__init__()
        self.open = []
        self.faults = []
        self.ids = Counter()

    def handle_starttag(self, tag, attributes):
        self.ids.update(value for name, value in attributes if name == "id")
        if tag not in VOID:
            self.open.append((tag, self.getpos()[0]))

    def handle_startendtag(self, _, attributes):
        self.ids.update(value for name, value in attributes if name == "id")

    def handle_endtag(self, tag):
        if self.open and self.open[-1][0] == tag:
            self.open.pop()
        else:
            self.faults.append(f"line {self.getpos()[0]}: </{tag}> closes {self.open[-1:]}")


def faults_of(html):
    tags = Tags()
    tags.feed(html)
    tags.close()
    left = [f"line {line}: <{tag}> is never closed" for tag, line in tags.open]
    twice = [f"id {name!r} stands twice" for name, count in tags.ids.items() if count > 1]
    return [*tags.faults[:1], *left, *twice]


def test_every_tag_is_closed_in_turn_and_every_id_is_given_once(site, addresses):
    pages = {address: (site / address).read_text(encoding="utf-8") for address in addresses}
    assert {address: found for address in addresses if (found := faults_of(pages[address]))} == {}


@pytest.mark.parametrize(
    ("html", "sound"),
    [
        ("<p>a<br><b>c</b></p><svg><path/></svg>", True),
        ("<div><table></table>", False),
        ("<p><b>x</p></b>", False),
        ('<p id="a"></p><p id="a"></p>', False),
    ],
)
def test_an_unclosed_tag_is_seen(html, sound):
    assert (faults_of(html) == []) is sound


# A figure and its unit never part at a line end (look.md, Type). Units: those of the catalogue and
# those of prose. An example of code never wraps.
UNITS = "%|g|mg|kg|mmol|mol|mEq|mOsm|kcal|kJ|mL|L|mmHg|h|min|cm|mm|°C"
PARTED = re.compile(rf"\d[ \u2000-\u2006\u2008-\u200a]+(?:{UNITS})(?![\w⁺⁻])")
INLINE = {"a", "abbr", "b", "cite", "code", "em", "i", "span", "strong", "sub", "sup", "time"}
UNREAD = {"pre", "script", "style", "title", "desc"}


class Words(HTMLParser):
    """The words of a page; a mark stands where a tag ends the line or begins another cell."""

    def __init__(self):
        super().__init__()
        self.unread = 0
        self.parts = []

    def handle_starttag(self, tag, _):
        self.unread += tag in UNREAD
        self.parts.append("" if tag in INLINE else "|")

    def handle_endtag(self, tag):
        self.unread -= tag in UNREAD
        self.parts.append("" if tag in INLINE else "|")

    def handle_data(self, data):
        self.parts.append("" if self.unread else re.sub(r"[ \n\t]+", " ", data))


def parted(html):
    """Every place where a line could end between a figure and its unit."""
    words = Words()
    words.feed(html)
    words.close()
    text = "".join(words.parts)
    return [text[max(0, m.start() - 25) : m.end() + 5] for m in PARTED.finditer(text)]


def test_no_figure_parts_from_its_unit(site, addresses):
    pages = {address: (site / address).read_text(encoding="utf-8") for address in addresses}
    assert {address: found for address in addresses if (found := parted(pages[address]))} == {}


@pytest.mark.parametrize(
    ("html", "parts"),
    [
        ("<p>5 %</p>", True),
        ("<td>20\u2009mmol</td>", True),
        ("<p><b>1</b> <span>L</span> of it", True),
        ("<p>7\n kg</p>", True),
        ("<p>0.9\u202f% and 5\u202f%</p>", False),
        ("<p>20\u00a0mmol in 500&nbsp;mL</p>", False),
        ("<td>154</td> <td>L</td>", False),
        ("<p>2 Large veins in 3 months</p>", False),
        ("<pre>5 %</pre>", False),
    ],
)
def test_a_figure_that_can_leave_its_unit_is_seen(html, parts):
    assert bool(parted(html)) is parts
