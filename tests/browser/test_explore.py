"""The charts come alive when they are seen, in the colours of the page, and ask nobody outside."""

import pytest

DRAWN = "() => document.querySelectorAll('.chart-live .main-svg').length > 0"
MARKS = """(name) => document.querySelectorAll(
  `[data-chart="${name}"] .chart-live .scatterlayer .point`).length"""
INK = """() => getComputedStyle(document.querySelector('.chart-live .xtitle')).fill"""
LIBRARY = "plotly.min.js"


def alive(window):
    page = window.open("explore.html")
    page.wait_for_function(DRAWN)
    return page


@pytest.mark.both_ways
def test_the_first_chart_is_drawn_and_the_drawing_gives_way(window):
    page = alive(window)
    page.wait_for_selector("[data-chart=bag-and-body] .chart-ways:not([hidden])")
    assert page.evaluate(MARKS, "bag-and-body") >= 40
    assert not page.is_visible("[data-chart=bag-and-body] .chart-still")
    assert page.locator(".modebar-btn--logo").count() == 0
    assert window.trouble == []


def test_the_last_chart_waits_until_it_is_seen(window):
    page = alive(window)
    assert page.evaluate(MARKS, "glucose-and-calories") == 0
    page.locator("#glucose-and-calories").scroll_into_view_if_needed()
    page.wait_for_selector("[data-chart=glucose-and-calories] .chart-ways:not([hidden])")
    assert page.evaluate(MARKS, "glucose-and-calories") >= 10
    assert window.trouble == []


def test_the_library_is_read_only_when_a_chart_is_near(open_window):
    """A window so low that no chart is within reach of it."""
    window = open_window(viewport={"width": 1366, "height": 120})
    asked = []
    window.page.on("request", lambda request: asked.append(request.url.rpartition("/")[2]))
    page = window.open("explore.html")
    page.wait_for_timeout(300)
    assert "explore.js" in asked
    assert LIBRARY not in asked
    page.locator("[data-chart=bag-and-body]").scroll_into_view_if_needed()
    page.wait_for_function(DRAWN)
    assert LIBRARY in asked
    page.context.close()


def test_no_other_page_reads_the_library(window, site):
    for address in ("index.html", "compare.html", "gallery.html", "fluids/glucose-5.html"):
        assert LIBRARY not in (site / address).read_text(encoding="utf-8")


def test_a_point_tells_its_names(window):
    page = alive(window)
    page.wait_for_selector("[data-chart=bag-and-body] .chart-ways:not([hidden])")
    chart = page.locator("[data-chart=bag-and-body] .chart-live")
    chart.scroll_into_view_if_needed()
    page.locator("[data-chart=bag-and-body] .scatterlayer .trace").nth(1).locator(
        ".point"
    ).first.hover(force=True)
    page.wait_for_selector("[data-chart=bag-and-body] .hovertext")
    said = page.text_content("[data-chart=bag-and-body] .hoverlayer")
    assert "%" in said
    assert "osmolarity in the bag: " in said
    assert "mOsm/L" in said


def test_all_fluids_and_back_by_keyboard(window):
    page = alive(window)
    page.wait_for_selector("[data-chart=bag-and-body] .chart-ways:not([hidden])")
    last = "() => document.querySelector('.chart-live').layout.xaxis.range[1]"
    everyday = page.evaluate(last)
    page.focus("[data-chart=bag-and-body] [data-range=all]")
    page.keyboard.press("Enter")
    page.wait_for_function(f"(end) => ({last})() > end", arg=everyday)
    pressed = "[data-chart=bag-and-body] [data-range=all][aria-pressed=true]"
    assert page.is_visible(pressed)
    page.focus("[data-chart=bag-and-body] [data-range=everyday]")
    page.keyboard.press("Enter")
    page.wait_for_function(f"(end) => ({last})() === end", arg=everyday)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_colours_are_those_of_the_page(open_window, scheme):
    window = open_window(color_scheme=scheme)
    page = alive(window)
    ink = {"light": "rgb(27, 31, 36)", "dark": "rgb(230, 234, 238)"}  # look.md, ink
    assert page.evaluate(INK) == ink[scheme]
    other = "dark" if scheme == "light" else "light"
    page.evaluate("(name) => document.documentElement.setAttribute('data-theme', name)", other)
    page.wait_for_function(f"(ink) => ({INK})() === ink", arg=ink[other])
    assert window.trouble == []
    page.context.close()


def test_without_script_drawings_and_table_stand(open_window):
    window = open_window(java_script_enabled=False)
    page = window.open("explore.html")
    assert page.locator(".chart-still svg").count() == 4
    assert page.locator(".chart-still svg").first.bounding_box()["height"] > 300
    assert page.locator("table tbody tr").count() > 50
    assert window.trouble == []
    page.context.close()


def test_without_the_library_the_drawing_stays(window):
    window.page.route(f"**/{LIBRARY}", lambda route: route.abort())
    page = window.open("explore.html")
    page.wait_for_timeout(500)
    assert page.is_visible("[data-chart=bag-and-body] .chart-still")
    assert not page.is_visible("[data-chart=bag-and-body] .chart-live")


def test_paper_has_the_drawings(window):
    page = alive(window)
    page.wait_for_selector("[data-chart=bag-and-body] .chart-ways:not([hidden])")
    page.emulate_media(media="print")
    assert page.is_visible("[data-chart=bag-and-body] .chart-still")
    assert not page.is_visible("[data-chart=bag-and-body] .chart-live")
