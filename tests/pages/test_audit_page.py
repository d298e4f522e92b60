"""The page of the label audit: every line a row, worst first, each with a way to its source."""

import re
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.pages.audit import ORDER, PRINTED, audit_pages
from isofolio.vocabulary.terms import AUDIT_VERDICTS

CATALOGUE = Path(__file__).parents[2] / "catalogue"


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


@pytest.fixture(scope="module")
def body(handbook):
    ((_, make),) = audit_pages(handbook)
    return make().body


def test_worst_first(body):
    assert ORDER[0] == "error"
    assert set(ORDER) == set(AUDIT_VERDICTS)
    found = re.findall(r'<h2 id="([a-z-]+)"', body)
    assert found == [verdict for verdict in ORDER if verdict in found]
    assert {"error", "exact", "not-computed"} <= set(found)


def test_every_line_is_a_row(handbook, body):
    lines = [line for several in handbook.audit.values() for line in several]
    assert body.count('<th scope="row"') == len(lines)
    assert f"{len(lines)} figures" in body
    for line in lines:
        assert f'href="fluids/{line.fluid}.html#label"' in body
        assert f'href="sources.html#{line.source}"' in body


def test_paper_holds_what_differs_and_says_how_much_it_leaves_out(handbook, body):
    lines = [line for several in handbook.audit.values() for line in several]
    left_out = [line for line in lines if line.verdict not in PRINTED]
    assert f"The other {len(left_out)} stand on the page audit.html." in body
    sections = re.findall(r'<section( class="on-screen")?>\s*<h2 id="([a-z-]+)"', body)
    assert [word for hidden, word in sections if not hidden] == list(PRINTED)


def test_a_figure_printed_in_another_unit_stands_in_ours_too(body):
    assert re.search(r'0\.465\u00a0mEq/mL<br><span class="unit">233\u00a0mmol/L</span>', body)
    assert re.search(r'6\.1\u00a0mmol per 50\u00a0mL<br><span class="unit">122\u00a0mmol/L', body)


def test_the_thresholds_are_those_of_the_catalogue(handbook, body):
    for name in ("audit-exact", "audit-rounded-units"):
        assert handbook.catalogue.limits[name].text in body
    assert "(3\u202f%)" in body
    assert "finding about a printed text" in body
