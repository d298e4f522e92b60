"""UCUM codes: made of published atoms, and worth what our own table of units says.

Source: the Unified Code for Units of Measure, its table of prefixes and atoms (ucum-essence.xml as
published by the UCUM organisation), read on 2026-11-25. The rows below are facts of that table.
"""

import pytest

from isofolio.vocabulary.quantities import IN_PLASMA
from isofolio.vocabulary.ucum import DENOMINATOR_CODES, NUMERATOR_CODES, ucum_code
from isofolio.vocabulary.units import DENOMINATORS, NUMERATORS, UNITS, factor

PREFIXES = {"k": 1e3, "d": 1e-1, "m": 1e-3}
# Metric atoms take a prefix; `amount` keeps moles, equivalents and osmoles apart (UCUM does not).
METRIC = {
    "g": ("mass", 1.0),
    "L": ("volume", 1.0),
    "mol": ("moles", 1.0),
    "eq": ("equivalents", 1.0),
    "osm": ("osmoles", 1.0),
    "J": ("energy", 1.0),
    "cal": ("energy", 4.184),
    "m[Hg]": ("pressure", 1.0),
}
OTHERS = {"h": ("time", 1.0), "d": ("time", 24.0), "1": ("number", 1.0), "%": ("number", 0.01)}


def atom(text):
    """Kind and size of one atom with at most one prefix. Raises ValueError for anything else."""
    if text in OTHERS or text in METRIC:
        return (OTHERS | METRIC)[text]
    if text[:1] in PREFIXES and text[1:] in METRIC:
        kind, size = METRIC[text[1:]]
        return kind, PREFIXES[text[0]] * size
    raise ValueError(f"{text} is no atom of UCUM's table with a prefix")


def parsed(code):
    """Kinds above and below the line, and the size, of a code of at most one division."""
    top, *below = code.split("/")
    kind, size = atom(top)
    if not below:
        return (kind,), size
    (other,) = below
    below_kind, below_size = atom(other)
    return (kind, below_kind), size / below_size


CODED = [unit for unit in UNITS if ucum_code(unit) is not None]


def test_the_table_of_codes_is_the_table_of_units():
    assert set(NUMERATOR_CODES) == set(NUMERATORS)
    assert set(DENOMINATOR_CODES) == set(DENOMINATORS) - {""}


def test_only_the_unit_that_says_nothing_has_no_code():
    assert {unit.partition("/")[0] for unit in UNITS if ucum_code(unit) is None} == {"unit"}


@pytest.mark.parametrize("quantity", IN_PLASMA.values(), ids=lambda quantity: quantity.id)
def test_every_quantity_has_a_code(quantity):
    parsed(ucum_code(quantity.unit))
    if quantity.container_unit:
        parsed(ucum_code(quantity.container_unit))


def test_codes_convert_as_our_units_do():
    sizes = {unit: parsed(ucum_code(unit)) for unit in CODED}
    checked = 0
    for unit, (kinds, size) in sizes.items():
        for other, (other_kinds, other_size) in sizes.items():
            if kinds == other_kinds:
                assert factor(unit, other) == pytest.approx(size / other_size, rel=1e-9)
                checked += unit != other
    assert checked > len(CODED)


@pytest.mark.parametrize("code", ["mEq/L", "mMol/L", "mosm/KG", "kmmol", "", "g/L/h"])
def test_a_code_that_ucum_does_not_know_is_refused(code):
    with pytest.raises((ValueError, IndexError)):
        parsed(code)


def test_a_unit_outside_the_table_has_no_code():
    with pytest.raises(KeyError):
        ucum_code("mol/L")
