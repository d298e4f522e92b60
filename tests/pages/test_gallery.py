"""Drawings as files: each whole by itself, with its data and the line to cite it by."""

import json
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from isofolio.drawings.ions import Column, Segment, Sugar
from isofolio.handbook import open_handbook
from isofolio.pages.gallery import citation, columns_table, drawings, gallery_files, gallery_pages

CATALOGUE = Path(__file__).parents[2] / "catalogue"
NS = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None
    return opened.handbook


@pytest.fixture(scope="module")
def files(handbook):
    return {path: make() for path, make in gallery_files(handbook)}


def test_every_fluid_comparison_and_chart_is_there_once(handbook):
    ids = [one.id for one in drawings(handbook)]
    assert len(set(ids)) == len(ids)
    wanted = {*handbook.catalogue.fluids, *handbook.catalogue.comparisons}
    assert wanted <= set(ids)
    assert len(ids) == len(wanted) + 4


def test_every_file_is_whole_and_cites_itself(handbook, files):
    line = citation(handbook)
    assert line == f"Isofolio, catalogue of {handbook.date}, CC BY 4.0"
    for path, svg in files.items():
        if not path.endswith(".svg"):
            continue
        root = ElementTree.fromstring(svg)
        said = [text.text for text in root.iter(f"{NS}text")]
        assert line in said, path
        assert root.find(f"{NS}style") is not None
        assert float(root.get("width")) > 0
        assert not [e for e in root.iter() if e.get("style") or e.get("href")], path
        patterns = {p.get("id") for p in root.iter(f"{NS}pattern")}
        used = {e.get("fill")[5:-1] for e in root.iter() if (e.get("fill") or "").startswith("url")}
        assert used <= patterns, path


def test_a_fluid_is_named_in_its_file(files):
    root = ElementTree.fromstring(files["drawings/compound-sodium-lactate.svg"])
    titles = [t.text for t in root.iter(f"{NS}text") if t.get("class") == "ion-title"]
    assert " ".join(titles) == "Compound sodium lactate plasma"


def test_the_data_is_what_is_drawn():
    saline = Column(
        "saline",
        (Segment("sodium", "Na", 154.0, "sodium", "Na 154"),),
        (Segment("chloride", "Cl", 154.0, "chloride", "Cl 154"),),
    )
    sugar = Column("glucose", (), (), Sugar(27.75, "glucose 28\u00a0mmol, no charge"), "a tenth")
    head, rows = columns_table([saline, sugar])
    assert head == ("a litre, as drawn", "saline", "glucose, a tenth")
    assert rows == [
        ("Na, mEq/L", "154", "none"),
        ("Cl, mEq/L", "154", "none"),
        ("glucose, mmol/L", "none", "28"),
    ]


def test_every_label_of_a_drawing_stands_in_its_table(handbook, files):
    for one in drawings(handbook):
        if one.group == "Charts":
            continue
        root = ElementTree.fromstring(files[f"drawings/{one.id}.svg"])
        said = " ".join(t.text for t in root.iter(f"{NS}text"))
        figures = {cell for _, *cells in one.table()[1] for cell in cells} - {"none", "not known"}
        assert all(figure in said for figure in figures), one.id


def test_the_page_offers_each_with_table_address_and_citation(handbook):
    ((_, make),) = gallery_pages(handbook)
    body = make().body
    for one in drawings(handbook):
        assert f'href="drawings/{one.id}.svg"' in body
        assert f'data-drawing="{one.id}" hidden' in body
        assert f'href="{one.page}"' in body
        assert f'id="{one.id}"' in body
    assert body.count("<details>") == len(drawings(handbook))
    text = re.sub(r"</?span[^>]*>", "", body)
    assert text.count(citation(handbook)) == len(drawings(handbook)) + 1


def test_a_drawing_stands_in_its_script_as_in_its_file(files):
    for path, script in files.items():
        if not path.startswith("scripts/"):
            continue
        name, told = re.fullmatch(
            r"window\.isofolio = .*;\n\(isofolio\.drawings = .*\)\[(.+)\] = (.+);\n", script
        ).groups()
        assert path == f"scripts/gallery/{json.loads(name)}.js"
        assert json.loads(told) == files[f"drawings/{json.loads(name)}.svg"]
    assert len([path for path in files if path.startswith("scripts/")]) * 2 == len(files)
