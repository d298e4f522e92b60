"""The sums of the worksheets: published examples, and the page's script beside the reference.

Sources stand beside each case in tests/vectors. The script runs in one blank page of a real
browser, on lists of cases, so that thousands of sums take one call.
"""

import json
import random
import re
from pathlib import Path

import pytest

from isofolio.findings.limits import above
from isofolio.handbook import open_handbook
from isofolio.pages.worksheets import worksheet_address, worksheets_page
from isofolio.physiology.rates import maintenance_per_day, maintenance_per_hour
from isofolio.teaching.needs import ADULT, CHILD, NEEDS, published
from isofolio.teaching.results import Result, kind_of
from isofolio.teaching.sheets import SHEETS, TEACHING_LINE
from isofolio.teaching.worksheets import (
    HELD,
    concentrate,
    contents,
    day_plan,
    drops,
    glucose_load,
    sodium_by_volume,
)
from isofolio.teaching.worksheets_data import (
    example_of,
    fluids_for,
    per_litre,
    result_ids,
    worksheets_data,
)

PROJECT = Path(__file__).parents[2]
VECTORS = PROJECT / "tests" / "vectors"
SCRIPT = PROJECT / "site_src" / "scripts" / "worksheets.js"
CASES = 250  # generated for each worksheet
CLOSE = 1e-12  # relative: the two add in the same order, but not always with the same function

SUMS = {
    "contents": contents,
    "day": day_plan,
    "concentrate": concentrate,
    "drops": drops,
    "glucose": glucose_load,
    "sodium": sodium_by_volume,
}
RUN = (
    """(given) => given.map(([name, entered]) => window.isofolio.worksheets.sums[name](entered))"""
)
WORD = """(given) => given.map(([id, number]) => window.isofolio.worksheets.textOf(id, number))"""


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(PROJECT / "catalogue")
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


@pytest.fixture(scope="module")
def blank(chromium, handbook):
    """A blank page with the data and the script, and nothing to show them in."""
    page = chromium.new_page()
    page.add_script_tag(content=worksheets_data(handbook))
    page.add_script_tag(content=SCRIPT.read_text(encoding="utf-8"))
    yield page
    page.close()


def vectors():
    for path in sorted(VECTORS.glob("*.json")):
        told = json.loads(path.read_text(encoding="utf-8"))
        if told.get("worksheet") in SUMS:
            yield from ((told["worksheet"], case) for case in told["cases"])


VECTOR_CASES = list(vectors())


def numbers(found):
    return {result.id: result.number for result in found}


def assert_found(found, case):
    assert case["found"]
    for name, wanted in case["found"].items():
        if wanted is None:
            assert found[name] is None, (case["title"], name)
        else:
            assert found[name] == pytest.approx(wanted, abs=case["within"]), (case["title"], name)


def test_every_worksheet_has_published_cases():
    assert {name for name, _ in VECTOR_CASES} == set(SUMS) == {sheet.id for sheet in SHEETS}
    assert all(case["source"] for _, case in VECTOR_CASES)


@pytest.mark.parametrize(("name", "case"), VECTOR_CASES, ids=lambda one: str(one)[:40])
def test_the_reference_reproduces_it(name, case):
    assert_found(numbers(SUMS[name](**case["entered"])), case)


def test_the_page_reproduces_it(blank):
    given = [[name, case["entered"]] for name, case in VECTOR_CASES]
    for (_, case), found in zip(VECTOR_CASES, blank.evaluate(RUN, given), strict=True):
        assert_found(dict(found), case)


def test_drops_are_counted_whole():
    """42, 28 and 60 drops a minute. Arithmetic; 20 and 60 drops/mL by ISO 8536-4:2020, 7.8."""
    asked = ((1000.0, 8.0, 20.0), (1000.0, 12.0, 20.0), (60.0, 1.0, 60.0))
    assert [drops(*one)[1].text for one in asked] == ["42", "28", "60"]


# Parity over generated cases


def some_fluid(chance):
    """An invented fluid: some quantities, each with a figure, nothing, or no known figure."""
    names = chance.sample((*HELD, "osmolarity"), chance.randint(0, 8))
    return {name: chance.choice([0.0, None, *[chance.uniform(0.01, 5000.0)] * 6]) for name in names}


