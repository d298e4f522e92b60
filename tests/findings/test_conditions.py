"""Every shape of condition: at, below and above its threshold, with known and unknown figures."""

from types import SimpleNamespace

import pytest

from isofolio.chemistry.composition import Composition
from isofolio.entries.cautions import Condition
from isofolio.entries.lists import Limit
from isofolio.entries.scalars import parse_amount
from isofolio.findings.conditions import SHAPES, Subject, holds
from isofolio.measures.values import Value
from isofolio.vocabulary.terms import CONDITIONS


def limit(text: str) -> Limit:
    return Limit.model_construct(id="limit", quantity="potassium", value=parse_amount(text))


def subject(
    known=None,
    unknown=None,
    ranges=None,
    *,
    numbers=None,
    contents=(),
    role="ready",
    status="current",
    situations=(),
    containers=(),
) -> Subject:
    """A made-up fluid with just what a condition reads."""
    fluid = SimpleNamespace(
        id="made-up",
        role=role,
        status=status,
        situations=list(situations),
        contents=[SimpleNamespace(substance=name) for name in contents],
        containers=[SimpleNamespace(kind=kind) for kind in containers],
    )
    composition = Composition(known or {}, unknown or {}, complete=True)
    solution = SimpleNamespace(composition=composition, ranges=ranges or {})
    values = {name: Value(number) for name, number in (numbers or {}).items()}
    table = SimpleNamespace(
        solutions={"made-up": solution},
        value=lambda _, quantity: values.get(quantity, Value(None, "not known")),
    )
    kinds = {"succinylated-gelatin": "gelatin", "sodium-chloride": None}
    catalogue = SimpleNamespace(
        limits={"forty": limit("40 mmol/L")},
        substances={name: SimpleNamespace(colloid=kind) for name, kind in kinds.items()},
    )
    return Subject(fluid, catalogue, table)


def condition(**keys) -> Condition:
    return Condition.model_validate(keys)


@pytest.mark.parametrize(
    ("when", "number", "expected"),
    [
        ("above", 41.0, True),
        ("above", 40.0, False),
        ("above", 39.0, False),
        ("at-least", 41.0, True),
        ("at-least", 40.0, True),
        ("at-least", 39.0, False),
        ("below", 41.0, False),
        ("below", 40.0, False),
        ("below", 39.0, True),
        ("at-most", 41.0, False),
        ("at-most", 40.0, True),
        ("at-most", 39.0, True),
    ],
)
def test_thresholds_above_at_and_below(when, number, expected):
    made = condition(when=when, quantity="potassium", limit="forty")
    assert holds(made, subject(numbers={"potassium": number})) is expected


@pytest.mark.parametrize("when", ["above", "at-least", "below", "at-most"])
def test_an_unknown_figure_meets_no_threshold(when):
    made = condition(when=when, quantity="potassium", limit="forty")
    assert not holds(made, subject())


def test_holding_and_being_free():
    both = condition(when="holds-all", particles=["calcium", "lactate"])
    one = condition(when="holds", particles=["calcium", "lactate"])
    none = condition(when="free-of", particles=["calcium", "lactate"])
    salt = subject({"sodium": 154.0})
    lactate = subject({"lactate": 28.0})
    hartmann = subject({"lactate": 28.0, "calcium": 2.0})
    assert [holds(both, s) for s in (salt, lactate, hartmann)] == [False, False, True]
    assert [holds(one, s) for s in (salt, lactate, hartmann)] == [False, True, True]
    assert [holds(none, s) for s in (salt, lactate, hartmann)] == [True, False, False]


def test_a_range_is_held_and_an_unknown_is_not_free():
    holding = condition(when="holds", particles=["sodium"])
    free = condition(when="free-of", particles=["sodium"])
    ranged = subject(unknown={"sodium": "declared as a range"}, ranges={"sodium": (48.0, 100.0)})
    silent = subject(unknown={"sodium": "not declared"})
    assert holds(holding, ranged)
    assert not holds(holding, silent)
    assert not holds(free, ranged)
    assert not holds(free, silent)


def test_a_trace_and_the_smallest_amount_are_held():
    holding = condition(when="holds", particles=["sodium"])
    assert holds(holding, subject({"sodium": 0.5}))
    assert holds(holding, subject(unknown={"sodium": "declared as a trace"}))
    assert not holds(holding, subject({"sodium": 0.0}))


def test_a_figure_is_that_of_the_fluid(make):
    catalogue, table = make({"potassium": 4.0}, {"potassium": 40.0})
    told = [Subject(f, catalogue, table).number("potassium") for f in catalogue.fluids.values()]
    assert told == [4.0, 40.0]


def test_the_conditions_of_the_entry_itself():
    made = subject(
        contents=["succinylated-gelatin"],
        role="colloid",
        status="not-for-use",
        situations=["sepsis"],
        containers=["bag", "glass bottle"],
    )
    assert holds(condition(when="weighed", substances=["succinylated-gelatin"]), made)
    assert not holds(condition(when="weighed", substances=["sodium-chloride"]), made)
    assert holds(condition(when="colloid", kinds=["gelatin"]), made)
    assert not holds(condition(when="colloid", kinds=["starch"]), made)
    assert holds(condition(when="role", roles=["colloid", "ready"]), made)
    assert not holds(condition(when="role", roles=["concentrate"]), made)
    assert holds(condition(when="status", statuses=["not-for-use"]), made)
    assert not holds(condition(when="status", statuses=["retired"]), made)
    assert holds(condition(when="situation", situations=["sepsis"]), made)
    assert not holds(condition(when="situation", situations=["burns"]), made)
    assert holds(condition(when="container", kinds=["glass bottle"]), made)
    assert not holds(condition(when="container", kinds=["ampoule"]), made)
    assert holds(condition(when="fluid", ids=["made-up"]), made)
    assert not holds(condition(when="fluid", ids=["glucose-5"]), made)


def test_every_shape_has_its_function():
    assert set(SHAPES) == set(CONDITIONS)


@pytest.mark.parametrize(
    "keys",
    [
        {"when": "above", "quantity": "potassium"},
        {"when": "above", "quantity": "potassium", "limit": "forty", "roles": ["ready"]},
        {"when": "holds"},
        {"when": "role", "particles": ["sodium"]},
        {"when": "sometimes", "particles": ["sodium"]},
    ],
)
def test_a_condition_takes_exactly_its_keys(keys):
    with pytest.raises(ValueError, match=r"takes|not in the list|Write"):
        condition(**keys)
