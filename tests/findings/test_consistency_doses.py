"""No dose or rate without source and year: the check bites on each line that it reads.

No published source: this is the project's own rule (a page states no dose without who and when).
"""

from pathlib import Path

import pytest

from isofolio.findings.consistency_doses import (
    DOSE,
    doses_have_source_and_year,
    mixing_has_a_source,
)
from isofolio.handbook import open_handbook

CATALOGUE = Path(__file__).parents[2] / "catalogue"
TODAY = "on: 2026-11-25"
DATED = f"cite: {{source: dated, at: table 1, seen: read, {TODAY}}}"
OPEN = f"cite: {{source: open, at: table 1, seen: read, {TODAY}}}"
NO_SOURCE = "Take it out, or write it into a line that has a cite."
NO_YEAR = "Give the year of the source, or say undated in the line."
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


def unmarked(text):
    """A text without the mark » in it, and the line and column at which that stands."""
    before, _, after = text.partition("»")
    line = before.count("\n") + 1
    return before + after, f"{line}:{len(before) - before.rfind(chr(10))}"


@pytest.fixture
def judged(folder, told):
    """What both checks say of one entry, which is sound in its shape and references."""

    def say(file, text):
        (folder / file).parent.mkdir(exist_ok=True)
        (folder / file).write_text(text, encoding="utf-8")
        return told(folder, doses_have_source_and_year, mixing_has_a_source)

    return say


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


# A line of a situation, with a mark before the value in which the dose or rate stands.
UNBACKED = [
    ("50 mL an hour", "replaced: »It runs at 50 mL an hour."),
    ("2 mL/kg", "first: »Give 2 mL/kg at once."),
    ("20 mL/kg", "call: [Nobody came., »After 20 mL/kg.]"),
    ("2 mL/kg", "fluids: [{fluid: glucose-5, why: »2 mL/kg is enough.}]"),
    ("2 mL/kg", "trap: {text: »2 mL/kg of it., cite: common practice}"),
    (
        "2 mL/kg",
        "compare: [{question: »What 2 mL/kg brings, basis: {volume: 140 mL}, show: [sodium]}]",
    ),
    (
        "2 mL/kg",
        "tables: [{caption: »Doses of 2 mL/kg, columns: [a], rows: "
        "[{cells: [a], cite: common practice}]}]",
    ),
    (
        "2 mL/kg",
        "tables: [{caption: Doses, columns: [a, b], rows: [{cells: [none, »2 mL/kg], "
        "cite: common practice}]}]",
    ),
    # That a row is undated does not tell who said so.
    (
        "50 mL/h",
        "tables: [{caption: Rates, columns: [a, b], rows: [{cells: [»50 mL/h, undated], "
        "cite: common practice}]}]",
    ),
]


@pytest.mark.parametrize(("dose", "line"), UNBACKED)
def test_a_situation_without_a_source(judged, dose, line):
    file = "situations/low-glucose.yml"
    text, place = unmarked(f"{SITUATION}{line}\n")
    assert judged(file, text) == [
        f'{file}:{place}: the dose or rate "{dose}" has no source | {NO_SOURCE}'
    ]


@pytest.mark.parametrize(
    ("file", "text"),
    [
        ("situations/low-glucose.yml", SITUATION.replace("Grams", "»It runs 50 mL/h. Grams")),
        ("equipment/set.yml", SET.replace("A plain set.", "»It runs 50 mL/h.")),
    ],
)
def test_a_summary_has_no_source(judged, file, text):
    text, place = unmarked(text)
    assert judged(file, text) == [
        f'{file}:{place}: the dose or rate "50 mL/h" has no source | {NO_SOURCE}'
    ]


def test_each_line_with_a_dose_is_told(judged):
    """What is sound between two faults hides neither."""
    lines = (
        "first: Give 2 mL/kg at once.",
        f"guidance: [{{text: 1 mL/kg., {DATED}}}, {{text: None., {OPEN}}}, "
        f"{{text: 3 g/h., {OPEN}}}]",
        "call: [After 20 mL/kg.]",
    )
    found = judged("situations/low-glucose.yml", SITUATION + "\n".join(lines) + "\n")
    assert [line.partition(" | ")[0].partition(": ")[2] for line in found] == [
        'the dose or rate "2 mL/kg" has no source',
        'the dose or rate "20 mL/kg" has no source',
        'the dose or rate "3 g/h" has no year',
    ]


WORKED_OUT = f"cite: {{at: our sum, seen: arithmetic, {TODAY}}}"
TABLE = "tables: [{{caption: Doses, columns: [a, b], rows: [{{cells: [{cells}], {cite}}}]}}]"


# Marked where a problem is told; without a mark the line is sound.
@pytest.mark.parametrize(
    "line",
    [
        f"guidance: [{{text: »2 mL/kg., {OPEN}}}]",
        f"disagree: [{{text: »2 mL/kg., {OPEN}}}]",
        f"guidance: [{{text: 2 mL/kg (undated)., {OPEN}}}]",
        f"guidance: [{{text: 2 mL/kg., {OPEN.replace('table 1', 'undated leaflet')}}}]",
        f"guidance: [{{text: 2 mL/kg., year: 2019, {OPEN}}}]",
        f"disagree: [{{text: 2 mL/kg., year: 2019, {OPEN}}}]",
        f"guidance: [{{text: 2 mL/kg., {DATED}}}]",
        f"guidance: [{{text: 2 mL/kg., {WORKED_OUT}}}]",
        f"trap: {{text: »2 mL/kg., {OPEN}}}",
        f"trap: {{text: 2 mL/kg., {DATED}}}",
        f"compare: [{{question: »2 mL/kg, basis: {{volume: 1 L}}, show: [sodium], {OPEN}}}]",
        f"compare: [{{question: 2 mL/kg, basis: {{volume: 1 L}}, show: [sodium], {DATED}}}]",
        TABLE.format(cells="»2 mL/kg, now", cite=OPEN),
        TABLE.format(cells="now, »2 mL/kg", cite=OPEN),
        TABLE.format(cells="2 mL/kg, now", cite=DATED),
        TABLE.format(cells="2 mL/kg, undated", cite=OPEN),
    ],
)
def test_a_situation_without_a_year(judged, line):
    file = "situations/low-glucose.yml"
    text, place = unmarked(f"{SITUATION}{line}\n")
    told = f'{file}:{place}: the dose or rate "2 mL/kg" has no year | {NO_YEAR}'
    assert judged(file, text) == ([told] if "»" in line else [])


