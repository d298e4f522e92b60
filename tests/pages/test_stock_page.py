"""A hospital's copy says so: what is kept, what it is called there, and whose limit decides.

The hospital is the invented one of the catalogue's demo.
"""

from pathlib import Path

import pytest

from isofolio.folio import pages_of
from isofolio.handbook import open_handbook
from isofolio.pages.answers import answers
from isofolio.pages.home import home_page
from isofolio.pages.stock import stock_page

CATALOGUE = Path(__file__).parents[2] / "catalogue"
HOSPITAL = "Lindenmoor Hospital"


@pytest.fixture(scope="module")
def plain():
    return open_handbook(CATALOGUE).handbook


@pytest.fixture(scope="module")
def stocked():
    return open_handbook(CATALOGUE, "lindenmoor").handbook


def vein(handbook, fluid):
    told = answers(handbook, handbook.catalogue.fluids[fluid], "")
    return next(answer["because"] for answer in told if answer["id"] == "vein")


def test_a_copy_for_no_hospital_has_no_such_page(plain):
    assert "stock.html" not in {page.path for page in pages_of(plain)}
    assert "stock.html" not in home_page(plain).body


def test_the_page_names_what_is_kept_where_and_how_it_is_called(stocked):
    page = stock_page(stocked, stocked.catalogue.stocked)
    assert page.title == f"What {HOSPITAL} keeps"
    kept = stocked.catalogue.stocked
    assert page.body.count('<tr><th scope="row">') == len(kept.fluids)
    for text in ("Lindenmoor plain salt bag", "low-glucose box", "Signed for by two."):
        assert text in page.body
    assert f"{len(stocked.fluids) - len(kept.fluids)} further fluids" in page.body
    assert "not yet checked" in page.body


def test_the_page_names_each_tighter_limit_beside_that_of_the_catalogue(plain, stocked):
    page = stock_page(stocked, stocked.catalogue.stocked)
    told = page.body.replace("\u00a0", " ")
    for one in stocked.catalogue.stocked.limits:
        before = plain.catalogue.limits[one.limit].value.text
        assert f"draws it at {one.value.text} instead of {before}: {one.why}" in told


def test_the_home_page_leads_there(stocked):
    assert f'<a href="stock.html">What {HOSPITAL} keeps</a>' in home_page(stocked).body
    assert "stock.html" in {page.path for page in pages_of(stocked)}


def test_a_vein_is_judged_by_the_hospitals_limit_and_says_so(plain, stocked):
    """Mannitol 15 % has 823 mOsm/L (150 g/L over 182.17 g/mol): above 800, not above 900."""
    assert HOSPITAL not in vein(plain, "sodium-bicarbonate-4-2")
    assert vein(stocked, "sodium-bicarbonate-4-2").endswith(f"A limit of {HOSPITAL}.")
    assert stocked.value("mannitol-15", "osmolarity").number == pytest.approx(823, abs=1)
    assert HOSPITAL not in vein(stocked, "sodium-chloride-0-9")
