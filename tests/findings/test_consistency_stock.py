"""What a hospital's stock may not say: a looser limit, a size in which nothing is sold."""

import pytest

from isofolio.entries.reading import read_catalogue
from isofolio.findings.consistency_stock import (
    stock_is_stricter,
    stock_keeps_the_order,
    stock_keeps_what_is_sold,
)

FILE = "stock/hillcroft.yml"
STOCK = """\
id: hillcroft
name: Hillcroft Hospital
fluids:
  - {fluid: gelatin-4}
  - {fluid: glucose-5, sizes: [1 L, 500 mL]}
limits:
  - {limit: potassium-caution, value: 20 mmol/L, why: so it was decided.}
  - {limit: vein-central-preferred, value: 800 mOsm/L, why: so it was decided.}
review: {state: draft}
"""


@pytest.fixture
def judged(catalogue, told):
    """What the checks say where a piece of the hospital's entry is replaced."""

    def say(old="", new=""):
        assert old in STOCK
        path = catalogue / FILE
        path.parent.mkdir(exist_ok=True)
        path.write_text(STOCK.replace(old, new, 1) if old else STOCK, encoding="utf-8")
        return told(catalogue, stock_is_stricter, stock_keeps_the_order, stock_keeps_what_is_sold)

    return say


def test_the_sound_stock_is_sound(judged):
    assert judged() == []


@pytest.mark.parametrize("value", ["900 mOsm/L", "800 mOsm/L"])
def test_a_limit_as_strict_or_stricter_is_sound(judged, value):
    assert judged("800 mOsm/L", value) == []


@pytest.mark.parametrize("value", ["901 mOsm/L", "800 mmol/L", "trace"])
def test_a_limit_may_only_be_drawn_tighter(judged, value):
    assert judged("800 mOsm/L", value) == [
        f"{FILE}:8:44: {value} is not stricter than 900 mOsm/L "
        "| A hospital may only set it lower, in mOsm/L."
    ]


def test_a_limit_of_which_the_higher_is_the_stricter(catalogue, judged, spoil):
    limit = "{id: tonicity-hypotonic, quantity: tonicity_ratio, value: 0.80, stricter: "
    spoil("limits.yml", f"{limit}lower", f"{limit}higher")
    drawn = "{limit: vein-central-preferred, value: 800 mOsm/L"
    assert judged(drawn, "{limit: tonicity-hypotonic, value: 0.85") == []
    assert judged(drawn, "{limit: tonicity-hypotonic, value: 0.75") == [
        f"{FILE}:8:40: 0.75 is not stricter than 0.80 "
        "| A hospital may only set it higher, without a unit."
    ]


def test_every_looser_limit_is_told(judged):
    (first,) = judged("20 mmol/L", "21 mmol/L")
    assert first.startswith(f"{FILE}:7:39: 21 mmol/L is not stricter than 20 mmol/L |")


@pytest.mark.parametrize(
    ("sizes", "place", "size"),
    [("[1 L, 55 mL]", "5:37", "55 mL"), ("[1000 mL, 500 mL]", "5:32", "1000 mL")],
)
def test_a_size_that_is_kept_is_one_that_is_sold(judged, sizes, place, size):
    """As it is written: 1 L is one size and 1000 mL another."""
    assert judged("[1 L, 500 mL]", sizes) == [
        f"{FILE}:{place}: glucose-5 is not sold in {size} | It is sold in 1 L, 500 mL."
    ]


def test_a_fluid_whose_sizes_nobody_declares(judged):
    assert judged("glucose-5, sizes", "sodium-chloride-0-9, sizes") == [
        f"{FILE}:5:{column}: sodium-chloride-0-9 is not sold in {size} "
        "| Its entry names no container: add one there with its source, or leave the size out."
        for column, size in ((42, "1 L"), (47, "500 mL"))
    ]


@pytest.mark.parametrize(
    ("old", "new"),
    [("fluid: glucose-5,", "fluid: glucose-51,"), ("limit: vein-central-", "limit: vein-centre-")],
)
def test_what_is_not_there_is_told_by_the_reading_alone(catalogue, old, new):
    """And what stands beside it in the stock is judged all the same."""
    looser = STOCK.replace("20 mmol/L", "21 mmol/L").replace(old, new)
    (catalogue / "stock").mkdir()
    (catalogue / FILE).write_text(looser, encoding="utf-8")
    reading = read_catalogue(catalogue)
    assert [problem.file for problem in reading.problems] == [FILE]
    assert [p.place.line for p in stock_is_stricter(reading)] == [7]
    assert list(stock_keeps_what_is_sold(reading)) == []


def test_a_limit_that_is_no_figure_is_told_without_a_unit(catalogue, judged, spoil):
    limit = "{id: potassium-caution, quantity: potassium, value: "
    spoil("limits.yml", f"{limit}20 mmol/L", f"{limit}trace")
    assert judged() == [
        f"{FILE}:7:39: 20 mmol/L is not stricter than trace "
        "| A hospital may only set it lower, without a unit."
    ]


DRAWN = "  - {limit: vein-central-preferred, value: 800 mOsm/L, why: so it was decided.}\n"
ROOM = "Between the two a rule tells one word from the next: leave room."


def test_a_hospital_may_not_cross_two_limits_of_one_scale(catalogue, judged, spoil):
    limit = "{id: class-osmolarity-low, quantity: osmolarity, value: 250 mOsm/L, stricter: "
    spoil("limits.yml", f"{limit}lower", f"{limit}higher")
    low = "  - {limit: class-osmolarity-low, value: VALUE mOsm/L, why: so it was decided.}\n"
    assert judged(DRAWN, low.replace("VALUE", "374")) == []
    assert judged(DRAWN, low.replace("VALUE", "375")) == [
        f"{FILE}:8:42: class-osmolarity-low (375 mOsm/L) is not below class-osmolarity-high "
        f"(375 mOsm/L) here | {ROOM}"
    ]
    high = low.replace("-low", "-high").replace("VALUE", "300")
    assert judged(DRAWN, low.replace("VALUE", "299") + high) == []
    assert judged(DRAWN, low.replace("VALUE", "310") + high) == [
        f"{FILE}:9:43: class-osmolarity-low (310 mOsm/L) is not below class-osmolarity-high "
        f"(300 mOsm/L) here | {ROOM}"
    ]


def test_limits_that_cross_in_the_catalogue_are_not_told_of_the_hospital(judged, spoil):
    limit = "{id: class-osmolarity-low, quantity: osmolarity, value: "
    spoil("limits.yml", f"{limit}250", f"{limit}400")
    assert judged() == []


def test_a_hospital_is_told_of_each_pair_that_it_crosses(judged, spoil):
    """The first pair is a fault of the catalogue; the second is the hospital's own."""
    limit = "{id: class-osmolarity-low, quantity: osmolarity, value: "
    spoil("limits.yml", f"{limit}250", f"{limit}400")
    drawn = "  - {limit: water-nearly, value: 0.4, why: so it was decided.}\n"
    assert judged(DRAWN, drawn) == [
        f"{FILE}:8:34: water-half (0.5) is not below water-nearly (0.4) here | {ROOM}"
    ]
