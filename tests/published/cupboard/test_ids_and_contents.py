"""Every fluid of the cupboard is there, and holds what its title says."""

import pytest

# The ids that other pages and other projects link to. They never change.
IDS = [
    "sodium-chloride-0-45",
    "sodium-chloride-0-9",
    "sodium-chloride-1-8",
    "sodium-chloride-2-7",
    "sodium-chloride-3",
    "sodium-chloride-5",
    "glucose-5",
    "glucose-10",
    "glucose-20",
    "glucose-30",
    "glucose-50",
    "dextrose-5-usp",
    "dextrose-10-usp",
    "sodium-chloride-0-18-glucose-4",
    "sodium-chloride-0-45-glucose-2-5",
    "sodium-chloride-0-45-glucose-5",
    "sodium-chloride-0-9-glucose-5",
    "dextrose-5-sodium-chloride-0-2-usp",
    "dextrose-5-sodium-chloride-0-45-usp",
    "dextrose-5-sodium-chloride-0-9-usp",
    "potassium-chloride-0-15-sodium-chloride-0-9",
    "potassium-chloride-0-2-sodium-chloride-0-9",
    "potassium-chloride-0-3-sodium-chloride-0-9",
    "potassium-chloride-0-15-glucose-5",
    "potassium-chloride-0-2-glucose-5",
    "potassium-chloride-0-3-glucose-5",
    "potassium-chloride-0-15-sodium-chloride-0-18-glucose-4",
    "potassium-chloride-0-2-sodium-chloride-0-18-glucose-4",
    "potassium-chloride-0-3-sodium-chloride-0-18-glucose-4",
    "potassium-chloride-0-15-sodium-chloride-0-45-glucose-5",
    "potassium-chloride-0-3-sodium-chloride-0-45-glucose-5",
    "potassium-chloride-0-15-sodium-chloride-0-9-glucose-5",
    "potassium-chloride-0-3-sodium-chloride-0-9-glucose-5",
    "potassium-chloride-40-mmol-in-100-ml",
    "compound-sodium-lactate",
    "ringer-lactate-usp",
    "ringer-lactate-dextrose-5-usp",
    "ringer-injection-usp",
    "ringer-acetate",
    "multiple-electrolytes-type-1",
    "acetate-malate-balanced",
    "maintenance-electrolytes-glucose-5",
    "sodium-bicarbonate-1-26",
    "sodium-bicarbonate-1-4",
    "sodium-bicarbonate-4-2",
    "sodium-bicarbonate-8-4",
    "sodium-lactate-m6",
    "mannitol-10",
    "mannitol-15",
    "mannitol-20",
    "succinylated-gelatin-4",
    "succinylated-gelatin-4-balanced",
    "albumin-4",
    "albumin-5",
    "albumin-20",
    "hydroxyethyl-starch-6",
    "dextran-40-10",
    "dextran-70-6",
    "potassium-chloride-7-45",
    "potassium-chloride-15",
    "calcium-gluconate-10",
    "calcium-chloride-10",
    "magnesium-sulfate-10",
    "magnesium-sulfate-50",
    "sodium-chloride-30",
    "potassium-dihydrogen-phosphate-13-6",
    "sodium-glycerophosphate-21-6",
    "water-for-injections",
]


def test_the_cupboard_has_68_fluids():
    assert len(set(IDS)) == len(IDS) == 68


@pytest.mark.parametrize("fluid", IDS)
def test_fluid_is_there(handbook, fluid):
    assert handbook.catalogue.fluids[fluid].id == fluid


SALT, GLUCOSE, HYDRATE = "sodium-chloride", "glucose", "glucose-monohydrate"
POTASH = "potassium-chloride"

