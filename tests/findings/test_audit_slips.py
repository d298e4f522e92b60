"""What is wrong with a printed figure that nothing explains: digits exchanged, ions left out."""

import pytest

from isofolio.entries.scalars import parse_amount
from isofolio.findings.audit_figures import printed, thresholds
from isofolio.findings.audit_lines import Bench, Line
from isofolio.findings.audit_slips import exchanged, transposed
from isofolio.measures.table import table_of
from isofolio.measures.values import Value


@pytest.mark.parametrize(
    ("text", "others"),
    [
        ("287 mOsm/L", ["827 mOsm/L", "278 mOsm/L"]),
        ("2.53 mOsm/mL", ["5.23 mOsm/mL", "2.35 mOsm/mL"]),
        ("0.53 mOsm/mL", ["5.03 mOsm/mL", "0.35 mOsm/mL"]),
        ("3.05 mmol/L", ["0.35 mmol/L", "3.50 mmol/L"]),
        ("100 mmol/L", []),
        ("20 mmol per 500 mL", []),
        ("55 mmol/L", []),
        ("5 mmol/L", []),
        ("45 to 54 mmol/L", ["54 to 54 mmol/L"]),
        ("trace", []),
        ("at most 45 mmol/L", []),
    ],
)
def test_digits_exchanged(text, others):
    """Of the first number only, where they differ; and no figure begins with a nought."""
    assert list(exchanged(text)) == others


@pytest.fixture
def fit(chemistry):
    """What an exchange of digits makes of a printed text, beside a figure of ours."""
    catalogue = chemistry
    bench = Bench(catalogue, table_of(catalogue), thresholds(catalogue), {}, None)

    def exchange(quantity, text, number):
        figure = printed(quantity, parse_amount(text), catalogue)
        return transposed(
            Line(quantity, text, figure, Value(number, "" if number else "not declared"), ""), bench
        )

    return exchange


@pytest.mark.parametrize(
    ("quantity", "text", "number", "fits"),
    [
        ("sodium", "145 mmol/L", 154.0, "154 mmol/L"),
        ("sodium", "145 mmol/L", 154.5, "154 mmol/L"),
        # It has to fit exactly: half of the last digit.
        ("sodium", "145 mmol/L", 154.51, ""),
        ("sodium", "145 mmol/L", 415.0, "415 mmol/L"),
        ("sodium", "145 mmol per 500 mL", 308.0, "154 mmol per 500 mL"),
        ("sodium", "140 mmol/L", 154.0, ""),
        # A range has no digits to exchange, and an estimate is no figure to fit exactly.
        ("sodium", "145 to 146 mmol/L", 154.0, ""),
        ("osmolality", "278 mOsm/kg", 287.0, ""),
        ("osmolality_measured", "278 mOsm/kg", 287.0, ""),
        # Nothing can be compared.
        ("sodium", "trace", 154.0, ""),
        ("sodium", "145 mmol/L", None, ""),
        ("sodium", "trace", None, ""),
    ],
)
def test_an_exchange_that_fits(fit, quantity, text, number, fits):
    assert fit(quantity, text, number) == fits
