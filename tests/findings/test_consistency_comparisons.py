"""Figures in prose: judged on sound entries, and each fault told once."""

import pytest

from isofolio.entries.reading import read_catalogue
from isofolio.findings import consistency
from isofolio.findings.consistency_comparisons import HOW, figures_are_there, volumes_fit
from isofolio.handbook import open_handbook

ENTRY = """\
id: two-fluids
name: Two fluids
fluids: [glucose-5, sodium-chloride-0-9]
plasma: yes
quantities: [sodium]
text: "{text}"
points: []
review: {{state: draft}}
"""


@pytest.fixture
def compare(catalogue):
    """A function that adds a comparison with a text to the small sound catalogue."""

    def add(text):
        folder = catalogue / "comparisons"
        folder.mkdir(exist_ok=True)
        (folder / "two-fluids.yml").write_text(ENTRY.format(text=text), encoding="utf-8")
        return catalogue

    return add


def told(folder):
    reading = read_catalogue(folder)
    assert reading.problems == ()
    return [(p.file, p.message) for p in consistency.problems(reading)]


@pytest.mark.parametrize(
    "text",
    [
        "No figure at all.",
        "{glucose-5} has {glucose-5 osmolarity}, plasma {plasma sodium}.",
        "{sodium-chloride-0-9 sodium in 500 mL} and {potassium-chloride-15 potassium in 10 mL}.",
    ],
)
def test_sound_prose(compare, text):
    assert told(compare(text)) == []


def test_every_fault_of_one_text_is_told(compare):
    folder = compare("{glucose-6} {glucose-5 sugar} {plasma osmolarity} {")
    assert len(told(folder)) == 4
    assert {file for file, _ in told(folder)} == {"comparisons/two-fluids.yml"}


def test_a_fluid_with_a_fault_of_its_own_is_told_once(compare, spoil):
    folder = compare("{sodium-chloride-0-9 sodium}")
    spoil("fluids/sodium-chloride-0-9.yml", "role: ready", "role: steady")
    assert [p.file for p in open_handbook(folder).problems] == ["fluids/sodium-chloride-0-9.yml"]


@pytest.mark.parametrize("file", ["particles.yml", "limits.yml", "plasma.yml"])
def test_a_list_with_a_fault_is_told_once(compare, file):
    folder = compare("{sodium-chloride-0-9 sodium} {glucose-5 tonicity_ratio}")
    (folder / file).write_text("nothing: here\n", encoding="utf-8")
    assert {p.file for p in open_handbook(folder).problems} == {file}


@pytest.fixture
def judged(catalogue, told):
    """What is said of a prose with one text in it, by a check that takes every fluid for sound."""

    def every_fluid_is_sound(reading):
        return figures_are_there(reading, tuple(reading.catalogue.fluids.values()))

    def say(file, text):
        (catalogue / file).parent.mkdir(exist_ok=True)
        (catalogue / file).write_text(text, encoding="utf-8")
        return told(catalogue, volumes_fit, every_fluid_is_sound)

    return say


FILE = "comparisons/two-fluids.yml"
PLASMA_ONLY = (
    "of plasma only the intervals of plasma.yml can be told, without a volume "
    "| Name a quantity that has beside: yes there, as in {plasma sodium}."
)


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (
            "{glucose-5, osmolarity}",
            f'"glucose-5, osmolarity" between braces names no figure | {HOW}',
        ),
        ("{glucose-5 osmolarity", f'"{{" between braces names no figure | {HOW}'),
        ("{glucose-5 sodum}", '"sodum" is not a quantity | Did you mean "sodium"?'),
        ("{glucose-5 sweetness}", f'"sweetness" is not a quantity | {HOW}'),
        ("{plasma sodum}", '"sodum" is not a quantity | Did you mean "sodium"?'),
        (
            "{glucose-6 osmolarity}",
            'there is no "glucose-6" in fluids/ | Did you mean "glucose-5"?',
        ),
        ("{glucose-6}", 'there is no "glucose-6" in fluids/ | Did you mean "glucose-5"?'),
        ("{water}", f'there is no "water" in fluids/ | {HOW}'),
        ("{plasma osmolarity}", PLASMA_ONLY),
        ("{plasma sodium in 500 mL}", PLASMA_ONLY),
        ("{plasma}", PLASMA_ONLY),
        (
            "{glucose-5 osmolarity in 500 mL}",
            "a container holds no share of osmolarity | Leave out the volume.",
        ),
        (
            "{gelatin-4 tonicity_ratio}",
            "gelatin-4 tonicity_ratio is no figure: never computed for a fluid with a colloid: "
            "its own pull on water is not counted | Say it in words.",
        ),
        (
            "{starch-6 sodium in 500 mL}",
            "starch-6 sodium in 500 mL is no figure: the source does not give the whole "
            "composition | Say it in words.",
        ),
    ],
)
def test_a_placeholder_that_cannot_be_printed(judged, text, line):
    assert judged(FILE, ENTRY.format(text=text)) == [f"{FILE}:6:7: {line}"]


