"""The exported contents alone give every figure again.

First by the chemistry of the package, from the grams of the JSON document and the formulas in it;
then whole: recipes made of the document's contents, with the catalogue's own substances, give the
whole table.
"""

import json
from dataclasses import replace

import pytest

from isofolio.chemistry import charge, composition, energy, osmosis
from isofolio.chemistry.formula import molar_mass
from isofolio.entries.fluids import Content
from isofolio.entries.reading import Reading
from isofolio.exports.figures import exported
from isofolio.exports.json_text import json_export
from isofolio.handbook import handbook_of

# Twelve digits are exported, so a sum may differ in the eleventh.
NEAR = {"rel": 1e-9, "abs": 1e-9}


@pytest.fixture(scope="module")
def made(handbook):
    return json.loads(json_export(handbook))


def computed(fluid, substances, charges):
    """Figures of one fluid from its exported contents, or None where one of them is unknown.

    charges: charge numbers by quantity. Returns mmol, mEq, mOsm, g and kcal per litre.
    """
    parts = []
    for content in fluid["contents"]:
        if "particle" in content:
            if content["mmol_per_l"] is None:
                return None
            parts.append({content["particle"]: content["mmol_per_l"]})
        elif substances[content["substance"]]["formula"] is not None:
            if content["g_per_l"] is None:
                return None
            weighed = substances[content["substance"]]
            mass = molar_mass(weighed["formula"])
            amount = composition.millimoles_from_grams(content["g_per_l"], mass)
            parts.append(composition.dissolve(amount, weighed["releases"]))
    particles = composition.sum_particles(parts)
    anhydrous = particles.get("glucose", 0.0) * molar_mass("C6H12O6") / 1000.0
    monohydrate = particles.get("glucose", 0.0) * molar_mass("C6H12O6(H2O)") / 1000.0
    organic = [particles.get(name, 0.0) for name in ("lactate", "acetate", "gluconate")]
    found = {
        **particles,
        "osmolarity": osmosis.theoretical_osmolarity(particles),
        "glucose_mass": anhydrous,
        "glucose_mass_monohydrate": monohydrate,
        "energy": energy.energy(anhydrous),
        "energy_us": energy.energy_us(monohydrate),
        "energy_organic": energy.energy_organic(*organic),
    }
    if not {"malate", "phosphate"} & set(particles):  # their charge is decided by the base beside
        found["cation_charge"] = charge.cation_charge(particles, charges)
        found["anion_charge"] = charge.anion_charge(particles, charges)
    return found


def test_chemistry_from_the_contents_gives_the_exported_figures(handbook, made):
    substances = {substance["id"]: substance for substance in made["substances"]}
    charges = {p.id: float(p.charge) for p in handbook.catalogue.particles.values()}
    checked, whole = 0, 0
    for fluid in made["fluids"]:
        found = computed(fluid, substances, charges)
        if found is None or not fluid["complete"]:
            assert fluid["per_litre"]["osmolarity"] is None
            continue
        whole += 1
        for quantity, figure in found.items():
            assert figure == pytest.approx(fluid["per_litre"][quantity], **NEAR), fluid["id"]
            checked += 1
    assert whole > 60
    assert checked > 9 * whole


def recipe(content):
    """A content of a recipe as an editor writes it, from one of the document."""
    key, unit = ("mmol_per_l", "mmol/L") if "particle" in content else ("g_per_l", "g/L")
    name = "particle" if "particle" in content else "substance"
    if content[key] is not None:
        amount = f"{content[key]:.12f} {unit}"
    elif "ranges" in content:
        low, high = content["ranges"][key]
        amount = f"{low} to {high} {unit}" if low else f"at most {high} {unit}"
    else:
        amount = content["reasons"][key].removeprefix("declared as a ")
    return {name: content[name], "amount": amount}


@pytest.fixture(scope="module")
def again(handbook, made):
    """A handbook whose recipes are the exported contents and nothing else."""
    fluids = {
        fluid["id"]: handbook.catalogue.fluids[fluid["id"]].model_copy(
            update={
                "contents": [Content.model_validate(recipe(c)) for c in fluid["contents"]],
                "complete": fluid["complete"],
            }
        )
        for fluid in made["fluids"]
    }
    catalogue = replace(handbook.catalogue, fluids=fluids)
    return handbook_of(Reading(catalogue, (), (), {}, "0" * 12))


def test_the_whole_table_comes_out_again(handbook, made, again):
    for fluid in made["fluids"]:
        for quantity, figure in fluid["per_litre"].items():
            value = again.value(fluid["id"], quantity)
            told = (fluid["id"], quantity)
            if figure is None:
                assert value.number is None, told
                assert value.reason == fluid["reasons"][quantity], told
            else:
                assert value.number == pytest.approx(figure, rel=1e-8, abs=1e-8), told


def test_so_do_ranges_and_judgements(handbook, again):
    for fluid in handbook.fluids:
        assert again.solution(fluid.id).ranges == handbook.solution(fluid.id).ranges
        assert again.judgements[fluid.id].vein == handbook.judgements[fluid.id].vein
        ours, theirs = (h.judgements[fluid.id].cautions for h in (handbook, again))
        assert [caution.id for caution in theirs] == [caution.id for caution in ours]


def test_a_changed_gram_is_a_changed_figure(made, handbook):
    """The comparison above can fail: a tenth of a gram of salt more is seen."""
    saline = next(f for f in made["fluids"] if f["id"] == "sodium-chloride-0-9")
    spoiled = {**saline, "contents": [{"substance": "sodium-chloride", "g_per_l": 9.1}]}
    substances = {substance["id"]: substance for substance in made["substances"]}
    found = computed(spoiled, substances, {"sodium": 1.0, "chloride": -1.0})
    assert exported(found["sodium"]) != saline["per_litre"]["sodium"]
