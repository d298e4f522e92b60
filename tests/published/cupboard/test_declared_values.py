"""Every figure that the catalogue copies from a label, against what we compute.

A group of declared figures (one source) is held against the entry's recipe and its published
variants; the recipe that fits most of it is taken, the entry's own where several do. What is still
off by more than half a printed unit stands in `EXPLAINED`: ours, and the reason. Nothing is fitted:
a new disagreement fails here until somebody has found out why. Grades and places: the entries.
"""

import pytest

from isofolio.measures.columns import columns_from
from isofolio.measures.solutions import concentration, solve
from isofolio.measures.table import table_from
from isofolio.vocabulary.quantities import CHEMICAL_QUANTITIES, DECLARABLE, PARTICLE_QUANTITIES

SACCHARATE = "the label also counts the calcium saccharate that keeps the solution stable"
ALERT = "the alert takes three ampoules for one of calcium chloride, which holds the 6.8"
IN_WHOLE_NUMBERS = "printed to balance in whole numbers; the recipe balances at 111.7 and 28.3"
THE_DEXTRAN_TOO = "the label counts the dextran as well: 100 g of 40 000 g/mol are 2.5 mmol"
TO_FIVE = "this label rounds to five: 320, 405, 560"
UP = "252.3 rounded up; the cause was not found"
HYDROUS_UP = "hydrous, 2523 by the variant; 2530 is ten times the 253 of a label of 5 %"
TWICE_278 = "twice the rounded 278"
APPROXIMATE = "the text calls the figure approximate"
NOT_EVEN_GLUCOSE = "286 for glucose 5 % disagrees with every label; no form of glucose gives it"
SUM_OF_ROUNDED = "the sum of figures that are printed rounded"
ROUND_TITLE = "30 is printed for 1.8 g/L, which hold 30.8, and the sums follow from it"
TO_TEN = "rounded to ten"
NOT_BALANCED = "the printed ions do not balance; 111 would, as the recipe gives"
TO_HALVES = "printed in halves, so that 147.5 + 4 + 4.5 = 156 or 147 + 4 + 4.5 = 155.5"
ENERGY_OF_LACTATE = "the label adds 9 kcal for the lactate, which we keep apart"
CHLORIDE_112 = "130 + 4 + 3 balance with 109 + 28 and not with 112 + 28; 530 follows from it"
CALCIUM_IN_MEQ = "chloride rounded up; 275 = 130 + 4 + 3 + 110 + 28 adds calcium in mEq"
HALF_OF_3_MEQ = "half of 3 mEq, which is 2.72 mEq rounded"
CUT_OFF = "1.667 cut off, not rounded"
OF_5_PERCENT = "the leaflet prints the energy of glucose 5 %; its product text prints 160"
ADC_300 = "sodium rounded to 30; the table's 300 does not follow from its own contents"
ADC_75 = "sodium rounded from 77 to 75, and twice that"
USP_FORM = "406 is the sum with hydrous dextrose, beside a glucose of 278 that is anhydrous"
VIAL_300 = "a calculated 300 beside 154 and 154; the cause was not found"
OLDER_GELATIN = "its ions make 279; what the other 5 are was not found"
KCL_4002 = "4002 is twice 2.001 mmol/mL, which 149.2 g/L would give and not 150"

