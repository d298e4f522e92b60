"""What axe-core finds on a page of every kind, light and dark, and on a phone."""

from importlib.resources import files

import pytest

# A ready fluid, a strong one, a concentrate, and a colloid that is not for use.
FLUIDS = (
    "fluids/sodium-chloride-0-9.html",
    "fluids/potassium-chloride-0-3-glucose-5.html",
    "fluids/potassium-chloride-15.html",
    "fluids/hydroxyethyl-starch-6.html",
)
# In the dark only colours differ, so only the rules that look at colours run again.
RULES = {"light": None, "dark": ["color-contrast", "link-in-text-block"]}
# The thousandth row teaches axe no more than the sixth, and takes it as long: of parts that
# follow one another under one roof, the first few are left.
FEW = {"TR": 6, "LI": 6, "OPTION": 6, "DIV": 8, "FIGURE": 4, "FIELDSET": 6, "SECTION": 12}
SHORTEN = """(few) => document.querySelectorAll('main, main *').forEach((roof) => {
  const seen = {};
  [...roof.children].forEach((part) => {
    seen[part.tagName] = (seen[part.tagName] || 0) + 1;
    if (seen[part.tagName] > few[part.tagName]) part.remove();
  });
})"""
RUN = """async (rules) => {
  const chosen = rules ? {runOnly: rules} : {};
  const found = await axe.run(document, {resultTypes: ['violations'], ...chosen});
  return found.violations.map((one) =>
    `${one.id}: ${one.help}: ${one.nodes.slice(0, 3).map((node) => node.html).join(' | ')}`);
}"""


@pytest.fixture(scope="module")
def axe():
    """The source of axe-core: it runs in the page and asks for nothing."""
    return (files("axe_core_python") / "axe.min.js").read_text(encoding="utf-8")


def violations(window, axe, address, scheme="light"):
    page = window.open(address)
    page.evaluate(SHORTEN, FEW)
    page.evaluate(axe)
    return page.evaluate(RUN, RULES[scheme])


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("half", [0, 1])
def test_axe_finds_nothing(open_window, axe, kinds, scheme, half):
    """On every kind of page; in two halves, so that two workers share them."""
    window = open_window(color_scheme=scheme)
    others = [address for address in kinds if not address.startswith("fluids/")]
    pages = [*others, *FLUIDS][half::2]
    found = {address: violations(window, axe, address, scheme) for address in pages}
    window.page.context.close()
    assert {address: faults for address, faults in found.items() if faults} == {}


def test_axe_finds_nothing_on_a_phone(open_window, axe):
    """Where tables scroll sideways, and the answers stand in another order."""
    window = open_window(viewport={"width": 390, "height": 844})
    pages = ("fluids.html", "sources.html", *FLUIDS[:2])
    found = {address: violations(window, axe, address) for address in pages}
    window.page.context.close()
    assert {address: faults for address, faults in found.items() if faults} == {}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_sees_a_fault(open_window, axe, scheme):
    window = open_window(color_scheme=scheme)
    page = window.open("about.html")
    page.evaluate(axe)
    page.evaluate("() => { document.querySelector('h1').style.color = '#777777'; }")
    ground = "() => { document.querySelector('main').style.background = '#888888'; }"
    page.evaluate(ground)
    found = page.evaluate(RUN, RULES[scheme])
    assert any(fault.startswith("color-contrast") for fault in found)
    window.page.context.close()
