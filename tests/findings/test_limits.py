"""A figure is held against a limit at the precision in which the limit is written."""

import pytest

from isofolio.entries.lists import Limit
from isofolio.entries.scalars import parse_amount
from isofolio.findings.limits import above, at_least, at_most, at_precision, below, figure_of


def limit(text: str) -> Limit:
    return Limit.model_construct(id="limit", quantity="potassium", value=parse_amount(text))


@pytest.mark.parametrize(
    ("number", "reaches", "exceeds", "lies_below", "stays"),
    [
        (39.4, False, False, True, True),  # prints 39
        (39.5, True, False, False, True),  # prints 40
        (40.0, True, False, False, True),
        (40.24, True, False, False, True),  # potassium chloride 0.3 % is called 40 everywhere
        (40.5, True, True, False, False),  # prints 41
        (None, False, False, False, False),  # unknown meets no threshold
    ],
)
def test_a_limit_is_compared_as_it_is_written(number, reaches, exceeds, lies_below, stays):
    forty = limit("40 mmol/L")
    assert at_least(number, forty) is reaches
    assert above(number, forty) is exceeds
    assert below(number, forty) is lies_below
    assert at_most(number, forty) is stays


def test_the_precision_is_that_of_the_text():
    assert at_precision(0.796, limit("0.80")) == 0.80
    assert at_precision(0.794, limit("0.80")) == 0.79
    with pytest.raises(ValueError, match="not one figure"):
        figure_of(limit("3.5 to 5.5 mmol/L"))
