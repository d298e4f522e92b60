"""The box and its list: keys, screen readers, what Enter may do, small screens, print."""

import pytest

from isofolio.finder.cards import Card, cards
from isofolio.finder.index import encoded

HITS = "#finder-results a"
STATUS = ".finder-status"


def typed(page, text):
    page.focus("#finder-box")
    page.fill("#finder-box", text)
    page.wait_for_selector(HITS)
    return page


def hits(page):
    return page.locator(HITS).all()


def address(page):
    return page.url.rpartition("/")[2]


def arrives(page, name):
    page.wait_for_url(lambda url: url.endswith(name))


@pytest.fixture
def page(open_page, data):
    return open_page(data)


def test_the_index_is_read_on_the_first_focus_and_nothing_from_elsewhere(
    chromium, data, tmp_path, site
):
    context = chromium.new_context()
    asked = []
    context.on("request", lambda request: asked.append(request.url))
    page = context.new_page()
    page.goto(site(tmp_path, data).as_uri())
    assert not [url for url in asked if "finder-data" in url]
    typed(page, "glucose 5%")
    page.fill("#finder-box", "")
    page.locator("#after").focus()
    page.focus("#finder-box")
    assert len([url for url in asked if "finder-data" in url]) == 1
    assert all(url.startswith("file://") for url in asked)
    context.close()


def test_what_is_typed_before_the_index_is_there_is_answered(page):
    page.focus("#finder-box")
    page.keyboard.type("hartmanns")
    page.wait_for_selector(HITS)
    assert hits(page)[0].get_attribute("href") == "../fluids/compound-sodium-lactate.html"


def test_a_hit_tells_kind_strength_role_potassium_and_look_alikes(page):
    hit = hits(typed(page, "kcl 0.3% glucose 5%"))[0]
    text = hit.inner_text().replace("\u00a0", " ").replace("\u202f", " ")
    assert "Potassium chloride 0.3 % in glucose 5 %" in text
    assert hit.locator("b").all_inner_texts() == ["0.3\u202f%", "5\u202f%"]
    for part in ("fluid", "ready to hang", "potassium 40 mmol/L", "easily mistaken for"):
        assert part in text
    assert hit.get_attribute("href").endswith("fluids/potassium-chloride-0-3-glucose-5.html")


def test_a_concentrate_says_that_it_must_be_diluted(page):
    assert "must be diluted" in hits(typed(page, "kcl 15%"))[0].inner_text()


def test_the_name_that_was_found_is_shown_and_a_slip_is_not(page):
    assert "also called point nine" in hits(typed(page, "point nine"))[0].inner_text()
    assert "also called" not in hits(typed(page, "hartamns"))[0].inner_text()


def test_a_close_match_is_labelled(page):
    assert "close match" in hits(typed(page, "glucse 5%"))[0].inner_text()
    assert "close match" not in hits(typed(page, "glucose 5%"))[0].inner_text()
    assert "not found: 7%" in hits(typed(page, "glucose 7%"))[0].inner_text()


def test_an_ambiguous_word_says_first_what_tells_its_candidates_apart(page, handbook):
    word = next(word for word in handbook.catalogue.words if word.word == "kcl")
    typed(page, "kcl")
    note = page.locator(".finder-ask")
    assert word.tells_apart in note.inner_text()
    assert note.bounding_box()["y"] < hits(page)[0].bounding_box()["y"]
    listed = [hit.get_attribute("href") for hit in hits(page)]
    assert listed[: len(word.candidates)] == [f"../fluids/{c}.html" for c in word.candidates]


def test_nothing_found_says_what_to_do_and_offers_all_fluids(page):
    typed(page, "zzyzx")
    assert "Read the generic name on the label" in page.locator("#finder-results").inner_text()
    assert hits(page)[0].get_attribute("href") == "../fluids.html"
    assert "Read the generic name on the label" in page.locator(STATUS).inner_text()


def test_unknown_is_said_below(page):
    typed(page, "without potassium")
    assert "Unknown is not none" in page.locator("#finder-results").inner_text()


# Keys


