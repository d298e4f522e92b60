"""Each worksheet as a reader uses it: with the mouse, by keyboard alone, wrongly, and on paper.

Opened over file:// with the network cut. Figures: published or arithmetic, as in tests/vectors;
the fluids' own figures are those of the catalogue.
"""

from importlib.resources import files

import pytest

PAGE = "worksheets.html"
SHEETS = ("contents", "day", "concentrate", "drops", "glucose", "sodium")
LINE = "Teaching arithmetic, not an order."
RUN = """async () => {
  const found = await axe.run(document, {resultTypes: ['violations']});
  return found.violations.map((one) =>
    `${one.id}: ${one.help}: ${one.nodes.slice(0, 3).map((node) => node.html).join(' | ')}`);
}"""

# Worksheet, what a reader enters, what the table then says, and a part of the working.
# 500 mL of saline holds 77 mmol; 1500 + 500 mL holds 75 g and 77 mmol; 10 mL of 15 % in a litre is
# 20.12 mmol (arithmetic); 1000 mL in 8 h at 20 drops/mL is 42 drops/min; glucose 10 % at 100 mL/h
# for 70 kg is 2.38 mg/kg/min; 150 mL of 3 % at sodium 115 and 35 L is +1.70 and +1.66 mmol/L.
USED = {
    "contents": (
        {"fluid": "sodium-chloride-0-9", "volume": "500"},
        {"sodium": ["77 mmol"], "potassium": ["none"], "chloride": ["77 mmol"]},
        "sodium: 154 mmol",
    ),
    "day": (
        {
            "need": "adult",
            "weight": "70",
            "fluid-1": "glucose-5",
            "volume-1": "1500",
            "fluid-2": "sodium-chloride-0-9",
            "volume-2": "500",
        },
        {
            "water": ["2000 mL", "29 mL/kg", "1750 mL", "2100 mL"],
            "sodium": ["77 mmol", "1.1 mmol/kg", "70 mmol", "70 mmol"],
            "glucose, anhydrous": ["75 g", "1.1 g/kg", "50 g", "100 g"],
        },
        "water: 2000 mL ÷ 70 kg",
    ),
    "concentrate": (
        {
            "bag": "sodium-chloride-0-9",
            "bag-volume": "1000",
            "addition": "potassium-chloride-15",
            "addition-volume": "10",
        },
        {"potassium": ["20 mmol", "19.9 mmol/L", "20 mmol/L"]},
        "potassium: none in the bag + 20 mmol added",
    ),
    "drops": (
        {"volume": "1000", "hours": "8", "drops": "20"},
        {"pump rate": ["125.0 mL/h"], "drops to count": ["42 drops/min"]},
        "41.7 drops/min, counted as 42 drops/min",
    ),
    "glucose": (
        {"fluid": "glucose-10", "rate": "100", "weight": "70"},
        {"glucose per kg and minute": ["2.38 mg/kg/min"], "glucose in an hour": ["10 g/h"]},
        "100 g/L × 100 mL/h ÷ (70 kg × 60) = 2.38 mg/kg/min",
    ),
    "sodium": (
        {
            "fluid": "sodium-chloride-3",
            "serum": "115",
            "weight": "70",
            "body": "woman",
            "volume": "150",
        },
        {
            "body water": ["35.0 L"],
            "change of sodium, exact": ["+1.70 mmol/L"],
            "change by the per-litre rule": ["+1.66 mmol/L"],
            "sodium after it, exact": ["116.7 mmol/L"],
        },
        "35.0 L",
    ),
}


def enter(page, sheet, answers):
    for field, text in answers.items():
        box = page.locator(f"#{sheet}-{field}")
        if box.evaluate("(one) => one.tagName") == "SELECT":
            box.select_option(text)
        else:
            box.fill(text)


def section(page, sheet):
    return page.locator(f"section#{sheet}")


def work_out(page, sheet):
    section(page, sheet).get_by_role("button", name="Work it out").click()


def said(text):
    """A text with its unbreakable spaces as plain ones."""
    return text.replace("\u00a0", " ").replace("\u202f", " ")


