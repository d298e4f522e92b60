"""Sums that others printed, done again with the fluids of the catalogue.

Each row names who printed the volume or the figure. Where a label rounds an ion to a whole mmol/L,
ours is computed from the weighed salt: the row then allows half a mmol/L times the volume. A row
"arithmetic" has no source but the strengths on the labels.
"""

import json
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.teaching.worksheets import concentrate, contents, day_plan, drops, glucose_load
from isofolio.teaching.worksheets_data import per_litre

PROJECT = Path(__file__).parents[2]
SALINE, LACTATE = "sodium-chloride-0-9", "compound-sodium-lactate"
MIXTURE = "potassium-chloride-0-3-sodium-chloride-0-18-glucose-4"
HALF = 0.5  # mmol/L: what a whole figure on a label may hide

CG174 = "30 mL/kg at 70 kg: NICE CG174, as quoted in BMJ Open Quality, table 1"
LABELS = "arithmetic from the strengths on the labels"
NATIONAL = "United Kingdom national availability tables: mmol in a bag"
LOSS = "2 L of loss: surgery notes, table 2"
UKKA = "25 g of glucose: UK Kidney Association 2023, in summaries"
JBDS = "15 to 20 g of glucose by vein: JBDS 01, in editions and summaries"
CALCIUM = "6.8 mmol of calcium in 10 mL: National Patient Safety Alert NatPSA/2023/007"
SODIUM = "150 mL of 3 %: European guideline of 2014, in transcriptions"
DKA = "6 L in 19 hours: Dhatariya, Diabet Med 2022;39:e14788"
ALBUMIN = "8 g for each litre drained: EASL 2018; 8 L"
RELIEF = "liberal arm at 70 kg and 4 hours: N Engl J Med 2018;378:2263"
REFEEDING = "2 L of glucose 5 %: arithmetic; 4 kcal/g as United Kingdom labels count"