def test_enter_opens_an_exact_name(page):
    typed(page, "hartmanns")
    page.keyboard.press("Enter")
    arrives(page, "fluids/compound-sodium-lactate.html")


@pytest.mark.parametrize(
    "question", ["glucse 5%", "saline", "k+", "20 k in 500", "gluco", "glucose 7%"]
)
def test_enter_never_opens_what_is_loose_or_ambiguous(page, question):
    typed(page, question)
    page.keyboard.press("Enter")
    page.wait_for_function(
        "() => document.querySelector('.finder-status').textContent.startsWith('Nothing is opened')"
    )
    assert address(page) == "here.html"


def test_arrows_choose_and_enter_opens_the_choice(page):
    typed(page, "saline")
    wanted = hits(page)[1].get_attribute("href")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    box = page.locator("#finder-box")
    assert box.get_attribute("aria-activedescendant") == hits(page)[1].get_attribute("id")
    chosen = [hit.get_attribute("aria-selected") for hit in hits(page)]
    assert chosen[:3] == ["false", "true", "false"]
    page.keyboard.press("Enter")
    arrives(page, wanted.removeprefix("../"))


def test_arrows_go_round(page):
    typed(page, "saline")
    page.keyboard.press("ArrowUp")
    box = page.locator("#finder-box")
    last = hits(page)[-1].get_attribute("id")
    assert box.get_attribute("aria-activedescendant") == last
    page.keyboard.press("ArrowDown")
    assert box.get_attribute("aria-activedescendant") == hits(page)[0].get_attribute("id")
    page.keyboard.press("ArrowUp")
    assert box.get_attribute("aria-activedescendant") is None


def test_escape_closes_then_clears(page):
    typed(page, "saline")
    box = page.locator("#finder-box")
    assert box.get_attribute("aria-expanded") == "true"
    page.keyboard.press("Escape")
    assert box.get_attribute("aria-expanded") == "false"
    assert hits(page) == []
    assert box.input_value() == "saline"
    page.keyboard.press("ArrowDown")
    assert hits(page)
    page.keyboard.press("Escape")
    page.keyboard.press("Escape")
    assert box.input_value() == ""


def test_slash_goes_to_the_box_but_not_out_of_a_field(page):
    page.keyboard.press("/")
    assert page.evaluate("() => document.activeElement.id") == "finder-box"
    assert page.locator("#finder-box").input_value() == ""
    page.focus("#notes")
    page.keyboard.press("/")
    assert page.locator("#notes").input_value() == "/"


def test_the_list_closes_when_the_reader_goes_elsewhere(page):
    typed(page, "saline")
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.id") == "after"
    assert hits(page) == []
    typed(page, "saline")
    page.mouse.click(1270, 710)
    assert hits(page) == []


def test_a_click_opens_a_hit(page):
    typed(page, "saline")
    wanted = hits(page)[0].get_attribute("href")
    hits(page)[0].click()
    arrives(page, wanted.removeprefix("../"))


# Screen readers


def test_a_polite_region_tells_the_count(page):
    status = page.locator(STATUS)
    assert status.get_attribute("aria-live") == "polite"
    assert status.get_attribute("role") == "status"
    typed(page, "20 k in 500")
    assert status.inner_text() == "5 found. Choose with the arrow keys."
    typed(page, "saline")
    assert status.inner_text().startswith("More than one fluid may be meant.")


def test_the_list_is_a_list_box_of_links(page):
    typed(page, "saline")
    box = page.locator("#finder-box")
    controlled = page.locator("#" + box.get_attribute("aria-controls"))
    assert controlled.get_attribute("role") == "listbox"
    roles = controlled.locator("> *").evaluate_all(
        "found => found.map((one) => [one.tagName, one.getAttribute('role')])"
    )
    assert roles
    assert all(role == ["A", "option"] for role in roles)


def test_no_accessibility_fault(page):
    """axe-core's own rules, on the open list."""
    axe = pytest.importorskip("axe_core_python.sync_playwright")
    typed(page, "kcl")
    page.keyboard.press("ArrowDown")
    found = axe.Axe().run(page, ".finder")
    assert [(one["id"], one["impact"]) for one in found["violations"]] == []


