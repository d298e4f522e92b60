"""From the contents of a recipe to what a litre holds, amount by amount."""

import pytest

from isofolio.chemistry.composition import NOT_WHOLE
from isofolio.entries.fluids import Content, Fluid
from isofolio.entries.scalars import parse_amount
from isofolio.measures.solutions import (
    concentration,
    converts,
    millimoles_of_particle,
    millimoles_of_substance,
    solution_of,
)
from isofolio.measures.values import Value


def weighed(substance, amount, **more):
    return {"substance": substance, "amount": amount, **more}


def ion(particle, amount):
    return {"particle": particle, "amount": amount}


@pytest.mark.parametrize(
    ("text", "wanted", "figure"),
    [
        ("9 g/L", "g/L", 9.0),
        ("0.9 % w/v", "g/L", 9.0),
        ("600 mg/100 mL", "g/L", 6.0),
        ("150 mg/mL", "g/L", 150.0),
        ("20 mmol per 500 mL", "mmol/L", 40.0),
        ("6.8 mmol per 10 mL", "mmol/L", 680.0),
        ("2 mmol/mL", "mmol/L", 2000.0),
        ("3 mEq/L", "mEq/L", 3.0),
    ],
)
def test_concentration_in_the_wanted_unit(text, wanted, figure):
    amount = parse_amount(text)
    assert concentration(amount, amount.low, wanted) == pytest.approx(figure, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("9 g/L", "mmol/L"),
        ("3 mEq/L", "mmol/L"),
        ("308 mOsm/L", "mmol/L"),
        ("9 g", "g/L"),
        ("20 mmol/kg", "mmol/L"),
    ],
)
def test_units_that_do_not_convert_give_none_and_never_a_number(text, wanted):
    amount = parse_amount(text)
    assert concentration(amount, amount.low, wanted) is None


def test_no_figure_gives_none():
    assert concentration(parse_amount("trace"), None, "mmol/L") is None
    assert concentration(parse_amount("at most 2 mmol/L"), None, "mmol/L") is None


def test_milliequivalents_of_a_particle_by_its_charge():
    three = parse_amount("3 mEq/L")
    assert millimoles_of_particle(three, 3.0, 2) == 1.5
    assert millimoles_of_particle(three, 3.0, -1) == 3.0
    assert millimoles_of_particle(three, 3.0, 0) is None  # a sugar carries no charge


def test_grams_of_a_substance_by_its_form_as_weighed(catalogue):
    fifty = parse_amount("50 g/L")
    dry, hydrate = catalogue.substances["glucose"], catalogue.substances["glucose-monohydrate"]
    assert millimoles_of_substance(fifty, 50.0, dry) == pytest.approx(277.54, abs=0.005)
    assert millimoles_of_substance(fifty, 50.0, hydrate) == pytest.approx(252.31, abs=0.005)


def test_millimoles_of_a_colloid_are_not_made_from_grams(catalogue):
    assert (
        millimoles_of_substance(parse_amount("40 g/L"), 40.0, catalogue.substances["dextran-40"])
        is None
    )


@pytest.mark.parametrize(
    ("content", "fits"),
    [
        (ion("sodium", "154 mmol/L"), True),
        (ion("calcium", "3 mEq/L"), True),
        (ion("glucose", "3 mEq/L"), False),
        (ion("sodium", "9 g/L"), False),
        (ion("sodium", "not declared"), True),
        (ion("potassium", "at most 2 mmol/L"), True),
        (weighed("sodium-chloride", "9 g/L"), True),
        (weighed("sodium-chloride", "20 mmol per 500 mL"), True),
        (weighed("sodium-chloride", "308 mOsm/L"), False),
        (weighed("sodium-chloride", "9 mL/L"), False),
        (weighed("human-albumin", "40 g/L"), True),
        (weighed("human-albumin", "40 mmol/L"), False),
    ],
)
def test_whether_an_amount_can_be_a_concentration(catalogue, content, fits):
    assert converts(Content(**content), catalogue) is fits


def test_a_container_amount_is_per_litre_in_the_end(solution):
    made = solution(weighed("potassium-chloride", "20 mmol per 500 mL"))
    assert made.composition.known == {"potassium": 40.0, "chloride": 40.0}
    assert made.masses["potassium-chloride"] == pytest.approx(40.0 * 74.5483 / 1000.0)


def test_absent_from_a_whole_composition_is_zero(values):
    saline = values(weighed("sodium-chloride", "9 g/L"))
    assert saline["potassium"] == Value(0.0)
    assert saline["glucose"] == Value(0.0)


def test_absent_from_a_composition_that_is_not_whole_is_unknown(values):
    saline = values(weighed("sodium-chloride", "9 g/L"), complete=False)
    assert saline["sodium"].number == pytest.approx(154.0, abs=0.01)
    for quantity in ("potassium", "glucose", "osmolarity", "cation_charge", "charge_gap"):
        assert saline[quantity] == Value(None, NOT_WHOLE)
    assert saline["colloid_mass"] == saline["polyanion_charge"] == Value(None, NOT_WHOLE)


