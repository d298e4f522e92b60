"""What one file says, and what is remembered of it from one reading to the next."""

import os
from pathlib import Path

import pytest

from isofolio.entries.files import LastReading
from isofolio.entries.reading import read_catalogue
from isofolio.entries.tree import read_tree

CATALOGUE = Path(__file__).parents[2] / "catalogue"
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


def test_a_sound_entry_is_let_go_of_and_says_the_same_when_asked_again(catalogue, last):
    for file, one in told(last).items():
        assert one.tree.sound == ("root" not in vars(one.tree)) == ("/" in file), file
        assert one.tree.root == read_tree((catalogue / file).read_bytes(), file).root


def test_an_entry_with_a_fault_is_kept_with_the_id_that_it_gives(catalogue, last):
    """What names the entry is not told that it dangles: the fault of the id is told once."""
    path = catalogue / "substances/glucose.yml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("id: glucose\n", "id: glucosee\n"), encoding="utf-8")
    reading = read_catalogue(catalogue, last)
    assert [problem.file for problem in reading.problems] == ["substances/glucose.yml"]
    assert not reading.trees["substances/glucose.yml"].sound
    assert reading.trees["substances/glucose.yml"].root["id"] == "glucosee"


def test_equal_parts_of_entries_are_one_object():
    fluids = read_catalogue(CATALOGUE).catalogue.fluids.values()
    for parts in (
        [fluid.review for fluid in fluids],
        [fluid.contents_cite for fluid in fluids if fluid.contents_cite],
        [content for fluid in fluids for content in fluid.contents],
        [content.amount for fluid in fluids for content in fluid.contents],
    ):
        first = {}
        assert all(first.setdefault(repr(part), part) is part for part in parts)
        assert len(first) < len(parts)
