"""Glossary, confusions, tutorials and their index: what an educator can rely on.

No published source for the shape of a lesson: this is the project's own design. Figures are
checked against the arithmetic named beside each.
"""

import re
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.pages.confusions import confusions_page
from isofolio.pages.glossary import glossary_page
from isofolio.pages.lessons import furnished
from isofolio.pages.live import told
from isofolio.pages.places import place_label
from isofolio.pages.teaching import teaching_page
from isofolio.pages.term_links import with_terms_linked
from isofolio.pages.tutorials import TUTORIALS, tutorial_page
from isofolio.wording.placeholders import placeholders

PROJECT = Path(__file__).parents[2]
LESSONS = PROJECT / "site_src" / "tutorials"
CATALOGUE = PROJECT / "catalogue"
SUMMARY = re.compile(
    r'<details markdown="1">\n<summary>([^<]+)</summary>\n\n(.+?)\n\n</details>', re.S
)
WANTED = (
    "osmolarity",
    "osmolality",
    "tonicity",
    "effective-osmole",
    "strong-ion-difference",
    "milliequivalent",
    "mmol",
    "mole",
    "percent-weight-in-volume",
    "hydrate",
    "anhydrous",
    "crystalloid",
    "colloid",
    "balanced",
    "iso-osmotic",
    "isotonic",
    "hypotonic",
    "hypertonic",
    "free-water",
    "compartment",
    "base-excess",
    "buffer",
    "giving-set",
    "drip-chamber",
    "spike",
    "port",
    "vent",
    "dead-space",
    "priming",
    "overfill",
    "concentrate",
    "diluent",
    "vesicant",
    "extravasation",
    "phlebitis",
    "infiltration",
    "layering",
    "compatibility",
    "sorption",
    "pharmacopoeia",
    "atc",
    "draft",
    "stamp",
)


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


def lesson(tutorial):
    return (LESSONS / f"{tutorial.id}.md").read_text(encoding="utf-8")


def section(text, title):
    """What stands under one heading of the second level."""
    return re.split(r"^## ", text.split(f"\n## {title}\n")[1], flags=re.MULTILINE)[0]


def test_the_list_of_tutorials_is_that_of_the_folder():
    assert len(TUTORIALS) == 8
    assert {path.stem for path in LESSONS.glob("*.md")} == {tutorial.id for tutorial in TUTORIALS}


@pytest.mark.parametrize("tutorial", TUTORIALS, ids=lambda tutorial: tutorial.id)
def test_a_tutorial_has_its_parts(tutorial):
    text = lesson(tutorial)
    assert tutorial.aim.endswith(".")
    assert tutorial.bring.endswith(".")
    assert 20 <= tutorial.minutes <= 60
    assert f"title: {tutorial.title}\n" in text
    lessons = re.findall(r"^## (.+)$", text, re.MULTILINE)
    parts = ["Three questions", "One common mistake", "Two invented cases", "Read on"]
    assert lessons[-4:] == parts
    assert len(lessons) >= 4 + 4
    assert len(SUMMARY.findall(section(text, "Three questions"))) == 3
    assert len(section(text, "One common mistake").split()) >= 20
    first, *cases = section(text, "Two invented cases").split("\n### Case ")
    assert not first.strip()
    assert [case[0] for case in cases] == ["1", "2"]
    for case in cases:
        steps = [summary for summary, _ in SUMMARY.findall(case)]
        assert len(steps) >= 2
        assert [step.split(":")[0] for step in steps] == [
            f"Step {number}" for number in range(1, len(steps) + 1)
        ]
    assert text.count("<details") == len(SUMMARY.findall(text)), "an answer without its form"


@pytest.mark.parametrize("tutorial", TUTORIALS, ids=lambda tutorial: tutorial.id)
def test_a_tutorial_has_live_figures_and_leads_into_fluid_pages(tutorial):
    text = lesson(tutorial)
    figures = [one for _, one in placeholders(text) if one is not None and one.quantity]
    assert len(figures) >= 5
    assert re.search(r"\]\(\.\./fluids/[a-z0-9-]+\.md#[a-z-]+\)", section(text, "Read on"))


@pytest.mark.parametrize("tutorial", TUTORIALS, ids=lambda tutorial: tutorial.id)
def test_a_tutorial_proposes_no_dose(tutorial):
    """A rate or an amount by weight of a person stands in no lesson."""
    text = lesson(tutorial)
    assert not re.search(r"(mL|mmol|mg|g)/kg|per kg|mL/kg/h", text)
    for sentence in re.findall(r"[^.]*\d ?(?:mL|mmol)(?:/h| an hour| in an hour)[^.]*\.", text):
        assert "invented" in text, sentence


