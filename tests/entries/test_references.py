"""References: judged by the files that exist, so that a broken entry is told once."""

import pytest

from isofolio.entries.reading import read_catalogue
from isofolio.entries.references import references
from isofolio.handbook import open_handbook


def told(folder):
    return [(p.file, p.message) for p in open_handbook(folder).problems]


def test_every_reference_of_a_record_is_found_with_its_path(catalogue):
    found = read_catalogue(catalogue).catalogue
    paths = {path: (ref, ref.kind) for path, ref in references(found.fluids["glucose-5"])}
    assert paths[("contents", 0, "substance")] == ("glucose", "substances")
    assert paths[("variants", 0, "contents", 0, "substance")] == (
        "glucose-monohydrate",
        "substances",
    )
    assert paths[("declared", 0, "source")] == ("a-label", "sources")
    assert paths[("giving", 0, "cite", "source")] == ("a-label", "sources")
    assert paths[("situations", 0)] == ("low-glucose", "situations")
    salt = dict(references(found.substances["sodium-chloride"]))
    assert salt[("releases", "sodium", "[key]")].kind == "particles"


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("substances/sodium-chloride.yml", "hydrate: anhydrous\n", ""),
        ("substances/sodium-chloride.yml", "id: sodium-chloride", "id: salt"),
        ("substances/sodium-chloride.yml", "formula: NaCl", "formula: NaXx"),
        ("substances/sodium-chloride.yml", "sodium: 1,", "sodum: 1,"),
        ("substances/sodium-chloride.yml", "chloride: 1}", "chloride: 2}"),
        ("substances/sodium-chloride.yml", "name: Sodium", "name: 'Sodium"),
        ("fluids/sodium-chloride-0-9.yml", "role: ready", "role: steady"),
        ("sources/a-label.yml", "year: 2023", "year: MMXXIII"),
        ("situations/low-glucose.yml", "name: Low glucose", "name:"),
        ("particles.yml", "name: chloride, ", ""),
        ("particles.yml", "particles:", "particels:"),
        ("limits.yml", "quantity: potassium_rate", "quantity:"),
    ],
)
def test_what_others_refer_to_breaks_alone(spoil, file, old, new):
    problems = told(spoil(file, old, new))
    assert [name for name, _ in problems] == [file]


def test_each_of_two_references_to_nothing_is_a_fault(spoil):
    folder = spoil("fluids/glucose-5.yml", "situations: [low-glucose]", "situations: [a, b]")
    assert told(folder) == [
        ("fluids/glucose-5.yml", 'there is no "a" in situations/'),
        ("fluids/glucose-5.yml", 'there is no "b" in situations/'),
    ]


def test_a_deleted_entry_is_told_where_it_is_missed(catalogue):
    (catalogue / "situations" / "low-glucose.yml").unlink()
    assert told(catalogue) == [("fluids/glucose-5.yml", 'there is no "low-glucose" in situations/')]