# Fluid, volume [mL], quantity, amount as printed, who printed it, how far ours may lie from it.
HELD = [
    (MIXTURE, 2100, "sodium", 65, CG174, 1),
    (MIXTURE, 2100, "potassium", 84, CG174, 1),
    (MIXTURE, 2100, "chloride", 149, CG174, 1),
    (MIXTURE, 2100, "glucose_mass", 84, CG174, 0.1),
    (SALINE, 2100, "sodium", 323, CG174, 1),
    (SALINE, 2100, "chloride", 323, CG174, 1),
    (LACTATE, 2100, "sodium", 275, CG174, HALF * 2.1),
    (LACTATE, 2100, "chloride", 233, CG174, HALF * 2.1 + 0.6),
    (LACTATE, 2100, "potassium", 10.5, CG174, HALF * 2.1),
    (SALINE, 2000, "sodium", 308, LOSS, 0.1),
    (SALINE, 2000, "chloride", 308, LOSS, 0.1),
    ("potassium-chloride-0-15-sodium-chloride-0-9", 2000, "potassium", 40, LOSS, 0.5),
    ("potassium-chloride-0-15-sodium-chloride-0-9", 2000, "chloride", 348, LOSS, 0.5),
    (LACTATE, 2000, "sodium", 262, LOSS, HALF * 2),
    (LACTATE, 1000, "sodium", 131, LOSS, HALF),
    (LACTATE, 1000, "lactate", 29, LOSS, HALF + 0.3),
    ("glucose-10", 150, "glucose_mass", 15, JBDS, 0.01),
    ("glucose-10", 200, "glucose_mass", 20, JBDS, 0.01),
    ("glucose-20", 75, "glucose_mass", 15, JBDS, 0.01),
    ("glucose-20", 100, "glucose_mass", 20, JBDS, 0.01),
    ("glucose-50", 30, "glucose_mass", 15, JBDS, 0.01),
    ("glucose-50", 40, "glucose_mass", 20, JBDS, 0.01),
    ("glucose-5", 300, "glucose_mass", 15, JBDS, 0.01),
    ("glucose-50", 50, "glucose_mass", 25, UKKA, 0.01),
    ("glucose-20", 125, "glucose_mass", 25, UKKA, 0.01),
    ("glucose-10", 250, "glucose_mass", 25, UKKA, 0.01),
    ("calcium-chloride-10", 10, "calcium", 6.8, CALCIUM, 0.05),
    ("calcium-gluconate-10", 30, "calcium", 6.8, CALCIUM, 0.15),
    ("magnesium-sulfate-50", 10, "magnesium", 20.3, "5 g in 10 mL, as labels print", 0.05),
    ("potassium-chloride-0-15-sodium-chloride-0-9", 500, "potassium", 10, NATIONAL, 0.1),
    ("potassium-chloride-0-3-sodium-chloride-0-9", 500, "potassium", 20, NATIONAL, 0.15),
    ("potassium-chloride-0-2-sodium-chloride-0-9", 500, "potassium", 13, LABELS, 0.5),
    (SALINE, 500, "sodium", 77, SODIUM, 0.1),
    ("sodium-chloride-3", 150, "sodium", 77, SODIUM, 0.1),
    ("sodium-chloride-2-7", 150, "sodium", 69, SODIUM, 0.5),
    ("sodium-chloride-1-8", 150, "sodium", 46, SODIUM, 0.5),
    ("sodium-chloride-1-8", 250, "sodium", 77, SODIUM, 0.1),
    ("sodium-chloride-3", 250, "sodium", 128, LABELS, 0.5),
    ("mannitol-20", 250, "mannitol", 274, LABELS, 0.6),
    ("sodium-bicarbonate-8-4", 85, "bicarbonate", 85, LABELS, 0.1),
    ("sodium-bicarbonate-4-2", 500, "sodium", 250, LABELS, 0.1),
    ("sodium-bicarbonate-1-26", 1000, "bicarbonate", 150, LABELS, 0.1),
    (SALINE, 6000, "sodium", 924, DKA, 0.1),
    (SALINE, 6000, "chloride", 924, DKA, 0.1),
    ("potassium-chloride-0-3-sodium-chloride-0-9", 5000, "potassium", 200, DKA, 1.5),
    (LACTATE, 6000, "chloride", 666, DKA, HALF * 6 + 2),
    ("albumin-20", 320, "colloid_mass", 64, ALBUMIN, 0.01),
    (SALINE, 250, "sodium", 39, LABELS, 0.5),
    (LACTATE, 250, "sodium", 33, LABELS, 0.5),
    ("glucose-5", 2000, "glucose_mass", 100, REFEEDING, 0.01),
    ("glucose-5", 2000, "energy", 400, REFEEDING, 0.1),
    (SALINE, 100, "sodium", 15.4, LABELS, 0.01),
    ("multiple-electrolytes-type-1", 2940 + 2520, "sodium", 764, RELIEF, 3),
]


@pytest.fixture(scope="module")
def figures():
    """What a litre of a fluid holds, as the worksheets take it."""
    opened = open_handbook(PROJECT / "catalogue")
    assert opened.handbook is not None
    handbook = opened.handbook
    return lambda name: per_litre(handbook, handbook.catalogue.fluids[name])


def numbers(results):
    return {result.id: result.number for result in results}


@pytest.mark.parametrize(
    ("fluid", "volume", "quantity", "amount", "source", "within"),
    HELD,
    ids=[f"{volume}-{fluid}-{quantity}" for fluid, volume, quantity, *_ in HELD],
)
def test_what_a_volume_holds(figures, fluid, volume, quantity, amount, source, within):
    held = numbers(contents(figures(fluid), float(volume)))[f"{quantity}.held"]
    assert held == pytest.approx(amount, abs=within), source


