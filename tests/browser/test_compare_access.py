"""What axe-core finds on the pages of comparisons, charts and drawings, light and dark.

The other tests of access open each page as it loads; here a choice is made and a chart is alive.
"""

from importlib.resources import files

import pytest

RUN = """async () => {
  const found = await axe.run(document, {resultTypes: ['violations']});
  return found.violations.map((one) =>
    `${one.id}: ${one.help}: ${one.nodes.slice(0, 3).map((node) => node.html).join(' | ')}`);
}"""
OPEN_SOME = """(some) => [...document.querySelectorAll('.gallery-entry')].forEach((one, place) => {
  if (place >= some) one.remove();
  else one.querySelector('details').open = true;
})"""
CHOICE = "compare.html?with=glucose-5,sodium-chloride-0-9,albumin-5,sodium-bicarbonate-8-4,plasma"


@pytest.fixture(scope="module")
def axe():
    """The source of axe-core: it runs in the page and asks for nothing."""
    return (files("axe_core_python") / "axe.min.js").read_text(encoding="utf-8")


def violations(page, axe):
    page.evaluate(axe)
    return page.evaluate(RUN)


@pytest.mark.parametrize("width", [1366, 390])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(open_window, axe, scheme, width):
    window = open_window(color_scheme=scheme, viewport={"width": width, "height": 800})
    page = window.open(CHOICE)
    page.wait_for_selector("#compare-shown:not([hidden])")
    assert violations(page, axe) == []
    for name in ("saline-and-balanced-solutions", "glucose-in-four-strengths"):
        assert violations(window.open(f"comparisons/{name}.html"), axe) == []
    page = window.open("explore.html")
    page.locator("#bag-and-body").scroll_into_view_if_needed()
    page.wait_for_selector("[data-chart=bag-and-body] .chart-ways:not([hidden])")
    assert violations(page, axe) == []
    page.context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_among_the_drawings(open_window, axe, scheme):
    window = open_window(color_scheme=scheme)
    page = window.open("gallery.html")
    page.evaluate(OPEN_SOME, 20)
    assert violations(page, axe) == []
    page.context.close()
