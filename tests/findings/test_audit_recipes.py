"""Other ways to read what a fluid holds: another hydrate, another recipe, a mass rounded.

Molar masses [g/mol], from memory of the standard atomic weights: calcium chloride 110.98, its
dihydrate 147.01, its hexahydrate 219.07; glucose 180.16, its monohydrate 198.17.
"""

import pytest

from isofolio.entries.fluids import Content
from isofolio.entries.scalars import parse_amount
from isofolio.findings.audit_recipes import (
    batch,
    dry_formula,
    in_grams,
    other_forms,
    recipes_of,
    rough,
)

SEEN = {"source": "a-label", "at": "table 1", "seen": "read", "on": "2026-11-25"}


@pytest.fixture
def recipes(chemistry, invented):
    """Every other reading of invented contents, in the order in which they are tried."""
    return lambda contents, **fields: recipes_of(invented(contents, **fields), chemistry)


def named(found):
    return [(recipe.sort, recipe.words) for recipe in found]


def known(recipe, particle):
    return recipe.solution.composition.known[particle]


def variant(*contents, name="other"):
    told = [{"substance": substance, "amount": amount} for substance, amount in contents]
    return {"name": name, "contents": told, "cite": SEEN}


# Another hydrate.


def test_a_hydrate_has_the_forms_of_the_catalogue_and_the_dry_one(chemistry):
    forms = dict(other_forms(chemistry.substances["calcium-chloride-dihydrate"], chemistry))
    assert forms == {
        "anhydrous calcium chloride": pytest.approx(147.01 / 110.98, rel=1e-3),
        "calcium chloride hexahydrate": pytest.approx(147.01 / 219.07, rel=1e-3),
    }


def test_the_dry_form_of_the_catalogue_is_called_by_its_name(chemistry):
    assert dict(other_forms(chemistry.substances["glucose-monohydrate"], chemistry)) == {
        "anhydrous glucose": pytest.approx(198.17 / 180.16, rel=1e-3)
    }
    assert dict(other_forms(chemistry.substances["glucose"], chemistry)) == {
        "glucose monohydrate": pytest.approx(180.16 / 198.17, rel=1e-3)
    }


@pytest.mark.parametrize("substance", ["succinylated-gelatin", "sodium-chloride"])
def test_what_has_no_other_form_has_none(chemistry, substance):
    """A colloid has no formula; a salt without water has the dry form alone."""
    assert list(other_forms(chemistry.substances[substance], chemistry)) == []


@pytest.mark.parametrize(
    ("formula", "dry"), [("CaCl2(H2O)2", "CaCl2"), ("C6H12O6(H2O)", "C6H12O6"), ("NaCl", "NaCl")]
)
def test_a_formula_without_its_water(formula, dry):
    assert dry_formula(formula) == dry


def test_each_weighed_content_is_read_in_its_other_forms(recipes):
    """What stands before it and after it stays as it is."""
    contents = [
        ("sodium", "10 mmol/L"),
        ("calcium-chloride-dihydrate", "0.1470 g/L"),
        ("sodium-lactate", "20 mmol/L"),
        ("potassium-chloride", "0.7455 g/L"),
    ]
    found = recipes(contents)
    assert named(found) == [
        ("hydrate", "the same grams weighed as anhydrous calcium chloride"),
        ("hydrate", "the same grams weighed as calcium chloride hexahydrate"),
    ]
    assert [recipe.id for recipe in found] == ["test-fluid 0", "test-fluid 1"]
    for recipe, calcium in zip(found, (1.3246, 0.6710), strict=True):
        assert known(recipe, "calcium") == pytest.approx(calcium, rel=1e-3)
        assert known(recipe, "sodium") == pytest.approx(30.0)
        assert known(recipe, "lactate") == pytest.approx(20.0)
        assert known(recipe, "potassium") == pytest.approx(10.0, rel=1e-3)


@pytest.mark.parametrize("amount", ["1 mmol/L", "trace", "not declared"])
def test_only_grams_can_be_those_of_another_form(recipes, amount):
    assert named(recipes([("calcium-chloride-dihydrate", amount)])) == []


@pytest.mark.parametrize(
    ("amount", "ends"),
    [("147.0 to 294.0 mg/L", (1.3246, 2.6492)), ("at most 147.0 mg/L", (0.0, 1.3246))],
)
def test_both_ends_of_a_range_are_those_of_the_other_form(recipes, amount, ends):
    dry = recipes([("calcium-chloride-dihydrate", amount)])[0]
    assert dry.solution.ranges["calcium"] == pytest.approx(ends, rel=1e-3)


@pytest.mark.parametrize(
    ("amount", "mass"),
    [
        ("0.27 g/L", True),
        ("270 mg/L", True),
        ("0.27 g per 1000 mL", True),
        ("5 % w/v", True),
        ("2 mmol/L", False),
        ("2 mEq per 500 mL", False),
        ("trace", False),
    ],
)
def test_which_amounts_are_masses(amount, mass):
    assert in_grams(parse_amount(amount)) is mass


# Another published recipe.


