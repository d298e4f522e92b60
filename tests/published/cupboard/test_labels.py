"""The cupboard against labels and product texts, each figure within half a printed unit.

Where ours and the label differ by more, the difference (ours less printed) and why stand beside
the row. Grades: read (the text itself seen), copy (a copy of it seen).
"""

import pytest

ROWS = [
    # Sodium chloride. US labels (read); a second label of 3 % (copy); 5 %: two labels (copy).
    ("sodium-chloride-0-45", {"sodium": "77", "chloride": "77", "osmolarity": "154"}, {}),
    ("sodium-chloride-0-9", {"sodium": "154", "chloride": "154", "osmolarity": "308"}, {}),
    ("sodium-chloride-3", {"sodium": "513", "chloride": "513", "osmolarity": "1027"}, {}),
    ("sodium-chloride-3", {"osmolarity": "1030"}, {}),  # the same, rounded to ten
    ("sodium-chloride-5", {"sodium": "856", "osmolarity": "1710"}, {}),
    ("sodium-chloride-5", {"sodium": "855"}, {"sodium": 0.582}),  # 855.6, cut off
    # Glucose. UK product texts (read; 10 %: copy): millimoles anhydrous, 4 kcal/g.
    ("glucose-5", {"osmolarity": "278", "energy": "200"}, {}),
    ("glucose-10", {"osmolarity": "555", "energy": "400"}, {}),
    # US labels (read): hydrous.
    ("dextrose-5-usp", {"osmolarity": "252", "energy_us": "170"}, {}),
    # A second US label (read) rounds 252.3 up; 2530 for 50 % hangs together with it. No atomic
    # weights and no hydrate give 253.0: the cause was not found.
    ("dextrose-5-usp", {"osmolarity": "253"}, {"osmolarity": -0.693}),
    ("sodium-chloride-0-18-glucose-4", {"energy": "160"}, {}),  # UK (read)
    # The same text prints sodium and chloride 30 (read), "approximately"; 1.8 g/L are 30.8.
    (
        "sodium-chloride-0-18-glucose-4",
        {"sodium": "30", "chloride": "30"},
        {"sodium": 0.801, "chloride": 0.801},
    ),
    # Compound sodium lactate, four UK texts and data sheets (copy); see the composition tables.
    (
        "compound-sodium-lactate",
        {
            "sodium": "131",
            "potassium": "5",
            "calcium": "4 mEq",
            "chloride": "111",
            "lactate": "29",
            "osmolarity": "278",
        },
        {"chloride": 0.709, "lactate": -0.712},
    ),
    # Lactated Ringer's, US labels (copy). A second label (copy) rounds the chloride up and prints
    # 275, which is 130 + 4 + 3 + 110 + 28: it adds calcium in mEq, not in mmol.
    (
        "ringer-lactate-usp",
        {
            "sodium": "130",
            "potassium": "4",
            "calcium": "2.7 mEq",
            "chloride": "109",
            "lactate": "28",
            "osmolarity": "273",
        },
        {},
    ),
    (
        "ringer-lactate-usp",
        {"calcium": "3 mEq", "chloride": "110", "osmolarity": "275"},
        {"chloride": -0.585, "osmolarity": -2.203},
    ),
    ("ringer-lactate-dextrose-5-usp", {"osmolarity": "525"}, {}),  # US label (copy)
    # Ringer's injection, US label line (copy). 310 is 309.1 rounded to ten.
    (
        "ringer-injection-usp",
        {
            "sodium": "147",
            "potassium": "4",
            "calcium": "4.5 mEq",
            "chloride": "156",
            "osmolarity": "309",
        },
        {},
    ),
    ("ringer-injection-usp", {"osmolarity": "310"}, {"osmolarity": -0.897}),
    # Multiple electrolytes type 1, two US labels (copy): 294 and 295 for 294.5.
    (
        "multiple-electrolytes-type-1",
        {
            "sodium": "140",
            "potassium": "5",
            "magnesium": "3 mEq",
            "chloride": "98",
            "acetate": "27",
            "gluconate": "23",
            "osmolarity": "295",
        },
        {},
    ),
    ("multiple-electrolytes-type-1", {"osmolarity": "294"}, {"osmolarity": 0.518}),
    # Acetate and malate, UK text (copy): 308.5 from its own ions, which others print as 304 to 309.
    ("acetate-malate-balanced", {"osmolarity": "309"}, {}),
    # Sodium bicarbonate. 4.2 and 8.4 %: US labels (read).
    (
        "sodium-bicarbonate-4-2",
        {"sodium": "500", "bicarbonate": "500", "osmolarity": "1000"},
        {},
    ),
    (
        "sodium-bicarbonate-8-4",
        {"sodium": "1000", "bicarbonate": "1000", "osmolarity": "2000"},
        {},
    ),
    ("sodium-lactate-m6", {"sodium": "167", "lactate": "167", "osmolarity": "334"}, {}),  # copy
    # Mannitol. UK product text (read).
    ("mannitol-10", {"osmolarity": "549"}, {}),
    ("mannitol-15", {"osmolarity": "823"}, {}),
    # US labels (read) print multiples of 275, the rounded 274.5 of 5 %: 550, 825, 1100.
    ("mannitol-10", {"osmolarity": "550"}, {"osmolarity": -1.068}),
    ("mannitol-15", {"osmolarity": "825"}, {"osmolarity": -1.602}),
    ("mannitol-20", {"osmolarity": "1100"}, {}),  # rounded to ten in print, hence no difference
    # Succinylated gelatin, UK product texts of 2023 (read).
    ("succinylated-gelatin-4", {"sodium": "154", "chloride": "120", "osmolarity": "274"}, {}),
    ("succinylated-gelatin-4-balanced", {"osmolarity": "284"}, {}),  # its ions are the text's own
    # Dextran 40 in sodium chloride (US label, read): 310 counts the dextran too, 100 g of
    # 40 000 g/mol being 2.5 mmol. A colloid is no particle here.
    ("dextran-40-10", {"sodium": "154", "osmolarity": "310"}, {"osmolarity": -1.991}),
]


