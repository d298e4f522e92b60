"""The real handbook, and small ones made of records."""

from pathlib import Path

import pytest

from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import Catalogue, Reading, read_catalogue
from isofolio.handbook import handbook_of, open_handbook

CATALOGUE = Path(__file__).parents[2] / "catalogue"


@pytest.fixture(scope="session")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


@pytest.fixture(scope="session")
def chemistry():
    """Substances, particles and limits of the catalogue, without its fluids."""
    whole = read_catalogue(CATALOGUE).catalogue
    return {name: getattr(whole, name) for name in ("substances", "particles", "limits")}


@pytest.fixture(scope="session")
def handbook_of_one(chemistry):
    """A handbook of a single fluid, given the fields that matter."""

    def make(**fields):
        told = {"id": "test-fluid", "name": "Test fluid", "role": "ready", "status": "current"}
        told |= {"contents_cite": "common practice", "review": {"state": "draft"}}
        fluid = Fluid.model_validate({**told, **fields})
        catalogue = Catalogue(fluids={fluid.id: fluid}, **chemistry)
        return handbook_of(Reading(catalogue, (), (), {}, "0" * 12))

    return make
