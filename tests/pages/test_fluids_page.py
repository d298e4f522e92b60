"""The table of all fluids as Python writes it: whole, and honest about what is not known.

What the page must say is the project's own rule (design, sections 1, 4, 5 and 8).
"""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from isofolio.handbook import open_handbook
from isofolio.pages.fluids import BODY_WORDS, COLUMNS, ROWS_A_BODY, TOKENS, fluids_page, natural
from isofolio.pages.fluids_cells import FIGURES, OTHERS
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.vocabulary.terms import VEIN_WORDS

PROJECT = Path(__file__).parents[2]
SCRIPT = PROJECT / "site_src" / "scripts" / "fluids.js"
CHOICES = ("role", "body", "vein")  # and the stock, in a hospital's copy
ENTITIES = {"&nbsp;": "\u00a0"}


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(PROJECT / "catalogue")
    assert opened.handbook is not None, "\n\n".join(problem.text() for problem in opened.problems)
    return opened.handbook


@pytest.fixture(scope="module")
def page(handbook):
    return fluids_page(handbook)


@pytest.fixture(scope="module")
def table(page):
    """The table alone, as a tree."""
    html = page.body[page.body.index("<table") : page.body.index("</table>") + len("</table>")]
    for entity, sign in ENTITIES.items():
        html = html.replace(entity, sign)
    return ElementTree.fromstring(html)


@pytest.fixture(scope="module")
def rows(table):
    """Every row by the id of its fluid."""
    found = {}
    for row in table.iterfind("tbody/tr"):
        address = row.find("th/a").attrib["href"]
        found[address.removeprefix("fluids/").removesuffix(".html")] = row
    return found


def cell(rows, fluid, key):
    """The cell of a column in the row of a fluid."""
    return rows[fluid].findall("td")[[column for column, *_ in COLUMNS].index(key)]


def words(element):
    return "".join(element.itertext())


def tokens(rows, fluid):
    return dict(zip(TOKENS, rows[fluid].attrib["data-tokens"].split(), strict=True))


def test_every_fluid_has_one_row_in_natural_order_of_its_name(handbook, table, rows):
    assert set(rows) == set(handbook.catalogue.fluids)
    assert len(table.findall("tbody/tr")) == len(rows)
    names = [handbook.catalogue.fluids[fluid].name for fluid in rows]
    assert names == sorted(names, key=natural)
    glucose = [f"glucose-{percent}" for percent in (5, 10, 20, 30, 50)]
    assert [fluid for fluid in rows if fluid in glucose] == glucose


def test_every_row_has_a_cell_and_a_token_a_column(table, rows):
    heads = table.findall("thead/tr/th")
    assert [head.attrib["data-key"] for head in heads] == ["name", *(key for key, *_ in COLUMNS)]
    assert table.attrib["data-tokens"].split() == list(TOKENS)
    for row in rows.values():
        assert len(row.findall("td")) == len(COLUMNS)
        assert len(row.attrib["data-tokens"].split()) == len(TOKENS)
        assert len(row.attrib["data-words"].split()) == len(CHOICES)


def test_the_tokens_are_the_handbooks_figures(handbook, rows):
    for fluid in rows:
        for key, token in tokens(rows, fluid).items():
            if key not in QUANTITY_BY_ID:
                continue
            number = handbook.value(fluid, key).number
            if number is None:
                assert token in {"?", "+"}
            else:
                assert float(token) == pytest.approx(number, rel=1e-5)


def test_a_figure_is_written_as_everywhere(rows):
    """Sodium chloride 9 g/L is 154 mmol/L and 308 mOsm/L (arithmetic: 9 / 58.44)."""
    assert words(cell(rows, "sodium-chloride-0-9", "sodium")) == "154"
    assert words(cell(rows, "sodium-chloride-0-9", "osmolarity")) == "308"
    assert words(cell(rows, "sodium-chloride-0-9", "potassium")) == "0"


def test_what_is_not_known_says_why_in_the_cell_and_below_the_table(page, rows):
    unknown = cell(rows, "albumin-4", "potassium")
    mark = unknown.find("span/sup").text
    reason = "the source does not give the whole composition"
    assert words(unknown.find("span[@class='visually-hidden']")) == f"not known: {reason}"
    assert unknown.find("span[@aria-hidden='true']").text == "?"
    assert f"<sup>{mark}</sup></dt><dd>{reason}</dd>" in page.body


def test_no_reason_hides_in_a_tooltip(page):
    assert " title=" not in page.body


def test_every_letter_in_the_table_is_explained(page, table):
    used = {sup.text for sup in table.iter("sup")}
    explained = re.findall(r"<dt>\?&nbsp;<sup>(\w)</sup></dt><dd>\w", page.body)
    assert sorted(used) == explained


def test_a_declared_range_is_shown_and_counts_as_held(rows):
    """Albumin 5 %: sodium 130 to 160, potassium at most 2 (the entry names its source)."""
    assert words(cell(rows, "albumin-5", "sodium")) == "130–160"
    assert words(cell(rows, "albumin-5", "potassium")) == "at most 2"
    held = tokens(rows, "albumin-5")
    assert (held["sodium"], held["potassium"]) == ("+", "?")


