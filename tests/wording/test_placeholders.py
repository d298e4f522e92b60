"""Placeholders of live figures: what is one, what is none, and what is put in its place."""

import pytest

from isofolio.wording.placeholders import Placeholder, filled, placeholders, read_placeholder


@pytest.mark.parametrize(
    ("inside", "read"),
    [
        ("glucose-5", Placeholder("glucose-5")),
        ("glucose-5 osmolarity", Placeholder("glucose-5", "osmolarity")),
        ("glucose-5 base_excess_1l", Placeholder("glucose-5", "base_excess_1l")),
        ("glucose-5 glucose in 500 mL", Placeholder("glucose-5", "glucose", 500.0)),
        ("plasma sodium", Placeholder("plasma", "sodium")),
    ],
)
def test_what_is_read(inside, read):
    assert read_placeholder(inside) == read


@pytest.mark.parametrize(
    "inside",
    [
        "",
        " glucose-5",
        "glucose-5 ",
        "Glucose 5",
        "glucose-5  osmolarity",
        "glucose-5 osmolarity in 500",
        "glucose-5 osmolarity in 0 mL",
        "glucose-5 osmolarity in 1 L",
        "glucose-5 osmolarity mL",
        "glucose_5 osmolarity",
    ],
)
def test_what_is_none(inside):
    assert read_placeholder(inside) is None
    with pytest.raises(ValueError, match="no placeholder"):
        filled(f"a {{{inside}}}", str)


@pytest.mark.parametrize("text", ["a { b", "a } b", "{glucose-5 {plasma sodium}", "}{"])
def test_a_brace_alone_is_seen(text):
    assert None in [read for _, read in placeholders(text)]


def test_every_placeholder_is_filled_in_its_order():
    asked = []
    text = filled("{a} and {b sodium} and {c sodium in 50 mL}.", lambda p: asked.append(p) or "x")
    assert text == "x and x and x."
    assert [one.subject for one in asked] == ["a", "b", "c"]


def test_what_is_filled_in_is_not_read_again():
    assert filled("{glucose-5}", lambda _: "{glucose-5}") == "{glucose-5}"
