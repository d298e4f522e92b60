"""Every printed line of arithmetic is done again, from nothing but what is printed.

The evaluator below reads the text of a page: no `eval`, no number that a page does not show. What
a line shows must come out within one unit of its last digit, and the last line of a quantity must
show the figure of the handbook.
"""

import dataclasses
import math
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import Catalogue, read_catalogue
from isofolio.measures import workings_acid_base, workings_osmolality
from isofolio.measures.methods import METHODS, WITHOUT_FUNCTION, method_anchor
from isofolio.measures.table import table_of
from isofolio.measures.workings import WITHOUT_WORKING, workings_of
from isofolio.measures.workings_terms import Term, digits
from isofolio.vocabulary.quantities import QUANTITIES
from isofolio.wording.workings import term_text, working_text

CATALOGUE = Path(__file__).parents[2] / "catalogue"
WHOLE = read_catalogue(CATALOGUE).catalogue
TABLE = table_of(WHOLE)
FLUIDS = tuple(WHOLE.fluids)
RECIPES = settings(deadline=None, database=None, derandomize=True, max_examples=150)


# The evaluator: expression = product {+ or − product}; product = power {× or ÷ power};
# power = atom {^ power}; atom = number, (expression), √atom, log(expression), e.
# What follows a number up to the next sign is its unit and its name, and counts for nothing.
TOKEN = re.compile(r"\s*(?:(−(?=\d))|(\d+(?:\.\d+)?)[^+−×÷()√^=]*|(log|e(?=\^)|[+−×÷()√^]))")


def tokens_of(text):
    found, position = [], 0
    while position < len(text.rstrip()):
        match = TOKEN.match(text, position)
        assert match is not None, f"{text[position:]!r} is no arithmetic"
        sign, number, mark = match.groups()
        previous = found[-1] if found else "("
        # A minus close to its number is a sign only where no number stands before it.
        assert sign is None or previous in ("(", "×", "÷"), text
        found.append("negative" if sign else float(number) if number else mark)
        position = match.end()
    return found


def value_of(text):
    tokens = tokens_of(text)
    result, rest = _sum(tokens)
    assert rest == [], f"{rest} is left of {text!r}"
    return result


def _sum(tokens):
    total, rest = _product(tokens)
    while rest and rest[0] in ("+", "−"):
        number, after = _product(rest[1:])
        total, rest = (total + number if rest[0] == "+" else total - number), after
    return total, rest


def _product(tokens):
    total, rest = _power(tokens)
    while rest and rest[0] in ("×", "÷"):
        number, after = _power(rest[1:])
        total, rest = (total * number if rest[0] == "×" else total / number), after
    return total, rest


def _power(tokens):
    base, rest = _atom(tokens)
    if rest and rest[0] == "^":
        exponent, rest = _power(rest[1:])
        return base**exponent, rest
    return base, rest


def _atom(tokens):
    first, rest = tokens[0], tokens[1:]
    if isinstance(first, float):
        return first, rest
    if first == "e":
        return math.e, rest
    if first == "negative":
        number, rest = _atom(rest)
        return -number, rest
    if first == "√":
        number, rest = _atom(rest)
        return math.sqrt(number), rest
    if first == "log":
        number, rest = _atom(rest)
        return math.log10(number), rest
    assert first == "(", f"{first} stands where a number is expected"
    number, rest = _sum(rest)
    assert rest[0] == ")", "a bracket is never closed"
    return number, rest[1:]


def printed_number(text):
    """A printed result and the unit of its last digit."""
    found = re.match(r"(−?)(\d+)(?:\.(\d+))?", text)
    number = float(found[0].replace("−", "-"))
    return number, 10.0 ** -len(found[3] or "")


def lines_of(fluid):
    return workings_of(WHOLE.fluids[fluid], WHOLE, TABLE)


def faults_of(fluid, catalogue=WHOLE, table=TABLE):
    """Lines whose printed arithmetic does not reach what they print, or the table's figure."""
    faults = []
    for line in workings_of(catalogue.fluids[fluid], catalogue, table):
        expression, _, result = working_text(line).rpartition(" =\u00a0")
        number, unit = printed_number(result)
        margin = unit * (1 + 1e-9)
        again = value_of(expression or result)
        if abs(again - number) > margin:
            faults.append(f"{fluid} {line.name}: {working_text(line)}, but it is {again}")
        figure = table.value(fluid, line.quantity).number
        if not line.step and abs(figure - number) > margin:
            faults.append(f"{fluid} {line.name}: {number} printed, {figure} in the table")
    return faults


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("2 + 3 × 4", 14.0),
        ("(2 + 3) × 4", 20.0),
        ("10 − 4 − 3", 3.0),
        ("12 ÷ 3 ÷ 2", 2.0),
        ("2 × 3^2", 18.0),
        ("1 − √0.25 ÷ 2", 0.75),
        ("6.1 + log(100)", 8.1),
        ("2 ÷ e^(0 × √4)", 2.0),
        ("−1.5 × (−2 + 1)", 1.5),
        ("9.00\u00a0g/L\u00a0sodium chloride × 1000 ÷ 58.440\u00a0g/mol", 154.0041),
        ("2.7\u202f% × 10", 27.0),
    ],
)
def test_the_evaluator(text, value):
    assert value_of(text) == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize("text", ["2 +", "(2 + 3", "two", "2 = 2"])
