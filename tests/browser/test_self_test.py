"""The self-test, the practice labels and the cards, used as a person does: by mouse and by key."""

import re
from importlib.resources import files

import pytest

PAPERS = range(1, 13)
SHEETS = 7  # a paper and its answers: fewer sheets of A4 than this


def shown(page):
    """The number of the paper that can be seen."""
    return page.locator("section.paper:visible").evaluate_all("all => all.map((one) => one.id)")


def question(page, paper, place):
    return page.locator(f'[data-question="p{paper}q{place}"]')


def letter_of(page, paper, place, *, right):
    """A right or a wrong letter, as the sheet of answers of that paper has it."""
    sheet = page.locator(f'[data-answers="p{paper}q{place}"]')
    if right:
        return sheet.get_attribute("data-right")
    return sheet.locator("[data-answer]").first.get_attribute("data-answer")


def answer(page, paper, place, *, right):
    asked = question(page, paper, place)
    asked.locator(f'input[value="{letter_of(page, paper, place, right=right)}"]').check()
    asked.get_by_role("button", name="Check this answer").click()
    return asked.locator(".verdict")


def sheets(page):
    return len(re.findall(rb"/Type\s*/Page\b", page.pdf(prefer_css_page_size=True)))


@pytest.mark.both_ways
def test_the_first_paper_is_shown_and_another_by_its_number(window):
    page = window.open("self-test.html")
    assert shown(page) == ["paper=1"]
    page.get_by_role("navigation", name="Papers").get_by_role("link", name="5 of").click()
    assert shown(page) == ["paper=5"]
    assert page.url.endswith("#paper=5")
    assert page.evaluate("document.activeElement.textContent").startswith("Paper 5 of catalogue ")
    window.open("about.html")
    assert shown(window.open("self-test.html#paper=12")) == ["paper=12"]
    assert window.trouble == []


def test_a_wrong_answer_tells_its_slip_and_the_right_one(window):
    page = window.open("self-test.html#paper=3")
    verdict = answer(page, 3, 1, right=False)
    sheet = page.locator('[data-answers="p3q1"]')
    text = verdict.inner_text()
    assert text.startswith("Not this one.")
    assert sheet.locator("[data-answer]").first.text_content() in text
    assert sheet.locator(".right-answer").text_content() in text
    assert verdict.locator("a").count() == 1
    assert page.evaluate("document.activeElement.className") == "verdict"
    assert not page.locator('[data-answers="p3q1"]').is_visible()


@pytest.mark.both_ways
def test_the_score_is_kept_and_a_paper_can_be_started_again(window):
    page = window.open("self-test.html#paper=2")
    score = page.locator("section.paper:visible .score")
    assert score.inner_text() == ""
    assert answer(page, 2, 1, right=True).inner_text().startswith("Right.")
    assert score.inner_text() == "1 of 1 right so far. 11 to go."
    answer(page, 2, 2, right=False)
    assert score.inner_text() == "1 of 2 right so far. 10 to go."
    for place in range(3, 13):
        answer(page, 2, place, right=True)
    assert score.inner_text() == "11 of 12 right so far. That was the last one."
    page.get_by_role("button", name="Start this paper again").click()
    assert score.inner_text() == ""
    assert page.locator("section.paper:visible input:checked").count() == 0
    assert page.locator("section.paper:visible .verdict:visible").count() == 0


def test_nothing_chosen_is_no_answer(window):
    page = window.open("self-test.html")
    question(page, 1, 1).get_by_role("button").click()
    assert (
        question(page, 1, 1).locator(".verdict").inner_text() == "Choose one of the answers first."
    )
    assert page.locator("section.paper:visible .score").inner_text() == ""


def test_a_question_is_answered_by_the_keyboard_alone(window):
    page = window.open("self-test.html")
    page.locator('nav[aria-label="Papers"] a').last.focus()
    page.keyboard.press("Enter")
    assert shown(page) == ["paper=12"]
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    right = letter_of(page, 12, 1, right=True)
    for _ in range("abcd".index(right)):
        page.keyboard.press("ArrowDown")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.innerText").startswith("Right.")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.tagName") == "A"
    assert page.locator("section.paper:visible .score").inner_text().startswith("1 of 1 right")


