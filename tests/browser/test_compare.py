"""Fluids side by side: chosen by keyboard, kept in the address, over file:// with no network."""

import re

import pytest

CHOICE = "glucose-5,sodium-chloride-0-9,compound-sodium-lactate,plasma"
TABLE = """() => [...document.querySelectorAll('table.compared tbody tr:not(.group)')].map((row) =>
  [...row.children].map((cell) => cell.textContent.trim()))"""
HEADS = """() => [...document.querySelectorAll('table.compared thead th')]
  .map((head) => head.textContent.trim())"""
CHOSEN = "() => [...document.querySelectorAll('#compare-chosen li span')].map((i) => i.textContent)"
FOCUS = "() => document.activeElement.id || document.activeElement.getAttribute('aria-label')"


def go(window, query=""):
    """Open the page with a query, which Window.open would take for a part of the file's name."""
    return window.open(f"compare.html{query}")


def shown(window, query):
    page = go(window, query)
    page.wait_for_selector("#compare-shown:not([hidden])")
    return page


@pytest.mark.both_ways
def test_the_choice_is_restored_from_the_address(window):
    page = shown(window, f"?with={CHOICE}")
    names = ["Glucose\u00a05\u202f%", "Sodium chloride\u00a00.9\u202f%", "Compound sodium lactate"]
    assert page.evaluate(CHOSEN) == names
    assert page.evaluate(HEADS) == ["figure", *names, "plasma", "difference"]
    assert page.is_checked("#compare-plasma")
    assert window.trouble == []


def test_the_choice_in_the_hash_is_read_too(window):
    page = shown(window, f"#with={CHOICE.replace(',plasma', '')}")
    assert len(page.evaluate(CHOSEN)) == 3
    assert not page.is_checked("#compare-plasma")
    assert "plasma" not in page.evaluate(HEADS)


@pytest.mark.both_ways
def test_everything_works_by_keyboard_alone(window):
    page = go(window)
    assert "2 to 6 fluids" in page.inner_text("#compare-status")
    page.focus("#compare-add")
    page.keyboard.type("Glucose 10")
    page.keyboard.press("Tab")
    assert page.evaluate(FOCUS) == "compare-put"
    page.keyboard.press("Enter")
    assert page.evaluate(FOCUS) == "compare-add"
    page.keyboard.type("Sodium chloride 0.9 %")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_selector("#compare-shown:not([hidden])")
    assert page.url.endswith("compare.html?with=glucose-10,sodium-chloride-0-9,plasma")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    assert page.evaluate(FOCUS) == "compare-plasma"
    page.keyboard.press("Space")
    page.wait_for_function("() => location.search.endsWith('sodium-chloride-0-9')")
    page.focus("#compare-chosen button")
    page.keyboard.press("Enter")
    assert page.url.endswith("compare.html?with=sodium-chloride-0-9")
    assert page.evaluate(FOCUS).startswith("Remove Sodium chloride")
    assert page.inner_text("#compare-status") == "Choose one more."
    assert window.trouble == []


def test_what_cannot_be_is_said(window):
    page = shown(window, "?with=glucose-5,no-such-fluid,glucose-10,plasma")
    assert page.inner_text("#compare-status").startswith("Not in this catalogue: no-such-fluid.")
    page.select_option("#compare-add", "glucose-5")
    page.click("#compare-put")
    assert "is there already" in page.inner_text("#compare-status")
    page.select_option("#compare-add", "")
    page.click("#compare-put")
    assert page.inner_text("#compare-status") == "Choose a fluid in the list first."


def test_no_more_than_six(window):
    six = "glucose-5,glucose-10,glucose-20,glucose-30,glucose-50,mannitol-10"
    page = shown(window, f"?with={six},mannitol-20")
    assert len(page.evaluate(CHOSEN)) == 6
    page.select_option("#compare-add", "mannitol-20")
    page.click("#compare-put")
    assert "Remove one first" in page.inner_text("#compare-status")
    page.click("#compare-clear")
    assert page.evaluate(CHOSEN) == []
    assert page.url.endswith("compare.html")


