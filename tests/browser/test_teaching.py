"""A tutorial as a class uses it: answers opened by key, without script, and on paper.

No published source: this is how the project's own pages must behave.
"""

import pytest

ADDRESS = "tutorials/potassium.html"
ANSWER = "20\u00a0mmol of potassium and 25\u00a0g of glucose"
OPEN = "document.querySelectorAll('details[open]').length"
ALL = "document.querySelectorAll('details').length"


def test_an_answer_opens_by_the_keyboard(window):
    page = window.open(ADDRESS)
    answer = page.get_by_text(ANSWER)
    assert not answer.is_visible()
    page.locator("summary").first.focus()
    page.keyboard.press("Enter")
    assert answer.is_visible()
    assert window.trouble == []


def test_answers_open_without_any_script(open_window):
    window = open_window(java_script_enabled=False)
    page = window.open(ADDRESS)
    page.locator("summary").first.click()
    assert page.get_by_text(ANSWER).is_visible()
    page.context.close()


def test_answers_print_open_and_close_again(window):
    page = window.open(ADDRESS)
    page.locator("summary").first.click()
    assert page.evaluate(ALL) == 9
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    assert page.evaluate(OPEN) == 9
    page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    assert page.evaluate(OPEN) == 1, "what the reader opened stays open"


@pytest.mark.both_ways
def test_a_term_leads_to_its_place_in_the_glossary(window):
    page = window.open(ADDRESS)
    page.locator("a.term", has_text="concentrates").click()
    page.locator("#concentrate dt").wait_for()
    assert page.url.endswith("glossary.html#concentrate")
    assert window.trouble == []
