"""A page in use: light and dark, links to copy, the keyboard, and readers' own settings."""

import base64

import pytest

from isofolio.shell.frame import SCRIPTS as FRAME_SCRIPTS

FLUID = "fluids/potassium-chloride-0-3-glucose-5.html"
AMPOULE = "fluids/potassium-chloride-15.html"
PHONE = {"width": 390, "height": 844}
PAPER = {"light": "rgb(255, 255, 255)", "dark": "rgb(20, 24, 28)"}  # look.md, Colour
COLOUR = "(name) => getComputedStyle(document.body)[name]"


def paper(page):
    return page.evaluate(COLOUR, "backgroundColor")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_without_a_choice_the_system_decides(open_window, scheme):
    window = open_window(color_scheme=scheme)
    page = window.open(FLUID)
    assert paper(page) == PAPER[scheme]
    assert page.locator("#theme-switch").inner_text() == "Theme: as the system"
    window.page.context.close()


@pytest.mark.both_ways
def test_a_choice_of_theme_stays_from_page_to_page(window):
    page = window.open(FLUID)
    switch = page.locator("#theme-switch")
    for words, theme in (("Theme: light", "light"), ("Theme: dark", "dark")):
        switch.click()
        assert switch.inner_text() == words
        assert paper(page) == PAPER[theme]
        page = window.open("index.html")
        assert paper(page) == PAPER[theme]
        assert switch.inner_text() == words
    switch.click()
    assert switch.inner_text() == "Theme: as the system"
    assert page.evaluate("() => document.documentElement.hasAttribute('data-theme')") is False
    assert window.trouble == []


def test_the_chosen_theme_stands_before_the_page_is_painted(window):
    """No white flash at night: the root has its theme when the body begins."""
    window.open(FLUID).locator("#theme-switch").click(click_count=2)
    window.page.add_init_script(
        """new MutationObserver((_, watching) => {
          if (document.body) {
            window.themeAtFirst = document.documentElement.getAttribute('data-theme');
            watching.disconnect();
          }
        }).observe(document, {childList: true, subtree: true});"""
    )
    assert window.open("about.html").evaluate("() => window.themeAtFirst") == "dark"


@pytest.mark.both_ways
def test_a_link_is_copied_as_address_and_as_short_name(window):
    page = window.open(FLUID)
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    button = page.locator("#cautions button.copy")
    assert button.text_content().strip().startswith("copy link")
    button.click()
    page.locator("#cautions button.copy", has_text="copied").wait_for()
    copied = page.evaluate("() => navigator.clipboard.readText()")
    short = FLUID.removesuffix(".html") + "#cautions"
    assert copied == f"{page.url}#cautions\n{short}"


def test_without_a_clipboard_the_address_line_holds_the_link(window):
    window.page.add_init_script("delete Navigator.prototype.clipboard")
    page = window.open(FLUID)
    page.locator("#cautions button.copy").click()
    assert "copy it from the address line" in page.locator("#cautions button.copy").inner_text()
    assert page.url.endswith("#cautions")


def test_every_heading_of_a_page_can_be_linked_to(window):
    page = window.open(FLUID)
    anchors = page.eval_on_selector_all("button.copy", "all => all.map((b) => b.dataset.anchor)")
    assert len(anchors) > 8
    for anchor in anchors:
        assert page.locator(f"[id='{anchor}']").count() == 1
    assert page.locator("button.copy:visible").count() == len(anchors)


FOCUSED = """() => {
  const at = document.activeElement;
  const style = getComputedStyle(at);
  return {
    what: at.id || at.className || at.textContent.trim(),
    seen: at.getBoundingClientRect().top >= 0,
    outlined: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2,
    inside: at.closest('main') !== null,
  };
}"""


@pytest.mark.both_ways
def test_the_keyboard_goes_skip_link_name_finder_pages_then_the_page(window):
    page = window.open(FLUID)
    pages = page.locator(".site-nav a").all_inner_texts()
    path = []
    for _ in range(4 + len(pages)):
        page.keyboard.press("Tab")
        path.append(page.evaluate(FOCUSED))
    assert [step["what"] for step in path[:-1]] == ["skip-link", "site-name", "finder-box", *pages]
    assert all(step["seen"] and step["outlined"] for step in path)
    assert path[-1]["inside"]


def test_the_skip_link_leads_into_the_page(window):
    page = window.open(FLUID)
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("() => document.activeElement.id") == "main"
    page.keyboard.press("Tab")
    assert page.evaluate(FOCUSED)["inside"]


@pytest.mark.parametrize(("wish", "scroll"), [("reduce", "auto"), ("no-preference", "auto")])
def test_nothing_moves_for_a_reader_who_asks_for_rest(open_window, wish, scroll):
    window = open_window(reduced_motion=wish)
    page = window.open(FLUID)
    behaviour = "() => getComputedStyle(document.documentElement).scrollBehavior"
    assert page.evaluate(behaviour) == scroll
    moving = """() => [...document.querySelectorAll('*')].filter((one) => {
      const style = getComputedStyle(one);
      return style.animationName !== 'none' || parseFloat(style.transitionDuration) > 0;
    }).length"""
    assert page.evaluate(moving) == 0
    window.page.context.close()


