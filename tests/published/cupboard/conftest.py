"""The real catalogue, recipes beside it, and a comparison with figures as they are printed."""

from pathlib import Path

import pytest

from isofolio.entries.fluids import Content
from isofolio.handbook import open_handbook
from isofolio.measures.columns import columns_from
from isofolio.measures.solutions import solve
from isofolio.measures.table import table_from

CATALOGUE = Path(__file__).parents[3] / "catalogue"
CHARGES = {"calcium": 2, "magnesium": 2}


@pytest.fixture(scope="session")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


@pytest.fixture(scope="session")
def figures(handbook):
    """The figures of a fluid of the catalogue: quantity -> number, or None."""
    return lambda fluid: lambda quantity: handbook.value(fluid, quantity).number


@pytest.fixture(scope="session")
def solved(handbook):
    """The figures of a recipe that is no entry: pairs of substance or particle, and amount."""

    def figures_of(*recipe):
        catalogue = handbook.catalogue
        contents = [
            Content(**{"substance" if n in catalogue.substances else "particle": n}, amount=amount)
            for n, amount in recipe
        ]
        solution = solve(contents, True, catalogue)
        table = table_from(columns_from(["recipe"], [solution], catalogue), catalogue)
        return lambda quantity: table.value("recipe", quantity).number

    return figures_of


@pytest.fixture(scope="session")
def variant(handbook, solved):
    """The figures of a published variant of a fluid, by the start of its name."""

    def figures_of(fluid, name):
        found = [v for v in handbook.catalogue.fluids[fluid].variants if v.name.startswith(name)]
        assert len(found) == 1, f"{len(found)} variants of {fluid} start with {name!r}"
        contents = found[0].contents
        return solved(*((c.substance or c.particle, c.amount.text) for c in contents))

    return figures_of


def _unit(text):
    """The last printed digit: 1 for 131, 0.1 for 5.4; 10 for 1710, which nobody prints exactly."""
    if "." in text:
        return 10.0 ** -len(text.split(".")[1])
    return 10.0 if float(text) >= 1000 and text.endswith("0") else 1.0


@pytest.fixture(scope="session")
def differences():
    """Ours less printed, of every figure that is off by more than half a printed unit.

    printed: quantity -> text as "131", "5.4" or "3 mEq" (else in the quantity's own unit).
    """

    def compare(number_of, printed):
        found = {}
        for quantity, text in printed.items():
            figure, _, equivalents = text.partition(" ")
            number = number_of(quantity)
            assert number is not None, f"{quantity} is printed as {text} and unknown here"
            ours = number * (CHARGES.get(quantity, 1) if equivalents else 1)
            if abs(ours - float(figure)) > _unit(figure) / 2 + 1e-9:
                found[quantity] = round(ours - float(figure), 3)
        return found

    return compare
