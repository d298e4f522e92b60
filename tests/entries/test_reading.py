"""A folder to a catalogue: whatever lies in it, nothing raises, and the order never changes."""

import json
import shutil
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from isofolio.entries.files import FOLDERS, LISTS
from isofolio.entries.fluids import Fluid
from isofolio.entries.folder import printable_name
from isofolio.entries.reading import read_catalogue
from isofolio.handbook import check_catalogue, open_handbook
from isofolio.vocabulary.quantities import QUANTITY_BY_ID
from isofolio.vocabulary.terms import CATALOGUE_FOLDERS

BASE = Path(__file__).parents[1] / "bad" / "base"
KEYS = sorted({name for kind in FOLDERS.values() for name in kind.model_fields})
KEYS += ["substance", "particle", "amount", "charge", "source", "at", "seen", "on", "values"]
KEYS += [*(key for _, key in LISTS.values()), "quantity", "interval", "beside", "value", "word"]
WORDS = ["yes", "no", "draft", "ready", "50 g/L", "1 mmol/L", "-1", "1e3", "trace", "NaCl", "mL"]
WORDS += ["sodium", "sodium-chloride", "a-label", "common practice", "memory", "2026-11-25", ""]
ENTRIES = sorted(path.relative_to(BASE).as_posix() for path in BASE.rglob("*.yml"))
TEXTS = st.sampled_from(WORDS) | st.text(max_size=8)
NODES = st.recursive(
    TEXTS,
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(KEYS) | st.text(max_size=5), inner, max_size=5)
    ),
    max_leaves=12,
)
FIGURES = st.sampled_from(["0", "1", "9", "0.5", "999999999", "0.000000000001", "trace"])
FIGURE_UNITS = st.sampled_from(["g/L", "mmol/L", "mEq/L", "% w/v", "mg/mL", "mmol per 1 mL", "kg"])


def test_the_closed_list_of_folders_is_that_of_the_program():
    assert set(FOLDERS) == set(CATALOGUE_FOLDERS)


def test_the_catalogue_holds_the_entries_by_id_in_order(catalogue):
    found = read_catalogue(catalogue).catalogue
    assert list(found.fluids) == sorted(found.fluids)
    assert len(found.fluids) == 6
    assert len(found.substances) == 8
    assert list(found.particles)[:2] == ["sodium", "potassium"]
    assert [interval.quantity for interval in found.intervals] == ["sodium", "ph"]
    assert len(found.changes) == 1
    assert isinstance(found.fluids["glucose-5"], Fluid)


def test_the_catalogue_is_read_only(catalogue):
    found = read_catalogue(catalogue).catalogue
    with pytest.raises(TypeError):
        found.fluids["other"] = found.fluids["glucose-5"]


def test_the_digest_follows_the_texts_and_not_the_line_ends(catalogue, spoil):
    before = read_catalogue(catalogue).digest
    assert len(before) == 12
    for path in catalogue.rglob("*.yml"):
        path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    assert read_catalogue(catalogue).digest == before
    spoil("fluids/glucose-5.yml", "name: Glucose 5 %", "name: Glucose 5  %")
    assert read_catalogue(catalogue).digest != before


def test_an_unused_source_is_a_notice_and_no_problem(catalogue):
    shutil.copy(catalogue / "sources" / "a-label.yml", catalogue / "sources" / "unused.yml")
    path = catalogue / "sources" / "unused.yml"
    path.write_text(path.read_text(encoding="utf-8").replace("a-label", "unused"), encoding="utf-8")
    opened = open_handbook(catalogue)
    assert opened.problems == ()
    assert [notice.file for notice in opened.notices] == ["sources/unused.yml"]
    assert opened.handbook is not None


def test_a_source_is_used_only_by_who_cites_it(catalogue):
    """An id that names a fluid somewhere is no citation."""
    text = (catalogue / "sources" / "a-label.yml").read_text(encoding="utf-8")
    path = catalogue / "sources" / "sodium-chloride-0-9.yml"
    path.write_text(text.replace("a-label", "sodium-chloride-0-9"), encoding="utf-8")
    assert [n.file for n in open_handbook(catalogue).notices] == ["sources/sodium-chloride-0-9.yml"]


def test_an_empty_catalogue_has_no_problem(tmp_path):
    reading = read_catalogue(tmp_path)
    assert reading.problems == ()
    assert not reading.catalogue.fluids


@given(st.text(max_size=20))
def test_file_names_become_printable(name):
    assert printable_name(name).isprintable()


@settings(max_examples=40)
@given(st.sampled_from(ENTRIES), NODES)
def test_no_mapping_raises(catalogue, file, node):
    """JSON is YAML, so that any tree can be written into any file of the catalogue."""
    path = catalogue / file
    before = path.read_bytes()
    path.write_text(json.dumps(node, ensure_ascii=False), encoding="utf-8")
    _, problems = check_catalogue(catalogue)
    path.write_bytes(before)
    for problem in problems:
        problem.text().encode()


@settings(max_examples=40)
@given(st.sampled_from(ENTRIES), st.data())
def test_no_replaced_value_raises(catalogue, file, data):
    """One line of a sound entry gets another value; what stays sound makes a handbook."""
    path = catalogue / file
    before = path.read_text(encoding="utf-8")
    lines = before.split("\n")
    number = data.draw(st.integers(0, len(lines) - 1))
    key = lines[number].partition(":")[0]
    value = data.draw(NODES | FIGURES)
    lines[number] = f"{key}: {json.dumps(value, ensure_ascii=False)}"
    path.write_text("\n".join(lines), encoding="utf-8")
    opened = open_handbook(catalogue)
    path.write_text(before, encoding="utf-8")
    assert (opened.handbook is None) == bool(opened.problems)


@settings(max_examples=40)
@given(st.sampled_from(["50 g/L", "55 g/L", "278 mOsm/L", "200 kcal/L", "500 mL"]), st.data())
def test_no_amount_raises(catalogue, old, data):
    """The whole way of an amount, from the text of an entry to every quantity of a handbook."""
    path = catalogue / "fluids" / "glucose-5.yml"
    before = path.read_text(encoding="utf-8")
    new = f"{data.draw(FIGURES)} {data.draw(FIGURE_UNITS)}"
    path.write_text(before.replace(old, new), encoding="utf-8")
    opened = open_handbook(catalogue)
    path.write_text(before, encoding="utf-8")
    assert (opened.handbook is None) == bool(opened.problems)
    if opened.handbook is not None:
        for quantity in opened.handbook.quantities:
            value = opened.handbook.value("glucose-5", quantity)
            assert quantity in QUANTITY_BY_ID
            assert (value.number is None) == bool(value.reason)