# (fluid, source): {quantity: ours}, in the printed unit, and why.
EXPLAINED = {
    ("calcium-gluconate-10", "natpsa-2023-007-calcium"): ({"calcium": 6.691}, ALERT),
    ("calcium-gluconate-10", "uk-smpc-calcium-gluconate-94mg"): (
        {"calcium": 2.230, "osmolarity": 669.065},
        SACCHARATE,
    ),
    ("calcium-gluconate-10", "us-label-calcium-gluconate-98mg"): (
        {"calcium": 0.446, "osmolarity": 669.065},
        SACCHARATE,
    ),
    ("compound-sodium-lactate", "uk-smpc-compound-sodium-lactate"): (
        {"chloride": 111.709, "lactate": 28.288},
        IN_WHOLE_NUMBERS,
    ),
    ("compound-sodium-lactate", "ie-smpc-compound-sodium-lactate"): (
        {"chloride": 111.709, "lactate": 28.288},
        IN_WHOLE_NUMBERS,
    ),
    ("compound-sodium-lactate", "nice-cg174"): (
        {"chloride": 111.709, "lactate": 28.288},
        IN_WHOLE_NUMBERS,
    ),
    ("dextran-40-10", "us-label-dextran-40"): ({"osmolarity": 308.009}, THE_DEXTRAN_TOO),
    ("dextrose-5-sodium-chloride-0-2-usp", "us-label-dextrose-sodium-chloride-8e6569ce"): (
        {"osmolarity": 320.754},
        TO_FIVE,
    ),
    ("dextrose-5-sodium-chloride-0-45-usp", "us-label-dextrose-sodium-chloride-8e6569ce"): (
        {"osmolarity": 406.312},
        TO_FIVE,
    ),
    ("dextrose-5-usp", "us-label-dextrose-5-partial-fill"): ({"osmolarity": 252.307}, UP),
    ("glucose-10", "pmc6237920-common-solutions"): (
        {"glucose": 555.074, "osmolarity": 555.074},
        TWICE_278,
    ),
    ("glucose-5", "uk-smpc-glucose-5-march-2022"): ({"osmolality": 289.096}, APPROXIMATE),
    ("glucose-5", "adc-2004-pouring-salt-table"): ({"osmolarity": 277.537}, NOT_EVEN_GLUCOSE),
    ("glucose-50", "us-label-dextrose-50-4ed365da"): ({"osmolarity": 2775.372}, HYDROUS_UP),
    ("maintenance-electrolytes-glucose-5", "nice-cg174"): (
        {"osmolarity": 388.037},
        SUM_OF_ROUNDED,
    ),
    (
        "potassium-chloride-0-15-sodium-chloride-0-18-glucose-4",
        "uk-smpc-potassium-chloride-sodium-chloride-glucose",
    ): ({"sodium": 30.801, "chloride": 50.922, "osmolarity": 323.874}, ROUND_TITLE),
    (
        "potassium-chloride-0-15-sodium-chloride-0-45-glucose-5",
        "us-label-potassium-chloride-dextrose-sodium-chloride",
    ): ({"osmolarity": 446.554}, TO_FIVE),
    (
        "potassium-chloride-0-15-sodium-chloride-0-9",
        "uk-smpc-potassium-chloride-sodium-chloride",
    ): ({"osmolarity": 348.252}, APPROXIMATE),
    (
        "potassium-chloride-0-15-sodium-chloride-0-9",
        "us-label-potassium-chloride-sodium-chloride-ecc38772",
    ): ({"osmolarity": 348.252}, TO_TEN),
    (
        "potassium-chloride-0-3-sodium-chloride-0-18-glucose-4",
        "uk-smpc-potassium-chloride-sodium-chloride-glucose",
    ): ({"sodium": 30.801, "chloride": 71.043, "osmolarity": 364.116}, ROUND_TITLE),
    (
        "potassium-chloride-0-3-sodium-chloride-0-9",
        "uk-smpc-potassium-chloride-sodium-chloride",
    ): ({"osmolarity": 388.494}, APPROXIMATE),
    ("potassium-chloride-15", "uk-smpc-potassium-chloride-15"): (
        {"osmolarity": 4024.237},
        KCL_4002,
    ),
    ("ringer-acetate", "no-product-text-ringer-acetate"): ({"chloride": 110.964}, NOT_BALANCED),
    ("ringer-injection-usp", "us-label-ringer-injection"): ({"sodium": 147.160}, TO_HALVES),
    ("ringer-injection-usp", "uk-smpc-ringer"): (
        {"calcium": 2.245, "chloride": 155.674},
        TO_HALVES,
    ),
    ("ringer-lactate-dextrose-5-usp", "us-label-lactated-ringer-dextrose"): (
        {"energy_us": 170.0},
        ENERGY_OF_LACTATE,
    ),
    ("ringer-lactate-dextrose-5-usp", "us-label-lactated-ringer-dextrose-179"): (
        {"energy_us": 170.0},
        ENERGY_OF_LACTATE,
    ),
    ("ringer-lactate-dextrose-5-usp", "us-label-lactated-ringer-dextrose-530"): (
        {"chloride": 109.415, "osmolarity": 525.104},
        CHLORIDE_112,
    ),
    ("ringer-lactate-usp", "us-label-lactated-ringer-2022"): (
        {"chloride": 109.415, "osmolarity": 272.797},
        CALCIUM_IN_MEQ,
    ),
    ("ringer-lactate-usp", "jicm-2018-sepsis-fluids"): ({"calcium": 1.360}, HALF_OF_3_MEQ),
    ("sodium-bicarbonate-1-4", "fr-product-text-sodium-bicarbonate-1-4"): (
        {"sodium": 1.667, "bicarbonate": 1.667},
        CUT_OFF,
    ),
    ("sodium-chloride-0-18-glucose-4", "uk-smpc-sodium-chloride-0-18-glucose-4-2024"): (
        {"sodium": 30.801, "chloride": 30.801},
        ROUND_TITLE,
    ),
    ("sodium-chloride-0-18-glucose-4", "uk-smpc-sodium-chloride-0-18-glucose-4-older"): (
        {"sodium": 30.801, "chloride": 30.801},
        ROUND_TITLE,
    ),
    ("sodium-chloride-0-18-glucose-4", "uk-leaflet-sodium-chloride-0-18-glucose-4"): (
        {"energy": 160.0},
        OF_5_PERCENT,
    ),
    ("sodium-chloride-0-18-glucose-4", "adc-2004-pouring-salt-table"): (
        {"sodium": 30.801, "osmolarity": 283.632},
        ADC_300,
    ),
    ("sodium-chloride-0-45-glucose-5", "adc-2004-pouring-salt-table"): (
        {"sodium": 77.002},
        ADC_75,
    ),
    ("sodium-chloride-0-45-glucose-5", "pmc6237920-common-solutions"): (
        {"osmolarity": 431.542},
        USP_FORM,
    ),
    ("sodium-chloride-0-45", "adc-2004-pouring-salt-table"): (
        {"sodium": 77.002, "osmolarity": 154.005},
        ADC_75,
    ),
    ("sodium-chloride-0-9", "us-label-sodium-chloride-0-9-vial"): (
        {"osmolarity": 308.009},
        VIAL_300,
    ),
    ("succinylated-gelatin-4", "product-text-gelatin-saline-older"): (
        {"osmolarity": 279.0},
        OLDER_GELATIN,
    ),
}

