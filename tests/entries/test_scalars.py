"""Single values: what a label prints is read, and what other readers would guess is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from isofolio.entries import scalars
from isofolio.entries.tree import Plain
from isofolio.vocabulary.units import NUMERATORS, UNITS

FIGURE = st.decimals(
    min_value=0, max_value=999_999_999, allow_nan=False, allow_infinity=False, places=3
).map(lambda number: f"{number:f}".rstrip("0").rstrip(".") or "0")
UNIT = st.sampled_from([*UNITS, "% w/v", *(f"{top} per 250 mL" for top in NUMERATORS)])


def read(kind, value):
    return TypeAdapter(kind).validate_python(value)


def refused(kind, value):
    """The message and the fix of the one fault that a value has."""
    with pytest.raises(ValidationError) as caught:
        read(kind, value)
    (error,) = caught.value.errors()
    assert error["type"] == "isofolio"
    assert error["ctx"]["fix"]
    return error["ctx"]["message"]


# YAML 1.1, as most readers still have it, makes of these a time, a number, a truth value, nothing
# or a date. Source: the YAML 1.1 type repository (int, float, bool, null, timestamp), from memory.
MISREAD = (
    *("1:20", "12:30:45", "010", "0o17", "0x1F", "1_000", "1e3", "1E+3", ".5", "5.", "-7", "+7"),
    *("0.90", "12", ".inf", "-.INF", ".NaN", "no", "No", "NO", "yes", "y", "N", "on", "off"),
    *("true", "False", "null", "Null", "~", "=", "2026-11-25", "2026-1-5", "2026-11-25T10:00:00Z"),
)
HARMLESS = (
    *("5 %", "sections 2 and 3", "1:20 in water", "none", "nope", "ono", "2026-11", "v1.2"),
    *("1.2.3", "e3", "0x", "--", "186.3 and 186.5"),
)


@pytest.mark.parametrize("text", MISREAD)
def test_text_that_others_misread_needs_quotes(text):
    assert "without quotes" in refused(scalars.Text, Plain(text))
    assert read(scalars.Text, text) == text


@pytest.mark.parametrize("text", HARMLESS)
def test_other_text_needs_no_quotes(text):
    assert read(scalars.Text, Plain(text)) == text


@pytest.mark.parametrize("value", ["", "  ", [], ["a"], {}, {"a": "b"}])
@pytest.mark.parametrize(
    "kind",
    [
        scalars.Text,
        scalars.Title,
        scalars.Identifier,
        scalars.Number,
        scalars.Count,
        scalars.Times,
        scalars.YesNo,
        scalars.Date,
        scalars.Address,
        scalars.AmountField,
        scalars.AmountPresent,
        scalars.FluidId,
    ],
)
def test_no_value_takes_nothing_a_list_or_a_mapping(kind, value):
    message = refused(kind, value)
    assert "empty" in message or "stands where one value is expected" in message


@pytest.mark.parametrize("text", ["a<b", "a > b", "<script>", "a\nb"])
def test_titles_hold_no_bracket_and_one_line(text):
    refused(scalars.Title, text)


@pytest.mark.parametrize("text", ["5 %", "Na⁺", "Glucose 5\u2007%", "soluté de Ringer"])
def test_titles_hold_what_labels_print(text):
    assert read(scalars.Title, text) == text


@pytest.mark.parametrize(
    "text",
    [
        "Sodium",
        "a_b",
        "a b",
        "-a",
        "a-",
        "a--b",
        "a.b",
        "s\u043edium",
        "\uff41",
        "a/b",
        "é",
        "../a",
    ],
)
def test_ids_are_small_latin_letters_digits_and_hyphens(text):
    assert "is not an id" in refused(scalars.Identifier, text)


def test_a_letter_that_looks_like_another_is_called_by_its_name():
    assert 'holds "\u043e" (U+043E, cyrillic small letter o)' in refused(
        scalars.Identifier, "s\u043edium"
    )


@pytest.mark.parametrize("text", ["1e3", "Infinity", "nan", "1_000", "y", "1,5", "01", "+1", "٣"])
def test_numbers_are_plain(text):
    refused(scalars.Number, text)
    refused(scalars.Count, text)


@pytest.mark.parametrize("text", ["9" * 10, "0." + "1" * 13, "9" * 5000])
def test_numbers_have_an_end(text):
    refused(scalars.Number, text)
    refused(scalars.Count, text)
    refused(scalars.AmountField, f"{text} g/L")


def test_numbers_that_are_read():
    assert read(scalars.Number, "-17.85") == -17.85
    assert read(scalars.Count, "-3") == -3
    assert read(scalars.Times, "2") == 2
    assert read(scalars.YesNo, "yes") is True
    assert read(scalars.YesNo, "no") is False


@pytest.mark.parametrize("text", ["0", "-1", "1.0", "two"])
def test_a_number_of_times_is_one_or_more(text):
    refused(scalars.Times, text)


@pytest.mark.parametrize("text", ["true", "y", "Yes", "1"])
def test_yes_and_no_are_the_only_truth_values(text):
    refused(scalars.YesNo, text)


@pytest.mark.parametrize("text", ["2026-11-31", "2026-1-5", "20261125", "25/11/2026", "2026-W01-1"])
def test_dates_are_whole_and_exist(text):
    refused(scalars.Date, text)


@pytest.mark.parametrize(
    "text", ["http://a.org/", "https://", "//a.org", "javascript:1", "https://a.org/<b>"]
)
def test_addresses_are_https(text):
    refused(scalars.Address, text)


@given(FIGURE, UNIT)
def test_one_figure_round_trips(figure, unit):
    text = f"{figure} {unit}"
    amount = scalars.parse_amount(text)
    assert (amount.state, amount.text) == ("exact", text)
    assert amount.low == amount.high == float(figure)
    assert amount.decimals == len(figure.partition(".")[2])
    written = "% w/v" if amount.unit == "%" else amount.unit
    written += " per 250 mL" if amount.per_millilitres else ""
    assert f"{figure} {written}" == text
    assert scalars.parse_amount(amount.text) == amount


@given(FIGURE, FIGURE, UNIT)
def test_a_range_round_trips_or_runs_downwards(first, second, unit):
    text = f"{first} to {second} {unit}"
    if float(second) < float(first):
        assert "downwards" in refused(scalars.AmountField, text)
        return
    amount = scalars.parse_amount(text)
    assert (amount.state, amount.low, amount.high) == ("range", float(first), float(second))


@given(FIGURE, UNIT)
def test_a_bound_has_a_high_end_only(figure, unit):
    amount = scalars.parse_amount(f"at most {figure} {unit}")
    assert (amount.state, amount.low, amount.high) == ("bound", None, float(figure))


@pytest.mark.parametrize("text", ["trace", "not declared"])
def test_amounts_without_a_figure(text):
    amount = scalars.parse_amount(text)
    assert (amount.state, amount.low, amount.high, amount.text) == (text, None, None, text)
    assert amount.state in scalars.REASONS


def test_the_text_of_a_label_is_kept():
    assert scalars.parse_amount("0.90 % w/v") != scalars.parse_amount("0.9 % w/v")
    assert scalars.parse_amount("0.90 % w/v").decimals == 2


@given(st.one_of(st.text(max_size=40), st.text("0123456789.,- togmLe%/–", max_size=20)))
def test_any_text_is_an_amount_or_a_fault(text):
    try:
        amount = read(scalars.AmountField, text)
    except ValidationError:
        refused(scalars.AmountField, text)
    else:
        assert amount.text == text.strip()


@pytest.mark.parametrize(
    ("text", "advice"),
    [
        ("0,9 g/L", "as a point"),
        ("1,000 mL", "no mark between thousands"),
        ("3.5-6.5", 'with "to"'),
        ("3.5 – 6.5", 'with "to"'),
        ("9g/L", "a space"),
        ("0.9% w/v", "a space"),
        ("1e3 g/L", "without an exponent"),
        ("9 g/l", 'mean "g/L"'),
        ("9 MEQ/l", 'mean "mEq/L"'),
        ("nine", "Write a number and a unit"),
        ("at most 1 to 2 g/L", "Write a number and a unit"),
        ("9 µmol/L", "Write one of g, mg, mmol"),
        ("9 mmol/L per 500 mL", "Write one of g, mg, mmol"),
    ],
)
def test_common_slips_of_an_amount_get_their_own_advice(text, advice):
    with pytest.raises(ValidationError) as caught:
        read(scalars.AmountField, text)
    assert advice in caught.value.errors()[0]["ctx"]["fix"]


def test_a_unit_a_thousand_times_off_is_never_suggested():
    for unit in ("µmol/L", "ug/L", "kg/L", "mol/L", "µg/mL", "Osm/L"):
        with pytest.raises(ValidationError) as caught:
            read(scalars.AmountField, f"5 {unit}")
        assert "Did you mean" not in caught.value.errors()[0]["ctx"]["fix"]


@pytest.mark.parametrize("text", ["-9 g/L", "at most -1 g/L", "-1 to 2 g/L"])
def test_what_is_in_a_bag_is_not_less_than_nothing(text):
    assert "less than nothing" in refused(scalars.AmountPresent, text)
    assert scalars.parse_amount(text).text == text


def test_a_reference_knows_its_kind():
    reference = read(scalars.FluidId, "glucose-5")
    assert (reference, reference.kind) == ("glucose-5", "fluids")
