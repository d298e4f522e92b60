"""The Reviews page, and the line of a stamp on an entry's own page.

Stamps that look checked stand only here, in a copy of a small catalogue.
"""

import re
import shutil
from pathlib import Path

import pytest

from isofolio.entries.reading import read_catalogue
from isofolio.entries.stamps import digest
from isofolio.folio import FURTHER
from isofolio.handbook import open_handbook
from isofolio.pages.page import DRAFT
from isofolio.pages.reviews import KINDS, NOBODY, reviews_page
from isofolio.pages.stamp import CHANGED, stamp_line
from isofolio.review.reviews import stamped_kinds
from isofolio.review.stamping import new_stamp, with_stamp

BASE = Path(__file__).parents[1] / "bad" / "base"
CATALOGUE = Path(__file__).parents[2] / "catalogue"
DATES = {"on": "2026-11-25", "due": "2027-11-25"}
ONE = {"state": "checked", "by": "ward pharmacist", **DATES}
TWO = {"state": "double-checked", "by": "A. B. <b>", "second": "C. D.", **DATES}


@pytest.fixture(scope="module")
def signed(tmp_path_factory):
    """A handbook with one fluid checked, one double-checked, one changed since."""
    folder = Path(shutil.copytree(BASE, tmp_path_factory.mktemp("signed") / "catalogue"))
    fluids = read_catalogue(folder).catalogue.fluids
    for name, told in (("glucose-5", TWO), ("sodium-chloride-0-9", ONE), ("starch-6", ONE)):
        path = folder / "fluids" / f"{name}.yml"
        path.write_bytes(with_stamp(path.read_bytes(), new_stamp(fluids[name], told)))
    starch = folder / "fluids" / "starch-6.yml"
    assert b"Use was suspended." in starch.read_bytes()
    starch.write_bytes(starch.read_bytes().replace(b"suspended.", b"suspended in 2022."))
    opened = open_handbook(folder)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


def rows(body):
    """Each row of the tables as its texts."""
    found = re.findall(r"<tr>(<th scope=\"row\".*?)</tr>", body)
    return [[re.sub(r"<[^>]+>", "", cell) for cell in re.split(r"</t[hd]>", row)] for row in found]


def test_each_entry_is_a_row_with_who_and_when(signed):
    body = reviews_page(signed).body
    told = {row[0].replace("\u202f", " ").replace("\u00a0", " "): row[1:6] for row in rows(body)}
    assert told["Glucose 5 %"] == [
        "double-checked", "A. B. &lt;b&gt;", "C. D.", "2026-11-25", "2027-11-25",
    ]  # fmt: skip
    assert told["Sodium chloride 0.9 %"][:3] == ["checked", "ward pharmacist", NOBODY]
    assert ["draft, changed since it was checked", NOBODY, "", "", ""] in told.values()
    assert "Of 7, 1 were checked by two people, 1 by one; 5 are drafts." in body
    assert "1 changed since they were checked." in body


def test_a_page_says_who_checked_it(signed):
    fluids = signed.catalogue.fluids
    until = "on 2026-11-25; to be checked again by 2027-11-25."
    assert stamp_line(fluids["glucose-5"]) == f"Checked by A. B. <b> and C. D. {until}"
    assert stamp_line(fluids["sodium-chloride-0-9"]) == f"Checked by ward pharmacist {until}"
    assert stamp_line(fluids["starch-6"]) == CHANGED
    assert stamp_line(fluids["gelatin-4"]) == DRAFT
    assert digest(fluids["starch-6"]) != fluids["starch-6"].review.covers


def test_as_we_ship_it_all_are_drafts_and_each_is_listed():
    handbook = open_handbook(CATALOGUE).handbook
    body = reviews_page(handbook).body
    listed = rows(body)
    assert {tuple(row[1:3]) for row in listed} == {("draft", NOBODY)}
    assert f"None of {len(listed)} has been checked by a pharmacist or doctor" in body
    kinds = [getattr(handbook.catalogue, kind) for kind in stamped_kinds()]
    assert len(listed) == sum(len(entries) for entries in kinds)


def test_every_kind_has_its_heading_and_the_page_its_way_in():
    assert set(KINDS) == set(stamped_kinds())
    assert ("Reviews", "reviews.html") in FURTHER
