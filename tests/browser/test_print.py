"""On paper: one or two clean sheets, nothing pale, and the sheet says what it is."""

import re

import pytest

# The everyday fluid, the two with the most cautions, an ampoule, a colloid, and a long title.
FLUIDS = (
    "sodium-chloride-0-9",
    "glucose-10",
    "glucose-50",
    "potassium-chloride-15",
    "succinylated-gelatin-4-balanced",
    "potassium-chloride-0-2-sodium-chloride-0-18-glucose-4",
)
SHEETS = 2
PALEST = 0x59  # look.md: no text lighter than #595959 on paper

# Every element with words of its own that is printed: its words, colour, and the ground behind it.
PRINTED = """() => [...document.querySelectorAll('body *')].flatMap((one) => {
  const own = [...one.childNodes].filter((node) => node.nodeType === Node.TEXT_NODE);
  const words = own.map((node) => node.data).join('').trim();
  const box = one.getBoundingClientRect();
  if (!words || !box.width || !box.height || one.closest('defs, noscript')) return [];
  const style = getComputedStyle(one);
  let ground = one;
  while (ground && getComputedStyle(ground).backgroundColor === 'rgba(0, 0, 0, 0)') {
    ground = ground.parentElement;
  }
  return [{
    words,
    colour: one instanceof SVGElement ? style.fill : style.color,
    ground: ground ? getComputedStyle(ground).backgroundColor : 'rgb(255, 255, 255)',
    exact: style.printColorAdjust === 'exact',
    danger: one.closest('.signal-danger') !== null,
  }];
})"""


def shades(colour):
    """Red, green and blue of a computed colour."""
    return [float(part) for part in re.findall(r"[\d.]+", colour)[:3]]


def is_readable(text):
    """Dark on white; or DANGER, white on black, kept by the printer's own setting."""
    colour, ground = shades(text["colour"]), shades(text["ground"])
    if text["danger"] and text["exact"] and max(ground) == 0:
        return min(colour) == 255
    return max(colour) <= PALEST and min(ground) == 255


@pytest.fixture
def dark(open_window, way):
    """A window of a reader who reads at night: dark by the system and by choice."""
    window = open_window(way, color_scheme="dark")
    # Written anew for each page: a browser in a hurry may not have kept it since the last one.
    window.page.add_init_script("localStorage.setItem('isofolio-theme', 'dark')")
    yield window
    window.page.context.close()


def on_paper(window, address):
    page = window.open(address)
    assert page.evaluate("() => document.documentElement.dataset.theme") == "dark"
    page.emulate_media(media="print")
    return page


def printed_pages(page):
    """How many sheets the printed page takes, and whether they are A4 [points]."""
    paper = page.pdf(prefer_css_page_size=True)
    sizes = {
        (round(float(width)), round(float(height)))
        for width, height in re.findall(rb"/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]", paper)
    }
    return len(re.findall(rb"/Type\s*/Page\b", paper)), sizes


@pytest.mark.parametrize("fluid", FLUIDS)
def test_a_dark_page_prints_dark_on_white_on_few_sheets(dark, fluid):
    page = on_paper(dark, f"fluids/{fluid}.html")
    texts = page.evaluate(PRINTED)
    assert len(texts) > 100
    assert [text for text in texts if not is_readable(text)] == []
    sheets, sizes = printed_pages(page)
    assert 1 <= sheets <= SHEETS
    assert sizes == {(595, 842)}
    assert dark.trouble == []


def test_pages_of_every_kind_print_dark_on_white(dark, kinds):
    pale = {}
    for address in kinds:
        texts = on_paper(dark, address).evaluate(PRINTED)
        pale[address] = [text for text in texts if not is_readable(text)]
    assert {address: texts for address, texts in pale.items() if texts} == {}


@pytest.mark.both_ways
def test_a_sheet_says_what_it_is_and_leaves_out_what_paper_cannot_use(dark):
    page = on_paper(dark, "fluids/potassium-chloride-15.html")
    for gone in (".site-header", ".skip-link", ".copy", "#theme-switch", ".working", ".on-screen"):
        assert page.locator(gone).first.is_hidden(), gone
    end = "() => getComputedStyle(document.querySelector('.site-footer'), '::after').content"
    assert page.evaluate(end) == '"Uncontrolled when printed."'
    footer = page.locator(".site-footer").inner_text()
    assert re.search(r"this copy: catalogue of \d{4}-\d\d-\d\d, digest [0-9a-f]{12}", footer)
    assert page.locator(".draft").first.is_visible()
    left_out = page.locator(".on-paper").inner_text()
    assert "the working" in left_out
    assert "misspelt names" in left_out
    assert page.locator("#names ~ .names").get_by_text("ward words").is_visible()
    assert "fluids/potassium-chloride-15.html" in left_out


def test_danger_prints_white_on_black(dark):
    page = on_paper(dark, "fluids/potassium-chloride-15.html")
    danger = [text for text in page.evaluate(PRINTED) if text["words"] == "DANGER"]
    assert len(danger) == 2  # the box at the top, and the list of cautions
    assert all(shades(text["ground"]) == [0, 0, 0] for text in danger)
    columns = page.locator(".ion-drawing").last.bounding_box()
    assert columns["width"] == pytest.approx(80 / 25.4 * 96, abs=1)  # look.md: 80 mm wide


def test_a_pale_word_is_seen(window):
    page = window.open("about.html")
    page.emulate_media(media="print")
    page.evaluate("() => { document.querySelector('h1').style.color = '#5a5a5a'; }")
    pale = [text["words"] for text in page.evaluate(PRINTED) if not is_readable(text)]
    assert pale == ["About this handbook"]
