"""The page "When the shelf is empty", and its part of a fluid's page.

What a page must say and must not say is the project's own rule (design, sections 1, 5 and 8).
"""

import re
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.pages.page import rendered
from isofolio.pages.shortage import POLICY, alternatives_context, shortage_page

CATALOGUE = Path(__file__).parents[2] / "catalogue"
BANNED = re.compile(r"\b(close|equivalent|substitutes?|safe|interchangeable)\b", re.IGNORECASE)
BREAKABLE = re.compile(r"\d (mmol|mEq|mOsm|g|mL|L|steps|%)\b")
TAG = re.compile(r"<[^>]+>")


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


@pytest.fixture(scope="module")
def page(handbook):
    return shortage_page(handbook)


def part(handbook, fluid_id):
    context = alternatives_context(handbook, handbook.catalogue.fluids[fluid_id])
    here = f"fluids/{fluid_id}.html"
    return rendered("alternatives_part.html", here, {"alternatives": context})


def section(page, fluid_id):
    """The text of one fluid's section, up to the next one."""
    _, _, rest = page.body.partition(f'<h3 id="{fluid_id}">')
    return TAG.sub(" ", rest.partition("</section>")[0])


def test_the_page_sends_to_pharmacy_before_anything_else(page):
    text = TAG.sub("", page.body)
    assert text.index("Discuss with pharmacy. Local policy and pharmacy decide") < 60
    assert "is not validated" in POLICY


def test_every_fluid_stands_on_the_page_once(handbook, page):
    ids = re.findall(r'\bid="([^"]+)"', page.body)
    assert len(ids) == len(set(ids))
    assert set(handbook.catalogue.fluids) <= set(ids)


def test_the_first_three_are_shown_with_word_steps_and_difference(page):
    text = section(page, "sodium-chloride-0-9")
    assert len(re.findall(r"difference, \d", text)) == 3
    assert "moderate difference, 6.1\u00a0steps" in text
    assert "potassium 4\u00a0mmol/L beside none" in text
    assert "3 more can be compared" in text


def test_added_calcium_is_loud(handbook, page):
    assert "WARNING   Calcium is added" in section(page, "sodium-chloride-0-9")
    assert "WARNING" not in section(page, "compound-sodium-lactate")
    assert 'signal-warning">WARNING' in part(handbook, "multiple-electrolytes-type-1")


def test_the_ranking_is_told_from_the_limits(handbook, page):
    for name in ("substitute-width-sodium", "substitute-stop-potassium", "substitute-large"):
        limit = handbook.catalogue.limits[name]
        assert limit.value.text.replace(" ", "\u00a0") in page.body
    assert handbook.catalogue.limits["substitute-stop-potassium"].text in page.body


def test_every_sentence_of_the_list_stands_with_its_source(handbook, page):
    text = TAG.sub("", page.body)
    for entry in handbook.catalogue.not_instead:
        assert entry.text in text
    assert "common practice, no source" in text
    assert 'href="sources.html#nz-transfusion-handbook"' in page.body


@pytest.mark.parametrize(
    ("fluid_id", "words"),
    [
        ("potassium-chloride-15", "Not ranked: it is a concentrate, diluted before use."),
        ("albumin-4", "Not ranked: it is a colloid."),
        ("sodium-bicarbonate-8-4", "Not ranked: it is given to raise bicarbonate."),
        ("glucose-20", "Every other fluid of this catalogue is stopped."),
    ],
)
def test_where_nothing_is_ranked_the_reader_is_told_whom_to_ask(handbook, fluid_id, words):
    text = TAG.sub("", part(handbook, fluid_id))
    assert f"{words} Ask pharmacy." in text
    assert POLICY in text
    assert "<table" not in part(handbook, fluid_id)


def test_the_part_of_a_fluid_page_links_to_its_place(handbook):
    text = part(handbook, "glucose-5")
    assert 'href="../shortage.html#glucose-5"' in text
    assert 'href="dextrose-5-usp.html"' in text


def test_no_page_promises_what_a_figure_cannot(handbook, page):
    parts = [part(handbook, fluid.id) for fluid in handbook.fluids]
    texts = [page.title, page.description, page.body, *parts]
    assert [found[0] for text in texts if (found := BANNED.search(text))] == []


def test_a_figure_and_its_unit_never_part(handbook, page):
    parts = [TAG.sub("", part(handbook, fluid.id)) for fluid in handbook.fluids]
    found = [
        hit[0] for text in (TAG.sub("", page.body), *parts) for hit in BREAKABLE.finditer(text)
    ]
    assert found == []


def test_no_inline_style_and_no_script(page):
    assert "style=" not in page.body
    assert "<script" not in page.body
