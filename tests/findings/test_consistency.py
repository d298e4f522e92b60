"""What no single field can show to be wrong, on small catalogues spoilt in one place."""

import pytest

from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import read_catalogue
from isofolio.findings import consistency
from isofolio.findings.consistency_substances import WATERS, sound_substances
from isofolio.vocabulary.quantities import DECLARABLE
from isofolio.vocabulary.terms import HYDRATES

IONS = "fluids/declared-ions.yml"
GELATIN = "fluids/gelatin-4.yml"
GLUCOSE = "fluids/glucose-5.yml"
SALINE = "fluids/sodium-chloride-0-9.yml"


def told(folder):
    """File and message of every consistency problem; shape and references must be sound."""
    reading = read_catalogue(folder)
    assert reading.problems == ()
    return [(p.file, p.message) for p in consistency.problems(reading)]


def one(folder):
    (found,) = told(folder)
    return found


def test_the_sound_catalogue_is_consistent(catalogue):
    assert told(catalogue) == []
    reading = read_catalogue(catalogue)
    assert len(consistency.sound_fluids(reading)) == 6
    assert sound_substances(reading.catalogue) == set(reading.catalogue.substances)


# The ions of the sound fluid close exactly: 131 + 5 + 2 x 2 = 111 + 29. Half the last digit of
# each, times its charge, is (1 + 1 + 2 + 1 + 1) / 2 = 3 mEq/L. Arithmetic.
@pytest.mark.parametrize("chloride", ["108", "110", "114"])
def test_rounding_of_a_label_explains_a_gap(spoil, chloride):
    assert told(spoil(IONS, "111 mmol/L", f"{chloride} mmol/L")) == []


@pytest.mark.parametrize(
    ("chloride", "gap"),
    [("107", "4.00 mEq/L more of cations"), ("115", "4.00 mEq/L more of anions")],
)
def test_a_gap_beyond_rounding_is_a_missing_ion(spoil, chloride, gap):
    file, message = one(spoil(IONS, "111 mmol/L", f"{chloride} mmol/L"))
    assert file == IONS
    assert gap in message
    assert "rounding explains 3.00" in message


def test_more_digits_on_a_label_explain_less(spoil):
    folder = spoil(IONS, "131 mmol/L", "131.0 mmol/L")
    spoil(IONS, "111 mmol/L", "108.0 mmol/L")
    # (0.1 + 1 + 2 + 0.1 + 1) / 2 = 2.1
    assert "rounding explains 2.10" in one(folder)[1]


def test_milliequivalents_of_an_ion_are_divided_by_its_charge(spoil):
    assert told(spoil(IONS, "2 mmol/L", "4 mEq/L")) == []


@pytest.mark.parametrize("amount", ["trace", "not declared", "1 to 3 mmol/L", "at most 2 mmol/L"])
def test_what_is_not_one_figure_leaves_the_charge_open(spoil, amount):
    assert told(spoil(IONS, "2 mmol/L", amount)) == []


def test_an_incomplete_fluid_is_not_expected_to_close(spoil):
    folder = spoil(IONS, "  - {particle: lactate, amount: 29 mmol/L}\n", "")
    assert IONS in one(folder)
    assert told(spoil(IONS, "review:", "complete: no\nreview:")) == []


def test_weighed_salts_close_exactly_and_leave_no_room(spoil):
    folder = spoil(GELATIN, "amount: 34 mmol/L", "amount: 34.001 mmol/L")
    assert "rounding explains none of it" in one(folder)[1]


def test_the_charge_of_a_gelatin_follows_from_its_base(spoil):
    folder = spoil(GELATIN, ", charge: 34 mEq/L", "")
    assert told(folder) == []
    spoil(GELATIN, "amount: 34 mmol/L", "amount: 1.36 g/L")
    assert told(folder) == []


def test_an_acid_takes_its_charge_from_the_base_beside_it(catalogue, spoil):
    """5 mmol/L of an acid with 5 of base carry 5 mEq/L, with 10 as much again, and no more."""
    text = "id: lactic-acid\nname: An acid\nformula: C3H6O3\nhydrate: anhydrous\n"
    text += "releases: {lactate: 1}\nacid: {particle: lactate, up_to: 2}\n"
    (catalogue / "substances" / "lactic-acid.yml").write_text(text, encoding="utf-8")
    contents = "- {substance: lactic-acid, amount: 5 mmol/L}\n  - {substance: sodium-hydroxide, "
    spoil(SALINE, "- {substance: sodium-chloride, ", contents)
    before = "0.9 % w/v"
    for base, gaps in (("5.0 mmol/L", 0), ("10 mmol/L", 0), ("11 mmol/L", 1)):
        spoil(SALINE, before, base)
        assert len(told(catalogue)) == gaps
        before = base


