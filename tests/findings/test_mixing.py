"""Which mixing entries speak of a fluid."""

from dataclasses import replace

import pytest

from isofolio.entries.cautions import Condition
from isofolio.findings.mixing import concerns, mixing_of


def ids(found, fluid):
    return [entry.id for entry in found[fluid]]


def test_an_entry_speaks_of_the_fluids_whose_conditions_all_hold(real):
    found = mixing_of(*real)
    assert set(found) == set(real[0].fluids)
    assert "phenytoin-glucose" in ids(found, "glucose-5")
    assert "phenytoin-glucose" not in ids(found, "sodium-chloride-0-9")
    assert "amiodarone-sodium-chloride" in ids(found, "sodium-chloride-0-9")
    assert "red-cells-lactated-ringer" in ids(found, "ringer-lactate-usp")


@pytest.mark.parametrize(
    ("fluid", "spoken_of"),
    [("glucose-5", True), ("sodium-chloride-0-9", False), ("potassium-chloride-15", False)],
)
def test_of_several_conditions_all_must_hold(real, about, fluid, spoken_of):
    ready = Condition.model_validate({"when": "role", "roles": ["ready"]})
    entry = real[0].mixing["phenytoin-glucose"]
    stricter = entry.model_copy(update={"concerns": [ready, *entry.concerns]})
    assert concerns(stricter, about(fluid)) is spoken_of


def test_an_entry_without_a_condition_speaks_of_no_fluid(real, about):
    entry = real[0].mixing["phenytoin-glucose"].model_copy(update={"concerns": []})
    assert concerns(entry, about("glucose-5")) is False


def test_they_stand_by_what_is_told_first_then_by_id(real):
    """Whatever the order of the files: turned round, the same order comes out."""
    catalogue, table = real
    backwards = replace(catalogue, mixing=dict(reversed(catalogue.mixing.items())))
    found = mixing_of(backwards, table)
    for entries in found.values():
        keys = [(entry.first, entry.id) for entry in entries]
        assert keys == sorted(keys)
    assert ids(found, "glucose-5") == ids(mixing_of(catalogue, table), "glucose-5")