def test_without_script_all_papers_and_answers_are_there(open_window):
    window = open_window(java_script_enabled=False)
    page = window.open("self-test.html#paper=3")
    assert page.locator("section.paper:visible").count() == len(PAPERS)
    assert page.locator(".answer-sheet:visible").count() == len(PAPERS)
    assert page.get_by_role("button", name="Check this answer").count() == 0
    labels = window.open("practice-labels.html")
    assert labels.locator(".label-sheet:visible").count() > 50
    window.page.context.close()


def test_a_paper_prints_with_its_answers_on_a_sheet_of_their_own_or_without(window):
    page = window.open("self-test.html#paper=3")
    page.emulate_media(media="print")
    assert page.locator("section.paper:visible").count() == 1
    assert page.locator('[data-answers="p3q1"]').is_visible()
    style = "one => getComputedStyle(one).breakBefore"
    assert page.locator(".answer-sheet:visible").evaluate(style) == "page"
    for gone in (".check", ".choose", ".verdict", ".print-choice", ".score"):
        assert page.locator(f"{gone}:visible").count() == 0, gone
    assert "of catalogue 20" in page.locator("section.paper:visible h2").inner_text()
    both = sheets(page)
    page.emulate_media(media="screen")
    page.get_by_label("Print the sheet of answers too").uncheck()
    page.emulate_media(media="print")
    assert not page.locator('[data-answers="p3q1"]').is_visible()
    assert 1 <= sheets(page) < both < SHEETS
    first = page.locator("section.paper:visible").evaluate(
        "one => getComputedStyle(one).breakBefore"
    )
    assert first == "auto"


def test_a_label_is_chosen_filled_in_and_answered(window):
    page = window.open("practice-labels.html")
    assert page.locator(".label-sheet:visible").count() == 0
    page.get_by_role("link", name="Potassium chloride 0.3\u202f% in glucose", exact=False).click()
    sheet = page.locator(".label-sheet:visible")
    assert sheet.count() == 1
    assert sheet.locator("svg:visible").count() == 2
    sheet.locator("summary").focus()
    page.keyboard.press("Enter")
    assert sheet.locator("svg:visible").count() == 3
    assert sheet.locator("figure").last.inner_text().count("Not a real label") == 1
    assert sheet.locator("details p").first.inner_text().startswith("2. ")
    assert window.trouble == []


@pytest.mark.parametrize(
    "fluid", ["potassium-chloride-0-3-glucose-5", "potassium-chloride-15", "hydroxyethyl-starch-6"]
)
def test_a_card_is_one_sheet_and_is_reached_from_its_fluid(window, fluid):
    page = window.open(f"fluids/{fluid}.html")
    page.get_by_role("link", name="Card to print").click()
    assert page.url.endswith(f"cards/{fluid}.html")
    page.emulate_media(media="print")
    assert sheets(page) == 1
    assert page.get_by_text("Uncontrolled when printed.").is_visible()
    assert window.trouble == []


RUN = """async () => {
  const found = await axe.run(document, {resultTypes: ['violations']});
  return found.violations.map((one) =>
    `${one.id}: ${one.nodes.slice(0, 3).map((node) => node.html).join(' | ')}`);
}"""
LOOKED_AT = (
    "self-test.html#paper=4",
    "practice-labels.html#glucose-5",
    "cards/potassium-chloride-15.html",
)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(open_window, scheme):
    window = open_window(color_scheme=scheme)
    source = (files("axe_core_python") / "axe.min.js").read_text(encoding="utf-8")
    found = {}
    for address in LOOKED_AT:
        page = window.open(address)
        if address.startswith("self-test"):
            answer(page, 4, 1, right=False)
        page.evaluate(source)
        found[address] = page.evaluate(RUN)
    window.page.context.close()
    assert {address: faults for address, faults in found.items() if faults} == {}