OUTLINES = """() => {
  const px = (name, side) => parseFloat(getComputedStyle(document.querySelector(name))[side]);
  const word = document.querySelector('.caution-box .signal');
  const look = getComputedStyle(word);
  return {
    box: px('.caution-box', 'borderTopWidth'),
    word: word.textContent,
    told: look.color !== look.backgroundColor && word.getBoundingClientRect().height > 10,
    band: px('.caution-box .signal', 'borderRightWidth'),
    draft: px('.draft', 'borderTopWidth'),
    rule: px('.holds thead th', 'borderBottomWidth'),
    finder: px('#finder-box', 'borderTopWidth'),
    segments: [...document.querySelectorAll('.ion-segment')].map((segment) => {
      const style = getComputedStyle(segment);
      return style.stroke !== 'none' && style.stroke !== style.fill;
    }),
  };
}"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_forced_colours_keep_words_and_outlines(open_window, scheme):
    window = open_window(forced_colors="active", color_scheme=scheme)
    found = window.open(AMPOULE).evaluate(OUTLINES)
    assert found["word"] == "DANGER"
    assert found["told"]
    assert min(found[part] for part in ("box", "band", "draft", "rule", "finder")) >= 1
    assert len(found["segments"]) > 4
    assert all(found["segments"])
    page = window.open("cautions.html")
    current = page.locator(".site-nav a[aria-current='page']")
    assert current.evaluate("(one) => getComputedStyle(one).borderBottomStyle") == "solid"
    window.page.context.close()


# Controls that do nothing without scripts; a list of answers to tick in one's head may stay.
DEAD = "button:visible, input:not([type=radio]):visible, select:visible, textarea:visible"
WORDS = """() => ['th, td', 'h1, h2, h3', 'p', 'li, dd'].map((parts) =>
  [...document.querySelector('main').querySelectorAll(parts)].map((p) => p.textContent))"""


def test_without_scripts_every_page_is_whole(open_window, window, kinds):
    """A page of every kind: the same words and cells as with scripts, and nothing dead.

    A page with a tool of its own may say other words there, but shows no control that is dead.
    """
    bare = open_window(java_script_enabled=False)
    for address in (*kinds, AMPOULE):
        plain = bare.open(address)
        if plain.locator("script[src]").count() == len(FRAME_SCRIPTS):
            assert plain.evaluate(WORDS) == window.open(address).evaluate(WORDS), address
        assert plain.locator("main h1").is_visible()
        assert len(plain.locator("main").inner_text()) > 200, address
        assert plain.locator(DEAD).count() == 0, address
        assert plain.locator("#finder-box").is_hidden()
        assert plain.locator(".finder noscript p").is_visible()
    assert bare.trouble == []
    bare.page.context.close()


# The share of the last column of pixels of a picture that is darker than half grey.
DARK_EDGE = """async (picture) => {
  const image = new Image();
  image.src = "data:image/png;base64," + picture;
  await image.decode();
  const canvas = new OffscreenCanvas(image.width, image.height).getContext("2d");
  canvas.drawImage(image, 0, 0);
  const {data} = canvas.getImageData(image.width - 1, 0, 1, image.height);
  return data.filter((level, place) => place % 4 === 0 && level < 128).length / image.height;
}"""


def dark_edge(page, table):
    return page.evaluate(DARK_EDGE, base64.b64encode(table.screenshot()).decode("ascii"))


def test_a_rule_stands_where_a_table_goes_on_beyond_the_edge(open_window):
    """On a phone nothing else tells that a table is cut; at its end the rule is gone."""
    window = open_window(viewport=PHONE, color_scheme="light")
    page = window.open("comparisons/glucose-in-four-strengths.html")
    table = page.get_by_role("region", name="Figures side by side")
    assert dark_edge(page, table) > 0.9
    table.evaluate("(one) => { one.scrollLeft = one.scrollWidth; }")
    assert dark_edge(page, table) < 0.1
    window.page.context.close()


BEYOND = """() => [...document.querySelectorAll(".published, .alternatives, .figures")]
  .filter((table) => table.getBoundingClientRect().right > innerWidth)
  .map((table) => table.innerText.slice(0, 60))"""


def test_no_warning_and_no_published_figure_lies_beyond_the_edge_of_a_phone(open_window, addresses):
    window = open_window(viewport=PHONE)
    shown = [a for a in addresses if a.startswith(("situations/", "equipment/"))]
    for address in (*shown, "shortage.html", FLUID):
        assert window.open(address).evaluate(BEYOND) == [], address
    page = window.open("shortage.html")
    assert page.get_by_role("columnheader", name="what differs, in a litre").count() > 0
    assert page.get_by_role("rowheader", name="Dextrose 5").count() > 0
    window.page.context.close()