@pytest.mark.parametrize(
    "text",
    [
        "{glucose-5}",
        "{starch-6}",
        "{plasma sodium}",
        "{glucose-5 energy in 500 mL}",
        "{sodium-chloride-0-9 tonicity_ratio}",
    ],
)
def test_a_placeholder_that_can(judged, text):
    assert judged(FILE, ENTRY.format(text=text)) == []


def test_only_an_interval_beside_the_fluids_is_told_of_plasma(judged, spoil):
    spoil(
        "plasma.yml",
        "    beside: yes\n    cite: {source: a-journal, at: table 3, "
        "seen: read, on: 2026-11-25}\n  - quantity: ph",
        "    cite: {source: a-journal, at: table 3, seen: read, on: 2026-11-25}\n  - quantity: ph",
    )
    assert judged(FILE, ENTRY.format(text="{plasma sodium}")) == [f"{FILE}:6:7: {PLASMA_ONLY}"]


@pytest.mark.parametrize(
    ("volume", "wrong"),
    [
        ("500 mL", False),
        ("1 L", False),
        ("0.5 L", False),
        ("500 mmol", True),
        ("500 mL per 1000 mL", True),
        ("500 mL/h", True),
        ("1 to 2 L", True),
        ("at most 1 L", True),
        ("trace", True),
        ("0 mL", True),
    ],
)
def test_a_comparison_is_told_for_volumes(judged, volume, wrong):
    """The faulty one is told at its own place, after a sound one."""
    text = ENTRY.format(text="A text.") + f"volumes: [1 L, {volume}]\n"
    told = f'{FILE}:9:16: "{volume}" is not a volume | Write it as in 500 mL.'
    assert judged(FILE, text) == ([told] if wrong else [])


TERM = """\
id: anion
name: Anion
text: "{text}"
cite: common practice
review: {{state: draft}}
"""
CONFUSION = """\
id: salt
name: Salt
said: "{said}"
truth: "{truth}"
why: "{why}"
cite: common practice
review: {{state: draft}}
"""


@pytest.mark.parametrize(
    ("file", "text", "place"),
    [
        (FILE, ENTRY.format(text="A.").replace("points: []", 'points: ["A.", "{water}"]'), "7:16"),
        ("glossary/anion.yml", TERM.format(text="{water}"), "3:7"),
        ("confusions/salt.yml", CONFUSION.format(said="{water}", truth="A.", why="A."), "3:7"),
        ("confusions/salt.yml", CONFUSION.format(said="A.", truth="{water}", why="A."), "4:8"),
        ("confusions/salt.yml", CONFUSION.format(said="A.", truth="A.", why="{water}"), "5:6"),
    ],
)
def test_every_prose_is_read(judged, file, text, place):
    assert judged(file, text) == [f'{file}:{place}: there is no "water" in fluids/ | {HOW}']


def test_of_a_fluid_with_a_fault_of_its_own_no_figure_is_missed(compare):
    """Only a fluid that is taken for sound is computed; a quantity has to exist all the same."""
    text = "{starch-6 sodium} {gelatin-4 tonicity_ratio} {gelatin-4 sugar}"
    reading = read_catalogue(compare(text))
    starch = reading.catalogue.fluids["starch-6"]
    assert [p.message for p in figures_are_there(reading, [starch])] == [
        "starch-6 sodium is no figure: the source does not give the whole composition",
        '"sugar" is not a quantity',
    ]


def test_a_fluid_that_cannot_be_read_is_there_all_the_same(compare, spoil):
    """It is looked up by its file: its own fault is told, and not that it is missing."""
    folder = compare("{sodium-chloride-0-9 sodium} {low-glucose}")
    spoil("fluids/sodium-chloride-0-9.yml", "role: ready", "role: steady")
    reading = read_catalogue(folder)
    assert [p.message for p in figures_are_there(reading, [])] == [
        'there is no "low-glucose" in fluids/'
    ]
