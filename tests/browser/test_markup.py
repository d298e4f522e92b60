"""What a parser of HTML makes of every page: each tag closed, each name given once."""

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

    def handle_startendtag(self, tag, attributes):
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
