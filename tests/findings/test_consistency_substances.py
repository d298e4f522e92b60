"""Substances that cannot be computed with: formula, hydrate, charge, osmosis."""

from dataclasses import replace

import pytest

from isofolio.entries.reading import read_catalogue
from isofolio.findings.consistency_substances import (
    WATERS,
    formulas_are_known,
    hydrates_fit,
    osmosis_can_be_computed,
    salts_are_neutral,
    sound_substances,
)
from isofolio.vocabulary.terms import HYDRATES

CALCIUM = "substances/calcium-chloride-hexahydrate.yml"
HYDROXIDE = "substances/sodium-hydroxide.yml"
MONOHYDRATE = "substances/glucose-monohydrate.yml"
SALT = "substances/sodium-chloride.yml"
SUGAR = "substances/glucose.yml"

ACID = "id: lactic-acid\nname: An acid\nformula: C3H6O3\nhydrate: anhydrous\n"
ACID += "releases: {lactate: 1}\nacid: {particle: lactate, up_to: 2}\n"

NOT_NEUTRAL = "Correct the counts, or say base: or acid:."
NO_MODEL = "Name a substance whose osmosis gives b0, b1 and c, a slope or a ratio."
NO_SALT = "Give a slope, a ratio, or the substance it is like."


@pytest.fixture
def judged(told):
    """What the four checks say of a folder."""
    return lambda folder: told(
        folder, formulas_are_known, hydrates_fit, salts_are_neutral, osmosis_can_be_computed
    )


def sound(folder):
    return sound_substances(read_catalogue(folder).catalogue)


def test_the_sound_catalogue_is_consistent(catalogue, judged):
    assert judged(catalogue) == []
    assert sound(catalogue) == {path.stem for path in (catalogue / "substances").iterdir()}


def test_a_symbol_of_no_element(spoil, judged):
    folder = spoil(SALT, "formula: NaCl", "formula: NaXx")
    assert judged(folder) == [
        f"{SALT}:3:10: formula 'NaXx': 'Xx' is not the symbol of an element | Write it as in NaCl, "
        "C6H12O6 or, with water of crystallisation, CaCl2(H2O)2."
    ]
    assert "sodium-chloride" not in sound(folder)
    assert "glucose" in sound(folder)


@pytest.mark.parametrize(("waters", "hydrate"), [(waters, name) for name, waters in WATERS.items()])
def test_a_hydrate_is_called_by_the_water_in_its_formula(spoil, judged, waters, hydrate):
    folder = spoil(CALCIUM, "hydrate: hexahydrate", f"hydrate: {hydrate}")
    told = [
        f'{CALCIUM}:4:10: the formula holds 6 (H2O), and "{hydrate}" means {waters} '
        "| Correct the one that is wrong: the millimoles in every gram hang on it."
    ]
    assert judged(folder) == (told if waters != 6 else [])
    formula = f"CaCl2(H2O){waters}" if waters > 1 else "CaCl2(H2O)" if waters else "CaCl2"
    assert judged(spoil(CALCIUM, "CaCl2(H2O)6", formula)) == []


def test_water_that_stands_in_two_places_is_added_up(spoil, judged):
    assert judged(spoil(CALCIUM, "CaCl2(H2O)6", "Ca(H2O)4Cl2(H2O)2")) == []


def test_a_fault_of_one_substance_hides_none_of_the_next(catalogue, spoil, judged):
    """A colloid, which has no formula, stands before both of them, and sound salts between."""
    colloid = "id: albumin\nname: Albumin\ncolloid: protein\nhydrate: anhydrous\n"
    (catalogue / "substances" / "albumin.yml").write_text(colloid, encoding="utf-8")
    spoil(CALCIUM, "(H2O)6", "(H2O)5")
    folder = spoil(HYDROXIDE, "anhydrous", "monohydrate")
    assert [line.partition(":")[0] for line in judged(folder)] == [CALCIUM, HYDROXIDE]


def test_every_hydrate_has_its_number_of_waters():
    assert set(WATERS) == set(HYDRATES)


