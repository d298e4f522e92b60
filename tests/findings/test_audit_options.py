"""Conventions behind a printed figure: what each would print, and which of them fits first."""

import pytest

from isofolio.findings.audit_options import fitting, options

SUGAR = ("glucose", "50 g/L")
MONOHYDRATE = "the same grams weighed as glucose monohydrate"
FOUR = "4.0 kcal per gram of anhydrous glucose"
US = "3.4 kcal per gram of glucose monohydrate"
AVAILABLE = "3.75 kcal per gram of anhydrous glucose"
ADDED = ", organic anions added"
CALCIUM = [("calcium-chloride-dihydrate", "0.200 g/L")]
SEEN = {"source": "a-label", "at": "table 1", "seen": "read", "on": "2026-11-25"}


def plain(text):
    return text.replace("\u00a0", " ").replace("\u202f", " ")


@pytest.fixture
def tried(bench):
    """Every option of the first printed figure of an invented fluid: its number and its words."""

    def found(contents, values):
        made, groups = bench(fluid=(contents, values))
        return [
            (round(option.number, 2), plain(option.words), option.recipe and option.recipe.sort)
            for option in options(groups["fluid"][0][0], "fluid", made)
        ]

    return found


# Glucose 50 g/L: 200 kcal/L anhydrous; 55 g as monohydrate make 187. Weighed as the monohydrate it
# is 45.5 g anhydrous. Lactate of 3.10 g/L adds 8.9. By hand.
WITH_LACTATE = [
    (190.7, f"{FOUR}, with {MONOHYDRATE}{ADDED} (191 kcal/L)", "hydrate"),
    (178.88, f"{US}, with {MONOHYDRATE}{ADDED} (179 kcal/L)", "hydrate"),
    (179.34, f"{AVAILABLE}, with {MONOHYDRATE}{ADDED} (179 kcal/L)", "hydrate"),
]
READ_AS_MONOHYDRATE = [
    (181.82, f"{FOUR}, with {MONOHYDRATE} (182 kcal/L)", "hydrate"),
    (170.0, f"{US}, with {MONOHYDRATE} (170 kcal/L)", "hydrate"),
    (170.46, f"{AVAILABLE}, with {MONOHYDRATE} (170 kcal/L)", "hydrate"),
]


def test_an_energy_is_worked_out_by_every_factor(tried):
    """The factor of the quantity itself is ours, and no other convention."""
    assert tried([SUGAR], {"energy": "300 kcal/L"}) == [
        (187.0, f"{US} (187 kcal/L)", None),
        (187.5, f"{AVAILABLE} (188 kcal/L)", None),
        (181.82, f"{MONOHYDRATE} (182 kcal/L)", "hydrate"),
        *READ_AS_MONOHYDRATE,
    ]
    assert tried([SUGAR], {"energy_us": "300 kcal/L"}) == [
        (200.0, f"{FOUR} (200 kcal/L)", None),
        (187.5, f"{AVAILABLE} (188 kcal/L)", None),
        (170.0, f"{MONOHYDRATE} (170 kcal/L)", "hydrate"),
        *READ_AS_MONOHYDRATE,
    ]


def test_with_and_without_the_organic_anions(tried):
    contents = [SUGAR, ("sodium-lactate", "3.10 g/L")]
    both = [each for pair in zip(READ_AS_MONOHYDRATE, WITH_LACTATE, strict=True) for each in pair]
    assert tried(contents, {"energy": "300 kcal/L"}) == [
        (208.88, f"{FOUR}{ADDED} (209 kcal/L)", None),
        (187.0, f"{US} (187 kcal/L)", None),
        (195.88, f"{US}{ADDED} (196 kcal/L)", None),
        (187.5, f"{AVAILABLE} (188 kcal/L)", None),
        (196.38, f"{AVAILABLE}{ADDED} (196 kcal/L)", None),
        (181.82, f"{MONOHYDRATE} (182 kcal/L)", "hydrate"),
        *both,
    ]


@pytest.mark.parametrize("quantity", ["energy", "energy_us"])
def test_without_glucose_there_is_no_factor_to_try(tried, quantity):
    assert tried([("sodium-lactate", "3.10 g/L")], {quantity: "300 kcal/L"}) == []


@pytest.mark.parametrize(
    ("contents", "quantity", "printed", "slips"),
    [
        (
            CALCIUM,
            "calcium",
            "9 mmol/L",
            [(2.72, "milliequivalents printed as millimoles (2.7 mEq/L)", None)],
        ),
        (
            CALCIUM,
            "calcium",
            "9 mEq/L",
            [(0.68, "millimoles printed as milliequivalents (1.4 mmol/L)", None)],
        ),
        # Of one charge both are the same, and what is not there is neither.
        ([("sodium-chloride", "9 g/L")], "sodium", "9 mEq/L", []),
        ([("sodium-chloride", "9 g/L")], "calcium", "9 mEq/L", []),
        ([("sodium-chloride", "9 g/L")], "osmolarity", "9 mOsm/L", []),
        ([("magnesium-chloride-hexahydrate", "0.300 g/L")], "magnesium", "trace", []),
    ],
)
def test_an_ion_of_more_than_one_charge_in_the_wrong_unit(
    tried, contents, quantity, printed, slips
):
    found = tried(contents, {quantity: printed})
    assert [each for each in found if each[2] is None] == slips