def table_of(page, sheet):
    rows = page.locator(f"#{sheet}-table tbody tr").all()
    return {
        said(row.locator("th").inner_text()): [
            said(cell) for cell in row.locator("td").all_inner_texts()
        ]
        for row in rows
    }


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_reader_works_it_out(window, sheet):
    page = window.open(PAGE)
    answers, rows, working = USED[sheet]
    enter(page, sheet, answers)
    work_out(page, sheet)
    table = table_of(page, sheet)
    for name, cells in rows.items():
        assert table[name] == cells
    assert working in said(page.locator(f"#{sheet}-worked").inner_text())
    assert LINE in page.locator(f"#{sheet}-result").inner_text()
    assert page.locator(f"#{sheet}-mark").is_hidden()
    assert said(page.locator(f"#{sheet}-status").inner_text()).startswith("Worked out. ")
    assert window.trouble == []


@pytest.mark.parametrize("sheet", SHEETS)
def test_it_starts_empty_and_says_formula_source_and_caution(window, sheet):
    page = window.open(PAGE)
    script = """(one) => [...one.querySelectorAll('input, select')].map((field) => field.value)"""
    assert set(section(page, sheet).evaluate(script)) == {""}
    assert page.locator(f"#{sheet}-result").is_hidden()
    told = section(page, sheet).locator("dl dt").all_inner_texts()
    assert told == ["formula", "source", "caution", "taught in"]
    assert all(section(page, sheet).locator("dl dd").all_inner_texts())


@pytest.mark.parametrize("sheet", SHEETS)
def test_the_example_is_marked_as_invented_until_it_is_emptied(window, sheet):
    page = window.open(PAGE)
    part = section(page, sheet)
    part.get_by_role("button", name="Show an invented example").click()
    assert page.locator(f"#{sheet}-mark").inner_text() == "Invented example"
    assert table_of(page, sheet)
    number = part.locator("input").first
    number.fill(number.input_value() + "0")
    assert page.locator(f"#{sheet}-mark").inner_text() == "Invented example, changed by the reader"
    assert page.locator(f"#{sheet}-result").is_hidden()
    assert page.locator(f"#{sheet}-status").inner_text() == "Changed: work it out again."
    part.get_by_role("button", name="Empty", exact=True).click()
    assert page.locator(f"#{sheet}-mark").is_hidden()
    script = """(one) => [...one.querySelectorAll('input, select')].map((field) => field.value)"""
    assert set(part.evaluate(script)) == {""}
    assert window.trouble == []


@pytest.mark.parametrize("sheet", SHEETS)
def test_it_works_by_keyboard_alone(window, sheet):
    """From the first field: type or choose, Tab, and Enter at the end."""
    page = window.open(PAGE)
    answers, rows, _ = USED[sheet]
    page.locator(f"#{sheet} select, #{sheet} input").first.focus()
    fields = page.locator(f"#{sheet} select, #{sheet} input").count()
    for _ in range(fields):
        name = page.evaluate("() => document.activeElement.id")
        kind = page.evaluate("() => document.activeElement.tagName")
        wanted = answers.get(name.removeprefix(f"{sheet}-"), "")
        if kind == "SELECT" and wanted:
            choose = """(value) => [...document.activeElement.options]
              .findIndex((option) => option.value === value)"""
            for _ in range(page.evaluate(choose, wanted)):
                page.keyboard.press("ArrowDown")
            assert page.evaluate("() => document.activeElement.value") == wanted
        elif wanted:
            page.keyboard.type(wanted)
        page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.textContent") == "Work it out"
    page.keyboard.press("Enter")
    assert set(rows) <= set(table_of(page, sheet))
    for wanted in ("Show an invented example", "Empty", "Print this sheet"):
        page.keyboard.press("Tab")
        assert page.evaluate("() => document.activeElement.textContent") == wanted
    assert window.trouble == []