@pytest.mark.parametrize(
    ("file", "old", "new", "line"),
    [
        (
            SALT,
            "chloride: 1}",
            "chloride: 2}",
            "5:11: the particles it releases carry a net charge of -1",
        ),
        (
            CALCIUM,
            "chloride: 2}",
            "chloride: 1}",
            "5:11: the particles it releases carry a net charge of +1",
        ),
        (
            HYDROXIDE,
            "base: 1",
            "base: 2",
            "5:11: the particles it releases carry a net charge of -1 beside its base of 2",
        ),
        (
            HYDROXIDE,
            "sodium: 1}",
            "sodium: 3}",
            "5:11: the particles it releases carry a net charge of +2 beside its base of 1",
        ),
    ],
)
def test_what_a_salt_releases_carries_no_net_charge(spoil, judged, file, old, new, line):
    folder = spoil(file, old, new)
    assert judged(folder) == [f"{file}:{line} | {NOT_NEUTRAL}"]
    assert len(sound(folder)) == len(list((folder / "substances").iterdir())) - 1


def test_the_anion_of_an_acid_is_balanced_in_the_fluid(catalogue, judged):
    (catalogue / "substances" / "lactic-acid.yml").write_text(ACID, encoding="utf-8")
    assert judged(catalogue) == []
    assert "lactic-acid" in sound(catalogue)


def test_a_salt_of_all_the_particles_that_there_are_is_sound(catalogue):
    whole = read_catalogue(catalogue).catalogue
    two = {name: whole.particles[name] for name in ("sodium", "chloride")}
    assert "sodium-chloride" in sound_substances(replace(whole, particles=two))
    assert "potassium-chloride" not in sound_substances(replace(whole, particles=two))


def test_a_particle_that_is_missing_is_told_by_the_reading_alone(spoil):
    """Of what cannot be read nothing more is said, and the next one is judged all the same."""
    spoil("particles.yml", "{id: calcium,", "{id: calcium-ion,")
    spoil("fluids/declared-ions.yml", "particle: calcium", "particle: calcium-ion")
    spoil(SALT, "chloride: 1}", "chloride: 2}")
    osmosis = "osmosis: {b0: 0.3, b1: 1.6, c: 0.0, cite: common practice}\n"
    folder = spoil(CALCIUM, "releases:", f"{osmosis}releases:")
    reading = read_catalogue(folder)
    assert {p.file for p in reading.problems} == {
        CALCIUM,
        "substances/calcium-chloride-dihydrate.yml",
    }
    assert [p.file for p in salts_are_neutral(reading)] == [SALT]
    assert list(osmosis_can_be_computed(reading)) == []
    assert "calcium-chloride-hexahydrate" not in sound(folder)
    assert "potassium-chloride" in sound(folder)


@pytest.mark.parametrize(
    ("file", "old", "new", "line"),
    [
        (
            SUGAR,
            "osmosis: {slope: 0.022, cite: common practice}\n",
            "",
            f"{MONOHYDRATE}:6:17: glucose has no figures of its own | {NO_MODEL}",
        ),
        (
            SUGAR,
            "slope: 0.022",
            "like: glucose-monohydrate",
            f"{MONOHYDRATE}:6:17: glucose has no figures of its own | {NO_MODEL}",
        ),
        (
            SUGAR,
            "slope: 0.022",
            "b0: 0.1, b1: 0.2, c: 0.0",
            f"{SUGAR}:6:15: b0, b1 and c hold for a salt of one cation and one anion only "
            f"| {NO_SALT}",
        ),
    ],
)
def test_figures_of_osmosis_that_do_not_fit(spoil, judged, file, old, new, line):
    assert line in judged(spoil(file, old, new))


@pytest.mark.parametrize("model", ["ratio: 0.93", "slope: 0.05"])
def test_a_likeness_to_a_substance_with_figures_of_its_own(spoil, judged, model):
    assert judged(spoil(SUGAR, "slope: 0.022", model)) == []


@pytest.mark.parametrize(
    ("releases", "salt"),
    [
        ("{sodium: 1, chloride: 1}", True),
        ("{calcium: 1, chloride: 2}", True),
        ("{sodium: 1, potassium: 1, chloride: 2}", False),
        ("{glucose: 1, chloride: 1}", False),
        ("{sodium: 1, glucose: 1}", False),
        ("{sodium: 1}", False),
        ("{sodium: 1, potassium: 1}", False),
    ],
)
def test_pitzer_figures_are_those_of_one_cation_and_one_anion(spoil, told, releases, salt):
    folder = spoil(SALT, "releases: {sodium: 1, chloride: 1}", f"releases: {releases}")
    line = f"{SALT}:6:15: b0, b1 and c hold for a salt of one cation and one anion only | {NO_SALT}"
    assert told(folder, osmosis_can_be_computed) == ([] if salt else [line])
