"""Can this join that line? Asked from either side, by keyboard, and where nobody looked.

The pairs are those of the catalogue, each with its sources; no published source for the form.
"""

from importlib.resources import files

import pytest

ADDRESS = "mixing.html#join"
RUN = """async () => {
  const found = await axe.run(document, {resultTypes: ['violations']});
  return found.violations.map((one) => one.id + ': ' + one.nodes[0].html);
}"""
BLANK = "Not looked up: ask pharmacy, or read the current monograph. No data is no pass."


def told(page):
    """The lines of the answer, with plain spaces."""
    text = page.locator("#join-answer").inner_text()
    return text.replace("\u00a0", " ").replace("\u202f", " ")


def test_from_the_side_of_what_is_to_join(window):
    page = window.open(ADDRESS)
    assert page.locator("#join-answer").is_hidden()
    page.locator("#join-what").select_option("phenytoin")
    assert "Phenytoin and glucose: does not mix (what the drug is first put into)" in told(page)
    assert "Phenytoin and lactated Ringer's: does not mix (in the same line" in told(page)
    assert "for no other" in told(page)
    assert window.trouble == []


def test_from_the_side_of_the_line_and_for_the_two(window):
    page = window.open(ADDRESS)
    page.locator("#join-fluid").select_option("compound-sodium-lactate")
    assert page.locator("#join-answer li").count() > 10
    page.locator("#join-what").select_option("ceftriaxone")
    assert page.locator("#join-answer li").count() == 2
    page.locator("#join-answer a").first.click()
    assert "/mixing/ceftriaxone-calcium-" in page.url
    assert window.trouble == []


def test_a_blank_is_no_pass(window):
    page = window.open(ADDRESS)
    page.locator("#join-what").select_option("warfarin")
    page.locator("#join-fluid").select_option("glucose-5")
    assert told(page) == BLANK
    assert page.locator("#join-answer").get_attribute("role") == "status"
    page.locator("#join-what").select_option("")
    page.locator("#join-fluid").select_option("")
    assert page.locator("#join-answer").is_hidden()


def test_it_is_asked_by_the_keyboard_alone(window):
    page = window.open(ADDRESS)
    page.locator("#join-what").focus()
    page.keyboard.type("phenyt")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "join-fluid"
    page.keyboard.type("Glucose 5 ")
    assert page.locator("#join-fluid").input_value().startswith("glucose-5")
    assert told(page).startswith("Phenytoin and glucose: does not mix")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Phenytoin and glucose"


def test_without_a_script_the_lists_remain(open_window):
    window = open_window(java_script_enabled=False)
    page = window.open(ADDRESS)
    assert page.locator("#join-form").is_hidden()
    assert page.get_by_role("link", name="Phenytoin and glucose").first.is_visible()
    page.context.close()


def test_it_is_no_wider_than_a_phone(open_window):
    window = open_window(viewport={"width": 320, "height": 700})
    page = window.open(ADDRESS)
    page.locator("#join-fluid").select_option("compound-sodium-lactate")
    over = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert page.evaluate(over) <= 0
    page.context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_with_an_answer_shown(open_window, scheme):
    window = open_window(color_scheme=scheme)
    page = window.open(ADDRESS)
    page.locator("#join-what").select_option("phenytoin")
    page.evaluate((files("axe_core_python") / "axe.min.js").read_text(encoding="utf-8"))
    assert page.evaluate(RUN) == []
    page.context.close()