@pytest.mark.parametrize("sheet", SHEETS)
def test_an_empty_sheet_is_refused_and_the_first_field_is_marked(window, sheet):
    page = window.open(PAGE)
    work_out(page, sheet)
    first = page.locator(f"#{sheet} [aria-required='true']").first
    assert first.get_attribute("aria-invalid") == "true"
    assert page.evaluate("() => document.activeElement.id") == first.get_attribute("id")
    faults = [text for text in section(page, sheet).locator(".fault").all_inner_texts() if text]
    assert len(faults) == section(page, sheet).locator("[aria-required='true']").count()
    assert all(text.startswith(("Write ", "Choose ")) for text in faults)
    assert page.locator(f"#{sheet}-result").is_hidden()
    assert "Not worked out" in page.locator(f"#{sheet}-status").inner_text()


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("0.5", "Write the volume in mL as a number from 1 to 20000, such as 500."),
        ("-500", "Write the volume in mL as a number from 1 to 20000, such as 500."),
        ("500 mL", "Write the volume in mL as a number from 1 to 20000, such as 500."),
        ("500000", "Write the volume in mL as a number from 1 to 20000, such as 500."),
        ("1,5", "Write a point instead of the comma, as in 1.5."),
    ],
)
def test_nonsense_is_refused_with_what_to_write(window, typed, told):
    page = window.open(PAGE)
    enter(page, "contents", {"fluid": "glucose-5", "volume": typed})
    page.locator("#contents-volume").press("Enter")
    assert page.locator("#contents-volume-fault").inner_text() == told
    assert page.locator("#contents-result").is_hidden()
    page.locator("#contents-volume").fill("500")
    page.locator("#contents-volume").press("Enter")
    assert page.locator("#contents-volume-fault").inner_text() == ""
    assert page.locator("#contents-result").is_visible()


def test_a_fluid_goes_with_its_volume_and_a_need_with_its_weights(window):
    page = window.open(PAGE)
    enter(page, "day", {"need": "child", "weight": "120", "fluid-1": "glucose-5"})
    enter(page, "day", {"volume-1": "500", "volume-2": "100"})
    work_out(page, "day")
    assert "from 3 to 80 kg" in page.locator("#day-weight-fault").inner_text()
    assert page.locator("#day-fluid-2-fault").inner_text().startswith("Choose a fluid and write")


def test_a_strong_mixture_is_held_beside_the_limits_with_their_source(window):
    page = window.open(PAGE)
    bag = {"bag": "sodium-chloride-0-9", "bag-volume": "500"}
    enter(page, "concentrate", {**bag, "addition": "potassium-chloride-15"})
    enter(page, "concentrate", {"addition-volume": "20"})
    work_out(page, "concentrate")
    notes = said(page.locator("#concentrate-notes").inner_text())
    assert "Potassium 77 mmol/L lies above 40 mmol/L." in notes
    assert "NHS Specialist Pharmacy Service" in notes
    assert "no statement that they may be mixed" in notes


def test_a_pair_that_can_crystallise_is_named(window):
    page = window.open(PAGE)
    bag = {"bag": "compound-sodium-lactate", "bag-volume": "500"}
    enter(page, "concentrate", {**bag, "addition": "potassium-dihydrogen-phosphate-13-6"})
    enter(page, "concentrate", {"addition-volume": "10"})
    work_out(page, "concentrate")
    notes = page.locator("#concentrate-notes").inner_text()
    assert "Calcium and phosphate together can fall out" in notes
    assert "common practice, no source" in notes


def test_the_potassium_of_an_hour_stands_beside_the_published_rate(window):
    """40 mmol/L at 250 mL/h is 10 mmol/h (arithmetic): at the usual limit; at 500 mL/h beyond."""
    page = window.open(PAGE)
    enter(page, "drops", {"volume": "500", "hours": "2", "drops": "20"})
    enter(page, "drops", {"fluid": "potassium-chloride-0-3-sodium-chloride-0-9"})
    work_out(page, "drops")
    assert table_of(page, "drops")["potassium"][-1] == "10.1 mmol/h"
    assert page.locator("#drops-notes").is_hidden()
    enter(page, "drops", {"hours": "1"})
    work_out(page, "drops")
    notes = said(page.locator("#drops-notes").inner_text())
    assert "Potassium 20 mmol/h lies above 10 mmol/h. The usual highest rate in adults." in notes


def test_a_concentrate_is_named_as_one(window):
    page = window.open(PAGE)
    enter(page, "contents", {"fluid": "potassium-chloride-15", "volume": "10"})
    work_out(page, "contents")
    assert "dilute before use" in page.locator("#contents-notes").inner_text()


def test_what_is_not_known_stays_so_and_says_why(window):
    """Albumin 20 % declares its sodium as a range: there is no one figure to multiply."""
    page = window.open(PAGE)
    enter(page, "contents", {"fluid": "albumin-20", "volume": "100"})
    work_out(page, "contents")
    table = table_of(page, "contents")
    assert table["sodium"] == ["not known"]
    assert table["colloid"] == ["20 g"]
    notes = said(page.locator("#contents-notes").inner_text())
    assert "sodium: no figure, declared as a range." in notes


