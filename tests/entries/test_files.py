"""What one file says, and what is remembered of it from one reading to the next."""

import os

import pytest

from isofolio.entries.files import LastReading
from isofolio.entries.reading import read_catalogue

GLUCOSE = "fluids/glucose-5.yml"
SALINE = "fluids/sodium-chloride-0-9.yml"


@pytest.fixture
def last(catalogue):
    """What the sound catalogue said when it was read."""
    last = LastReading()
    assert read_catalogue(catalogue, last).problems == ()
    return last


def told(last):
    return {file: one for file, (_, one) in last.files.items()}


def test_a_file_is_read_again_only_when_its_bytes_change(catalogue, last):
    before = told(last)
    path = catalogue / GLUCOSE
    text, time = path.read_text(encoding="utf-8"), path.stat().st_mtime_ns
    path.write_text(text.replace("amount: 50 g/L", "amount: 51 g/L"), encoding="utf-8")
    os.utime(path, ns=(time, time))
    reading = read_catalogue(catalogue, last)
    assert [file for file, one in told(last).items() if one is not before[file]] == [GLUCOSE]
    assert reading.catalogue.fluids["glucose-5"].contents[0].amount.low == 51.0
    assert reading == read_catalogue(catalogue)


def test_a_deleted_file_is_forgotten_and_its_references_dangle(catalogue, last):
    (catalogue / "substances/glucose.yml").unlink()
    reading = read_catalogue(catalogue, last)
    assert "substances/glucose.yml" not in last.files
    assert GLUCOSE in {problem.file for problem in reading.problems}
    assert reading == read_catalogue(catalogue)


def test_the_same_bytes_under_another_name_are_another_file(catalogue, last):
    (catalogue / GLUCOSE).rename(catalogue / "fluids/sugar.yml")
    reading = read_catalogue(catalogue, last)
    assert ("fluids/sugar.yml", 'the id "glucose-5" is not the file name "sugar"') in {
        (problem.file, problem.message) for problem in reading.problems
    }
    assert reading == read_catalogue(catalogue)


def test_two_files_that_change_places_are_told_apart(catalogue, last):
    texts = {file: (catalogue / file).read_text(encoding="utf-8") for file in (GLUCOSE, SALINE)}
    (catalogue / GLUCOSE).write_text(texts[SALINE], encoding="utf-8")
    (catalogue / SALINE).write_text(texts[GLUCOSE], encoding="utf-8")
    reading = read_catalogue(catalogue, last)
    assert {GLUCOSE, SALINE} <= {problem.file for problem in reading.problems}
    assert reading == read_catalogue(catalogue)


def test_a_file_that_breaks_and_is_mended(catalogue, last):
    path, sound = catalogue / GLUCOSE, read_catalogue(catalogue)
    text = path.read_text(encoding="utf-8")
    path.write_text(text + "\t[", encoding="utf-8")
    assert read_catalogue(catalogue, last).problems == read_catalogue(catalogue).problems != ()
    path.write_text(text, encoding="utf-8")
    assert read_catalogue(catalogue, last) == sound


def test_a_link_in_the_place_of_a_file_is_refused_however_well_it_is_known(catalogue, last):
    path = catalogue / GLUCOSE
    path.rename(catalogue.parent / "elsewhere.yml")
    path.symlink_to(catalogue.parent / "elsewhere.yml")
    (problem, *_) = read_catalogue(catalogue, last).problems
    assert (problem.file, problem.message) == (GLUCOSE, "a link, not a file")
    path.unlink()
    path.write_bytes(b"")
    (problem, *_) = read_catalogue(catalogue, last).problems
    assert (problem.file, problem.message) == (GLUCOSE, "the file is empty")
