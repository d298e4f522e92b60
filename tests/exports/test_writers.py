"""Every form of the data is written, listed and offered once, whatever the entries say."""

import csv
import io
import json
from xml.etree import ElementTree

import openpyxl
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from isofolio.entries.characters import FORBIDDEN
from isofolio.exports.csv_text import inert
from isofolio.exports.json_text import json_export
from isofolio.exports.writers import WRITERS, export_bytes
from isofolio.folio import data_files
from isofolio.pages.downloads import downloads_page
from isofolio.vocabulary.exports import EXPORT_FORMS, EXPORT_WORDS


def test_a_form_has_a_word_a_file_and_a_writer():
    assert tuple(WRITERS) == EXPORT_WORDS
    for field in ("word", "file", "label", "holds"):
        told = [getattr(form, field) for form in EXPORT_FORMS]
        assert all(told)
        assert len(set(told)) == len(told)


@pytest.mark.parametrize("word", EXPORT_WORDS)
def test_a_small_handbook_is_written_in_every_form(handbook_of_one, word):
    made = export_bytes(handbook_of_one(contents=[]), word)
    assert isinstance(made, bytes)
    assert len(made) > 100


def test_text_is_utf_8(handbook):
    assert export_bytes(handbook, "json") == json_export(handbook).encode("utf-8")


def test_the_site_holds_every_file_and_the_page_links_it(handbook_of_one):
    small = handbook_of_one(contents=[{"substance": "sodium-chloride", "amount": "9 g/L"}])
    files = {file.path: b"".join(file.made().pieces()) for file in data_files(small)}
    body = downloads_page(small).body
    for form in EXPORT_FORMS:
        assert files[f"downloads/{form.file}"] == export_bytes(small, form.word)
        assert f'href="downloads/{form.file}"' in body


# What an editor can type; `<` and `>` are refused in a name but not in a note. A carriage return
# is a line feed by the time a file has been read.
TYPED = st.text(
    st.characters(exclude_categories=["Cs"], exclude_characters="\r"), min_size=1, max_size=30
).filter(lambda text: not FORBIDDEN.search(text))


@settings(
    max_examples=12,
    deadline=None,
    database=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(name=TYPED, note=TYPED)
def test_whatever_a_name_says_it_comes_back_as_text(handbook_of_one, name, note):
    why = {"text": note, "cite": "common practice"}
    try:
        made = handbook_of_one(name=name, contents=[], status="not-for-use", status_note=why)
    except ValidationError:
        assume(False)
    (fluid,) = made.fluids
    told = {word: export_bytes(made, word).decode() for word in EXPORT_WORDS if word != "xlsx"}
    assert json.loads(told["json"])["fluids"][0]["name"] == fluid.name
    rows = csv.DictReader(io.StringIO(told["csv"], newline=""))
    assert {row["name"] for row in rows} == {inert(fluid.name)}
    resource = json.loads(told["fhir"])["entry"][-1]["resource"]
    assert resource["code"]["text"] == fluid.name
    paragraphs = [p.text for p in ElementTree.fromstring(resource["text"]["div"])]
    assert f"not-for-use: {fluid.status_note.text}" in paragraphs
    assert fluid.name in {node["name"] for node in json.loads(told["linked-data"])["@graph"]}
    book = openpyxl.load_workbook(io.BytesIO(export_bytes(made, "xlsx")))
    assert (book["fluids"]["B2"].data_type, book["fluids"]["B2"].value) == ("s", fluid.name)