def entered_for(name, chance):
    def within(low, high):
        return chance.choice([chance.uniform(low, high), round(chance.uniform(low, high), 1), high])

    if name == "contents":
        return {"per_litre": some_fluid(chance), "volume": within(1.0, 20000.0)}
    if name == "day":
        need = chance.choice(NEEDS)
        parts = [[some_fluid(chance), within(1.0, 10000.0)] for _ in range(chance.randint(1, 3))]
        return {"parts": parts, "weight": within(need.lowest, need.highest), "need": need.id}
    if name == "concentrate":
        return {
            "bag": some_fluid(chance),
            "bag_volume": within(50.0, 5000.0),
            "addition": some_fluid(chance),
            "addition_volume": within(0.1, 500.0),
        }
    if name == "drops":
        held = chance.choice([None, some_fluid(chance)])
        whole = {"volume": within(1.0, 5000.0), "hours": within(0.05, 48.0)}
        return {**whole, "drops_per_ml": chance.choice([20.0, 60.0, 15.0]), "per_litre": held}
    if name == "glucose":
        mass = chance.choice([within(1.0, 500.0), 0.0])
        return {"glucose_mass": mass, "rate": within(0.1, 2000.0), "weight": within(0.4, 200.0)}
    return {
        "sodium": within(0.1, 900.0),
        "potassium": chance.choice([0.0, within(0.1, 100.0)]),
        "serum_sodium": within(90.0, 190.0),
        "weight": within(35.0, 200.0),
        "water_per_kg": chance.choice([0.6, 0.5, 0.45]),
        "volume": within(1.0, 5000.0),
    }


def generated(name):
    chance = random.Random(f"worksheet {name}")
    return [entered_for(name, chance) for _ in range(CASES)]


@pytest.mark.parametrize("name", SUMS)
def test_the_page_and_the_reference_agree(blank, name):
    cases = generated(name)
    ours = [SUMS[name](**entered) for entered in cases]
    theirs = blank.evaluate(RUN, [[name, entered] for entered in cases])
    assert len(ours) >= 200
    for entered, mine, their in zip(cases, ours, theirs, strict=True):
        assert [one for one, _ in their] == [result.id for result in mine], entered
        for result, (_, number) in zip(mine, their, strict=True):
            wanted = result.number
            assert (number is None) is (wanted is None), (result.id, entered)
            if wanted is not None:
                assert number == pytest.approx(wanted, rel=CLOSE, abs=CLOSE), (result.id, entered)


TIES = (0.05, 1.25, 2.675, 19.95, 19.949, 20.0, 0.095, 0.0949, 0.005, 1e-7, 0.0, 154.5, 1e21)


def test_the_page_rounds_as_every_other_page_does(blank):
    """Half away from zero, in decimals: wording.figures is the reference."""
    chance = random.Random("rounding")
    ids = ("sodium.held", "rate", "change", "glucose.per_minute", "counted", "after")
    given = [*TIES[:-1], *(-one for one in TIES[:-1])]
    given += [chance.uniform(-30.0, 30.0) for _ in range(200)]
    given += [round(chance.uniform(-30.0, 30.0), 2) + 0.005 for _ in range(200)]
    pairs = [[name, number] for name in ids for number in given]
    ours = [Result(name, kind_of(name), number).text for name, number in pairs]
    assert blank.evaluate(WORD, pairs) == ours


def test_the_page_holds_a_result_beside_a_limit_as_cautions_do(blank, handbook):
    limits = handbook.catalogue.limits
    names = sorted({limit for sheet in SHEETS for _, limit in sheet.limits})
    assert names
    for name in names:
        value = limits[name].value.low
        given = [value - 1, value - 0.51, value, value + 0.24, value + 0.49, value + 0.51, None]
        script = f"""(given) => given.map((one) =>
          window.isofolio.worksheets.above(one, window.isofolio.worksheetsData.limits[{name!r}]))"""
        assert blank.evaluate(script, given) == [above(number, limits[name]) for number in given]


@pytest.mark.parametrize(
    "text", ["1,5", "1e3", "-4", "+4", "0", "Infinity", "NaN", "٥", "4 4", "0x1"]
)
def test_nonsense_is_refused_with_a_sentence(blank, text):
    script = """(text) => window.isofolio.worksheets.judged(
      window.isofolio.worksheetsData.sheets.contents.fields.volume, text)"""
    answer = blank.evaluate(script, text)
    assert answer["value"] is None
    assert answer["fault"].startswith("Write ")


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_the_ends_of_every_bound_are_taken_and_what_lies_beyond_is_not(blank, sheet):
    script = """([sheet, field, texts]) => texts.map((text) => window.isofolio.worksheets.judged(
      window.isofolio.worksheetsData.sheets[sheet].fields[field], text).fault)"""
    for field in (field for field in sheet.fields if field.kind == "number"):
        ends = [str(field.low), str(field.high)]
        beyond = [f"{field.low * 0.99:f}", f"{field.high * 1.01:f}"]
        assert blank.evaluate(script, [sheet.id, field.id, ends]) == ["", ""]
        assert blank.evaluate(script, [sheet.id, field.id, beyond]) == [field.refusal] * 2
        assert field.unit in field.refusal