MIXING = "mixing/drug-glucose.yml"
RATE = f'the dose or rate "5 mg/kg" has no year | {NO_YEAR}'


def test_a_mixing_entry_without_a_source(judged):
    """A line of it is then backed by nobody, too."""
    nobody = f"[{{source: open, at: table 1, seen: read, {TODAY}}}]"
    assert judged(MIXING, PAIR.replace(nobody, "[]")) == [
        f"{MIXING}:10:8: no source looked at this pair "
        "| Name the source that looked at this pair, or delete the entry."
    ]
    text = PAIR.replace(nobody, "[]").replace("Ask pharmacy.", "Run at 5 mg/kg an hour.")
    assert f'{MIXING}:9:10: the dose or rate "5 mg/kg" has no source' in judged(MIXING, text)[0]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("It falls out.", "»At 5 mg/kg it falls out."),
        ("Ask pharmacy.", "»Run at 5 mg/kg an hour."),
        ("Ask pharmacy.", "Ask.\ntested: »5 mg/kg was run."),
        ("Ask pharmacy.", "Ask.\nnote: »5 mg/kg was run."),
    ],
)
def test_a_mixing_entry_with_a_rate_and_no_year(judged, old, new):
    text, place = unmarked(PAIR.replace(old, new))
    assert judged(MIXING, text) == [f"{MIXING}:{place}: {RATE}"]
    assert judged(MIXING, text.replace("source: open", "source: dated")) == []


def test_one_dated_source_backs_a_mixing_entry(judged):
    both = f"cites: [{{source: open, at: a, seen: read, {TODAY}}}, "
    text = PAIR.replace("Ask pharmacy.", "Run at 5 mg/kg an hour.").replace("cites: [", f"{both}")
    assert judged(MIXING, text) == [f"{MIXING}:9:10: {RATE}"]
    assert judged(MIXING, text.replace("source: open, at: table", "source: dated, at: table")) == []
    assert judged(MIXING, PAIR) == []


@pytest.mark.parametrize(("cite", "wrong"), [(OPEN, True), (DATED, False)])
def test_another_view_of_a_mixing_entry_has_its_own_source(judged, cite, wrong):
    text = PAIR.replace("source: open", "source: dated")
    text += f"disagree: [{{text: Not so., {DATED}}}, {{text: »Give 5 mg/kg., {cite}}}]\n"
    text, place = unmarked(text)
    assert judged(MIXING, text) == ([f"{MIXING}:{place}: {RATE}"] if wrong else [])


SOUND = "text: Sound., cite: common practice"


@pytest.mark.parametrize(
    "line",
    [
        f"how: [{{{SOUND}}}, {{text: »Run it at 50 mL/h., cite: common practice}}]",
        f"facts: [{{{SOUND}}}, {{text: »Run it at 50 mL/h., cite: common practice}}]",
        f"goes_wrong: [{{{SOUND}}}, {{text: »It ran 50 mL/h., cite: common practice}}]",
        f"parts: [{{number: 1, name: clamp, {SOUND}}}, "
        "{number: 2, name: pump, text: »Runs 50 mL/h., cite: common practice}]",
        "needed_by: [{why: »For 50 mL/h., applies: [{when: role, roles: [ready]}], "
        "cite: common practice}]",
        "figures: [{caption: »At 50 mL/h, columns: [a], rows: [{cells: [a], "
        "cite: common practice}]}]",
        "figures: [{caption: Flow, columns: [a], rows: [{cells: [»50 mL/h], "
        "cite: common practice}]}]",
    ],
)
def test_a_piece_of_equipment_without_a_source(judged, line):
    file = "equipment/set.yml"
    text, place = unmarked(f"{SET}{line}\n")
    assert judged(file, text) == [
        f'{file}:{place}: the dose or rate "50 mL/h" has no source | {NO_SOURCE}'
    ]


@pytest.mark.parametrize(
    "line",
    [
        "how: [{{text: Run 50 mL/h., {cite}}}]",
        "facts: [{{text: Run 50 mL/h., {cite}}}]",
        "goes_wrong: [{{text: It ran 50 mL/h., {cite}}}]",
        "disagree: [{{text: Run 50 mL/h., {cite}}}]",
        "parts: [{{number: 1, name: clamp, text: Opens 50 mL/h., {cite}}}]",
        "needed_by: [{{why: For 50 mL/h., applies: [{{when: role, roles: [ready]}}], {cite}}}]",
        "figures: [{{caption: Flow, columns: [a], rows: [{{cells: [50 mL/h], {cite}}}]}}]",
    ],
)
def test_a_piece_of_equipment_without_a_year(judged, line):
    file = "equipment/set.yml"
    (found,) = judged(file, f"{SET}{line.format(cite=OPEN)}\n")
    assert f'the dose or rate "50 mL/h" has no year | {NO_YEAR}' in found
    assert judged(file, f"{SET}{line.format(cite=DATED)}\n") == []


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