# Grams a litre by the pharmacopoeial title: percent weight in volume times ten. Ph. Eur. and BP
# count glucose anhydrous, USP counts dextrose as the monohydrate (UK and US product texts, read).
BY_TITLE = {
    "sodium-chloride-0-45": {SALT: 4.5},  # US label (read)
    "sodium-chloride-0-9": {SALT: 9.0},  # UK and US product texts (read)
    "sodium-chloride-1-8": {SALT: 18.0},  # arithmetic from the title
    "sodium-chloride-2-7": {SALT: 27.0},  # UK stock strength (copy)
    "sodium-chloride-3": {SALT: 30.0},  # US label (read)
    "sodium-chloride-5": {SALT: 50.0},  # US label (copy)
    "sodium-chloride-30": {SALT: 300.0},  # UK product text, 300 mg/mL (copy)
    "glucose-5": {GLUCOSE: 50.0},  # UK product text: 50 g, present as 55 g monohydrate (read)
    "glucose-10": {GLUCOSE: 100.0},  # UK (copy)
    "glucose-20": {GLUCOSE: 200.0},  # arithmetic from the title
    "glucose-30": {GLUCOSE: 300.0},  # arithmetic from the title
    "glucose-50": {GLUCOSE: 500.0},  # arithmetic from the title
    "dextrose-5-usp": {HYDRATE: 50.0},  # US label, hydrous (read)
    "dextrose-10-usp": {HYDRATE: 100.0},  # US label, hydrous (read)
    "sodium-chloride-0-18-glucose-4": {SALT: 1.8, GLUCOSE: 40.0},  # UK product text (read)
    "sodium-chloride-0-45-glucose-2-5": {SALT: 4.5, GLUCOSE: 25.0},  # arithmetic from the title
    "sodium-chloride-0-45-glucose-5": {SALT: 4.5, GLUCOSE: 50.0},  # NZ data sheet (copy)
    "sodium-chloride-0-9-glucose-5": {SALT: 9.0, GLUCOSE: 50.0},  # UK product text (read)
    "dextrose-5-sodium-chloride-0-2-usp": {SALT: 2.0, HYDRATE: 50.0},  # US labels (copy)
    "dextrose-5-sodium-chloride-0-45-usp": {SALT: 4.5, HYDRATE: 50.0},  # US labels (copy)
    "dextrose-5-sodium-chloride-0-9-usp": {SALT: 9.0, HYDRATE: 50.0},  # US labels (copy)
    # Potassium mixtures: UK national availability tables name them by percent (read).
    "potassium-chloride-0-15-sodium-chloride-0-9": {POTASH: 1.5, SALT: 9.0},
    "potassium-chloride-0-2-sodium-chloride-0-9": {POTASH: 2.0, SALT: 9.0},
    "potassium-chloride-0-3-sodium-chloride-0-9": {POTASH: 3.0, SALT: 9.0},
    "potassium-chloride-0-15-glucose-5": {POTASH: 1.5, GLUCOSE: 50.0},
    "potassium-chloride-0-2-glucose-5": {POTASH: 2.0, GLUCOSE: 50.0},
    "potassium-chloride-0-3-glucose-5": {POTASH: 3.0, GLUCOSE: 50.0},
    "potassium-chloride-15": {POTASH: 150.0},  # UK product text (read)
    "potassium-chloride-7-45": {POTASH: 74.5},  # arithmetic from the title
    "sodium-bicarbonate-1-26": {"sodium-bicarbonate": 12.6},  # arithmetic from the title
    "sodium-bicarbonate-1-4": {"sodium-bicarbonate": 14.0},  # arithmetic from the title
    "sodium-bicarbonate-4-2": {"sodium-bicarbonate": 42.0},  # US label (read)
    "sodium-bicarbonate-8-4": {"sodium-bicarbonate": 84.0},  # US label (read)
    "mannitol-10": {"mannitol": 100.0},  # UK product text (read)
    "mannitol-15": {"mannitol": 150.0},  # UK product text (read)
    "mannitol-20": {"mannitol": 200.0},  # US labels (read)
    # Salts weighed with their water: 10 % calcium gluconate is the monohydrate, 10 % calcium
    # chloride the dihydrate, magnesium sulfate the heptahydrate (UK and US product texts, copy).
    "calcium-gluconate-10": {"calcium-gluconate-monohydrate": 100.0},
    "calcium-chloride-10": {"calcium-chloride-dihydrate": 100.0},
    "magnesium-sulfate-10": {"magnesium-sulfate-heptahydrate": 100.0},
    "magnesium-sulfate-50": {"magnesium-sulfate-heptahydrate": 500.0},
    "sodium-glycerophosphate-21-6": {"sodium-glycerophosphate": 216.0},  # US FDA listing (read)
    "water-for-injections": {},  # UK leaflet: nothing dissolved (read)
    "dextran-40-10": {"dextran-40": 100.0, SALT: 9.0},  # US FDA listing (read)
    "dextran-70-6": {"dextran-70": 60.0, SALT: 9.0},  # a children's hospital manual, 2005 (read)
    # US FDA listing of Ringer's injection: 0.86, 0.03 and 0.033 g in 100 mL (read).
    "ringer-injection-usp": {SALT: 8.6, POTASH: 0.3, "calcium-chloride-dihydrate": 0.33},
    "ringer-lactate-usp": {  # US labels (copy)
        SALT: 6.0,
        "sodium-lactate": 3.1,
        POTASH: 0.3,
        "calcium-chloride-dihydrate": 0.2,
    },
    "compound-sodium-lactate": {  # four UK and IE texts; 3.17 g/L is the base recipe (copy)
        SALT: 6.0,
        POTASH: 0.4,
        "calcium-chloride-dihydrate": 0.27,
        "sodium-lactate": 3.17,
    },
    "multiple-electrolytes-type-1": {  # US labels (copy)
        SALT: 5.26,
        "sodium-gluconate": 5.02,
        "sodium-acetate": 2.22,
        POTASH: 0.37,
        "magnesium-chloride-hexahydrate": 0.30,
    },
    "succinylated-gelatin-4": {  # Hong Kong prescribing text (copy)
        "succinylated-gelatin": 40.0,
        SALT: 7.01,
        "sodium-hydroxide": 1.36,
    },
}


@pytest.mark.parametrize(("fluid", "grams"), BY_TITLE.items())
def test_contents_by_title(handbook, fluid, grams):
    assert handbook.solution(fluid).masses == pytest.approx(grams, rel=1e-12)


def test_phosphate_is_one_millimole_a_millilitre_rather_than_its_rounded_percent(handbook):
    # Source: a hospital pharmacy's table, 1.361 g in 10 mL, 1 mmol/mL (copy). The title's 13.6 %
    # is that figure rounded.
    masses = handbook.solution("potassium-dihydrogen-phosphate-13-6").masses
    assert masses == {"potassium-dihydrogen-phosphate": pytest.approx(136.1)}
    assert handbook.value("potassium-dihydrogen-phosphate-13-6", "phosphate").number == (
        pytest.approx(1000.0, abs=0.5)
    )


# Fluids whose weighed recipe no source gives: their ions are copied, never worked backwards.
AS_IONS = {
    "acetate-malate-balanced",
    "ringer-acetate",
    "maintenance-electrolytes-glucose-5",
    "succinylated-gelatin-4-balanced",
    "albumin-4",
    "albumin-5",
    "albumin-20",
}


def test_the_fluids_declared_as_ions_are_these(handbook):
    as_ions = {f for f, s in handbook.measures.solutions.items() if s.weighed is None}
    assert as_ions == AS_IONS


def test_every_fluid_is_a_draft(handbook):
    # Nobody has reviewed the catalogue, and nobody invents a sign-off.
    assert {fluid.review.state for fluid in handbook.fluids} == {"draft"}
