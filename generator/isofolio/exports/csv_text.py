"""The handbook as a tidy table: one row a fluid and a quantity."""

import csv
import io
from collections.abc import Iterable, Iterator, Sequence

from isofolio.entries.fluids import Fluid
from isofolio.exports.document import built_from, ranges
from isofolio.exports.figures import DIGITS, exported
from isofolio.exports.parts import review
from isofolio.handbook import Handbook
from isofolio.vocabulary.quantities import QUANTITY_BY_ID

# reason: why there is no value; low and high: of an amount declared as a range or a bound.
COLUMNS = (
    "id",
    "name",
    "quantity",
    "unit",
    "value",
    "reason",
    "low",
    "high",
    "review",
    "built_from",
)

# What makes a spreadsheet take a text for a formula; some take the full-width signs for plain ones.
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")


def csv_export(handbook: Handbook) -> str:
    """Every quantity of every fluid as CSV text, UTF-8, lines ended by a single line feed.

    An unknown value is an empty cell with its reason beside it. A text that a spreadsheet would
    take for a formula gets an apostrophe in front. The last column says which catalogue and
    program the row is from, because a table is soon copied away from its file.
    """
    return "".join(csv_pieces(handbook))


def csv_pieces(handbook: Handbook) -> Iterator[str]:
    """The same text in pieces, a fluid each, so that the table of thousands is never held whole."""
    yield _lines([COLUMNS])
    for fluid in handbook.fluids:
        yield _lines(_rows(handbook, fluid))


def _lines(rows: Iterable[Sequence[str]]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows(rows)
    return text.getvalue()


def inert(text: str) -> str:
    """A text that no spreadsheet runs.

    >>> inert("=1+1"), inert("sodium")
    ("'=1+1", 'sodium')
    """
    return f"'{text}" if text.startswith(FORMULA_STARTS) else text


def _rows(handbook: Handbook, fluid: Fluid) -> Iterator[list[str]]:
    declared = ranges(handbook, fluid)
    ends = [inert(str(review(fluid)["state"])), inert(built_from(handbook))]
    for quantity in handbook.quantities:
        value = handbook.value(fluid.id, quantity)
        low, high = declared.get(quantity, (None, None))
        texts = [fluid.id, fluid.name, quantity, QUANTITY_BY_ID[quantity].unit]
        row = [*(inert(text) for text in texts), _figure(value.number), inert(value.reason)]
        yield [*row, _figure(low), _figure(high), *ends]


def _figure(number: float | None) -> str:
    return "" if number is None else f"{exported(number):.{DIGITS}g}"
