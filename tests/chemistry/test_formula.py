"""The grammar of formulas: what is read, and what is refused in a sentence."""

import periodictable
import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.chemistry.formula import LONGEST_FORMULA, atoms, molar_mass

ELEMENTS = st.sampled_from(["H", "C", "N", "O", "Na", "Mg", "P", "S", "Cl", "K", "Ca"])
PART = st.tuples(ELEMENTS, st.integers(1, 40))


@pytest.fixture(autouse=True)
def nothing_remembered():
    """A molar mass is computed once a run: each test here must see it computed."""
    molar_mass.cache_clear()


def written(parts):
    return "".join(symbol + (str(count) if count > 1 else "") for symbol, count in parts)


@given(st.lists(PART, min_size=1, max_size=6), st.lists(PART, max_size=3), st.integers(1, 12))
def test_mass_is_the_sum_over_all_atoms(parts, group, times):
    formula = written(parts) + (f"({written(group)}){times}" if group else "")
    everything = parts + [(symbol, count * times) for symbol, count in group]
    expected = sum(getattr(periodictable, symbol).mass * count for symbol, count in everything)
    assert molar_mass(formula) == pytest.approx(expected, rel=1e-12)


@given(st.lists(PART, min_size=1, max_size=6), st.randoms(use_true_random=False))
def test_order_of_the_elements_does_not_matter_to_the_last_bit(parts, random):
    shuffled = list(parts)
    random.shuffle(shuffled)
    assert molar_mass(written(shuffled)) == molar_mass(written(parts))


def test_group_without_a_count_is_one_group():
    assert atoms("Na(HCO3)") == {"Na": 1, "H": 1, "C": 1, "O": 3}


def test_group_may_stand_anywhere():
    assert atoms("(NH4)2SO4") == {"N": 2, "H": 8, "S": 1, "O": 4}


@pytest.mark.parametrize(
    ("formula", "complaint"),
    [
        ("", "formula is empty"),
        ("CaCl2.2H2O", r"'\.' at character 6"),
        ("CaCl2·2H2O", "'·' at character 6"),
        ("CaCl2 2H2O", "' ' at character 6"),
        ("CaCl2+2H2O", r"'\+' at character 6"),
        (" NaCl", "' ' at character 1"),
        ("NaCl\n", r"at character 5"),
        ("Na+", r"'\+' at character 3"),
        ("2H2O", "'2' at character 1"),
        ("nacl", "'n' at character 1"),
        ("H₂O", "'₂' at character 2"),
        ("H٢O", "at character 2"),
        ("CaCl2(H2O", "bracket at character 6 is never closed"),
        ("CaCl2)H2O(", r"'\)' at character 6"),
        ("CaCl2()2", "bracket at character 6 is empty"),
        ("Ca((OH)2)3", r"'\(' at character 4"),
        ("H0", "count '0' at character 2"),
        ("H02", "count '02' at character 2"),
        ("Xx2", "'Xx' is not the symbol of an element"),
        ("D2O", "'D' is not the symbol of an element"),
        ("H" * 101, "101 characters is too long"),
    ],
)
def test_everything_else_is_refused_with_the_way_to_write_it(formula, complaint):
    with pytest.raises(ValueError, match=complaint) as refusal:
        molar_mass(formula)
    assert "write it as in NaCl" in str(refusal.value)


def mass_or_refusal(text):
    try:
        return molar_mass(text)
    except ValueError as refusal:
        return str(refusal)


@given(st.text(alphabet="NaClCHO0123456789()+.· -", max_size=20))
def test_any_text_gives_a_mass_above_zero_or_a_sentence(text):
    answer = mass_or_refusal(text)
    assert answer > 0.0 if isinstance(answer, float) else answer.endswith(".")


def test_the_longest_formula_is_read_and_one_sign_more_is_not():
    assert atoms("H" * LONGEST_FORMULA) == {"H": LONGEST_FORMULA}
    with pytest.raises(ValueError, match="is too long"):
        atoms("H" * (LONGEST_FORMULA + 1))


@pytest.mark.parametrize("formula", ["n", "n2", "T2O", "Nn"])
def test_isotopes_and_the_neutron_are_no_elements_of_a_label(formula):
    with pytest.raises(ValueError, match=rf"formula '{formula}': '.*write it as in NaCl"):
        molar_mass(formula)


def test_hydrogen_is_the_first_element():
    """Standard atomic weight 1.008 (CIAAW 2021, abridged)."""
    assert molar_mass("H") == pytest.approx(1.008, abs=5e-4)


def test_each_of_two_groups_ends_at_its_own_bracket():
    """Calcium gluconate monohydrate, written as a group of each kind."""
    assert atoms("Ca(C6H11O7)2(H2O)") == {"Ca": 1, "C": 12, "H": 24, "O": 15}


@pytest.mark.parametrize(
    "formula", ["CaCl2.2H2O", "CaCl2(H2O", "CaCl2()2", "H0", "(", "Xx2", ")(", "()"]
)
def test_a_refusal_repeats_the_formula(formula):
    with pytest.raises(ValueError, match="write it as in NaCl") as caught:
        molar_mass(formula)
    assert str(caught.value).startswith(f"formula '{formula}': ")
