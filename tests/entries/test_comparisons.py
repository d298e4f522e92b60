"""The record of a comparison. What `check` says of each fault stands in tests/bad."""

import pytest
from pydantic import ValidationError

from isofolio.entries.comparisons import Comparison
from isofolio.entries.references import references
from isofolio.vocabulary.terms import FEWEST_COMPARED, MOST_COMPARED

SOUND = {
    "id": "two-fluids",
    "name": "Two fluids",
    "fluids": ["glucose-5", "sodium-chloride-0-9"],
    "plasma": "yes",
    "quantities": ["sodium", "osmolarity"],
    "text": "What to see.",
    "points": ["One thing."],
    "review": {"state": "draft"},
}


def read(**changes):
    return Comparison.model_validate({**SOUND, **changes})


def message(**changes):
    with pytest.raises(ValidationError) as caught:
        read(**changes)
    return caught.value.errors()[0]["msg"]


def test_a_sound_comparison_keeps_its_order():
    comparison = read(fluids=["sodium-chloride-0-9", "glucose-5"], volumes=["500 mL", "1 L"])
    assert comparison.fluids == ["sodium-chloride-0-9", "glucose-5"]
    assert comparison.plasma is True
    assert [volume.low for volume in comparison.volumes] == [500.0, 1.0]
    assert comparison.cite is None


def test_its_fluids_are_references():
    found = {path: ref.kind for path, ref in references(read())}
    assert found == {("fluids", 0): "fluids", ("fluids", 1): "fluids"}


@pytest.mark.parametrize("count", [0, 1, 7, 12])
def test_a_comparison_has_two_to_six_fluids(count):
    told = message(fluids=[f"fluid-{number}" for number in range(count)])
    assert f"{FEWEST_COMPARED} to {MOST_COMPARED}" in told


@pytest.mark.parametrize("count", [2, 6])
def test_two_and_six_are_enough(count):
    assert len(read(fluids=[f"fluid-{number}" for number in range(count)]).fluids) == count


def test_nothing_stands_twice():
    assert message(fluids=["glucose-5", "glucose-5"]) == "glucose-5 stands twice"
    assert message(quantities=["sodium", "sodium"]) == "sodium stands twice"


@pytest.mark.parametrize("quantity", ["ph", "albumin", "vein", "Sodium"])
def test_only_what_every_fluid_has_can_be_a_row(quantity):
    assert "is not a quantity" in message(quantities=[quantity])
