"""The page of one fluid: words above and beside its figures are true of every one of them.

What the page must say is the project's own rule (design, sections 5 and 8).
"""

import re
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.pages.fluid import fluid_page
from isofolio.shell.policy import FIRST_SCREEN_ENDS

PROJECT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def body():
    """A function: the page of a fluid as HTML."""
    opened = open_handbook(PROJECT / "catalogue")
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    handbook = opened.handbook
    return lambda fluid: fluid_page(handbook, handbook.catalogue.fluids[fluid]).body


@pytest.mark.parametrize(
    ("fluid", "word"),
    [
        ("sodium-chloride-0-9", "bag"),  # its 10 mL ampoule has no column
        ("glucose-50", "container"),  # a 500 mL column under "this ampoule" would be wrong
        ("albumin-4", "bottle"),  # of glass
    ],
)
def test_the_contents_are_of_what_is_in_the_hand(body, fluid, word):
    assert f"This {word} holds" in body(fluid)


@pytest.mark.parametrize("fluid", ["glucose-10", "mannitol-10", "potassium-chloride-0-3-glucose-5"])
def test_a_look_alike_tells_its_figure_with_a_unit(body, fluid):
    figures = re.findall(r'class="differs">([^<]+)<', body(fluid))
    assert figures
    assert [text for text in figures if not re.search(r"\d\u00a0(mmol|g)$", text)] == []


def test_a_concentrate_and_its_look_alikes_are_told_per_millilitre(body):
    """Beside an ampoule, a figure per litre would be read as one per ampoule."""
    html = body("potassium-chloride-15")
    start = html.index('<section class="mistaken"')
    mistaken = html[start : html.index("</section>", start)]
    assert "in 1\u00a0mL" in mistaken
    assert "K\u00a01\u00a0mmol" in mistaken  # 7.45 %, half the strength


def test_the_first_screen_ends_where_its_blocks_are_closed(body):
    """There the browser paints before it reads on; an open block would be painted half."""
    first, mark, rest = body("sodium-chloride-0-9").partition(FIRST_SCREEN_ENDS)
    assert mark
    assert 'class="answers"' in first
    assert first.count("<div") == first.count("</div")
    assert rest.lstrip().startswith("<section")
