"""Terms and confusions: what the records refuse, and what only the whole catalogue can show.

No published source: this is how the project's own files must be written.
"""

import pytest

from isofolio.entries.reading import read_catalogue
from isofolio.handbook import open_handbook

TERM = """id: mole
name: mole
also_known_as: [mol]
text: "An amount; {glucose-5 glucose} in a litre."
cite: common practice
review: {state: draft}
"""
CONFUSION = """id: five-percent
name: 5 % in grams
said: It is 5 g in a litre.
truth: "It is {glucose-5 glucose_mass in 500 mL} in 500 mL."
why: The slip is tenfold.
cite: {seen: arithmetic, at: 5 g times 10, on: 2026-11-25}
see: [glucose-5]
pages: ["fluids/glucose-5#figures"]
review: {state: draft}
"""


@pytest.fixture
def folder(catalogue):
    """The sound catalogue with one term and one confusion."""
    write(catalogue, "glossary/mole.yml", TERM)
    write(catalogue, "confusions/five-percent.yml", CONFUSION)
    return catalogue


def write(folder, file, text):
    (folder / file).parent.mkdir(exist_ok=True)
    (folder / file).write_text(text, encoding="utf-8")
    return folder


def told(folder):
    problems = open_handbook(folder).problems
    return [(p.file, p.place.line, p.message) for p in problems]


def test_a_term_and_a_confusion_are_read(folder):
    assert told(folder) == []
    found = read_catalogue(folder).catalogue
    assert found.glossary["mole"].also_known_as == ["mol"]
    assert found.glossary["mole"].cite is None
    assert found.confusions["five-percent"].see == ["glucose-5"]


@pytest.mark.parametrize(
    ("old", "new", "line", "message"),
    [
        ("text: ", "txt: ", 4, '"txt" is not a key here'),
        ("cite: common practice", "cite: somebody", 5, 'cite: "somebody" is not a citation'),
        ("review:", "see: [molle]\nreview:", 6, 'there is no "molle" in glossary/'),
        (
            "review:",
            "pages: [Fluids/x]\nreview:",
            6,
            'pages, item 1: "Fluids/x" is not the address of a page',
        ),
        ("glucose-5 glucose}", "glucose-6 glucose}", 4, 'there is no "glucose-6" in fluids/'),
        ("glucose-5 glucose}", "glucose-5 glucse}", 4, '"glucse" is not a quantity'),
    ],
)
def test_faults_of_a_term(folder, old, new, line, message):
    assert told(write(folder, "glossary/mole.yml", TERM.replace(old, new))) == [
        ("glossary/mole.yml", line, message)
    ]


@pytest.mark.parametrize(
    ("old", "new", "line", "message"),
    [
        ("see: [glucose-5]", "see: [glucose-7]", 7, 'there is no "glucose-7" in fluids/'),
        ("{glucose-5 glucose_mass in 500 mL}", "{glucose-5}", 4, "the truth of a confusion has"),
        (" in 500 mL}", " in 500 cm}", 4, '"glucose-5 glucose_mass in 500 cm" between braces'),
        ("glucose_mass in", "osmolarity in", 4, "a container holds no share of osmolarity"),
    ],
)
def test_faults_of_a_confusion(folder, old, new, line, message):
    folder = write(folder, "confusions/five-percent.yml", CONFUSION.replace(old, new))
    found = told(folder)
    assert (found[0][0], found[0][1]) == ("confusions/five-percent.yml", line)
    assert found[0][2].startswith(message)


def test_two_terms_of_one_name(folder):
    other = TERM.replace("id: mole", "id: molar").replace("name: mole", "name: Mol")
    found = told(write(folder, "glossary/molar.yml", other.replace("[mol]", "[molar]")))
    assert found == [("glossary/mole.yml", 3, 'the name "mol" belongs to molar already')]
