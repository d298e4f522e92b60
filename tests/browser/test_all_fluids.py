"""The table of all fluids at work: sorted, filtered, linked to, by mouse and by keyboard.

What must come out is asked of the handbook, not of the page.
"""

import shutil
from pathlib import Path

import pytest

from isofolio.handbook import open_handbook
from isofolio.pages.fluids import COLUMNS, fluids_page, natural

CATALOGUE = Path(__file__).parents[2] / "catalogue"
PAGE = "fluids.html"
ROWS = """() => Array.from(document.querySelectorAll('#all-fluids tbody tr'), (row) =>
  row.querySelector('a').getAttribute('href').replace('fluids/', '').replace('.html', ''))"""
# Where the head of the table, its first column and the box they scroll in stand [px].
PLACES = """() => {
  const box = document.querySelector('.scroller.tall').getBoundingClientRect();
  const head = document.querySelector('#all-fluids thead').getBoundingClientRect();
  const name = document.querySelectorAll('#all-fluids tbody th')[30].getBoundingClientRect();
  return {top: head.top - box.top, left: name.left - box.left, width: name.width / box.width};
}"""
SCROLL = """() => {
  const box = document.querySelector('.scroller.tall');
  box.scrollTo({top: box.scrollHeight / 3, left: 400, behavior: 'instant'});
}"""


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


@pytest.fixture(scope="module")
def by_name(handbook):
    """The ids of all fluids in the order of their names."""
    return sorted(
        handbook.catalogue.fluids, key=lambda f: natural(handbook.catalogue.fluids[f].name)
    )


@pytest.fixture
def table(long_window):
    """The page, opened anew; nothing may have gone wrong with it by the end of the test."""
    long_window.page.goto("about:blank")  # else another address of the same page opens nothing
    yield long_window.open(PAGE)
    long_window.page.emulate_media(media="screen")
    assert long_window.trouble == []


def settled(page):
    """The ids of the rows, once the table stands still."""
    page.wait_for_function("() => !document.querySelector('#all-fluids[aria-busy]')")
    return page.evaluate(ROWS)


def found(page):
    return page.inner_text("#fluids-found")


def address(page):
    return page.evaluate("() => location.hash")


def button(page, key):
    return page.locator(f'#all-fluids th[data-key="{key}"] button')


def head(page, key):
    return page.locator(f'#all-fluids th[data-key="{key}"]')


def holding(handbook, fluids, quantity):
    """Fluids that certainly hold something: a range that begins above nothing counts."""
    ranges = {f: handbook.solution(f).ranges.get(quantity, (0.0, 0.0)) for f in fluids}
    return [f for f in fluids if handbook.value(f, quantity).number or ranges[f][0] > 0]


def free(handbook, fluids, quantity):
    return [f for f in fluids if handbook.value(f, quantity).number == 0]


@pytest.mark.both_ways
def test_without_a_script_the_table_is_whole(open_window, way, by_name):
    window = open_window(way, java_script_enabled=False)
    page = window.open(PAGE)
    assert page.locator("#all-fluids tbody tr").count() == len(by_name)
    assert page.locator("#all-fluids thead button").count() == 0
    assert page.locator("#fluid-filters").is_hidden()
    assert page.locator("#all-fluids tbody tr").last.is_visible()
    window.page.context.close()


@pytest.fixture
def long_page(handbook, site, tmp_path, monkeypatch):
    """The page as it would be of many fluids: the rest of its table waits for the script."""
    monkeypatch.setattr("isofolio.pages.fluids.LONG", 40)
    for folder in ("scripts", "styles"):
        shutil.copytree(site / folder, tmp_path / folder)
    html = (site / PAGE).read_text(encoding="utf-8")
    start, end = html.index('<article class="listing'), html.rindex("</article>")
    body = fluids_page(handbook).body.strip().removesuffix("</article>")
    (tmp_path / PAGE).write_text(html[:start] + body + html[end:], encoding="utf-8")
    return (tmp_path / PAGE).as_uri()


def test_a_long_table_is_completed_sorted_and_filtered(chromium, long_page, handbook, by_name):
    page = chromium.new_page()
    page.goto(long_page)
    assert settled(page) == by_name
    assert page.locator("#fluids-missing").count() == 0
    button(page, "name").click()
    page.select_option("select[name=calcium]", "holds")
    assert settled(page) == holding(handbook, by_name[::-1], "calcium")
    page.get_by_role("button", name="Clear the filters").click()
    page.wait_for_function("() => location.hash === '#sort=-name'")
    assert settled(page) == by_name[::-1]
    page.close()


def test_a_long_table_obeys_its_address(chromium, long_page, handbook, by_name):
    page = chromium.new_page()
    page.goto(long_page + "#calcium=holds&sort=-name")
    assert settled(page) == holding(handbook, by_name[::-1], "calcium")
    page.close()