# Safety


def test_markup_in_a_name_stays_text(open_page, handbook):
    trap = '<img src=x onerror="window.hit=1"><b>zulu</b>'
    name = Card(
        id="trap",
        address="fluids/trap.html",
        kind="fluid",
        title=((trap, "<i>5</i>"),),
        names=(("yankee " + trap, "synonym"),),
        role=trap,
        potassium=trap,
    )
    page = open_page(encoded((name,), (), (), (), {}))
    typed(page, "yankee")
    page.keyboard.press("ArrowDown")
    assert trap in hits(page)[0].inner_text()
    assert page.locator("#finder-results img").count() == 0
    page.fill("#finder-box", trap)
    page.wait_for_timeout(50)
    assert page.evaluate("() => window.hit") is None


def test_a_missing_index_is_told_and_all_fluids_offered(open_page):
    page = open_page(None)
    page.focus("#finder-box")
    page.wait_for_selector(HITS)
    assert "could not be read" in page.locator("#finder-results").inner_text()
    assert hits(page)[0].get_attribute("href") == "../fluids.html"


def test_a_content_security_policy_without_inline_code_is_kept(chromium, data, tmp_path, site):
    context = chromium.new_context()
    page = context.new_page()
    broken = []
    page.on("console", lambda message: broken.append(message.text))
    place = site(tmp_path, data)
    policy = "default-src 'none'; script-src 'self' file:; style-src 'self' file:"
    meta = f'<meta http-equiv="Content-Security-Policy" content="{policy}">'
    text = place.read_text("utf-8")
    head, rest = text.split("<style>")
    text = (head + rest.split("</style>")[1]).replace("<head>", f"<head>{meta}")
    place.write_text(text, "utf-8")
    page.goto(place.as_uri())
    typed(page, "saline")
    page.keyboard.press("ArrowDown")
    assert broken == []
    context.close()


# Screens and paper


@pytest.mark.parametrize(("width", "height"), [(390, 844), (320, 640), (1366, 768)])
def test_the_list_fits_the_screen(open_page, data, width, height):
    page = open_page(data, viewport={"width": width, "height": height})
    typed(page, "kcl")
    box = page.locator("#finder-results").bounding_box()
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= width
    assert box["height"] <= 0.7 * height + 1
    field = page.locator("#finder-box").bounding_box()
    assert box["y"] >= field["y"] + field["height"]
    assert page.evaluate("() => document.documentElement.scrollWidth") <= width
    inner = page.evaluate(
        "() => { const one = document.getElementById('finder-list');"
        " return one.scrollWidth <= one.clientWidth && one.scrollHeight > one.clientHeight; }"
    )
    assert inner


def test_the_choice_stays_in_view(open_page, data):
    page = open_page(data, viewport={"width": 390, "height": 500})
    typed(page, "kcl")
    for _ in range(9):
        page.keyboard.press("ArrowDown")
    frame = page.locator("#finder-list").bounding_box()
    chosen = page.locator("[aria-selected=true]").bounding_box()
    assert frame["y"] <= chosen["y"] + 1
    assert chosen["y"] + chosen["height"] <= frame["y"] + frame["height"] + 1


def test_forced_colours_keep_the_choice_visible(open_page, data):
    page = open_page(data, forced_colors="active")
    typed(page, "saline")
    page.keyboard.press("ArrowDown")
    style = "one => [getComputedStyle(one).outlineStyle, getComputedStyle(one).outlineWidth]"
    assert page.locator("[aria-selected=true]").evaluate(style) == ["solid", "3px"]


def test_paper_shows_no_finder(page):
    typed(page, "saline")
    page.emulate_media(media="print")
    assert not page.locator(".finder").is_visible()


def test_every_real_card_can_be_drawn(page, handbook):
    """No page of the catalogue breaks the list."""
    page.focus("#finder-box")
    page.wait_for_function("() => window.isofolio.finder")
    for card in cards(handbook)[::7]:
        page.fill("#finder-box", card.title[0][0])
        assert hits(page)
