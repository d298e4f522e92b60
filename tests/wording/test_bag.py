"""What makes up the osmolarity in the bag, and where a figure stands beside plasma."""

import pytest

from isofolio.measures.values import Value
from isofolio.wording.bag import beside_interval, listed, osmolarity_parts
from isofolio.wording.figures import HARD


@pytest.mark.parametrize(
    ("words", "text"),
    [
        ([], ""),
        (["sodium"], "sodium"),
        (["sodium", "chloride"], "sodium and chloride"),
        (["sodium", "potassium", "chloride"], "sodium, potassium and chloride"),
    ],
)
def test_words_in_a_sentence(words, text):
    assert listed(words) == text


@pytest.mark.parametrize(
    ("total", "particles", "text"),
    [
        (
            358.02,
            {"potassium": 40.24, "chloride": 40.24, "glucose": 277.54},
            f"358{HARD}mOsm/L: 278 glucose, 80 potassium and chloride",
        ),
        (308.01, {"sodium": 154.0, "chloride": 154.0}, f"308{HARD}mOsm/L: sodium and chloride"),
        (277.54, {"glucose": 277.54}, f"278{HARD}mOsm/L: glucose"),
        (548.93, {"mannitol": 548.93, "sodium": 0.0}, f"549{HARD}mOsm/L: mannitol"),
        (0.0, {}, f"0{HARD}mOsm/L: water alone"),
        (0.0, {"sodium": 0.0}, f"0{HARD}mOsm/L: water alone"),
    ],
)
def test_osmolarity_and_what_makes_it_up(total, particles, text):
    assert osmolarity_parts(Value(total), particles) == text


def test_an_unknown_osmolarity_says_why():
    unknown = Value(None, "the source does not give the whole composition")
    assert osmolarity_parts(unknown, {"sodium": 140.0}) == unknown.reason


def test_the_parts_are_those_of_the_total():
    text = osmolarity_parts(Value(585.55), {"sodium": 154.0, "chloride": 154.0, "glucose": 277.54})
    assert text == f"586{HARD}mOsm/L: 278 glucose, 308 sodium and chloride"


@pytest.mark.parametrize("word", ["hypo", "iso", "hyper", "tonic", "safe"])
def test_never_a_class_word(word):
    for total, particles in (
        (154.0, {"sodium": 77.0, "chloride": 77.0}),
        (308.0, {"glucose": 308.0}),
    ):
        assert word not in osmolarity_parts(Value(total), particles)


@pytest.mark.parametrize(
    ("number", "text"),
    [
        (154.0, f"above, by 9{HARD}mmol/L"),
        (131.0, f"below, by 4{HARD}mmol/L"),
        (140.0, "within"),
        (135.0, "within"),
        (145.0, "within"),
        (145.3, f"above, by 0.3{HARD}mmol/L"),
        (0.0, "none"),
    ],
)
def test_beside_plasma(number, text):
    assert beside_interval(number, 135.0, 145.0, "mmol/L") == text
