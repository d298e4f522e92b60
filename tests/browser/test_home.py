"""The home page: the finder first, and the emergency pages one key away.

No published source: this is how the project's own pages must behave.
"""

import pytest

HOME = "index.html"
INDEX = "finder-data.js"
FIRST = "[data-key='1']"


@pytest.fixture
def home(window):
    yield window.open(HOME)
    assert window.trouble == []


@pytest.mark.both_ways
def test_what_the_ward_calls_it_leads_to_its_page(home):
    """By the keyboard: the index is asked for when the box is entered, and not before."""
    asked = []
    home.on("request", lambda request: asked.append(request.url.rpartition("/")[2]))
    home.reload()
    assert INDEX not in asked
    home.focus("#finder-box")
    home.keyboard.type("normal saline")
    home.locator("#finder-results .finder-hit").first.wait_for()
    assert INDEX in asked
    home.keyboard.press("ArrowDown")
    home.keyboard.press("Enter")
    home.wait_for_url("**/fluids/sodium-chloride-0-9.html")
    assert home.locator("h1").inner_text().startswith("Sodium chloride")


@pytest.mark.both_ways
def test_a_digit_opens_an_emergency_page_until_that_is_turned_off(home, window):
    target = home.locator(FIRST).get_attribute("href")
    home.keyboard.press("1")
    home.wait_for_url(f"**/{target}")
    window.open(HOME).locator("#keys-switch").click()
    window.open("about.html")
    page = window.open(HOME)
    page.keyboard.press("1")
    assert page.locator("#keys-switch").get_attribute("aria-pressed") == "false"
    assert page.url.endswith(HOME)


def test_a_digit_in_the_finder_is_a_digit(home):
    home.focus("#finder-box")
    home.keyboard.type("1")
    home.locator("#finder-results.open").wait_for()
    assert home.input_value("#finder-box") == "1"
    assert home.url.endswith(HOME)
