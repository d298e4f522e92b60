"""A long page in parts: together they hold what the whole page holds, and each leads to the others.

No published source: this is the project's own rule.
"""

import re
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.pages.audit import audit_pages
from isofolio.pages.gallery import gallery_pages
from isofolio.pages.parts import FLUIDS
from isofolio.pages.practice_labels import practice_labels_pages

CATALOGUE = Path(__file__).parents[2] / "catalogue"
# What makes the pages, the most of one part, and what each entry of a part looks like.
CASES = {
    "audit": (audit_pages, "audit.ROWS", r"<tr><th scope=\"row\".*?</tr>"),
    "gallery": (gallery_pages, "parts.FLUIDS", r'<section class="gallery-entry" id="([^"]+)"'),
    "labels": (
        practice_labels_pages,
        "parts.FLUIDS",
        r'<li class="label-sheet" id="([^"]+)"',
    ),
}


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


def made(pages):
    return {address: make().body for address, make in pages}


@pytest.mark.parametrize("name", CASES)
def test_parts_together_are_the_whole(handbook, monkeypatch, name):
    pages, most, entry = CASES[name]
    (whole,) = made(pages(handbook)).values()
    entries = re.findall(entry, whole)
    monkeypatch.setattr(f"isofolio.pages.{most}", 30)
    parts = made(pages(handbook))
    held = [re.findall(entry, body) for body in parts.values()]
    assert [one for part in held for one in part] == entries
    assert {len(part) for part in held[:-1]} == {30}
    assert len(parts) == -(-len(entries) // 30)


@pytest.mark.parametrize("name", CASES)
def test_each_part_leads_to_every_other_and_tells_its_number(handbook, monkeypatch, name):
    pages, most, _ = CASES[name]
    monkeypatch.setattr(f"isofolio.pages.{most}", 30)
    parts = made(pages(handbook))
    for number, (address, body) in enumerate(parts.items(), 1):
        ways = re.search(r'<nav class="parts".*?</nav>', body)[0]
        assert set(re.findall(r'href="([^"]+)"', ways)) == set(parts) - {address}
        assert ways.count('aria-current="page"') == 1
        assert f", part {number} of {len(parts)}</h1>" in body


@pytest.mark.parametrize("name", CASES)
def test_a_whole_page_speaks_of_no_parts(handbook, name):
    pages, *_ = CASES[name]
    assert len(handbook.fluids) < FLUIDS
    (body,) = made(pages(handbook)).values()
    assert 'class="parts"' not in body
    assert "part 1" not in body


def test_a_verdict_leads_to_the_part_in_which_it_begins(handbook, monkeypatch):
    monkeypatch.setattr("isofolio.pages.audit.ROWS", 30)
    parts = made(audit_pages(handbook))
    begins = {}
    for address, body in parts.items():
        for word in re.findall(r'<h2 id="([a-z-]+)"', body):
            begins.setdefault(word, f"{address}#{word}")
    for address, body in parts.items():
        notes = re.search(r'<ul class="notes">.*?</ul>', body, re.DOTALL)[0]
        ways = re.findall(r'href="([^"#]*)(#[^"]+)"', notes)
        assert [(page or address) + word for page, word in ways] == list(begins.values())