def test_one_amount_that_is_not_declared_leaves_the_rest_open(values):
    albumin = values(
        weighed("human-albumin", "40 g/L"),
        ion("sodium", "140 mmol/L"),
        ion("chloride", "not declared"),
    )
    assert albumin["sodium"] == Value(140.0)
    assert albumin["chloride"] == Value(None, "not declared")
    assert albumin["potassium"] == Value(None, NOT_WHOLE)
    assert albumin["colloid_mass"] == Value(40.0)


@pytest.mark.parametrize(
    ("amount", "reason", "limits"),
    [
        ("130 to 160 mmol/L", "declared as a range", (130.0, 160.0)),
        ("at most 2 mmol/L", "declared as a bound", (0.0, 2.0)),
        ("at most 0.5 mmol per 50 mL", "declared as a bound", (0.0, 10.0)),
        ("130 to 160 mEq/L", "declared as a range", (130.0, 160.0)),
        ("trace", "declared as a trace", None),
        ("not declared", "not declared", None),
    ],
)
def test_an_amount_that_is_not_one_number(solution, values, amount, reason, limits):
    assert values(ion("sodium", amount))["sodium"] == Value(None, reason)
    ranges = solution(ion("sodium", amount)).ranges
    assert ranges == ({} if limits is None else {"sodium": pytest.approx(limits)})


def test_a_range_in_milliequivalents_is_shown_in_millimoles(solution):
    assert solution(ion("calcium", "2 to 4 mEq/L")).ranges == {"calcium": (1.0, 2.0)}


@pytest.mark.parametrize("amount", ["1 to 2 g/L", "at most 2 g/L", "trace"])
def test_a_weighed_amount_that_is_not_one_number_leaves_its_ions_open(values, amount):
    mixed = values(weighed("sodium-chloride", "9 g/L"), weighed("potassium-chloride", amount))
    assert mixed["sodium"].number == pytest.approx(154.0, abs=0.01)
    assert mixed["potassium"].number is None
    assert mixed["chloride"].number is None  # the salt's own part of it is known, the sum is not
    assert mixed["osmolarity"].number is None
    assert "potassium" in mixed["osmolarity"].reason


def test_a_particle_named_twice_is_added(solution):
    made = solution(ion("sodium", "100 mmol/L"), ion("sodium", "54 mmol/L"))
    assert made.composition.known == {"sodium": 154.0}


def test_a_substance_named_twice_is_added(solution):
    made = solution(weighed("sodium-chloride", "4 g/L"), weighed("sodium-chloride", "5 g/L"))
    assert made.composition.known["sodium"] == pytest.approx(154.0, abs=0.01)
    assert made.weighed["sodium-chloride"] == pytest.approx(154.0, abs=0.01)


def test_masses_of_a_substance_named_twice_are_added_too(solution):
    made = solution(weighed("sodium-chloride", "4 g/L"), weighed("sodium-chloride", "5 g/L"))
    assert made.masses["sodium-chloride"] == pytest.approx(9.0)


def test_salts_and_ions_together_are_no_weighed_recipe(solution):
    made = solution(weighed("glucose", "50 g/L"), ion("sodium", "40 mmol/L"))
    assert made.weighed is None
    assert made.masses == {"glucose": 50.0}
    assert made.composition.known["sodium"] == 40.0


class TestAcidAndBase:
    """Malic acid 0.67 g/L is 5 mmol/L; sodium hydroxide 0.2 g/L brings 5 mEq/L."""

    def test_base_decides_the_charge(self, solution, values):
        recipe = (weighed("malic-acid", "5 mmol/L"), weighed("sodium-hydroxide", "5 mmol/L"))
        assert solution(*recipe).charges == {"malate": -1.0}
        made = values(*recipe)
        assert made["malate"] == Value(5.0)
        assert made["anion_charge"].number == pytest.approx(5.0)
        assert made["charge_gap"].number == pytest.approx(0.0, abs=1e-12)

    def test_an_acid_gives_no_more_than_it_has(self, solution, values):
        recipe = (weighed("malic-acid", "5 mmol/L"), weighed("sodium-hydroxide", "12 mmol/L"))
        assert solution(*recipe).charges == {"malate": -2.0}
        assert values(*recipe)["charge_gap"].number == pytest.approx(2.0)  # a base left over shows

    def test_acid_without_base_is_not_charged(self, solution, values):
        assert solution(weighed("malic-acid", "5 mmol/L")).charges == {"malate": 0.0}
        assert values(weighed("malic-acid", "5 mmol/L"))["anion_charge"] == Value(0.0)

    def test_declared_malate_carries_the_charge_of_the_list(self, solution, values):
        recipe = (ion("malate", "5 mmol/L"), ion("sodium", "5 mmol/L"))
        assert solution(*recipe).charges == {}
        assert values(*recipe)["charge_gap"] == Value(0.0)

    def test_base_of_unknown_amount_leaves_every_charge_open(self, values):
        made = values(
            weighed("malic-acid", "5 mmol/L"), weighed("sodium-hydroxide", "4 to 6 mmol/L")
        )
        assert made["malate"] == Value(5.0)
        for quantity in ("sodium", "cation_charge", "anion_charge", "charge_gap"):
            assert made[quantity].number is None