def test_a_recipe_that_gives_our_own_figure_is_no_other_convention(bench):
    """Only what it changes: the chloride of a hydrate, but not the sodium beside it."""
    contents = [*CALCIUM, ("sodium-chloride", "9 g/L")]
    made, groups = bench(fluid=(contents, {"sodium": "140 mmol/L", "calcium": "9 mmol/L"}))
    sodium, calcium = groups["fluid"][0]
    assert list(options(sodium, "fluid", made)) == []
    assert [plain(option.words) for option in options(calcium, "fluid", made)][:2] == [
        "the same grams weighed as anhydrous calcium chloride (1.8 mmol/L)",
        "the same grams weighed as calcium chloride hexahydrate (0.9 mmol/L)",
    ]


def test_of_a_fluid_whose_figures_are_all_exact_no_other_recipe_is_read(tried):
    assert tried([SUGAR], {"energy": "200 kcal/L"}) == [
        (187.0, f"{US} (187 kcal/L)", None),
        (187.5, f"{AVAILABLE} (188 kcal/L)", None),
    ]


def test_a_mass_that_may_be_rounded_is_no_convention(tried):
    """It explains, where no convention fits; see the reasons."""
    assert tried([("sodium-chloride", "0.58 g/L")], {"sodium": "12 mmol/L"}) == []


@pytest.fixture
def fit(bench):
    """What fits the last of the figures of one source, and what fits it alone."""

    def found(contents, values):
        made, groups = bench(fluid=(contents, values))
        (group,) = groups["fluid"]
        return tuple(
            option and plain(option.words) for option in fitting(group[-1], "fluid", group, made)
        )

    return found


WEIGHED = f"{MONOHYDRATE} (252 mOsm/L)"
MIXED = {"glucose": "278 mmol/L", "osmolarity": "252 mOsm/L"}


@pytest.mark.parametrize(
    ("contents", "values", "first", "mixed"),
    [
        ([SUGAR], {"osmolarity": "252 mOsm/L"}, WEIGHED, None),
        ([SUGAR], {"osmolarity": "253 mOsm/L"}, WEIGHED, None),
        ([SUGAR], {"osmolarity": "256 mOsm/L"}, None, None),
        ([SUGAR], {"osmolarity": "trace", "sodium": "trace"}, None, None),
        # A step of ten is a coarse one: only an exact fit counts.
        ([SUGAR], {"glucose": "0.2 mmol/mL"}, None, None),
        # Another exact figure of the source refuses a recipe; one that is not exact does not.
        ([SUGAR], MIXED, None, WEIGHED),
        ([SUGAR], {"glucose": "252 mmol/L", "osmolarity": "252 mOsm/L"}, WEIGHED, None),
        ([SUGAR], {"glucose": "300 mmol/L", "osmolarity": "252 mOsm/L"}, WEIGHED, None),
        # An exact fit goes before a rounded one that is tried earlier.
        ([SUGAR], {"energy": "188 kcal/L"}, f"{AVAILABLE} (188 kcal/L)", None),
        ([SUGAR], {"energy": "187 kcal/L"}, f"{US} (187 kcal/L)", None),
    ],
)
def test_the_convention_that_fits(fit, contents, values, first, mixed):
    assert fit(contents, values) == (first, mixed)


def test_a_rounded_fit_counts_where_a_step_is_fine(fit):
    """A step of 0.01 beside 2.72 says something; a step of 1 says nothing."""
    assert fit(CALCIUM, {"calcium": "2.70 mmol/L"}) == (
        "milliequivalents printed as millimoles (2.7 mEq/L)",
        None,
    )
    assert fit(CALCIUM, {"calcium": "4 mmol/L"}) == (None, None)


def test_a_convention_without_a_recipe_is_refused_by_no_other_figure(fit):
    values = {"glucose": "278 mmol/L", "energy": "187 kcal/L"}
    assert fit([SUGAR], values) == (f"{US} (187 kcal/L)", None)


def test_a_factor_counted_from_another_reading_is_refused_as_that_reading_is(fit):
    """The first that fits is told: the glucose beside it refuses each."""
    values = {"glucose": "278 mmol/L", "energy": "170 kcal/L"}
    assert fit([SUGAR], values) == (None, f"{US}, with {MONOHYDRATE} (170 kcal/L)")
    values = {"glucose": "278 mmol/L", "energy": "179 kcal/L"}
    contents = [SUGAR, ("sodium-lactate", "3.10 g/L")]
    assert fit(contents, values) == (None, f"{US}, with {MONOHYDRATE}{ADDED} (179 kcal/L)")