@pytest.mark.parametrize(("fluid", "printed", "explained"), ROWS)
def test_printed_labels(figures, differences, fluid, printed, explained):
    found = differences(figures(fluid), printed)
    assert found == pytest.approx(explained, abs=0.001)


# What a container or a millilitre is said to hold: fluid, mL, quantity, printed, difference.
PER_VOLUME = [
    # UK national availability tables (read).
    ("potassium-chloride-0-15-glucose-5", 500, "potassium", "10", 0.0),
    ("potassium-chloride-0-15-sodium-chloride-0-9", 500, "potassium", "10", 0.0),
    ("potassium-chloride-0-15-sodium-chloride-0-18-glucose-4", 500, "potassium", "10", 0.0),
    ("potassium-chloride-0-3-glucose-5", 500, "potassium", "20", 0.0),
    ("potassium-chloride-0-3-sodium-chloride-0-9", 500, "potassium", "20", 0.0),
    ("potassium-chloride-0-3-sodium-chloride-0-45-glucose-5", 500, "potassium", "20", 0.0),
    ("potassium-chloride-0-2-glucose-5", 1000, "potassium", "27", 0.0),  # arithmetic: 26.8
    ("sodium-chloride-30", 1, "sodium", "5.13", 0.0),  # UK product text (copy)
    ("sodium-bicarbonate-1-26", 500, "bicarbonate", "75", 0.0),  # copy
    ("potassium-chloride-15", 10, "potassium", "20", 0.0),  # UK product text (read)
    ("potassium-chloride-7-45", 1, "potassium", "1", 0.0),  # copy
    ("calcium-chloride-10", 10, "calcium", "6.8", 0.0),  # UK safety alert 2023 (copy)
    # A US label prints 13.5 mEq (copy): 6.8 mmol are 13.6, and it rounds half a unit down.
    ("calcium-chloride-10", 10, "calcium", "13.5 mEq", 0.105),
    ("calcium-gluconate-10", 10, "calcium", "2.2", 0.0),  # UK and Australian labels (copy)
    ("magnesium-sulfate-50", 1, "magnesium", "2", 0.0),  # arithmetic, "about 2 mmol/mL"
    ("magnesium-sulfate-50", 1, "magnesium", "4 mEq", 0.0),
    ("potassium-dihydrogen-phosphate-13-6", 1, "potassium", "1", 0.0),  # copy
    ("potassium-dihydrogen-phosphate-13-6", 1, "phosphate", "1", 0.0),
    ("sodium-glycerophosphate-21-6", 1, "glycerophosphate", "1.00", 0.0),  # US FDA listing (read)
    ("sodium-glycerophosphate-21-6", 1, "sodium", "2.00", 0.0),
]


@pytest.mark.parametrize(("fluid", "volume", "quantity", "printed", "difference"), PER_VOLUME)
def test_amount_of_a_volume(handbook, differences, fluid, volume, quantity, printed, difference):
    def holds(name):
        return handbook.in_container(fluid, name, volume).number

    found = differences(holds, {quantity: printed})
    assert found.get(quantity, 0.0) == pytest.approx(difference, abs=0.001)


@pytest.mark.parametrize(
    ("gluconate", "saccharate", "calcium", "osmolarity"),
    [
        # Per mL: gluconate monohydrate [mg], calcium saccharate [mmol]; calcium as printed [mmol
        # in 10 mL]; osmolarity as printed. UK product texts and a US label, 0.465 mEq/mL (copy).
        ("95 mg/mL", 0.0112, 2.23, None),
        ("94 mg/mL", 0.0150, 2.25, 660.0),
        ("98 mg/mL", 4.6 / 320.27, 2.325, 680.0),
    ],
)
def test_calcium_gluconate_labels_count_the_saccharate(
    solved, gluconate, saccharate, calcium, osmolarity
):
    # Labels print 2.23 to 2.32 mmol where 100 mg/mL alone hold 2.23: they weigh less gluconate and
    # add saccharate (320.27 g/mol as tetrahydrate: arithmetic), one calcium and one anion each.
    number_of = solved(("calcium-gluconate-monohydrate", gluconate))
    assert number_of("calcium") / 100.0 + 10.0 * saccharate == pytest.approx(calcium, abs=0.006)
    if osmolarity is not None:
        counted = number_of("osmolarity") + 2000.0 * saccharate
        assert counted == pytest.approx(osmolarity, abs=5.0)