class TestPolyanion:
    GELATIN = weighed("succinylated-gelatin", "40 g/L")
    SALT = weighed("sodium-chloride", "7.01 g/L")

    def test_from_the_base_that_neutralises_it(self, solution, values):
        recipe = (self.GELATIN, self.SALT, weighed("sodium-hydroxide", "1.36 g/L"))
        assert solution(*recipe).polyanion.number == pytest.approx(34.0, abs=0.01)
        assert values(*recipe)["charge_gap"].number == pytest.approx(0.0, abs=1e-9)

    def test_from_the_base_that_an_acid_leaves_over(self, solution):
        made = solution(
            self.GELATIN,
            weighed("malic-acid", "5 mmol/L"),
            weighed("sodium-hydroxide", "40 mmol/L"),
        )
        assert made.charges == {"malate": -2.0}
        assert made.polyanion.number == pytest.approx(30.0)

    def test_declared_figure_goes_before_the_base(self, solution):
        declared = weighed("succinylated-gelatin", "40 g/L", charge="30 mEq/L")
        made = solution(declared, weighed("sodium-hydroxide", "1.36 g/L"))
        assert made.polyanion == Value(30.0)

    def test_unknown_without_either(self, values):
        made = values(self.GELATIN, self.SALT)
        assert made["polyanion_charge"] == Value(None, "the charge of the gelatin is not declared")
        assert made["charge_gap"].number is None
        assert made["sodium"].number == pytest.approx(119.95, abs=0.01)
        assert made["osmolarity"].number == pytest.approx(239.9, abs=0.05)  # ions only

    def test_a_declared_range_is_no_figure(self, solution):
        declared = weighed("succinylated-gelatin", "40 g/L", charge="30 to 34 mEq/L")
        assert solution(declared).polyanion.number is None

    def test_albumin_says_protein(self, solution):
        made = solution(weighed("human-albumin", "40 g/L"))
        assert made.polyanion == Value(None, "the charge of the protein is not declared")

    @pytest.mark.parametrize("colloid", ["dextran-40", "dextran-70", "hydroxyethyl-starch-130-0-4"])
    def test_uncharged_colloids_have_none(self, values, colloid):
        made = values(weighed(colloid, "60 g/L"), weighed("sodium-chloride", "9 g/L"))
        assert made["polyanion_charge"] == Value(0.0)
        assert made["charge_gap"].number == pytest.approx(0.0, abs=1e-9)
        assert made["colloid_mass"] == Value(60.0)
        assert made["osmolarity"].number == pytest.approx(308.0, abs=0.05)  # no particle of its own

    def test_two_colloids_of_which_one_is_declared_are_unknown(self, solution):
        made = solution(self.GELATIN, weighed("urea-linked-gelatin", "35 g/L", charge="17 mEq/L"))
        assert made.polyanion.number is None


@pytest.mark.parametrize("amount", ["188 to 212 g/L"])
def test_a_range_of_a_colloid_is_unknown(values, amount):
    made = values(weighed("human-albumin", amount))
    assert made["colloid_mass"] == Value(None, "declared as a range")


@pytest.mark.parametrize(
    ("amount", "reason"),
    [
        ("at most 200 g/L", "declared as a bound"),
        ("trace", "declared as a trace"),
        ("not declared", "not declared"),
    ],
)
def test_an_unknown_mass_of_a_colloid_says_how_it_was_declared(values, amount, reason):
    assert values(weighed("human-albumin", amount))["colloid_mass"] == Value(None, reason)


def test_a_range_beside_a_known_part_covers_both(solution):
    # 154 mmol/L weighed and 1 to 2 declared: the sum lies between 155 and 156, not 1 and 2.
    made = solution(weighed("sodium-chloride", "9 g/L"), ion("sodium", "1 to 2 mmol/L"))
    assert made.ranges["sodium"] == pytest.approx((155.0, 156.0), abs=0.01)


def test_a_weighed_range_is_a_range_of_its_ions(solution):
    made = solution(weighed("potassium-chloride", "1.5 to 3 g/L"))
    assert made.ranges["potassium"] == pytest.approx((20.12, 40.24), abs=0.01)


def test_an_empty_recipe_is_water(values):
    water = values()
    for quantity in ("sodium", "glucose", "osmolarity", "osmolality", "energy", "charge_gap"):
        assert water[quantity] == Value(0.0)


def test_an_entry_by_its_own_fields(catalogue):
    fluid = Fluid(
        id="test-fluid",
        name="Test fluid",
        role="ready",
        status="current",
        contents=[ion("sodium", "140 mmol/L")],
        contents_cite="common practice",
        complete="no",
        review={"state": "draft"},
    )
    made = solution_of(fluid, catalogue)
    assert made.composition.known == {"sodium": 140.0}
    assert not made.composition.complete
    assert made.composition.reason("chloride") == NOT_WHOLE