# The data


@pytest.mark.parametrize("weight", [3.0, 9.9, 10.0, 10.1, 20.0, 20.1, 32.0, 80.0])
def test_the_bands_of_the_data_are_those_of_the_reference(weight):
    """Holliday and Segar, Pediatrics 1957;19:823; 4-2-1: common practice, no source."""

    def banded(bands):
        starts = (0.0, *(end for end, _ in bands))
        pairs = zip(bands, starts[:-1], strict=True)
        return sum(per * max(0.0, min(weight, end) - start) for (end, per), start in pairs)

    assert banded(CHILD.water[0]) == pytest.approx(maintenance_per_day(weight))
    assert banded(CHILD.hourly) == pytest.approx(maintenance_per_hour(weight))


def test_the_needs_of_an_adult_are_those_published():
    """NICE CG174, as quoted in BMJ Open Quality, table 1 (copy)."""
    ends = published(ADULT, 60.0)
    assert ends["water"] == (1500.0, 1800.0)
    assert ends["sodium"] == ends["potassium"] == ends["chloride"] == (60.0, 60.0)
    assert ends["glucose_mass"] == (50.0, 100.0)


def test_every_result_has_its_kind_in_the_data():
    for name, sums in SUMS.items():
        for entered in generated(name)[:50]:
            assert {result.id for result in sums(**entered)} <= set(result_ids())


def test_the_figures_are_those_of_the_handbook(handbook):
    for fluid in handbook.fluids:
        for quantity, number in per_litre(handbook, fluid).items():
            value = handbook.value(fluid.id, quantity)
            assert number == (value.number if value.number is None else pytest.approx(value.number))
            assert number is not None or value.reason


def test_the_examples_are_fluids_of_the_catalogue(handbook):
    fields = [field for sheet in SHEETS for field in sheet.fields if field.kind == "fluid"]
    assert fields
    for field in fields:
        assert example_of(handbook, field.fluids, field.example) == field.example
    assert example_of(handbook, "any", "no-such-fluid") in handbook.catalogue.fluids


def test_no_concentrate_is_offered_to_hang(handbook):
    roles = {fluid.role for fluid in fluids_for(handbook, "hung")}
    assert roles == {"ready", "colloid"}
    assert {fluid.role for fluid in fluids_for(handbook, "added")} == {"concentrate"}
    assert all(fluid.role != "concentrate" for fluid in fluids_for(handbook, "sugar"))


def test_the_same_handbook_gives_the_same_bytes(handbook):
    text = worksheets_data(handbook)
    assert text == worksheets_data(handbook)
    assert "</" not in text


# The script and the page


NO_CODE = re.compile(
    r"""/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\])*"|= /[^\n]+/;|/\\[^\n]*?/g?,""", re.DOTALL
)


def test_the_script_holds_no_clinical_number():
    code = NO_CODE.sub("", SCRIPT.read_text(encoding="utf-8"))
    assert "sums" in code
    assert set(re.findall(r"(?<![\w.$])\d[\d_.]*", code)) <= {"0", "1", "2"}


def test_the_script_asks_for_nothing_keeps_nothing_and_writes_no_markup():
    code = SCRIPT.read_text(encoding="utf-8")
    words = r"innerHTML|insertAdjacent|eval|fetch|XMLHttp|Storage|cookie|https?:|\.style\b|^import"
    assert re.findall(words, code, re.MULTILINE) == []


def test_the_page_fills_nothing_in_and_asks_for_no_name(handbook):
    body = worksheets_page(handbook).body
    assert re.findall(r"<(?:input|option)[^>]*\b(?:value=\"[^\"]+\" selected|checked)", body) == []
    assert re.findall(r"<input[^>]*\bvalue=", body) == []
    assert not re.search(r"<label[^>]*>[^<]*\b(name|ward|bed|birth)\b", body, re.IGNORECASE)
    assert body.count(f"<b>{TEACHING_LINE}</b>") == 1 + len(SHEETS)


def test_links_from_fluids_meet_an_anchor(handbook):
    body = worksheets_page(handbook).body
    for fluid in ("glucose-5", "potassium-chloride-15"):
        _, _, anchor = worksheet_address("contents", fluid).partition("#")
        assert f'id="{anchor}"' in body
