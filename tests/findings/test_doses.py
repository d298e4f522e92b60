"""No dose or rate without source and year: the check bites on each line that it reads.

No published source: this is the project's own rule (a page states no dose without who and when).
"""

from pathlib import Path

import pytest

from isofolio.entries.reading import read_catalogue
from isofolio.findings import consistency
from isofolio.findings.consistency_doses import DOSE
from isofolio.handbook import open_handbook

CATALOGUE = Path(__file__).parents[2] / "catalogue"
TODAY = "on: 2026-11-25"
DATED = f"cite: {{source: dated, at: table 1, seen: read, {TODAY}}}"
OPEN = f"cite: {{source: open, at: table 1, seen: read, {TODAY}}}"
SITUATION = """id: low-glucose
name: Low glucose
summary: Grams of glucose are given.
review: {state: draft}
"""
PAIR = """id: drug-glucose
name: Drug and glucose
first: drug
second: glucose
kind: drug with fluid
mode: diluent
finding: does not mix
what_happens: It falls out.
instead: Ask pharmacy.
cites: [{source: open, at: table 1, seen: read, on: 2026-11-25}]
review: {state: draft}
"""
SET = """id: set
name: Set
kind: set
summary: A plain set.
drawing: gravity-set
review: {state: draft}
"""


@pytest.fixture
def folder(catalogue):
    """The sound catalogue with a source that has a year, and one that has none."""
    for name, year in (("dated", "year: 2021\n"), ("open", "")):
        text = f"id: {name}\nkind: guideline\ntitle: A text of {name}\nbody: A body\n{year}"
        (catalogue / f"sources/{name}.yml").write_text(text, encoding="utf-8")
    return catalogue


def told(folder, file, text):
    """What the check says of one entry, which is sound in its shape and references."""
    (folder / file).parent.mkdir(exist_ok=True)
    (folder / file).write_text(text, encoding="utf-8")
    reading = read_catalogue(folder)
    assert reading.problems == ()
    return [(p.file, p.message) for p in consistency.problems(reading)]


@pytest.mark.parametrize(
    "text",
    [
        "2 mL/kg",
        "25 to 30 mL/kg a day",
        "0.5 mmol/kg",
        "50 mL an hour",
        "10 mmol in an hour",
        "500 mL/h",
        "2100 mL in a day",
        "10 units per hour",
        "4 mg/kg/min",
        "100 mL per kilogram",
        "13 mL a minute",
    ],
)
def test_it_knows_a_dose_or_a_rate(text):
    assert DOSE.search(f"Give {text} of it.")


@pytest.mark.parametrize(
    "text", ["40 mmol/L", "20 g of glucose", "10 mL of 15 %", "900 mOsm/L", "7 days", "1 L"]
)
def test_a_strength_or_an_amount_is_none(text):
    assert not DOSE.search(f"It has {text}.")


@pytest.mark.parametrize(
    "line",
    [
        "replaced: It runs at 50 mL an hour.",
        "first: Give 2 mL/kg at once.",
        'call: ["After 20 mL/kg."]',
        "fluids: [{fluid: glucose-5, why: 2 mL/kg is enough.}]",
        "trap: {text: 2 mL/kg of it., cite: common practice}",
        "compare: [{question: What 2 mL/kg brings, basis: {volume: 140 mL}, show: [glucose_mass]}]",
        "tables: [{caption: Doses, columns: [dose], rows: "
        "[{cells: [2 mL/kg], cite: common practice}]}]",
    ],
)
def test_a_situation_without_a_source(folder, line):
    ((file, message),) = told(folder, "situations/low-glucose.yml", f"{SITUATION}{line}\n")
    assert file == "situations/low-glucose.yml"
    assert message.startswith("the dose or rate ")
    assert message.endswith(" has no source")


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        (f"guidance: [{{text: 2 mL/kg., {OPEN}}}]", True),
        (f"disagree: [{{text: 2 mL/kg., {OPEN}}}]", True),
        (f"guidance: [{{text: 2 mL/kg (undated)., {OPEN}}}]", False),
        (f"guidance: [{{text: 2 mL/kg., year: 2019, {OPEN}}}]", False),
        (f"guidance: [{{text: 2 mL/kg., {DATED}}}]", False),
        (f"tables: [{{caption: Doses, columns: [a], rows: [{{cells: [2 mL/kg], {OPEN}}}]}}]", True),
        (
            f"tables: [{{caption: Doses, columns: [a], rows: [{{cells: [2 mL/kg], {DATED}}}]}}]",
            False,
        ),
    ],
)
def test_a_situation_without_a_year(folder, line, wrong):
    found = told(folder, "situations/low-glucose.yml", f"{SITUATION}{line}\n")
    expected = [("situations/low-glucose.yml", 'the dose or rate "2 mL/kg" has no year')]
    assert found == (expected if wrong else [])


def test_a_mixing_entry_without_a_source(folder):
    text = PAIR.replace(f"[{{source: open, at: table 1, seen: read, {TODAY}}}]", "[]")
    assert told(folder, "mixing/drug-glucose.yml", text) == [
        ("mixing/drug-glucose.yml", "no source looked at this pair")
    ]


def test_a_mixing_entry_with_a_rate_and_no_year(folder):
    text = PAIR.replace("Ask pharmacy.", "Run at 5 mg/kg an hour.")
    assert told(folder, "mixing/drug-glucose.yml", text) == [
        ("mixing/drug-glucose.yml", 'the dose or rate "5 mg/kg" has no year')
    ]
    assert (
        told(folder, "mixing/drug-glucose.yml", text.replace("source: open", "source: dated")) == []
    )
    assert told(folder, "mixing/drug-glucose.yml", PAIR) == []


@pytest.mark.parametrize(
    "line",
    [
        "how: [{text: Run it at 50 mL an hour., cite: common practice}]",
        "goes_wrong: [{text: It took 13 mL a minute., cite: common practice}]",
        "parts: [{number: 1, name: clamp, text: Opens 50 mL/h., cite: common practice}]",
    ],
)
def test_a_piece_of_equipment_without_a_source(folder, line):
    ((file, message),) = told(folder, "equipment/set.yml", f"{SET}{line}\n")
    assert file == "equipment/set.yml"
    assert message.endswith(" has no source")


def test_the_catalogue_has_doses_for_it_to_read():
    """Not an empty promise: a sound catalogue, in which many lines tell a dose or a rate."""
    opened = open_handbook(CATALOGUE)
    assert opened.problems == ()
    lines = [
        line.text
        for situation in opened.handbook.catalogue.situations.values()
        for line in (*situation.guidance, *situation.disagree)
    ]
    assert sum(bool(DOSE.search(text)) for text in lines) >= 30