def test_hostile_addresses_make_nothing(window):
    page = go(window, "?with=%3Cimg%20src%3Dx%3E,glucose-5,%22%3E%3Cscript%3E")
    page.wait_for_function("() => document.querySelector('#compare-status').textContent")
    assert page.evaluate("() => document.querySelectorAll('main img, main script').length") == 0
    assert page.evaluate(CHOSEN) == ["Glucose\u00a05\u202f%"]
    assert window.trouble == []


def test_columns_stand_on_one_base_line_and_one_scale(window):
    """A millimole of sodium is as tall in every column: 154 of saline, 131 of the lactate."""
    page = shown(window, f"?with={CHOICE}")
    boxes = page.evaluate(
        """() => [...document.querySelectorAll('#compare-row use')].map((use) => {
          const symbol = document.querySelector(use.getAttribute('href'));
          return [...symbol.querySelectorAll('.ion-fill-sodium')].map((r) =>
            [Number(r.getAttribute('y')), Number(r.getAttribute('height'))])[0] || null;
        })"""
    )
    assert boxes[0] is None  # glucose has no ions
    (saline_y, saline), (lactate_y, lactate), (plasma_y, plasma) = boxes[1:]
    assert saline / lactate == pytest.approx(154.005 / 130.958, rel=1e-3)
    assert saline / plasma == pytest.approx(154.005 / 140.0, rel=1e-3)
    assert saline_y + saline == pytest.approx(lactate_y + lactate) == plasma_y + plasma
    labels = page.locator("#compare-row [role=img]").evaluate_all(
        "(all) => all.map((one) => one.getAttribute('aria-label'))"
    )
    assert labels[0].startswith("Glucose")
    assert "no charge" in labels[0]
    assert len(labels) == 4


def test_a_strong_fluid_weakens_all_columns_and_a_sentence_says_so(window):
    page = shown(window, "?with=sodium-chloride-0-9,sodium-bicarbonate-8-4,plasma")
    assert "diluted to a fifth" in page.inner_text("#compare-sentence")
    assert "Plasma is drawn as it is" in page.inner_text("#compare-sentence")
    assert "1000" in page.inner_text("#compare-table")  # the table does not


def test_the_script_says_what_the_ready_made_pages_say(window, site):
    """Two writers of one table, Python and the script, agree on every comparison."""
    for path in sorted((site / "comparisons").glob("*.html")):
        page = window.open(f"comparisons/{path.name}")
        ready = {row[0]: row[1:] for row in page.evaluate(TABLE)}
        heads = page.evaluate(HEADS)
        page.click(".change-choice")
        page.wait_for_selector("#compare-shown:not([hidden])")
        assert page.evaluate(HEADS) == heads
        chosen = {row[0]: row[1:] for row in page.evaluate(TABLE)}
        absent = page.inner_text("#compare-absent")
        rows = [name for name in ready if not re.search(r" in \d+\u00a0mL", name)]
        assert rows
        for name in rows:
            if name in chosen:
                assert chosen[name] == ready[name], (path.name, name)
            else:
                assert name.split(",")[0] in absent, (path.name, name)
    assert window.trouble == []


def test_without_script_the_comparisons_are_whole(open_window):
    window = open_window(java_script_enabled=False)
    page = window.open("compare.html")
    assert not page.is_visible("#compare")
    links = page.locator(".ready-made a").all()
    assert len(links) >= 10
    page = window.open("comparisons/potassium-in-three-strengths.html")
    assert page.is_visible("table.compared")
    assert "20\u00a0mmol" in page.inner_text("main")
    assert page.locator("svg.ion-drawing").bounding_box()["height"] > 200
    assert window.trouble == []
    page.context.close()


def test_a_small_screen_scrolls_only_inside_its_boxes(open_window):
    window = open_window(viewport={"width": 320, "height": 640})
    page = shown(window, f"?with={CHOICE}")
    wide = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert page.evaluate(wide) <= 0
    box = page.locator("#compare-row")
    assert box.evaluate("(one) => one.scrollWidth > one.clientWidth")
    page.context.close()
