"""What axe-core finds on a page of every kind, light and dark, at a desk and on a phone."""

from importlib.resources import files

import pytest

# A ready fluid, a strong one, a concentrate, a colloid, one without ions, and one substance.
CHOSEN = (
    "fluids/sodium-chloride-0-9.html",
    "fluids/potassium-chloride-0-3-glucose-5.html",
    "fluids/potassium-chloride-15.html",
    "fluids/succinylated-gelatin-4.html",
    "fluids/hydroxyethyl-starch-6.html",
    "fluids/glucose-5.html",
    "substances/glucose-monohydrate.html",
)
RUN = """async () => {
  const found = await axe.run(document, {resultTypes: ['violations']});
  return found.violations.map((one) =>
    `${one.id}: ${one.help}: ${one.nodes.slice(0, 3).map((node) => node.html).join(' | ')}`);
}"""


@pytest.fixture(scope="module")
def axe():
    """The source of axe-core: it runs in the page and asks for nothing."""
    return (files("axe_core_python") / "axe.min.js").read_text(encoding="utf-8")


def violations(window, axe, address):
    page = window.open(address)
    page.evaluate(axe)
    return page.evaluate(RUN)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1366, 390])
def test_axe_finds_nothing(open_window, axe, addresses, scheme, width):
    window = open_window(viewport={"width": width, "height": 768}, color_scheme=scheme)
    kinds = [address for address in addresses if "/" not in address] + list(CHOSEN)
    found = {address: violations(window, axe, address) for address in kinds}
    window.page.context.close()
    assert {address: faults for address, faults in found.items() if faults} == {}


def test_axe_sees_a_fault(window, axe):
    page = window.open("about.html")
    page.evaluate("() => { document.querySelector('main').innerHTML += '<img src=\"data:,\">'; }")
    page.evaluate(axe)
    assert any(fault.startswith("image-alt") for fault in page.evaluate(RUN))