@pytest.mark.parametrize("amount", ["9 g", "9", "9 mOsm/L", "9 mEq/L", "9 mL/L", "9 g/kg", "9 L"])
def test_a_weighed_salt_is_grams_or_millimoles_in_a_volume(spoil, amount):
    folder = spoil(SALINE, "0.9 % w/v", amount)
    assert one(folder) == (SALINE, f'"{amount}" cannot be a concentration of sodium-chloride')


@pytest.mark.parametrize(
    "amount",
    ["9 g/L", "9000 mg/L", "0.9 g/100 mL", "154 mmol/L", "77 mmol per 500 mL", "1 to 2 g/L"],
)
def test_ways_to_write_a_concentration(spoil, amount):
    assert told(spoil(SALINE, "0.9 % w/v", amount)) == []


def test_a_colloid_has_no_millimoles(spoil):
    assert one(spoil(GELATIN, "40 g/L", "40 mmol/L"))[0] == GELATIN


def test_the_contents_of_a_variant_are_judged_as_well(spoil):
    file, message = one(spoil(GLUCOSE, "55 g/L", "55 kcal/L"))
    assert (file, message) == (
        GLUCOSE,
        '"55 kcal/L" cannot be a concentration of glucose-monohydrate',
    )


@pytest.mark.parametrize("key", sorted(DECLARABLE))
def test_a_quantity_is_declared_in_its_unit_and_in_no_other_dimension(catalogue, spoil, key):
    unit = DECLARABLE[key].unit
    plain = {"1": "", "%": " % w/v"}.get(unit, f" {unit}")
    spoil(GLUCOSE, "osmolarity: 278 mOsm/L\n      energy: 200 kcal/L\n      ph: ", f"{key}: ")
    assert told(spoil(GLUCOSE, "3.5 to 6.5", f"37{plain}")) == []
    assert one(spoil(GLUCOSE, f"37{plain}", "37 mL/h"))[0] == GLUCOSE


@pytest.mark.parametrize(
    "volume", ["500", "500 g", "0.5 mL/L", "0 mL", "1 to 2 L", "5 mL per 10 mL"]
)
def test_a_container_has_a_volume(spoil, volume):
    message = f'"{volume}" is not the volume of a container'
    assert one(spoil(GLUCOSE, "volume: 1 L", f"volume: {volume}")) == (GLUCOSE, message)


@pytest.mark.parametrize(("waters", "hydrate"), [(waters, name) for name, waters in WATERS.items()])
def test_a_hydrate_is_called_by_the_water_in_its_formula(spoil, waters, hydrate):
    file = "substances/calcium-chloride-hexahydrate.yml"
    folder = spoil(file, "hydrate: hexahydrate", f"hydrate: {hydrate}")
    assert (one(folder)[0] == file) if waters != 6 else (told(folder) == [])
    formula = f"CaCl2(H2O){waters}" if waters > 1 else "CaCl2(H2O)" if waters else "CaCl2"
    assert told(spoil(file, "CaCl2(H2O)6", formula)) == []


def test_every_hydrate_has_its_number_of_waters():
    assert set(WATERS) == set(HYDRATES)


def test_names_are_compared_as_people_read_them(spoil):
    for name in ("Glucose 5 %", "GLUCOSE  5 %", "Glucose\u00a05\u202f%", "dextrose 5%"):
        folder = spoil(SALINE, "name: Sodium chloride 0.9 %", f"name: {name}")
        file, message = one(folder)
        assert file == SALINE
        assert "belongs to glucose-5 already" in message
        spoil(SALINE, f"name: {name}", "name: Sodium chloride 0.9 %")


def test_a_word_declared_ambiguous_may_be_shared(spoil):
    names = "status: current\nalso_known_as: [{name: Saline, kind: ward word}]"
    spoil(SALINE, "status: current", names)
    folder = spoil(IONS, "status: current", names)
    assert told(folder) == []
    assert one(spoil("words.yml", "word: saline", "word: salt water"))[0] == SALINE


def test_a_name_of_one_fluid_may_have_two_kinds(spoil):
    names = "[{name: NS, kind: ward word}, {name: ns, kind: abbreviation}]"
    assert told(spoil(SALINE, "status: current", f"status: current\nalso_known_as: {names}")) == []


@pytest.mark.parametrize("interval", ["trace", "140 mmol/L", "at most 145 mmol/L", "135 to 145"])
def test_an_interval_has_two_ends_and_its_unit(spoil, interval):
    file, message = one(spoil("plasma.yml", "135 to 145 mmol/L", interval))
    assert (file, message) == ("plasma.yml", f'"{interval}" is not an interval of sodium')


