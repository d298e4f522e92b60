"""Figures in prose: judged on sound entries, and each fault told once."""

import pytest

from isofolio.entries.reading import read_catalogue
from isofolio.findings import consistency
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


def test_a_comparison_has_an_id_of_its_own(compare, catalogue):
    compare("No figure.")
    entry = catalogue / "comparisons" / "two-fluids.yml"
    text = entry.read_text(encoding="utf-8").replace("id: two-fluids", "id: glucose-5")
    (catalogue / "comparisons" / "glucose-5.yml").write_text(text, encoding="utf-8")
    entry.unlink()
    assert [message for _, message in told(catalogue)] == [
        'the id "glucose-5" belongs to fluids/glucose-5.yml already'
    ]
