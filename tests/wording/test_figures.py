"""The only rounding: half away from zero, once; and spaces that hold a figure and its unit."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.measures.values import Value
from isofolio.vocabulary.quantities import QUANTITIES, QUANTITY_BY_ID
from isofolio.wording.figures import (
    HARD,
    MINUS,
    NARROW,
    amount,
    figure,
    rounded,
    spoken,
    strength_pairs,
    typeset,
    unit_text,
    written,
)

NUMBERS = st.floats(min_value=-1e7, max_value=1e7, allow_nan=False)


@pytest.mark.parametrize(
    ("number", "decimals", "text"),
    [
        (0.5, 0, "1"),
        (1.5, 0, "2"),
        (2.5, 0, "3"),  # half to even would give 2
        (-0.5, 0, f"{MINUS}1"),
        (-2.5, 0, f"{MINUS}3"),
        (1.25, 1, "1.3"),
        (2.675, 2, "2.68"),  # the number as it is written, not as the machine stores it
        (1.005, 2, "1.01"),
        (0.49999999, 0, "0"),
        (-0.4, 0, "0"),
        (-0.04, 1, "0.0"),
        (-0.0, 0, "0"),
        (154.004, 0, "154"),
        (1e-12, 3, "0.000"),
        (4024.2369, 0, "4024"),
        (1e20, 0, "100000000000000000000"),
    ],
)
def test_half_away_from_zero(number, decimals, text):
    assert rounded(number, decimals) == text


@given(NUMBERS, st.integers(0, 4))
def test_rounding_moves_by_half_a_unit_at_most(number, decimals):
    back = Decimal(rounded(number, decimals).replace(MINUS, "-"))
    assert abs(back - Decimal(repr(number))) <= Decimal(1).scaleb(-decimals) / 2


@given(NUMBERS, st.integers(0, 4))
def test_a_number_and_its_opposite_round_alike(number, decimals):
    assert rounded(-number, decimals).lstrip(MINUS) == rounded(number, decimals).lstrip(MINUS)


@given(NUMBERS, st.integers(0, 4))
def test_never_a_hyphen_and_never_a_minus_before_nothing(number, decimals):
    text = rounded(number, decimals)
    assert "-" not in text
    assert not (text.startswith(MINUS) and not text.strip(f"{MINUS}0."))


@given(st.integers(-10_000, 10_000), st.integers(0, 3))
def test_a_whole_number_keeps_its_digits(number, decimals):
    sign = MINUS if number < 0 else ""
    zeros = f".{'0' * decimals}" if decimals else ""
    assert rounded(float(number), decimals) == f"{sign}{abs(number)}{zeros}"


@pytest.mark.parametrize(
    ("number", "text"),
    [
        (0.0, "0"),
        (0.03, "0.03"),
        (0.1, "0.1"),
        (1.36, "1.4"),
        (5.366, "5.4"),
        (10.0, "10"),
        (12.5, "12.5"),
        (19.94, "19.9"),
        (20.12, "20"),
        (40.5, "41"),
        (277.54, "278"),
        (-6.2, f"{MINUS}6.2"),
        (-34.0, f"{MINUS}34"),
    ],
)
def test_amounts_in_a_bag(number, text):
    assert amount(number) == text


@given(st.floats(0.005, 19.94))
def test_a_small_amount_never_reads_as_none(number):
    assert float(amount(number)) > 0


@pytest.mark.parametrize(
    ("number", "quantity", "text"),
    [
        (5.366, "potassium", "5.4"),
        (277.54, "glucose", "278"),
        (308.009, "osmolarity", "308"),
        (0.994541, "tonicity_ratio", "0.99"),
        (7.3728, "ph_1l", "7.373"),
        (-1.6623, "base_excess_1l", f"{MINUS}1.7"),
        (3.0, "osmolality_error", "3"),
    ],
)
def test_figures_by_the_rule_of_their_quantity(number, quantity, text):
    assert figure(number, QUANTITY_BY_ID[quantity]) == text


@given(NUMBERS, st.sampled_from(QUANTITIES))
def test_every_quantity_has_a_figure_without_spaces(number, quantity):
    text = figure(number, quantity)
    assert text
    assert not any(letter.isspace() for letter in text)


def test_units_are_held_to_their_figure():
    assert unit_text("mmol/L") == f"{HARD}mmol/L"
    assert unit_text("%") == f"{NARROW}%"
    assert unit_text("1") == unit_text("") == ""


def test_spoken_is_figure_and_unit_or_the_reason():
    assert spoken(Value(277.54), "glucose") == f"278{HARD}mmol/L"
    assert spoken(Value(0.9945), "tonicity_ratio") == "0.99"
    assert spoken(Value(3.0), "osmolality_error") == f"3{NARROW}%"
    assert spoken(Value(None, "declared as a range"), "sodium") == "declared as a range"
    assert spoken(Value(0.0), "sodium") == f"0{HARD}mmol/L"


@pytest.mark.parametrize(
    ("plain", "set_"),
    [
        ("Glucose 5 %", f"Glucose{HARD}5{NARROW}%"),
        ("Glucose 5%", f"Glucose{HARD}5{NARROW}%"),
        ("0.9 % saline", f"0.9{NARROW}% saline"),
        ("holds 20 mmol in 500 mL", f"holds 20{HARD}mmol in 500{HARD}mL"),
        ("308 mOsm/L", f"308{HARD}mOsm/L"),
        ("5 mmHg", f"5{HARD}mmHg"),
        ("10 units of insulin", f"10{HARD}units of insulin"),
        ("5 litres", "5 litres"),  # a word, not a unit
        ("4 great bags", "4 great bags"),
        ("water", "water"),
    ],
)
def test_figures_in_a_sentence_are_held_to_their_unit(plain, set_):
    assert typeset(plain) == set_


@given(st.text(alphabet="abc %.0123456789mLgol/", max_size=40))
def test_typesetting_changes_spaces_only(text):
    def bare(words):
        return "".join(letter for letter in words if not letter.isspace())

    assert bare(typeset(text)) == bare(text)


@given(st.text(alphabet="abc %.0123456789mLgol/", max_size=40))
def test_typesetting_twice_is_typesetting_once(text):
    assert typeset(typeset(text)) == typeset(text)


@pytest.mark.parametrize(
    ("name", "pairs"),
    [
        ("Sodium chloride 0.9 %", (("Sodium chloride", f"0.9{NARROW}%"),)),
        (
            "Potassium chloride 0.3 % in glucose 5 %",
            (("Potassium chloride", f"0.3{NARROW}%"), ("in glucose", f"5{NARROW}%")),
        ),
        ("Compound sodium lactate", (("Compound sodium lactate", ""),)),
        ("Dextrose 5 % USP", (("Dextrose", f"5{NARROW}%"), ("USP", ""))),
    ],
)
def test_substances_and_strengths_of_a_title(name, pairs):
    assert strength_pairs(name) == pairs


@pytest.mark.parametrize(
    ("declared", "text"),
    [
        ("4.5 to 7.0", "4.5–7.0"),
        ("4.5 to 7.0 1", "4.5–7.0"),
        ("130 to 160 mmol/L", f"130–160{HARD}mmol/L"),
        ("50.0 g/L", f"50.0{HARD}g/L"),  # the digits of the label stay
        ("at most 2 mmol/L", f"at most 2{HARD}mmol/L"),
        ("not declared", "not declared"),
    ],
)
def test_a_declared_amount_stays_as_its_source_writes_it(declared, text):
    assert written(declared) == text


def test_decimal_rounding_is_what_is_meant():
    # The rule by its name in the standard library, so that a reader can look it up.
    exact = Decimal("2.5").quantize(Decimal(1), rounding=ROUND_HALF_UP)
    assert rounded(2.5, 0) == str(exact)
