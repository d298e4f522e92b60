"""Every form of the data is written, listed and offered once."""

import pytest

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
    files = {file.path: file.content for file in data_files(small)}
    body = downloads_page(small).body
    for form in EXPORT_FORMS:
        assert files[f"downloads/{form.file}"] == export_bytes(small, form.word)
        assert f'href="downloads/{form.file}"' in body