@pytest.mark.parametrize(
    ("contents", "other", "also"),
    [
        # The same salt in another hydrate is no other salt, and neither are its ions.
        (
            [("calcium-chloride-dihydrate", "147 mg/L")],
            [("calcium-chloride-hexahydrate", "219 mg/L")],
            "",
        ),
        ([("sodium", "9 mmol/L"), ("chloride", "9 mmol/L")], [("sodium-chloride", "526 mg/L")], ""),
        (
            [("sodium", "9 mmol/L"), ("chloride", "9 mmol/L"), ("lactate", "0 mmol/L")],
            [("sodium-chloride", "526 mg/L")],
            "",
        ),
        # What is neither there nor made of the ions that are there is named.
        (
            [("sodium", "9 mmol/L"), ("chloride", "9 mmol/L")],
            [("potassium-chloride", "746 mg/L")],
            ", which also holds potassium chloride",
        ),
        (
            [("sodium-chloride", "526 mg/L")],
            [
                ("sodium-chloride", "526 mg/L"),
                ("potassium-chloride", "746 mg/L"),
                ("sodium-lactate", "1 g/L"),
            ],
            ", which also holds potassium chloride and sodium lactate",
        ),
        # A colloid is known by its id.
        ([("succinylated-gelatin", "40 g/L")], [("succinylated-gelatin", "30 g/L")], ""),
        (
            [("succinylated-gelatin", "40 g/L"), ("sodium-chloride", "526 mg/L")],
            [("human-albumin", "40 g/L"), ("glucose", "50 g/L")],
            ", which also holds {albumin} and {glucose}",
        ),
    ],
)
def test_a_published_recipe_says_what_only_it_holds(chemistry, recipes, contents, other, also):
    names = {
        "albumin": chemistry.substances["human-albumin"].name.lower(),
        "glucose": chemistry.substances["glucose"].name.lower(),
    }
    found = recipes(contents, variants=[variant(*other)])
    words = f"the published recipe “other”{also.format(**names)}"
    assert ("variant", words) in named(found)


def test_every_published_recipe_is_read_after_the_hydrates(recipes):
    both = [
        variant(("glucose", "55 g/L"), name="one"),
        variant(("glucose", "60 g/L"), name="two"),
    ]
    found = recipes([("glucose", "50 g/L")], variants=both)
    assert named(found) == [
        ("hydrate", "the same grams weighed as glucose monohydrate"),
        ("variant", "the published recipe “one”"),
        ("variant", "the published recipe “two”"),
    ]
    assert known(found[2], "glucose") == pytest.approx(60 / 0.18016, rel=1e-3)


# Masses that are themselves rounded.


@pytest.mark.parametrize(
    ("amount", "roughly"),
    [
        ("0.4 g/L", True),
        ("0.27 g/L", True),
        ("1.5 g/L", True),
        ("0.004 g per 100 mL", True),
        ("0.9 % w/v", True),
        ("0.270 g/L", False),
        ("3.17 g/L", False),
        ("10.5 g/L", False),
        ("9 g/L", False),
        ("50 g/L", False),
        ("0.4 mmol/L", False),
        ("0.4 to 0.5 g/L", False),
        ("at most 0.4 g/L", False),
        ("trace", False),
    ],
)
def test_a_mass_with_decimals_and_two_figures_or_fewer_is_rough(amount, roughly):
    content = Content(substance="sodium-chloride", amount=amount)
    assert rough(content) is roughly


def test_half_a_unit_lighter_and_half_a_unit_heavier(recipes):
    """Every roughly written mass at once; the others stay as they are."""
    contents = [
        ("sodium-chloride", "0.58 g/L"),
        ("potassium-chloride", "0.4 g/L"),
        ("sodium-lactate", "3.172 g/L"),
        ("magnesium", "2 mmol/L"),
    ]
    light, heavy = recipes(contents)
    assert named([light, heavy]) == [("light", ""), ("heavy", "")]
    # 58.44 and 74.55 g/mol.
    assert known(light, "chloride") == pytest.approx(575 / 58.44 + 350 / 74.55, rel=1e-3)
    assert known(heavy, "chloride") == pytest.approx(585 / 58.44 + 450 / 74.55, rel=1e-3)
    assert known(light, "lactate") == known(heavy, "lactate")
    assert known(light, "magnesium") == known(heavy, "magnesium") == 2.0
    assert light.solution.ranges == {}


def test_exact_masses_have_no_lighter_and_heavier_reading(recipes):
    assert named(recipes([("sodium-chloride", "9 g/L"), ("potassium-chloride", "0.300 g/L")])) == []


# All at once.


def test_the_wanted_quantities_of_every_recipe_stand_in_one_table(chemistry, recipes):
    found = recipes([("glucose", "50 g/L")], variants=[variant(("glucose", "55 g/L"))])
    table = batch([found, ()], ["glucose", "osmolarity"], chemistry)
    assert set(table.numbers) == {"glucose", "osmolarity"}
    assert [table.value(recipe.id, "osmolarity").number for recipe in found] == [
        pytest.approx(50 / 0.19817, rel=1e-3),
        pytest.approx(55 / 0.18016, rel=1e-3),
    ]
