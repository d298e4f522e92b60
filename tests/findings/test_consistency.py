"""All checks together: each fault told once, at its line, and nothing said of what hangs on it."""

import pytest

from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import read_catalogue
from isofolio.findings import consistency
from isofolio.findings.consistency_substances import sound_substances

GLUCOSE = "fluids/glucose-5.yml"
IONS = "fluids/declared-ions.yml"
SALINE = "fluids/sodium-chloride-0-9.yml"
FIGURES = """\
id: two-fluids
name: Two fluids
fluids: [glucose-5, gelatin-4]
plasma: yes
quantities: [sodium]
text: "{gelatin-4 tonicity_ratio} {plasma osmolarity} {glucose-5 tonicity_ratio}"
points: []
review: {state: draft}
"""


def told(folder):
    """File, line and message of every consistency problem; the reading itself must be sound."""
    reading = read_catalogue(folder)
    assert reading.problems == ()
    return [(p.file, p.place.line, p.message) for p in consistency.problems(reading)]


def judged(folder):
    """The ids of the fluids that are judged."""
    return {fluid.id for fluid in consistency.sound_fluids(read_catalogue(folder))}


def test_the_sound_catalogue_is_consistent(catalogue):
    assert told(catalogue) == []
    assert len(judged(catalogue)) == 6


def test_problems_are_sorted_and_stand_in_their_lines(spoil):
    """Of fluids, of list files and of substances, by file and line, however they were found."""
    spoil(GLUCOSE, "500 mL", "500 g")
    spoil(GLUCOSE, "278 mOsm/L", "278 g/L")
    spoil(GLUCOSE, "50 g/L", "50 g")
    spoil(IONS, "111 mmol/L", "1 mmol/L")
    spoil(
        "substances/glucose.yml",
        "cite: common practice",
        "cite: {at: a, seen: memory, on: 2026-11-25}",
    )
    folder = spoil("plasma.yml", "7.35 to 7.45", "7.4")
    problems = consistency.problems(read_catalogue(folder))
    assert [(p.file, p.place.line) for p in problems] == [
        (IONS, 6),
        (GLUCOSE, 10),
        (GLUCOSE, 22),
        (GLUCOSE, 26),
        ("plasma.yml", 8),
        ("substances/glucose.yml", 6),
    ]
    assert all(p.excerpt and p.fix for p in problems)


def test_a_fluid_of_unsound_substances_is_not_judged(spoil):
    """The salt is the one fault; what is wrong with its fluid is seen once the salt is mended."""
    spoil(SALINE, "0.9 % w/v", "9 g")
    folder = spoil("substances/sodium-chloride.yml", "chloride: 1}", "chloride: 2}")
    reading = read_catalogue(folder)
    assert "sodium-chloride" not in sound_substances(reading.catalogue)
    assert judged(folder) == {"declared-ions", "glucose-5", "potassium-chloride-15", "starch-6"}
    assert [file for file, _, _ in told(folder)] == ["substances/sodium-chloride.yml"]
    assert all(isinstance(fluid, Fluid) for fluid in reading.catalogue.fluids.values())


def test_a_fluid_of_an_unsound_variant_is_not_judged(spoil):
    spoil("substances/glucose-monohydrate.yml", "formula: C6H12O6(H2O)", "formula: Xx6(H2O)")
    folder = spoil(GLUCOSE, "500 mL", "500 g")
    assert [file for file, _, _ in told(folder)] == ["substances/glucose-monohydrate.yml"]


def test_a_fluid_of_a_particle_that_is_gone_is_not_judged(spoil):
    """The reading tells that the particle is missing."""
    folder = spoil("particles.yml", "{id: potassium,", "{id: potash,")
    reading = read_catalogue(folder)
    assert {p.file for p in reading.problems} == {IONS, "substances/potassium-chloride.yml"}
    assert judged(folder) == {"glucose-5", "sodium-chloride-0-9", "gelatin-4", "starch-6"}
    assert consistency.problems(reading) == ()


def test_a_situation_that_is_gone_leaves_the_figures_of_a_fluid_sound(spoil):
    """Only what a figure is computed from keeps a fluid from being judged."""
    folder = spoil(GLUCOSE, "situations: [low-glucose]", "situations: [low-sugar]")
    assert "glucose-5" in judged(folder)


# Figures in prose are looked up last, where nothing that they are computed from has a fault.


@pytest.fixture
def compare(catalogue):
    """Two placeholders without a figure, one of them of a fluid."""
    (catalogue / "comparisons").mkdir()
    (catalogue / "comparisons/two-fluids.yml").write_text(FIGURES, encoding="utf-8")
    return catalogue


GELATIN = (
    "gelatin-4 tonicity_ratio is no figure: never computed for a fluid with a colloid: its own "
    "pull on water is not counted"
)
PLASMA = "of plasma only the intervals of plasma.yml can be told, without a volume"


def figures(folder):
    reading = read_catalogue(folder)
    found = consistency.problems(reading)
    return [p.message for p in found if p.file == "comparisons/two-fluids.yml"]


def test_a_figure_that_is_not_there_is_missed(compare):
    assert figures(compare) == [GELATIN, PLASMA]


@pytest.mark.parametrize(
    ("file", "old", "new", "expected"),
    [
        # The fluid has a fault of its own, found by a check ...
        ("fluids/gelatin-4.yml", "500 mL", "500 g", [PLASMA]),
        # ... or by the reading; another fluid's fault changes nothing.
        ("fluids/gelatin-4.yml", "role: colloid", "role: colloids", [PLASMA]),
        (GLUCOSE, "500 mL", "500 g", [GELATIN, PLASMA]),
        # A list file with a fault, found by a check or by the reading.
        ("plasma.yml", "7.35 to 7.45", "7.4", [PLASMA]),
        ("limits.yml", "    value: 900 mOsm/L", "    value: 900 g", [PLASMA]),
        ("words.yml", "word: saline", "words: saline", [PLASMA]),
        # A substance of it cannot be computed with.
        ("substances/succinylated-gelatin.yml", "colloid: gelatin", "colloid: jelly", [PLASMA]),
        ("substances/sodium-chloride.yml", "chloride: 1}", "chloride: 2}", [PLASMA]),
    ],
)
def test_no_figure_is_missed_that_a_fault_keeps_back(compare, spoil, file, old, new, expected):
    assert figures(spoil(file, old, new)) == expected