# Chemistry alone: what becomes of a fluid in the body has its own published tests.
COMPARED = {quantity.id for quantity in PARTICLE_QUANTITIES + CHEMICAL_QUANTITIES}


@pytest.fixture(scope="module")
def audited(handbook):
    """Per fluid and source: what is off beyond half a printed unit, and how many were compared."""
    return {
        (fluid.id, str(group.source)): best_fit(handbook, fluid, group)
        for fluid in handbook.fluids
        for group in fluid.declared
    }


def best_fit(handbook, fluid, group):
    catalogue = handbook.catalogue
    recipes = [fluid.contents, *(variant.contents for variant in fluid.variants)]
    solutions = [solve(recipe, fluid.complete, catalogue) for recipe in recipes]
    names = [str(number) for number in range(len(recipes))]
    table = table_from(columns_from(names, solutions, catalogue), catalogue)
    fits = [fit(lambda q, n=name: table.value(n, q).number, group, catalogue) for name in names]
    return min(fits, key=lambda found: (len(found[0]), -found[1]))


def fit(number_of, group, catalogue):
    """What is off, by quantity, in the printed unit; and how many figures were compared."""
    off, compared = {}, 0
    for quantity, amount in group.values.items():
        ours = number_of(quantity) if quantity in COMPARED else None
        if ours is None or amount.high is None:
            continue
        compared += 1
        figure = ours / per_printed(quantity, amount, catalogue)
        half = half_a_unit(amount)
        if not (amount.low or 0.0) - half <= figure <= amount.high + half:
            off[quantity] = round(figure, 3)
    return off, compared


def per_printed(quantity, amount, catalogue):
    """What 1 in the printed unit is in the unit of the quantity."""
    direct = concentration(amount, 1.0, DECLARABLE[quantity].unit)
    if direct is not None:
        return direct
    equivalents = concentration(amount, 1.0, "mEq/L")
    return equivalents / abs(catalogue.particles[quantity].charge)


def half_a_unit(amount):
    """Half the last printed digit; 5 for a whole number of 1000 and more that ends in zero."""
    rounded = amount.decimals == 0 and amount.high >= 1000 and amount.high % 10 == 0
    return (10.0 if rounded else 10.0**-amount.decimals) / 2 + 1e-9


def test_every_disagreement_is_explained_and_every_explanation_is_needed(audited):
    found = {key: off for key, (off, _) in audited.items() if off}
    assert found == {key: ours for key, (ours, _) in EXPLAINED.items()}


def test_most_figures_were_compared_and_agree(audited):
    compared = sum(count for _, count in audited.values())
    off = sum(len(off) for off, _ in audited.values())
    assert compared > 450
    assert off < 0.15 * compared