def test_without_a_script_a_long_table_is_whole(chromium, long_page, by_name):
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(long_page)
    assert page.locator(".all-fluids tbody tr").count() == len(by_name)
    context.close()


def test_it_opens_by_name(table, by_name):
    assert settled(table) == by_name
    assert head(table, "name").get_attribute("aria-sort") == "ascending"
    assert found(table) == f"{len(by_name)} of {len(by_name)} fluids."
    assert address(table) == ""


def test_every_column_sorts_both_ways_and_only_one_at_a_time(table, handbook):
    for key, *_ in COLUMNS:
        orders = []
        for _ in range(2):
            button(table, key).click()
            orders.append(settled(table))
            sorted_heads = table.locator("#all-fluids th[aria-sort]")
            assert sorted_heads.evaluate_all("(all) => all.map((th) => th.dataset.key)") == [key]
        assert sorted(orders[0]) == sorted(orders[1]) == sorted(handbook.catalogue.fluids)
        assert orders[0] != orders[1], key


def test_figures_sort_largest_first_and_unknown_last_both_ways(table, handbook):
    for direction in ("descending", "ascending"):
        button(table, "potassium").click()
        assert head(table, "potassium").get_attribute("aria-sort") == direction
        figures = [handbook.value(fluid, "potassium").number for fluid in settled(table)]
        known = [figure for figure in figures if figure is not None]
        assert known == sorted(known, reverse=direction == "descending")
        assert figures[len(known) :] == [None] * (len(figures) - len(known))
        assert len(known) < len(figures)


def test_equal_figures_stay_in_the_order_of_names(table, handbook, by_name):
    button(table, "lactate").click()
    rows = [f for f in settled(table) if handbook.value(f, "lactate").number == 0]
    assert rows == [f for f in by_name if f in rows]


def test_by_name_downwards(table, by_name):
    button(table, "name").click()
    assert settled(table) == by_name[::-1]
    assert address(table) == "#sort=-name"


def test_holds_and_free_of(table, handbook, by_name):
    table.select_option("select[name=potassium]", "holds")
    table.select_option("select[name=calcium]", "free")
    expected = free(handbook, holding(handbook, by_name, "potassium"), "calcium")
    assert settled(table) == expected
    assert found(table).startswith(f"{len(expected)} of {len(by_name)} fluids (potassium: holds;")
    assert 0 < len(expected) < len(by_name)


def test_what_is_not_declared_is_neither_and_that_is_said(table, handbook, by_name):
    table.select_option("select[name=potassium]", "free")
    without = settled(table)
    assert without == free(handbook, by_name, "potassium")
    table.select_option("select[name=potassium]", "unknown")
    unknown = settled(table)
    table.select_option("select[name=potassium]", "holds")
    assert sorted([*without, *unknown, *settled(table)]) == sorted(by_name)
    said = f"{len(unknown)} fluids do not declare it and are left out. Unknown is not none."
    assert said in found(table)


def test_a_declared_range_is_held(table, handbook):
    """Albumin 5 % declares sodium 130 to 160 mmol/L: no figure, yet it is there."""
    assert handbook.value("albumin-5", "sodium").number is None
    table.select_option("select[name=sodium]", "holds")
    assert "albumin-5" in settled(table)


@pytest.mark.parametrize(
    ("key", "value", "expected"),
    [
        ("role", "not-for-use", lambda h, f: h.catalogue.fluids[f].status == "not-for-use"),
        ("role", "concentrate", lambda h, f: h.catalogue.fluids[f].role == "concentrate"),
        ("body", "hypotonic", lambda h, f: h.judgements[f].body.word.startswith("Hypotonic")),
        ("vein", "central-line-preferred", lambda h, f: "Central" in h.judgements[f].vein.word),
    ],
)
def test_words_filter(table, handbook, by_name, key, value, expected):
    table.select_option(f"select[name={key}]", value)
    assert settled(table) == [fluid for fluid in by_name if expected(handbook, fluid)]
    assert address(table) == f"#{key}={value}"


def test_where_nothing_fits_the_reader_is_told_what_to_do(table, by_name):
    table.select_option("select[name=sodium]", "free")
    table.select_option("select[name=bicarbonate]", "holds")
    assert settled(table) == []
    assert "0 of" in found(table)
    assert "No fluid fits: clear the filters." in found(table)
    table.get_by_role("button", name="Clear the filters").click()
    table.wait_for_function("() => location.hash === ''")
    assert settled(table) == by_name


def test_the_count_is_announced(table):
    status = table.get_by_role("status").filter(has_text="fluids")
    assert status.get_attribute("id") == "fluids-found"