def test_lactated_ringer_with_dextrose_counts_the_energy_of_lactate(figures):
    # US labels print 179 and 180 kcal/L (copy): 170 for the dextrose and 9 for the lactate, which
    # we keep apart.
    number_of = figures("ringer-lactate-dextrose-5-usp")
    assert number_of("energy_us") == pytest.approx(170.0, abs=0.01)
    total = number_of("energy_us") + number_of("energy_organic")
    assert total == pytest.approx(178.9, abs=0.1)


def test_dextran_in_glucose_counts_the_dextran_too(variant):
    # A US label prints 255 mOsm/L (read): 252.3 of hydrous dextrose and 2.5 of the dextran.
    number_of = variant("dextran-40-10", "in glucose 5 % (United States")
    assert number_of("osmolarity") + 100.0 / 40.0 == pytest.approx(255.0, abs=0.5)


@pytest.mark.parametrize(
    ("grams", "lactate", "sodium", "total"),
    [
        # UK, IE and NZ texts (copy): three masses of lactate; the sums are arithmetic.
        ("3.12 g/L", 27.8, 130.5, 277.3),
        ("3.17 g/L", 28.3, 131.0, 278.2),
        ("3.22 g/L", 28.7, 131.4, 279.1),
    ],
)
def test_compound_sodium_lactate_by_its_recipes(solved, grams, lactate, sodium, total):
    number_of = solved(
        ("sodium-chloride", "6.00 g/L"),
        ("potassium-chloride", "0.40 g/L"),
        ("calcium-chloride-dihydrate", "0.27 g/L"),
        ("sodium-lactate", grams),
    )
    assert number_of("lactate") == pytest.approx(lactate, abs=0.05)
    assert number_of("sodium") == pytest.approx(sodium, abs=0.05)
    assert number_of("osmolarity") == pytest.approx(total, abs=0.05)
    assert number_of("lactate") < 29.0  # no recipe reaches the printed 29; the highest rounds to it


SALT, POTASH = "sodium-chloride-0-", "potassium-chloride-0-"
MIXTURES = [
    # Arithmetic from the strengths by the specification: Na, K, Cl, glucose [mmol/L]; mOsm/L.
    (f"{SALT}18-glucose-4", "30.8", "0", "30.8", "222", "284"),
    (f"{SALT}45-glucose-2-5", "77", "0", "77", "139", "293"),
    (f"{SALT}45-glucose-5", "77", "0", "77", "278", "432"),
    (f"{SALT}9-glucose-5", "154", "0", "154", "278", "586"),
    (f"{POTASH}15-{SALT}9", "154", "20.1", "174", "0", "348"),
    (f"{POTASH}2-{SALT}9", "154", "26.8", "181", "0", "362"),
    (f"{POTASH}3-{SALT}9", "154", "40.2", "194", "0", "388"),
    (f"{POTASH}15-glucose-5", "0", "20.1", "20.1", "278", "318"),
    (f"{POTASH}2-glucose-5", "0", "26.8", "26.8", "278", "331"),
    (f"{POTASH}3-glucose-5", "0", "40.2", "40.2", "278", "358"),
    (f"{POTASH}15-{SALT}18-glucose-4", "30.8", "20.1", "51", "222", "324"),
    (f"{POTASH}2-{SALT}18-glucose-4", "30.8", "26.8", "58", "222", "337"),
    (f"{POTASH}3-{SALT}18-glucose-4", "30.8", "40.2", "71", "222", "364"),
    (f"{POTASH}15-{SALT}45-glucose-5", "77", "20.1", "97", "278", "472"),
    (f"{POTASH}3-{SALT}45-glucose-5", "77", "40.2", "117", "278", "512"),
    (f"{POTASH}15-{SALT}9-glucose-5", "154", "20.1", "174", "278", "626"),
    (f"{POTASH}3-{SALT}9-glucose-5", "154", "40.2", "194", "278", "666"),
]


@pytest.mark.parametrize(("fluid", "sodium", "potassium", "chloride", "glucose", "sum_"), MIXTURES)
def test_mixtures(figures, differences, fluid, sodium, potassium, chloride, glucose, sum_):
    printed = {"sodium": sodium, "potassium": potassium, "chloride": chloride}
    printed |= {"glucose": glucose, "osmolarity": sum_}
    assert differences(figures(fluid), printed) == {}