@pytest.mark.parametrize("value", ["trace", "at most 900 mOsm/L", "900 mOsm/kg", "0.9 mOsm/mL"])
def test_a_limit_is_one_figure_in_the_unit_it_is_compared_in(spoil, value):
    file, message = one(spoil("limits.yml", "    value: 900 mOsm/L", f"    value: {value}"))
    assert (file, message) == ("limits.yml", f'"{value}" is not a limit of osmolarity')


def test_a_limit_may_be_a_weight_without_a_unit(spoil):
    assert told(spoil("limits.yml", "    value: 900 mOsm/L", "    value: 900")) == []


def test_every_missing_limit_is_named_in_one_problem(spoil):
    spoil("limits.yml", "{id: water-half,", "{id: water-halves,")
    file, message = one(spoil("limits.yml", "{id: strong-potassium,", "{id: stronger-potassium,"))
    assert (file, message) == (
        "limits.yml",
        "no strong-potassium and no water-half among the limits",
    )


def test_a_limit_is_of_the_quantity_that_its_rule_reads(spoil):
    limit = "{id: vein-glucose, quantity: glucose_mass"
    file, message = one(spoil("limits.yml", limit, limit.replace("glucose_mass", "colloid_mass")))
    assert file == "limits.yml"
    assert message.startswith("vein-glucose is a limit of glucose_mass")


CAUTION = """\
id: strong-sugar
name: Strong sugar
signal: warning
imperative: Use a large vein.
text: It is strong.
applies:
  - {when: role, roles: [ready]}
  - {when: above, quantity: glucose_mass, limit: vein-glucose}
cite: common practice
raised_by: glucose-5
not_by: sodium-chloride-0-9
review: {state: draft}
"""


def test_a_condition_compares_a_quantity_with_a_limit_of_it(catalogue):
    path = catalogue / "cautions" / "strong-sugar.yml"
    path.parent.mkdir()
    path.write_text(CAUTION, encoding="utf-8")
    assert told(catalogue) == []
    path.write_text(CAUTION.replace("vein-glucose", "vein-watch-site"), encoding="utf-8")
    assert one(catalogue) == (
        "cautions/strong-sugar.yml",
        "vein-watch-site is a limit of osmolarity, not of glucose_mass",
    )


def test_an_id_belongs_to_one_page(catalogue):
    text = (catalogue / "substances" / "glucose.yml").read_text(encoding="utf-8")
    path = catalogue / "substances" / "glucose-5.yml"
    path.write_text(text.replace("id: glucose", "id: glucose-5"), encoding="utf-8")
    assert one(catalogue) == (
        "substances/glucose-5.yml",
        'the id "glucose-5" belongs to fluids/glucose-5.yml already',
    )


@pytest.mark.parametrize("item", ["[a]", "{a: b}", "''"])
def test_an_id_that_is_no_text_raises_nothing(spoil, item):
    """The list of ids is read before the records are known to be sound."""
    reading = read_catalogue(spoil("particles.yml", "{id: calcium,", f"{{id: {item},"))
    assert reading.problems
    assert consistency.problems(reading) == ()


def test_a_figure_from_memory_is_found_wherever_it_stands(spoil):
    spoil(GLUCOSE, "at: section 4.3, seen: read", "at: section 4.3, seen: memory")
    spoil("fluids/starch-6.yml", "at: abstract, seen: read", "at: abstract, seen: memory")
    remembered = "cite: {at: a, seen: memory, on: 2026-11-25}"
    folder = spoil("substances/glucose.yml", "cite: common practice", remembered)
    files = [GLUCOSE, "fluids/starch-6.yml", "substances/glucose.yml"]
    assert [file for file, _ in told(folder)] == files


def test_problems_are_sorted_and_stand_in_their_lines(spoil):
    spoil(GLUCOSE, "500 mL", "500 g")
    spoil(GLUCOSE, "278 mOsm/L", "278 g/L")
    folder = spoil(GLUCOSE, "50 g/L", "50 g")
    problems = consistency.problems(read_catalogue(folder))
    assert [p.place.line for p in problems] == [10, 22, 26]
    assert all(p.excerpt and p.fix for p in problems)


def test_a_fluid_of_unsound_substances_is_not_judged(spoil):
    folder = spoil("substances/sodium-chloride.yml", "chloride: 1}", "chloride: 2}")
    reading = read_catalogue(folder)
    assert "sodium-chloride" not in sound_substances(reading.catalogue)
    judged = {fluid.id for fluid in consistency.sound_fluids(reading)}
    assert "sodium-chloride-0-9" not in judged
    assert "glucose-5" in judged
    assert all(isinstance(fluid, Fluid) for fluid in reading.catalogue.fluids.values())
