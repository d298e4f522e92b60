"""Ready-made comparisons: their prose holds no typed figure, their tables the handbook's."""

import html
import re
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.pages.comparing import Cell, Line, cell, difference, lines_of, plasma_text, row
from isofolio.pages.comparisons import choice, comparison_page, fluids_of
from isofolio.pages.live import live
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.wording.placeholders import placeholders

CATALOGUE = Path(__file__).parents[2] / "catalogue"
TYPED = re.compile(r"\d[\d.,]* ?(?:mmol|mEq|mOsm|kcal|kJ|g|mg|kg|L)\b")
# Words that advise: a comparison shows, and local policy decides.
ADVICE = re.compile(
    r"\b(better|best|safer?|prefer\w*|should|must|recommend\w*|choose|give)\b", re.I
)


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


@pytest.fixture(scope="module")
def comparisons(handbook):
    return handbook.catalogue.comparisons


def test_there_are_at_least_ten_and_all_are_drafts(comparisons):
    assert len(comparisons) >= 10
    assert {one.review.state for one in comparisons.values()} == {"draft"}


def prose(comparison):
    return [comparison.text, *comparison.points]


def test_no_figure_is_typed(comparisons):
    """Strengths in names stay: they are names. Volumes of a bag stay: the reader holds it."""
    found = {
        one.id: typed
        for one in comparisons.values()
        for text in prose(one)
        if (typed := TYPED.findall(re.sub(r"\{[^}]*\}", "", text)))
    }
    assert found == {}


def test_every_comparison_shows_live_figures(comparisons):
    for one in comparisons.values():
        assert sum(1 for text in prose(one) for _ in placeholders(text)) >= 3, one.id


def test_no_comparison_advises(comparisons):
    for one in comparisons.values():
        for text in prose(one):
            assert ADVICE.findall(text) == [], one.id


def test_a_live_figure_is_the_published_one(handbook):
    """Labels read by the catalogue: glucose 5 % 278 mOsm/L (uk-smpc-glucose, sections 2 and 3);
    potassium chloride 0.3 % 20 mmol in 500 mL (uk-availability-tables-potassium)."""
    assert live(handbook, "{glucose-5 osmolarity}") == "278\u00a0mOsm/L"
    potassium = "{potassium-chloride-0-3-glucose-5 potassium in 500 mL}"
    assert live(handbook, potassium) == "20\u00a0mmol"


def test_a_live_figure_is_held_together_and_zero_is_none(handbook):
    assert live(handbook, "{mannitol-20 sodium}") == "none"
    assert live(handbook, "{sodium-chloride-0-9 sid_in_body}") == "0\u00a0mEq/L"
    assert live(handbook, "{plasma sodium}") == "135\u2013145\u00a0mmol/L"
    assert live(handbook, "{glucose-5}") == "Glucose\u00a05\u202f%"


def test_arithmetic_noise_is_no_figure(handbook):
    """Sums of floating-point figures leave 4e-15 where the strong ions cancel."""
    noisy = "potassium-chloride-0-2-sodium-chloride-0-18-glucose-4"
    assert handbook.value(noisy, "sid_in_body").number != 0
    assert cell(handbook, noisy, Line(QUANTITY_BY_ID["sid_in_body"])) == Cell("0", 0.0)


@pytest.mark.parametrize(
    ("cells", "told"),
    [
        ([("20", 20.1), ("20", 20.4)], "same in both"),
        ([("20", 20.1), ("20", 20.4), ("20", 20.0)], "same in all"),
        ([("none", 0.0), ("20", 20.1)], "only in B"),
        ([("none", 0.0), ("20", 20.1), ("40", 40.0)], "none to 40"),
        ([("5.4", 5.4), ("131", 131.0)], "5.4 to 131"),
        ([("\u22121.7", -1.7), ("0.5", 0.5)], "\u22121.7 to 0.5"),
        ([("not declared", None), ("20", 20.1)], "not known of all"),
        ([("0", 0.0), ("28", 28.0)], "0 to 28"),
    ],
)
def test_what_differs_is_told_in_words(cells, told):
    names = ["A", "B", "C"][: len(cells)]
    assert difference([Cell(*one) for one in cells], names) == told


def test_rows_by_volume_and_by_litre(handbook):
    lines = lines_of(["potassium", "osmolarity"], [500.0, 1000.0])
    assert [line.name for line in lines] == [
        "potassium in 500\u00a0mL, mmol",
        "potassium, mmol/L",
        "osmolarity in the bag, mOsm/L",
    ]
    fluids = [handbook.catalogue.fluids["potassium-chloride-0-3-glucose-5"]] * 2
    rows = [row(handbook, fluids, line) for line in lines]
    assert [one["cells"][0]["text"] for one in rows] == ["20", "40", "358"]


def test_plasma_is_an_interval_or_says_that_it_is_not_compared(handbook):
    assert plasma_text(handbook, Line(QUANTITY_BY_ID["sodium"])) == "135\u2013145"
    assert plasma_text(handbook, Line(QUANTITY_BY_ID["sodium"], 500.0)) == "not compared"
    assert plasma_text(handbook, Line(QUANTITY_BY_ID["energy"])) == "not compared"


def test_every_page_is_whole_without_script(handbook, comparisons):
    for one in comparisons.values():
        page = comparison_page(handbook, one)
        text = html.unescape(page.body)
        assert page.scripts == ()
        assert page.path == f"comparisons/{one.id}.html"
        assert "Draft: not yet checked" in text
        assert "{" not in re.sub(r"<[^>]*>", "", text)
        assert text.count('role="img"') == 1
        assert text.count('<th scope="row"') >= len(one.quantities)
        assert f'href="../compare.html?with={choice(one).partition("=")[2]}"' in text
        for fluid in fluids_of(handbook, one):
            assert f'href="../fluids/{fluid.id}.html"' in text


def test_a_choice_names_its_fluids_and_plasma(comparisons):
    saline = choice(comparisons["saline-and-balanced-solutions"])
    assert saline.startswith("compare.html?with=sodium-chloride-0-9,compound-sodium-lactate,")
    assert saline.endswith(",plasma")
    assert not choice(comparisons["glucose-in-four-strengths"]).endswith("plasma")
