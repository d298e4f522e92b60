"""The pages of the self-test and of the practice labels, and the cards, as they are written."""

import re
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.pages.card import card_page, cards_file, with_cards
from isofolio.pages.practice_labels import practice_labels_pages
from isofolio.pages.selftest import PAPERS, SIZE, self_test_page

CATALOGUE = Path(__file__).parents[2] / "catalogue"
SCRIPTS = Path(__file__).parents[2] / "site_src" / "scripts"
OURS = ("chosen.js", "self-test.js")
NO_CODE = re.compile(r"""/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])*'""", re.DOTALL)
BREAKABLE = re.compile(r"\d (mmol|mEq|mOsm|g|mL|L|%)\b")


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


@pytest.fixture(scope="module")
def paper_page(handbook):
    return self_test_page(handbook)


@pytest.fixture(scope="module")
def labels_page(handbook):
    ((_, make),) = practice_labels_pages(handbook)
    return make()


def once(page):
    ids = re.findall(r'\sid="([^"]+)"', page.body)
    return len(ids) == len(set(ids))


def test_every_paper_has_its_questions_and_its_answers(paper_page):
    assert paper_page.body.count('class="question"') == PAPERS * SIZE
    assert paper_page.body.count("data-right=") == PAPERS * SIZE
    for number in range(1, PAPERS + 1):
        assert f'id="paper={number}"' in paper_page.body
        assert f'href="#paper={number}"' in paper_page.body
    assert once(paper_page)


def test_a_paper_says_of_which_catalogue_it_is(handbook, paper_page):
    assert f"Paper 3 of catalogue {handbook.date}" in paper_page.body
    assert "Teaching arithmetic, not an order." in paper_page.body


def test_every_wrong_answer_has_its_slip(paper_page):
    choices = len(re.findall(r'type="radio"', paper_page.body))
    slips = len(re.findall(r"data-answer=", paper_page.body))
    assert choices == slips + PAPERS * SIZE


def test_figures_keep_their_units(paper_page, labels_page):
    for page in (paper_page, labels_page):
        assert BREAKABLE.findall(re.sub(r"<[^>]+>", " ", page.body)) == []


def test_every_label_says_that_it_is_not_real(labels_page):
    drawings = labels_page.body.count("<svg")
    assert drawings > 150
    assert labels_page.body.count(">Practice label. Not a real label.</text>") == drawings
    assert once(labels_page)


def test_a_card_says_what_it_holds_and_what_it_is(handbook):
    fluids = {fluid.id: fluid for fluid in with_cards(handbook)}
    body = card_page(handbook, fluids["potassium-chloride-0-3-glucose-5"]).body
    for words in ("Uncontrolled when printed.", handbook.digest, handbook.date, "Sources: "):
        assert words in body
    for question in ("Vein", "In the body", "With blood", "In the bag"):
        assert f"<dt>{question}</dt>" in body
    assert "Draft: not yet checked" in body


def test_the_file_of_cards_needs_nothing_else(handbook):
    text = cards_file(handbook, ("glucose-5", "potassium-chloride-15"), ("p { margin: 0; }",))
    assert text.lstrip().startswith("<!doctype html>")
    assert text.count('<article class="card"') == 2
    assert "p { margin: 0; }" in text
    assert not re.search(r"<(script|link|a|img)\b", text)
    assert not re.search(r'style="', text)
    ids = re.findall(r'\sid="([^"]+)"', text)
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("name", OURS)
def test_no_figure_and_no_way_out_in_a_script(name):
    """Everything about fluids stands in the page; only places in lists are numbers here."""
    code = NO_CODE.sub('""', (SCRIPTS / name).read_text(encoding="utf-8"))
    assert set(re.findall(r"(?<![\w.$])\d[\d_.]*", code)) <= {"0", "1"}
    words = r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|eval|fetch|XMLHttp|\.style\b"
    assert re.findall(words, code) == []
    assert not re.search(r"window\.\w+ =[^=]", code)
