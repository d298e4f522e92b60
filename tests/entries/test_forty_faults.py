"""Forty different faults in forty files: one run tells them all, each once."""

import pytest

from isofolio.handbook import open_handbook

FLUID = """\
id: {id}
name: Saline {id}
role: ready
status: current
jurisdiction: [UK]
also_known_as: [{{name: ward {id}, kind: ward word}}]
contents:
  - {{substance: sodium-chloride, amount: 9 g/L}}
contents_cite: {{source: a-label, at: section 2, seen: read, on: 2026-11-25}}
declared:
  - source: a-label
    at: section 3
    seen: read
    on: 2026-11-25
    values: {{sodium: 154 mmol/L}}
containers: [{{volume: 500 mL, kind: bag}}]
situations: [low-glucose]
review: {{state: draft}}
"""
SUBSTANCE = """\
id: {id}
name: Salt {id}
formula: NaCl
hydrate: anhydrous
releases: {{sodium: 1, chloride: 1}}
"""
SOURCE = """\
id: {id}
kind: journal
title: An invented paper for tests
body: Nobody
"""
# What stands in a sound entry, and the fault in its place: first of shape ...
FLUID_FAULTS = (
    ("name: S", "name: \u202eS"),
    ("name: S", "name: &a S"),
    ("status: current", "status: current\nstatus: retired"),
    ("name: Saline", "name: Saline: "),
    ("jurisdiction: [UK]", "jurisdiction: [UK"),
    ("role: ready", "rule: ready"),
    ("role: ready\n", ""),
    ("role: ready", "role: readi"),
    ("role: ready", "role: !!str ready"),
    ("review: {state: draft}", "review: draft"),
    ("review: {state: draft}", "review: {state: checked}"),
    ("review: {state: draft}", "review: {state: draft}\n---\n"),
    ("9 g/L", "9 G/L"),
    ("9 g/L", "9 to 8 g/L"),
    ("9 g/L", "0,9 % w/v"),
    ("500 mL, kind: bag", "500 mL, kind: sack"),
    ("containers: [", "containers: 1 L #["),
    ("on: 2026-11-25}", "on: 25.11.2026}"),
    ("at: section 2", "at: 1:20"),
    ("source: a-label, ", ""),
    ("name: ward", "name: <ward"),
    ("{substance: sodium-chloride, ", "{"),
    # ... then of reference ...
    ("substance: sodium-chloride", "substance: sodium-cloride"),
    ("source: a-label, ", "source: a-lable, "),
    ("[low-glucose]", "[low-glucos]"),
    # ... then what only sense can tell.
    ("9 g/L", "9 g"),
    ("substance: sodium-chloride, amount: 9 g/L", "particle: sodium, amount: 154 mmol/L"),
    ("sodium: 154 mmol/L", "sodium: 154 mOsm/L"),
    ("500 mL", "500 g"),
    ("seen: read, on", "seen: memory, on"),
)
SUBSTANCE_FAULTS = (
    ("hydrate: anhydrous\n", ""),
    ("formula: NaCl", "formula: NaCl.H2O"),
    ("formula: NaCl", "formula: NaXx"),
    ("sodium: 1,", "natrium: 1,"),
    ("chloride: 1", "chloride: 2"),
)
SOURCE_FAULTS = (("body: Nobody\n", ""), ("kind: journal", "kind: diary"))
LIST_FAULTS = (
    ("limits.yml", "value: 10 mmol/h", "value: at most 10 mmol/h"),
    ("plasma.yml", "135 to 145 mmol/L", "trace"),
    ("words.yml", "declared-ions", "undeclared-ions"),
)


@pytest.fixture
def spoilt(catalogue, spoil):
    """The catalogue with its faults, and the files that hold one each."""
    files = [name for name, old, new in LIST_FAULTS if spoil(name, old, new)]
    kinds = (
        ("fluids", FLUID, FLUID_FAULTS),
        ("substances", SUBSTANCE, SUBSTANCE_FAULTS),
        ("sources", SOURCE, SOURCE_FAULTS),
    )
    for folder, template, faults in kinds:
        for number, (old, new) in enumerate(faults):
            identifier = f"{folder}-{number}"
            text = template.format(id=identifier)
            assert text.count(old) >= 1
            file = f"{folder}/{identifier}.yml"
            (catalogue / file).write_text(text.replace(old, new, 1), encoding="utf-8")
            files.append(file)
    return catalogue, files


def test_forty_faults_are_forty_problems_in_one_run(spoilt):
    catalogue, files = spoilt
    problems = open_handbook(catalogue).problems
    assert len(files) == 40
    assert [p.file for p in problems] == sorted(files)
    assert len(problems) == 40
    assert len({p.message for p in problems}) == 40
    assert all(p.fix for p in problems)


def test_the_templates_are_sound_without_their_faults(catalogue):
    for folder, template in (("fluids", FLUID), ("substances", SUBSTANCE), ("sources", SOURCE)):
        file = catalogue / folder / f"{folder}-0.yml"
        file.write_text(template.format(id=f"{folder}-0"), encoding="utf-8")
    assert open_handbook(catalogue).problems == ()