@pytest.mark.both_ways
def test_the_address_brings_the_same_table_back(table, open_window, way):
    table.select_option("select[name=magnesium]", "free")
    table.select_option("select[name=role]", "ready")
    button(table, "osmolarity").click()
    rows = settled(table)
    mark = address(table)
    assert mark == "#magnesium=free&role=ready&sort=-osmolarity"
    other = open_window(way)
    page = other.open(PAGE + mark)
    assert settled(page) == rows
    assert found(page) == found(table)
    assert head(page, "osmolarity").get_attribute("aria-sort") == "descending"
    assert page.input_value("select[name=role]") == "ready"
    other.page.context.close()


def test_a_new_address_in_the_same_window_is_obeyed(table, handbook, by_name):
    table.evaluate("() => { location.hash = 'calcium=holds'; }")
    table.wait_for_function("() => document.querySelector('select[name=calcium]').value")
    assert settled(table) == holding(handbook, by_name, "calcium")


def test_an_anchor_of_the_page_leaves_the_choice_alone(table):
    table.select_option("select[name=calcium]", "holds")
    rows = settled(table)
    table.get_by_role("link", name="Why some are not known").click()
    assert address(table) == "#unknown"
    assert settled(table) == rows
    assert table.input_value("select[name=calcium]") == "holds"


@pytest.mark.both_ways
def test_a_part_of_the_address_that_means_nothing_is_named(window, by_name):
    page = window.open(PAGE + "#ward=seven&sodium=plenty&sort=surname")
    assert settled(page) == by_name
    assert "means nothing in this copy: ward=seven, sodium=plenty, sort=surname." in found(page)


def test_the_keyboard_is_enough(table, handbook, by_name):
    table.focus("select[name=potassium]")
    table.keyboard.press("ArrowDown")
    assert settled(table) == holding(handbook, by_name, "potassium")
    for _ in range(60):
        table.keyboard.press("Tab")
        if table.evaluate("() => document.activeElement.closest('th')?.dataset.key") == "chloride":
            break
    table.keyboard.press("Enter")
    assert head(table, "chloride").get_attribute("aria-sort") == "descending"
    table.keyboard.press("Space")
    assert head(table, "chloride").get_attribute("aria-sort") == "ascending"
    # The focus stays on the button, so that a third press is no surprise.
    assert table.evaluate("() => document.activeElement.closest('th').dataset.key") == "chloride"


@pytest.mark.parametrize("size", [(1366, 768), (1093, 614), (390, 844)])
def test_head_and_first_column_stay_in_view(open_window, size):
    window = open_window(viewport={"width": size[0], "height": size[1]})
    page = window.open(PAGE)
    page.evaluate(SCROLL)
    places = page.evaluate(PLACES)
    assert places["top"] == pytest.approx(0, abs=1)
    assert places["left"] == pytest.approx(0, abs=1)
    assert places["width"] < 0.5
    window.page.context.close()


def test_a_link_under_the_keyboard_is_never_under_the_head(table):
    """WCAG 2.2, 2.4.11: what has the focus is not hidden by what stays in view."""
    table.evaluate(SCROLL)
    links = table.locator("#all-fluids tbody a")
    links.nth(30).focus()
    for _ in range(12):
        table.keyboard.press("Shift+Tab")
        edges = table.evaluate(
            """() => [document.activeElement.getBoundingClientRect().top,
                 document.querySelector('#all-fluids thead').getBoundingClientRect().bottom]"""
        )
        assert edges[0] >= edges[1] - 1


def test_at_400_percent_nothing_sticks_over_the_rows(open_window):
    """A desk of 1280 by 768 px at 400 %: WCAG 2.2, 1.4.10."""
    window = open_window(viewport={"width": 320, "height": 192})
    page = window.open(PAGE)
    position = "() => getComputedStyle(document.querySelector('#all-fluids thead')).position"
    assert page.evaluate(position) == "static"
    window.page.context.close()


def test_a_phone_opens_with_the_filters_folded(open_window):
    window = open_window(viewport={"width": 390, "height": 844})
    page = window.open(PAGE)
    assert page.locator("select[name=sodium]").is_hidden()
    page.locator("summary").click()
    assert page.locator("select[name=sodium]").is_visible()
    window.page.context.close()


def test_paper_says_what_was_chosen_and_shows_every_row(table):
    table.select_option("select[name=calcium]", "holds")
    count = len(settled(table))
    table.emulate_media(media="print")
    assert table.locator("select[name=calcium]").is_hidden()
    assert table.locator("#fluids-found").is_visible()
    assert "calcium: holds" in found(table)
    shown = "(rows) => rows.filter((row) => row.offsetHeight > 0).length"
    assert table.locator("#all-fluids tbody tr").evaluate_all(shown) == count
    box = "() => getComputedStyle(document.querySelector('.scroller.tall')).overflow"
    assert table.evaluate(box) == "visible"