def test_a_word_in_the_body_never_stands_without_its_number(handbook, rows):
    for fluid in rows:
        shown = words(cell(rows, fluid, "body"))
        effective = handbook.value(fluid, "effective_osmolarity").number
        if handbook.value(fluid, "tonicity_ratio").number is not None:
            number = re.search(r"(\d+) beside 310$", shown).group(1)
            assert float(number) == pytest.approx(effective, abs=0.5), fluid
        assert handbook.judgements[fluid].body.word.split()[0] in shown


def test_in_the_bag_has_no_class(rows):
    for fluid in rows:
        assert re.fullmatch(r"\d+|\?\w.*", words(cell(rows, fluid, "osmolarity")))


def test_the_condition_of_glucose_stands_on_the_page(page):
    assert "glucose: not while blood glucose is high and the sugar unburnt." in page.body


@pytest.mark.parametrize(
    ("fluid", "others"),
    [
        ("mannitol-10", "mannitol\u00a0549"),
        ("multiple-electrolytes-type-1", "gluconate\u00a023"),
        ("succinylated-gelatin-4", "gelatin\u00a040\u00a0g"),
        ("sodium-chloride-0-9", "none"),
    ],
)
def test_what_has_no_column_stands_under_others(rows, fluid, others):
    assert words(cell(rows, fluid, "others")) == others


def test_what_is_not_for_use_is_never_called_ready_to_hang(rows):
    assert words(cell(rows, "hydroxyethyl-starch-6", "role")) == "Not for use"
    assert rows["hydroxyethyl-starch-6"].attrib["data-words"].startswith("not-for-use ")


def test_the_vein_is_sorted_by_severity(handbook, rows):
    for fluid in rows:
        word = handbook.judgements[fluid].vein.word
        assert words(cell(rows, fluid, "vein")) == word
        assert VEIN_WORDS[int(tokens(rows, fluid)["vein"])] == word


def test_every_word_of_a_row_can_be_chosen(page, rows):
    for place, key in enumerate(CHOICES):
        form = re.search(rf'<select name="{key}".*?</select>', page.body).group()
        offered = re.findall(r'value="([^"]+)"', form)
        used = {row.attrib["data-words"].split()[place] for row in rows.values()}
        assert sorted(offered) == sorted(used)


def test_a_hospitals_copy_is_filtered_by_its_stock(handbook, page):
    kept = open_handbook(PROJECT / "catalogue", "lindenmoor").handbook
    assert kept is not None
    body = fluids_page(kept).body
    assert 'data-words="role body vein stock"' in body
    form = re.search(r'<label>Lindenmoor Hospital <select name="stock".*?</select>', body).group()
    assert re.findall(r'value="([^"]+)"', form) == ["kept", "not-kept"]
    row = r'data-words="[^"]* ([a-z-]+)"><th scope="row"><a href="fluids/(.+?).html'
    words = re.findall(row, body)
    found = {fluid for word, fluid in words if word == "kept"}
    assert found == {one.fluid for one in kept.catalogue.stocked.fluids}
    assert len(words) == len(kept.fluids)
    assert 'name="stock"' not in page.body


def test_a_word_in_the_body_is_offered_with_its_limits(handbook, page):
    limits = handbook.catalogue.limits
    for word, *ends in BODY_WORDS:
        (offered,) = re.findall(rf">({word}: [^<]+)</option>", page.body)
        assert [end for end in ends if end and limits[end].value.text not in offered] == []


def test_every_ion_that_a_fluid_holds_can_be_asked_for(handbook, page):
    offered = set(re.findall(r'<select name="(\w+)" data-kind="held"', page.body))
    asked = (*FIGURES, *OTHERS)
    fluids = handbook.catalogue.fluids
    held = {q for q in asked if any(handbook.value(fluid, q).number for fluid in fluids)}
    assert offered == held


def test_a_long_table_is_whole_too(handbook, monkeypatch):
    """Its rest stands in a second table, for browsers that run no script."""
    monkeypatch.setattr("isofolio.pages.fluids.LONG", 40)
    body = fluids_page(handbook).body
    first, _, rest = body.partition('<noscript id="fluids-rest">')
    ids = [re.findall(r'<a href="fluids/([^"]+)\.html">', part) for part in (first, rest)]
    assert len(ids[0]) == ROWS_A_BODY
    assert sorted(ids[0] + ids[1]) == sorted(handbook.catalogue.fluids)
    assert rest.count("<thead>") == first.count("<thead>") == 1
    assert "scripts/fluids.js" in first[first.index("fluids-missing") :]


def test_the_form_waits_for_the_script(page):
    assert re.search(r'<form id="fluid-filters"[^>]* hidden>', page.body)
    assert page.scripts == ("scripts/fluids.js",)


def test_the_script_holds_no_figure():
    """No clinical number in any script (design, section 6): nothing but places and signs."""
    text = re.sub(r"/\*.*?\*/|//[^\n]*", "", SCRIPT.read_text(encoding="utf-8"), flags=re.DOTALL)
    assert set(re.findall(r"\d+(?:\.\d+)?", text)) <= {"0", "1"}
