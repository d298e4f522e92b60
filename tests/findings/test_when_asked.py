"""Findings that are worked out when asked for: the same in whatever order somebody asks."""

import random
from pathlib import Path

import pytest

from isofolio.findings.when_asked import WhenAsked
from isofolio.handbook import check_catalogue, handbook_of

CATALOGUE = Path(__file__).parents[2] / "catalogue"
FOUND = ("judgements", "mixing", "look_alikes", "audit")


@pytest.fixture
def squares():
    """Squares of some figures by their names, and the blocks that were worked out."""
    asked = []

    def work_out(names):
        asked.append(tuple(names))
        return {name: int(name) ** 2 for name in names}

    return WhenAsked(("1", "2", "3", "4", "5"), work_out, block=2), asked


def test_a_block_is_worked_out_once_and_only_when_asked(squares):
    found, asked = squares
    assert list(found) == ["1", "2", "3", "4", "5"]
    assert (len(found), "4" in found, asked) == (5, True, [])
    assert (found["4"], found["3"], found["5"]) == (16, 9, 25)
    assert asked == [("3", "4"), ("5",)]
    assert found == {"1": 1, "2": 4, "3": 9, "4": 16, "5": 25}
    assert asked == [("3", "4"), ("5",), ("1", "2")]


def test_what_is_not_there_is_no_finding(squares):
    found, asked = squares
    assert "6" not in found
    assert found.get("6") is None
    with pytest.raises(KeyError, match="6"):
        found["6"]
    assert asked == []


@pytest.mark.parametrize("name", FOUND)
def test_the_order_of_asking_changes_no_finding(name):
    reading, _ = check_catalogue(CATALOGUE)
    one, other = (getattr(handbook_of(reading), name) for _ in range(2))
    backwards = {fluid: one[fluid] for fluid in random.Random(3).sample(list(one), len(one))}
    assert backwards == other