def test_the_evaluator_refuses_what_is_no_arithmetic(text):
    with pytest.raises((AssertionError, IndexError)):
        value_of(text)


@pytest.mark.parametrize("fluid", FLUIDS)
def test_every_line_of_every_fluid_comes_out(fluid):
    assert faults_of(fluid) == []


@pytest.mark.parametrize("fluid", FLUIDS)
def test_every_figure_that_is_not_0_has_a_working_and_no_missing_one_has(fluid):
    lines = lines_of(fluid)
    worked = {line.quantity for line in lines if not line.step}
    values = {q.id: TABLE.value(fluid, q.id).number for q in QUANTITIES}
    there = {quantity for quantity, number in values.items() if number}
    assert there - worked - WITHOUT_WORKING == set()
    assert {quantity for quantity in worked if values[quantity] is None} == set()


def test_a_charge_gap_of_0_is_worked_and_an_absent_ion_is_not():
    worked = {line.quantity for line in lines_of("sodium-chloride-0-9")}
    assert "charge_gap" in worked
    assert "potassium" not in worked


@pytest.mark.parametrize("fluid", FLUIDS)
def test_the_last_line_of_a_quantity_is_the_one_that_gives_its_figure(fluid):
    lines = lines_of(fluid)
    last = {line.quantity: line for line in lines}
    assert [line.name for line in last.values() if line.step] == []
    finals = [line.quantity for line in lines if not line.step]
    assert len(finals) == len(set(finals))


def test_a_decimal_number_of_a_formula_is_one_of_its_expression():
    missing = []
    for fluid in FLUIDS:
        for line in lines_of(fluid):
            numbers = set(re.findall(r"\d+\.\d+", line.formula))
            missing += [(line.name, n) for n in numbers if n not in working_text(line)]
    assert missing == []


def test_no_computed_number_shows_more_than_five_significant_digits():
    """Osmotic coefficients above 1 show six: the sum of a strong salt needs the last."""
    for fluid in FLUIDS:
        for line in lines_of(fluid):
            shown = re.sub(r"\D", "", term_text(dataclasses.replace(line.result, unit="")))
            most = 6 if line.name.startswith("osmotic coefficient") else 5
            assert len(shown.lstrip("0")) <= most, f"{fluid}: {working_text(line)}"


def test_glucose_by_hand():
    """Published: glucose 5 % as 278 mOsm/L and 200 kcal/L (UK product texts, see numbers 4)."""
    lines = lines_of("glucose-5")
    texts = {line.quantity: working_text(line).replace("\u00a0", " ") for line in lines}
    assert texts["glucose"] == (
        "50.0 g/L glucose, anhydrous × 1000 ÷ 180.156 g/mol = 277.54 mmol/L"
    )
    assert texts["energy"] == "4 kcal/g × 50.00 g/L = 200 kcal/L"
    assert texts["effective_osmolarity"] == "277.54 glucose × 0 = 0.0 mOsm/L"
    assert texts["ecf_gain"] == "1000 mL/L − 667 mL/L = 333 mL/L"


def test_a_declared_particle_says_so():
    sodium = next(line for line in lines_of("ringer-acetate") if line.quantity == "sodium")
    assert (sodium.formula, working_text(sodium)) == ("as declared", "130\u00a0mmol/L")


# A figure that moves while its line stays must be seen: each quantity, each step.
MOVABLE = [q.id for q in QUANTITIES if q.id not in WITHOUT_WORKING]


def moved(quantity):
    """The table with one quantity of all fluids moved by a twentieth and a bit."""
    numbers = {**TABLE.numbers, quantity: TABLE.numbers[quantity] * 1.05 + 0.3}
    return dataclasses.replace(TABLE, numbers=numbers)


def test_a_moved_figure_of_any_quantity_is_seen():
    unseen = []
    for quantity in MOVABLE:
        holding = [f for f in FLUIDS if TABLE.value(f, quantity).number]
        if holding and not any(faults_of(f, table=moved(quantity)) for f in holding[:3]):
            unseen.append(quantity)
    assert unseen == []