@pytest.mark.both_ways
def test_a_link_brings_its_fluid_along_and_fills_in_nothing_else(window):
    page = window.open(f"{PAGE}#contents=glucose-5")
    assert page.locator("#contents-fluid").input_value() == "glucose-5"
    assert page.locator("#contents-volume").input_value() == ""
    assert page.evaluate("() => document.activeElement.id") == "contents-fluid"
    assert page.locator("#contents").bounding_box()["y"] < 100
    page.evaluate("() => { window.location.hash = 'glucose=glucose-20'; }")
    page.wait_for_function("() => document.activeElement.id === 'glucose-fluid'")
    assert page.locator("#glucose-fluid").input_value() == "glucose-20"
    page.evaluate("() => { window.location.hash = '%E0%A4%A'; }")
    page.evaluate("() => { window.location.hash = 'concentrate=potassium-chloride-15'; }")
    page.wait_for_function("() => document.activeElement.id === 'concentrate-addition'")
    assert page.locator("#concentrate-addition").input_value() == "potassium-chloride-15"
    assert page.locator("#concentrate-bag").input_value() == ""
    page.evaluate("() => { window.location.hash = 'contents=no-such-fluid'; }")
    page.wait_for_function("() => document.activeElement.id === 'contents-fluid'")
    assert page.locator("#contents-fluid").input_value() == "glucose-5"
    assert window.trouble == []


def test_from_a_fluid_to_its_worksheet_by_keyboard(window):
    """The way a reader goes: the fluid's page, the link, the volume that she writes herself."""
    page = window.open("fluids/potassium-chloride-0-3-glucose-5.html")
    page.get_by_role("link", name="Drops and pump rate").focus()
    page.keyboard.press("Enter")
    page.wait_for_function("() => document.activeElement.id === 'drops-fluid'")
    script = """(one) => [...one.querySelectorAll('input, select')].map((field) => field.value)"""
    filled = section(page, "drops").evaluate(script)
    assert [text for text in filled if text] == ["potassium-chloride-0-3-glucose-5"]
    enter(page, "drops", {"volume": "500", "hours": "2", "drops": "20"})
    page.locator("#drops-drops").press("Enter")
    assert table_of(page, "drops")["potassium"][-1] == "10.1 mmol/h"
    assert window.trouble == []


def test_one_sheet_prints_alone_with_its_result(window):
    page = window.open(PAGE)
    page.evaluate("() => { window.print = () => {}; }")
    section(page, "drops").get_by_role("button", name="Show an invented example").click()
    section(page, "drops").get_by_role("button", name="Print this sheet").click()
    page.emulate_media(media="print")
    assert [sheet for sheet in SHEETS if section(page, sheet).is_visible()] == ["drops"]
    assert page.locator("#drops-result").is_visible()
    assert page.locator("#drops-mark").is_visible()
    assert section(page, "drops").locator(".actions").is_hidden()
    page.emulate_media(media="screen")
    page.evaluate("() => window.dispatchEvent(new Event('afterprint'))")
    assert all(section(page, sheet).is_visible() for sheet in SHEETS)


def test_without_a_script_the_formulas_remain(open_window):
    window = open_window(java_script_enabled=False)
    page = window.open(PAGE)
    assert page.locator("#drops-form").is_hidden()
    assert "pencil" in page.locator("article noscript").inner_text()
    assert "drops a minute" in section(page, "drops").inner_text()
    window.page.context.close()


@pytest.mark.parametrize("width", [1366, 390, 320])
def test_it_is_no_wider_than_its_window(open_window, width):
    window = open_window(viewport={"width": width, "height": 768})
    page = window.open(PAGE)
    for sheet in SHEETS:
        section(page, sheet).get_by_role("button", name="Show an invented example").click()
    over = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert page.evaluate(over) <= 0
    window.page.context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_with_results_and_refusals_shown(open_window, scheme):
    window = open_window(color_scheme=scheme)
    page = window.open(PAGE)
    for sheet in SHEETS:
        section(page, sheet).get_by_role("button", name="Show an invented example").click()
    enter(page, "contents", {"volume": "no number"})
    work_out(page, "contents")
    page.evaluate((files("axe_core_python") / "axe.min.js").read_text(encoding="utf-8"))
    assert page.evaluate(RUN) == []
    window.page.context.close()
