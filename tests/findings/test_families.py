"""Which fluids are easily taken for one another, and what tells them apart."""

from types import SimpleNamespace

import pytest

from isofolio.chemistry.composition import NOT_WHOLE
from isofolio.findings.families import (
    MOST,
    first_strength,
    first_substance,
    held,
    ingredients,
    look_alikes_of,
)
from isofolio.measures.values import Value

NAN = float("nan")


def holding(*substances):
    return [SimpleNamespace(substance=name, particle=None) for name in substances]


def named(name, *substances, **more):
    """What matters of a made-up fluid: its title, what it is made of, its figures."""
    return {"name": name, "contents": holding(*substances), **more}


SALINE, SUGAR = ("sodium-chloride",), ("glucose",)


def alike(make, *fluids):
    """What the first of some made-up fluids may be taken for: number, quantity, figure."""
    found = look_alikes_of(*make(*fluids))["fluid-0000"]
    return [(int(other[-4:]), quantity, figure) for other, quantity, figure in found]


def test_a_hydrate_is_the_substance_and_a_declared_ion_counts_as_itself(make):
    contents = [*holding("glucose-monohydrate"), SimpleNamespace(substance=None, particle="sodium")]
    catalogue, _ = make({"contents": contents})
    assert ingredients(catalogue.fluids["fluid-0000"]) == {"glucose", "sodium"}


@pytest.mark.parametrize(
    ("name", "substance", "strength"),
    [
        ("Potassium chloride 0.3 % in glucose 5 %", "Potassium chloride", "0.3"),
        ("Glucose 5 %", "Glucose", "5"),
        ("Glucose 5% in water", "Glucose", "5"),
        ("Water for injections", "Water for injections", ""),
        # The figure of dextran 40 is no strength: the title stands as it is.
        (
            "Dextran 40 10 % in sodium chloride 0.9 %",
            "Dextran 40 10 % in sodium chloride 0.9 %",
            "",
        ),
    ],
)
def test_a_title_begins_with_a_substance_and_its_strength(make, name, substance, strength):
    fluid = make({"name": name})[0].fluids["fluid-0000"]
    assert (first_substance(fluid), first_strength(fluid)) == (substance, strength)


@pytest.mark.parametrize(
    ("mine", "theirs", "told"),
    [
        (100.0, 95.0, []),  # a twentieth of the larger figure
        (95.0, 100.0, []),
        (100.0, 94.9, [(1, "sodium", 94.9)]),
        (94.9, 100.0, [(1, "sodium", 100.0)]),
        (77.0, 154.0, [(1, "sodium", 154.0)]),
        (154.0, 0.0, [(1, "sodium", 0.0)]),
        (0.0, 0.0, []),
        (1.0, 1.2, [(1, "sodium", 1.2)]),
    ],
)
def test_a_difference_of_more_than_a_twentieth_tells_apart(make, mine, theirs, told):
    fluids = named("Saline 1 %", *SALINE, sodium=mine), named("Saline 2 %", *SALINE, sodium=theirs)
    assert alike(make, *fluids) == told


def test_what_hurts_most_tells_first_and_what_is_unknown_does_not(make):
    here = named("Salts 1 %", *SALINE, potassium=4.0, calcium=2.0, sodium=130.0)
    there = named("Salts 2 %", *SALINE, potassium=5.0, calcium=1.0, sodium=100.0)
    assert alike(make, here, there) == [(1, "potassium", 5.0)]
    assert alike(make, here, {**there, "potassium": NAN}) == [(1, "calcium", 1.0)]
    assert alike(make, {**here, "potassium": NAN}, there) == [(1, "calcium", 1.0)]


def test_the_same_ingredients_come_first_then_the_same_title_and_strength(make):
    """The other of another strength has the same first substance and other ingredients."""
    found = alike(
        make,
        named("Salt 0.3 % in sugar 5 %", "salt", "glucose", sodium=40.0),
        named("Salt 0.9 %", "salt", sodium=154.0),  # other ingredients, other strength
        named("Salt 0.3 % in starch 6 %", "salt", "starch", sodium=50.0),  # as strong
        named("Sugar 5 % with salt", "glucose", "salt", sodium=60.0),  # same ingredients
        named("Potash 0.3 %", "potash", sodium=70.0),  # another family
    )
    assert found == [(3, "sodium", 60.0), (2, "sodium", 50.0), (1, "sodium", 154.0)]


def test_the_same_ingredients_are_told_once_though_the_title_is_alike_too(make):
    fluids = [named(f"Salt {n} %", "salt", sodium=40.0 + 40.0 * n) for n in range(3)]
    assert alike(make, *fluids) == [(1, "sodium", 80.0), (2, "sodium", 120.0)]


def test_at_most_four_are_told_and_none_that_cannot_be_told_apart(make):
    same = named("Salt 1 %", "salt", sodium=100.0)
    others = [named(f"Salt {n} %", "salt", sodium=100.0 + 50.0 * n) for n in range(2, 8)]
    found = alike(make, same, dict(same), *others)
    assert [number for number, *_ in found] == [2, 3, 4, 5]
    assert len(found) == MOST


def test_what_is_retired_is_not_on_the_shelf_and_yet_has_its_own(make):
    retired = named("Salt 1 %", "salt", sodium=50.0, status="retired")
    kept = named("Salt 2 %", "salt", sodium=100.0)
    assert alike(make, retired, kept) == [(1, "sodium", 100.0)]
    assert alike(make, kept, retired) == []


def test_on_the_real_shelf_the_two_strengths_of_potassium_chloride_stand_together(real):
    found = look_alikes_of(*real)["potassium-chloride-0-15-sodium-chloride-0-9"]
    assert [name for name, *_ in found] == [
        "potassium-chloride-0-2-sodium-chloride-0-9",
        "potassium-chloride-0-3-sodium-chloride-0-9",
        "potassium-chloride-0-15-glucose-5",
        "potassium-chloride-0-15-sodium-chloride-0-18-glucose-4",
    ]
    assert {quantity for _, quantity, _ in found} == {"potassium", "sodium"}


def test_what_is_held_or_may_be_held_is_listed_in_the_order_of_tables():
    """An unknown figure may be anything; what the source does not mention is not spoken of."""
    values = {
        "chloride": Value(112.0),
        "sodium": Value(131.0),
        "potassium": Value(0.0),
        "calcium": Value(None, "declared as a range"),
    }
    table = SimpleNamespace(
        value=lambda fluid, quantity: {"a-fluid": values}[fluid].get(
            quantity, Value(None, NOT_WHOLE)
        )
    )
    assert list(held("a-fluid", table)) == ["sodium", "calcium", "chloride"]
