"""Property tests: no deadline (the machine is shared), nothing left behind, and the chemistry."""

from pathlib import Path

import pytest
from hypothesis import settings

from isofolio.entries.fluids import Content
from isofolio.entries.reading import Catalogue, read_catalogue
from isofolio.measures.columns import columns_from
from isofolio.measures.solutions import solve
from isofolio.measures.table import table_from

settings.register_profile("isofolio", deadline=None, database=None, max_examples=60)
settings.load_profile("isofolio")

CATALOGUE = Path(__file__).parents[2] / "catalogue"


@pytest.fixture(scope="session")
def catalogue():
    """Substances and particles of the catalogue, without its fluids."""
    whole = read_catalogue(CATALOGUE).catalogue
    return Catalogue(substances=whole.substances, particles=whole.particles)


@pytest.fixture(scope="session")
def solution(catalogue):
    """What a recipe makes: contents as keyword arguments of Content, one mapping each."""

    def make(*contents, complete=True):
        return solve([Content(**content) for content in contents], complete, catalogue)

    return make


@pytest.fixture(scope="session")
def values(catalogue, solution):
    """Every quantity of a recipe, as Values.

    Weighed saline stands beside it in the table, as weighed fluids do in the real catalogue.
    """
    saline = solution({"substance": "sodium-chloride", "amount": "9 g/L"})

    def of(*contents, complete=True):
        solved = solution(*contents, complete=complete)
        columns = columns_from(["test", "saline"], [solved, saline], catalogue)
        table = table_from(columns, catalogue)
        return {quantity: table.value("test", quantity) for quantity in table.numbers}

    return of