def test_a_day_of_one_fluid_by_weight(figures):
    """NICE CG174 at 70 kg: 2.1 L; sodium 4.6 mmol/kg by saline, potassium 1.2 by the mixture."""
    saline = numbers(day_plan([(figures(SALINE), 2100.0)], 70.0, "adult"))
    assert saline["sodium.per_kg"] == pytest.approx(4.6, abs=0.05)
    assert saline["sodium.from"] == saline["sodium.to"] == 70
    assert saline["water.to"] == pytest.approx(2100)
    mixture = numbers(day_plan([(figures(MIXTURE), 2100.0)], 70.0, "adult"))
    assert mixture["potassium.per_kg"] == pytest.approx(1.2, abs=0.05)
    ketoacidosis = numbers(day_plan([(figures(SALINE), 6000.0)], 70.0, "adult"))
    assert ketoacidosis["sodium.per_kg"] == pytest.approx(13, abs=0.25)  # printed rounded


@pytest.mark.parametrize(("weight", "hourly"), [(4.0, 16.0), (20.0, 60.0)])
def test_the_hourly_chart_of_a_childrens_hospital(weight, hourly):
    """A children's hospital guideline, Australia, 2013: 16 mL/h at 4 kg, 60 at 20 kg.

    At 70 kg it prints 100, where the rule comes to 110: the chart stops there by choice.
    """
    found = numbers(day_plan([({}, 1000.0)], weight, "child"))
    assert found["hourly.from"] / 24 == pytest.approx(hourly)
    assert numbers(day_plan([({}, 1000.0)], 70.0, "child"))["hourly.from"] / 24 == 110


@pytest.mark.parametrize(
    ("volume", "hours", "rate", "source"),
    [
        (1250.0, 24.0, 52, "Holliday and Segar 1957 at 15 kg"),
        (150.0, 0.25, 600, "150 mL in 15 minutes: hypoglycaemia protocols"),
        (250.0, 5.0, 50, "glucose 10 % at 50 mL/h for 5 h: UK Kidney Association 2023"),
    ],
)
def test_the_rate_of_a_volume(volume, hours, rate, source):
    assert numbers(drops(volume, hours, 20.0))["rate"] == pytest.approx(rate, abs=0.5), source


@pytest.mark.parametrize(
    ("fluid", "rate", "potassium"),
    [
        ("potassium-chloride-0-3-sodium-chloride-0-9", 250.0, 10),
        ("potassium-chloride-0-3-sodium-chloride-0-9", 500.0, 20),
        ("potassium-chloride-0-15-sodium-chloride-0-9", 500.0, 10),
    ],
)
def test_the_potassium_of_an_hour(figures, fluid, rate, potassium):
    """10 and 20 mmol/h: NHS Specialist Pharmacy Service; the rates by arithmetic."""
    found = numbers(drops(rate, 1.0, 20.0, figures(fluid)))
    assert found["potassium.per_hour"] == pytest.approx(potassium, rel=0.01)


def test_glucose_added_to_lactated_ringers(figures):
    """MSF: 50 mL of glucose 50 % into 500 mL of lactated Ringer's; 45 g/L and sodium 118 by sum."""
    found = numbers(concentrate(figures("ringer-lactate-usp"), 500.0, figures("glucose-50"), 50.0))
    assert found["glucose_mass.mixed"] == pytest.approx(45, abs=0.5)
    assert found["sodium.mixed"] == pytest.approx(118, abs=1)
    assert found["glucose_mass.nominal"] == pytest.approx(50)


def test_the_highest_glucose_rate_of_a_product_text(figures):
    """United Kingdom product text: 5 mL/kg an hour of 5 %; by arithmetic 4.2 mg/kg/min."""
    five = figures("glucose-5")["glucose_mass"]
    found = numbers(glucose_load(five, 350.0, 70.0))
    assert found["glucose.per_minute"] == pytest.approx(4.2, abs=0.05)
    ten = figures("glucose-10")["glucose_mass"]
    assert numbers(glucose_load(ten, 100.0, 70.0))["glucose.per_minute"] == pytest.approx(
        2.38, abs=0.005
    )


def test_the_script_gets_these_very_figures(figures):
    """The page reads its fluids from the data that `per_litre` makes: they survive as JSON."""
    for fluid in {row[0] for row in HELD}:
        held = figures(fluid)
        assert json.loads(json.dumps(held, allow_nan=False)) == held