@pytest.mark.parametrize("tutorial", TUTORIALS, ids=lambda tutorial: tutorial.id)
def test_what_stands_round_a_lesson(handbook, tutorial):
    page = tutorial_page(handbook, tutorial.id, '<h2 id="a">A</h2>')
    assert f"<h1>{tutorial.title}</h1>" in page
    for text in (
        tutorial.aim.split(",")[0],
        f"{tutorial.minutes}&nbsp;min",
        "Draft: not yet checked",
    ):
        assert text in page
    assert f"catalogue of {handbook.date}, digest {handbook.digest}" in page
    assert "CC BY 4.0" in page
    assert "licensed practitioner decides" in page
    assert '<h2 id="a">A <button type="button" class="copy" data-anchor="a" hidden>' in page


def test_headings_and_tables_of_a_lesson_are_as_those_of_the_handbook():
    html = '<h2 id="a">Salt &amp; water</h2><table><tr><td>a</td><td>1</td></tr></table>'
    made = furnished(html, "tutorials/potassium.html")
    assert made.startswith('<h2 id="a">Salt &amp; water <button')
    assert '<div class="scroller" tabindex="0" role="group" aria-label="Table">' in made
    assert '<tr><th scope="row">a</th><td>1</td></tr>' in made


def test_the_first_use_of_a_term_is_linked_and_only_that(handbook):
    terms = handbook.catalogue.glossary.values()
    html = "<h2>Osmolarity</h2><p>Osmolarity, osmolarity. Effective osmolarity.</p>"
    html += '<p><a href="x">mole</a> <summary>mole</summary> <code>mole</code></p>'
    made = with_terms_linked(html, "tutorials/a.html", terms)
    assert made.count("glossary.html#osmolarity") == 1
    assert '<a class="term" href="../glossary.html#osmolarity">Osmolarity</a>, osmolarity.' in made
    assert (
        '<a class="term" href="../glossary.html#effective-osmole">Effective osmolarity</a>' in made
    )
    assert "glossary.html#mole" not in made
    assert made.startswith("<h2>Osmolarity</h2>")


def test_a_term_is_no_part_of_a_word(handbook):
    terms = handbook.catalogue.glossary.values()
    html = "<p>molecule, report, spiked, ventilator</p>"
    assert with_terms_linked(html, "a.html", terms) == html


def test_the_glossary_has_the_terms_and_each_can_be_linked_to(handbook):
    body = glossary_page(handbook).body
    assert len(handbook.catalogue.glossary) >= 45
    assert set(WANTED) <= set(handbook.catalogue.glossary)
    for identifier in handbook.catalogue.glossary:
        assert body.count(f'id="{identifier}"') == 1
    assert 'href="tutorials/potassium.html"' not in body or "Tutorial: Potassium" in body


def test_a_term_is_told_in_few_words(handbook):
    for term in handbook.catalogue.glossary.values():
        assert len(term.text.split()) <= 60, term.id


def test_the_confusions_each_show_a_figure_of_the_handbook(handbook):
    body = confusions_page(handbook).body
    assert len(handbook.catalogue.confusions) >= 20
    for confusion in handbook.catalogue.confusions.values():
        assert f'<h2 id="{confusion.id}">' in body
        figures = [one for _, one in placeholders(confusion.truth) if one and one.quantity]
        assert figures, confusion.id
        for figure in figures:
            assert str(told(handbook, figure)) in body, (confusion.id, figure)
    assert "{" not in body


@pytest.mark.parametrize(
    ("identifier", "figure"),
    [
        # 5 g in 100 mL: arithmetic
        ("five-percent-is-five-grams", "25\u00a0g in 500\u00a0mL"),
        # 3 g/L over 74.55 g/mol, in half a litre: arithmetic
        ("potassium-percent-is-forty", "20\u00a0mmol, a bag of 1000\u00a0mL 40\u00a0mmol"),
        # one twelfth of a litre: arithmetic; the model of a 70 kg adult with 42 L of water
        ("glucose-fills-the-circulation", "83\u00a0mL/L"),
        # 84 g/L over 84.01 g/mol, two particles: arithmetic
        ("bicarbonate-is-mild", "2000\u00a0mOsm/L"),
    ],
)
def test_figures_of_confusions(handbook, identifier, figure):
    body = confusions_page(handbook).body
    own = body.split(f'<h2 id="{identifier}">')[1].split("</section>")[0]
    assert figure in own


def test_the_index_leads_to_everything(handbook):
    body = teaching_page(handbook).body
    for tutorial in TUTORIALS:
        assert f'href="tutorials/{tutorial.id}.html">{tutorial.title}</a>' in body
    for address in ("confusions.html", "glossary.html", "self-test.html", "practice-labels.html"):
        assert f'href="{address}"' in body
    assert "CC BY 4.0" in body


@pytest.mark.parametrize(
    ("page", "label"),
    [
        ("fluids/glucose-5#in-the-body", "Glucose\u00a05\u202f%, in the body"),
        ("tutorials/potassium", "Tutorial: Potassium"),
        ("tutorials/gone", "tutorials/gone"),
        ("fluids/gone", "fluids/gone"),
        ("glossary#mole", "mole"),
        ("method", "Method"),
    ],
)
def test_how_a_page_is_called(handbook, page, label):
    assert place_label(handbook, page) == label
