"""Wrapping and spreading of labels: arithmetic of our own, no published source."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.drawings.lettering import CHARACTER, balance, count, spread, width, wrap

LABELS = st.lists(
    st.tuples(st.floats(-50, 300), st.sampled_from([15.0, 30.0, 45.0])), min_size=1, max_size=9
)


@given(LABELS)
def test_spread_labels_keep_order_touch_nothing_and_stay_inside(
    labels: list[tuple[float, float]],
) -> None:
    ordered = sorted(labels)
    heights = [height for _, height in ordered]
    high = sum(heights) + 20.0
    placed = spread([centre for centre, _ in ordered], heights, 0.0, high)
    edges = [(at - tall / 2, at + tall / 2) for at, tall in zip(placed, heights, strict=True)]
    assert edges[0][0] >= -1e-6
    assert edges[-1][1] <= high + 1e-6
    assert all(first[1] <= second[0] + 1e-6 for first, second in itertools.pairwise(edges))


def test_spread_leaves_free_labels_where_they_are() -> None:
    assert spread([20.0, 50.0, 90.0], [15.0] * 3, 0.0, 250.0) == (20.0, 50.0, 90.0)


def test_spread_shares_the_movement_of_a_crowd() -> None:
    # Three labels wanted at one height: the middle one stays, the others give way evenly.
    assert spread([100.0] * 3, [15.0] * 3, 0.0, 250.0) == (85.0, 100.0, 115.0)


def test_spread_moves_least_of_all_arrangements() -> None:
    wanted, heights = [30.0, 34.0, 41.0, 90.0], [15.0, 30.0, 15.0, 15.0]
    placed = spread(wanted, heights, 0.0, 120.0)
    cost = sum((at - want) ** 2 for at, want in zip(placed, wanted, strict=True))
    gaps = [(first + second) / 2 for first, second in itertools.pairwise(heights)]
    starts = [value / 2 for value in range(0, 240)]
    slacks = [0.0, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0]
    for start, *extra in itertools.product(starts, slacks, slacks, slacks):
        tried = [start]
        for gap, more in zip(gaps, extra, strict=True):
            tried.append(tried[-1] + gap + more)
        if tried[0] >= heights[0] / 2 and tried[-1] <= 120.0 - heights[-1] / 2:
            other = sum((at - want) ** 2 for at, want in zip(tried, wanted, strict=True))
            assert cost <= other + 1e-9


def test_spread_says_when_the_room_is_too_low_or_the_order_wrong() -> None:
    with pytest.raises(ValueError, match="do not fit"):
        spread([1.0, 2.0], [15.0, 15.0], 0.0, 29.0)
    with pytest.raises(ValueError, match="rising order"):
        spread([2.0, 1.0], [15.0, 15.0], 0.0, 100.0)


@given(st.text("abmW %\u00a0\u207b", max_size=60), st.floats(1.65, 30))
def test_lines_are_never_too_long_and_lose_nothing(text: str, limit: float) -> None:
    for lines in (wrap(text, limit), balance(text, limit)):
        assert all(count(line) <= limit for line in lines)
        assert "".join(lines).replace(" ", "") == text.replace(" ", "")


@given(st.text("abmW %\u00a0\u207b", max_size=60), st.integers(2, 30))
def test_balanced_lines_are_no_more_than_needed(text: str, limit: int) -> None:
    assert len(balance(text, limit)) == len(wrap(text, limit))
    assert width(balance(text, limit)) <= width(wrap(text, limit))


@given(st.text(max_size=30))
def test_a_text_is_never_judged_narrower_than_its_count(text: str) -> None:
    assert width([text]) >= len(text) * CHARACTER - 1e-9
