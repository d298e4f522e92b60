"""Every page as a reader opens it from a file share: quiet, whole, and no wider than its window.

The pages of the fluids are looked at one by one, since each must end its first screen in time; of
every other kind the longest page.
"""

from pathlib import Path

import pytest

CATALOGUE = Path(__file__).parents[2] / "catalogue"
FLUIDS = sorted(entry.stem for entry in (CATALOGUE / "fluids").glob("*.yml"))
# What kills undiluted or alone.
DANGEROUS = (
    "magnesium-sulfate-50",
    "potassium-chloride-15",
    "potassium-chloride-7-45",
    "potassium-dihydrogen-phosphate-13-6",
    "sodium-chloride-30",
    "sodium-glycerophosphate-21-6",
    "water-for-injections",
)
DRAFT = "Draft: not yet checked by a pharmacist or doctor."

# Width and height of a window [px]: a desk at 100 and 125 %, each without and with a scroll bar of
# 17 px, a phone, and a desk at 400 %.
DESKS = ((1366, 768), (1349, 768), (1093, 614), (1079, 614))
PHONE = (390, 844)
ZOOMED = (320, 640)
WINDOWS = (*DESKS, PHONE, ZOOMED)
FEWER = (DESKS[0], DESKS[-1], PHONE, ZOOMED)
DESK_EDGE, PHONE_EDGE = 600, 844  # design: the first screen ends above these [px]

FRAME = """() => ({
  first: document.querySelector('body a, body input, body button').textContent,
  skip: document.querySelector('.skip-link').getAttribute('href'),
  header: document.querySelectorAll('header.site-header').length,
  box: document.querySelector('#finder-box').getBoundingClientRect().width > 100,
  home: document.querySelector('.site-name').textContent,
  headings: document.querySelectorAll('h1').length,
  copy: document.querySelector('.site-footer').textContent.includes('this copy: catalogue of '),
  language: document.documentElement.lang,
  titled: document.title.includes('Isofolio'),
})"""
WHOLE = {
    "first": "Skip to the page",
    "skip": "#main",
    "header": 1,
    "box": True,
    "home": "Isofolio",
    "headings": 1,
    "copy": True,
    "language": "en",
    "titled": True,
}
# Parts that wait until a reader comes near are laid out first: what is too wide must be seen.
EDGES = """() => {
  document.querySelectorAll('.fluid > section').forEach((one) => {
    one.style.contentVisibility = 'visible';
  });
  const edge = (name, side) => {
    const found = document.querySelector(name);
    return found ? found.getBoundingClientRect()[side] : null;
  };
  return {
    wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    opening: edge('.opening', 'bottom'),
    answers: edge('.answers', 'bottom'),
    draft: edge('.draft', 'bottom'),
    holds: edge('.holds', 'top'),
    boxes: edge('.caution-box', 'top'),
    danger: edge('.caution-box.signal-danger', 'top'),
  };
}"""


def looked_at(window, address, sizes=WINDOWS):
    """All that the tests of this module ask of one page, from one visit."""
    window.trouble.clear()
    page = window.open(address)
    edges = {}
    for size in sizes:
        page.set_viewport_size({"width": size[0], "height": size[1]})
        edges[size] = page.evaluate(EDGES)
    look = {"frame": page.evaluate(FRAME), "edges": edges}
    look["draft"] = page.locator(".draft").all_inner_texts()
    look["role"] = page.evaluate("() => document.querySelector('.fluid')?.dataset.role")
    look["trouble"] = list(window.trouble)
    return look


def faults_of(look):
    """What is wrong with a page of any kind."""
    wide = [f"{size[0]} px: too wide" for size, edges in look["edges"].items() if edges["wide"] > 0]
    frame = [f"frame: {part}" for part in WHOLE if look["frame"][part] != WHOLE[part]]
    return [*look["trouble"], *wide, *frame]


@pytest.fixture(scope="module", params=FLUIDS)
def fluid(request, long_window):
    """What one page of a fluid looks like."""
    return looked_at(long_window, f"fluids/{request.param}.html") | {"id": request.param}


def test_the_page_of_a_fluid_is_whole(fluid):
    assert faults_of(fluid) == []


def test_the_first_screen_ends_in_time(fluid):
    desks = {size: fluid["edges"][size]["opening"] for size in DESKS}
    assert {size: edge for size, edge in desks.items() if edge > DESK_EDGE} == {}
    assert fluid["edges"][PHONE]["answers"] <= PHONE_EDGE


def test_a_draft_says_so_on_the_first_screen(fluid):
    assert fluid["draft"] == [DRAFT]
    for (_, height), edges in fluid["edges"].items():
        assert 0 < edges["draft"] < height / 2


def test_a_concentrate_tells_first_what_must_not_be_done(fluid):
    """design.md section 5; DANGER before any other word, and before the contents."""
    for edges in fluid["edges"].values():
        if fluid["role"] == "concentrate":
            assert edges["boxes"] < edges["holds"]
        if fluid["id"] in DANGEROUS:
            assert edges["danger"] == edges["boxes"] < edges["holds"]


def test_pages_of_every_other_kind_are_whole(long_window, kinds):
    others = [address for address in kinds if not address.startswith("fluids/")]
    assert {"index.html", "404.html", "fluids.html"} < set(others)
    looks = {address: looked_at(long_window, address, FEWER) for address in others}
    assert {address: found for address in others if (found := faults_of(looks[address]))} == {}


def test_there_is_a_page_for_every_fluid(addresses):
    pages = [Path(address).stem for address in addresses if address.startswith("fluids/")]
    assert sorted(pages) == FLUIDS
