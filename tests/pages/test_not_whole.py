"""A bag whose source does not give the whole composition: nothing says what it might hold besides.

No published source: that unknown is never 0, and never a colloid, is the project's own rule.
"""

from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

import pytest

from isofolio.chemistry.composition import NOT_WHOLE
from isofolio.entries.reading import read_catalogue
from isofolio.findings.alternatives import why_not_ranked
from isofolio.findings.conditions import Subject
from isofolio.handbook import handbook_of
from isofolio.measures.values import Value
from isofolio.pages.charts import kind_of
from isofolio.pages.fluid import fluid_page
from isofolio.pages.fluids_cells import COLLOID_BODY, body_kind
from isofolio.pages.holds import holds

CATALOGUE = Path(__file__).parents[2] / "catalogue"
BAG = "sodium-chloride-0-9"


@pytest.fixture(scope="module")
def handbook():
    """The handbook in which the source of one saline does not say that it holds nothing else."""
    reading = read_catalogue(CATALOGUE)
    fluids = dict(reading.catalogue.fluids)
    fluids[BAG] = fluids[BAG].model_copy(update={"complete": False})
    catalogue = replace(reading.catalogue, fluids=MappingProxyType(fluids))
    return handbook_of(replace(reading, catalogue=catalogue))


@pytest.fixture(scope="module")
def fluid(handbook):
    return handbook.catalogue.fluids[BAG]


@pytest.mark.parametrize(
    "quantity",
    [
        "colloid_mass",
        "polyanion_charge",
        "osmolarity",
        "osmolality",
        "effective_osmolarity",
        "free_water",
        "ecf_gain",
        "plasma_gain",
        "base_excess_1l",
    ],
)
def test_no_figure_that_the_rest_could_change(handbook, quantity):
    assert handbook.value(BAG, quantity) == Value(None, NOT_WHOLE)


def test_what_was_weighed_is_known(handbook):
    assert handbook.value(BAG, "sodium").number == pytest.approx(154.0, abs=0.01)


def test_it_is_no_colloid_anywhere(handbook, fluid):
    subject = Subject(fluid, handbook.catalogue, handbook.measures)
    assert handbook.judgements[BAG].body.word == "Not known"
    assert body_kind(handbook, fluid) == "Not known"
    assert kind_of(handbook, fluid) != "colloid"
    assert why_not_ranked(subject) == "not every figure that would be compared is known"
    assert all(row["name"] for row in holds(handbook, fluid))
    page = fluid_page(handbook, fluid).body
    assert "colloid is not counted" not in page
    assert "The source does not give the whole composition" in page


def test_a_colloid_beside_which_the_rest_is_open_is_weighed(handbook):
    """Human albumin: its salts are not all declared, its protein is."""
    assert handbook.value("albumin-20", "colloid_mass") == Value(200.0)
    assert body_kind(handbook, handbook.catalogue.fluids["albumin-20"]) == COLLOID_BODY
