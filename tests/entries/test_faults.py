"""Errors of shape in our words: one fault, one problem, at the key or value that is wrong."""

import pytest
from pydantic import BaseModel, ValidationError

from isofolio.entries.faults import translated
from isofolio.entries.fluids import Fluid
from isofolio.entries.lists import Limits
from isofolio.entries.problems import Place
from isofolio.entries.tree import read_tree


def problems(text, kind=Fluid):
    tree = read_tree(text.encode(), "fluids/a.yml")
    assert not tree.problems
    with pytest.raises(ValidationError) as caught:
        kind.model_validate(tree.root)
    return translated(tree, kind, caught.value)


class Pair(BaseModel, extra="forbid"):
    contents: str
    contents_cite: str


def test_a_misspelt_key_takes_only_the_missing_key_most_like_it():
    found = problems("contents_site: a", Pair)
    assert [p.message for p in found] == [
        'the key "contents" is missing',
        '"contents_site" is not a key here',
    ]
    assert found[1].fix == 'Did you mean "contents_cite"?'


def test_two_misspelt_keys_take_one_missing_key_each():
    found = problems("contnts: a\ncontents_ite: b", Pair)
    assert [p.fix for p in found] == [
        'Did you mean "contents"?',
        'Did you mean "contents_cite"?',
    ]


def test_an_unlike_key_beside_a_missing_one_is_two_faults():
    assert len(problems("contents: a\nreview: b", Pair)) == 2


def test_a_key_that_is_there_already_is_no_guess():
    (found,) = problems("contents: a\ncontents_cite: b\ncontent: c", Pair)
    assert found.fix == "Known keys: contents, contents_cite."


def test_keys_are_told_for_the_mapping_they_stand_in():
    text = "limits:\n  - {id: a, quantity: b, value: 1, stricter: lower, text: c, limitt: d,\n"
    text += "     cite: {at: e, seen: arithmetic, on: 2026-11-25, page: 4}}\n"
    first, second = problems(text, Limits)
    assert (first.place, second.place) == (Place(3, 54), Place(2, 62))
    assert first.fix == "Known keys: source, at, seen, on."
    assert second.fix.startswith("Known keys: id, quantity, value, stricter")


def test_every_fault_of_an_entry_is_told_at_once():
    found = problems("id: A\nname: <b>\nrole: x\nstatus: y\ncontents: z\nreview: {state: w}\n")
    assert [p.place.line for p in found] == [1, 2, 3, 4, 5, 1, 6]


@pytest.mark.parametrize(
    ("value", "part"),
    [
        ("", "the value is empty"),
        ("x", "one value stands where a list is expected"),
        ("{a: b}", "a mapping stands where a list is expected"),
    ],
)
def test_what_stands_in_place_of_a_list_is_named(value, part):
    messages = [p.message for p in problems(f"id: a\nvariants: {value}\n")]
    assert f"variants: {part}" in messages


@pytest.mark.parametrize(
    ("value", "part"),
    [
        ("", "the value is empty"),
        ("x", "one value stands where a mapping is expected"),
        ("[a]", "a list stands where a mapping is expected"),
    ],
)
def test_what_stands_in_place_of_a_mapping_is_named(value, part):
    messages = [p.message for p in problems(f"id: a\natc: {value}\n")]
    assert f"atc: {part}" in messages