STEPS = [
    (workings_osmolality, "water_content", 1.01),
    (workings_osmolality, "ionic_strength", 1.01),
    (workings_osmolality, "osmotic_coefficient", 1.001),
    (workings_acid_base, "albumin_charge", 1.01),
    (workings_acid_base, "phosphate_charge", 1.01),
    (workings_acid_base, "CARBON_DIOXIDE_SOLUBILITY", 1.01),
    (workings_acid_base, "EXTRACELLULAR_VOLUME", 1.01),
    (workings_osmolality, "WATER_DENSITY", 1.01),
]


@pytest.mark.parametrize(("module", "name", "by"), STEPS, ids=[s[1] for s in STEPS])
def test_a_changed_function_of_a_step_is_seen(monkeypatch, module, name, by):
    real = getattr(module, name)
    changed = real * by if isinstance(real, float) else lambda *given: real(*given) * by
    monkeypatch.setattr(module, name, changed)
    assert faults_of("multiple-electrolytes-type-1") != []


def test_another_model_of_mixing_is_seen(monkeypatch):
    def weaker(before, sid, **more):
        return workings_acid_base.Blood(before.strong_ions, 40.0, 41.0, 1.1)

    monkeypatch.setattr(workings_acid_base, "infuse", weaker)
    assert faults_of("multiple-electrolytes-type-1") != []


# Random recipes: what is weighed, what is declared, in every unit that an entry may use.
SALTS = sorted(s.id for s in WHOLE.substances.values() if s.formula and s.releases)
COLLOIDS = sorted(s.id for s in WHOLE.substances.values() if s.colloid)


# More of an acid phosphate than this takes plasma below pH 6.9, where the fit of albumin ends.
MOST_GRAMS = dict.fromkeys([salt for salt in SALTS if "dihydrogen" in salt], 10)


@st.composite
def weighed(draw):
    substance = draw(st.sampled_from(SALTS))
    grams = draw(st.integers(1, 100 * MOST_GRAMS.get(substance, 60))) / 100
    unit = draw(st.sampled_from(["g/L", "g per 500 mL", "mg/mL", "% w/v", "mmol/L"]))
    figure = grams / 10 if unit in {"% w/v", "g per 500 mL"} else grams
    return {"substance": substance, "amount": f"{figure:.2f} {unit}"}


@st.composite
def declared(draw):
    particle = draw(st.sampled_from(sorted(WHOLE.particles)))
    units = ["mmol/L", "mmol per 500 mL"] + (["mEq/L"] if WHOLE.particles[particle].charge else [])
    figure = draw(st.integers(1, 600)) / 10
    unit = draw(st.sampled_from(units))
    return {"particle": particle, "amount": f"{figure if unit != units[1] else figure / 2} {unit}"}


@st.composite
def colloid(draw):
    charge = draw(st.none() | st.integers(1, 40))
    told = {} if charge is None else {"charge": f"{charge} mEq/L"}
    amount = f"{draw(st.integers(1, 200))} g/L"
    return {"substance": draw(st.sampled_from(COLLOIDS)), "amount": amount, **told}


CONTENTS = st.tuples(
    st.lists(weighed(), max_size=5),
    st.lists(declared(), max_size=3),
    st.lists(colloid(), max_size=1),
).map(lambda parts: [content for part in parts for content in part])


@RECIPES
@given(CONTENTS, st.sampled_from(["ready", "colloid", "concentrate"]))
def test_every_line_of_any_recipe_comes_out(contents, role):
    told = {"id": "recipe", "name": "Recipe", "role": role, "status": "current"}
    told |= {"contents_cite": "common practice", "review": {"state": "draft"}}
    fluid = Fluid.model_validate({**told, "contents": contents})
    catalogue = Catalogue(
        fluids={"recipe": fluid}, substances=WHOLE.substances, particles=WHOLE.particles
    )
    assert faults_of("recipe", catalogue, table_of(catalogue)) == []


def test_every_quantity_names_its_function():
    assert {q.id for q in QUANTITIES} == METHODS.keys() | WITHOUT_FUNCTION
    assert method_anchor("osmolarity") == "osmosis-theoretical-osmolarity"


@pytest.mark.parametrize(
    ("size", "preferred", "expected"),
    [(154.0, 2, 2), (1540.0, 2, 1), (15400.0, 2, 0), (0.9, 2, 3), (0.0, 2, 2)],
)
def test_digits_shown(size, preferred, expected):
    assert digits(size, preferred) == expected


def test_half_is_rounded_away_from_zero_as_pages_do():
    assert [Term(n, 1).printed for n in (1.25, -1.25, 0.04)] == [1.3, -1.3, 0.0]
