"""A folder that holds what no catalogue holds: links, loops, devices, odd names, no rights.

No published source: what file systems allow (POSIX.1-2017, Base Definitions, section 3; memory).
"""

import os
import shutil
from pathlib import Path

import pytest

from isofolio.entries.folder import DEEPEST_FOLDER
from isofolio.entries.problems import MOST_TOLD
from isofolio.handbook import check_catalogue, open_handbook

BASE = Path(__file__).parents[1] / "bad" / "base"
LEVELS = 1_200
SALINE = "fluids/sodium-chloride-0-9.yml"


@pytest.fixture
def catalogue(tmp_path):
    """A sound catalogue to spoil, with something beside it that must never be read."""
    (tmp_path / "secret.yml").write_text("secret: kept outside\n", encoding="utf-8")
    return Path(shutil.copytree(BASE, tmp_path / "catalogue"))


def told(catalogue):
    """File and message of every problem; nothing of the file outside may be in them."""
    reading, problems = check_catalogue(catalogue)
    assert "kept outside" not in "".join(problem.text() for problem in problems)
    assert all("kept outside" not in tree.source for tree in reading.trees.values())
    return [(problem.file, problem.message) for problem in problems]


def test_a_link_out_of_the_catalogue_is_not_followed(catalogue):
    (catalogue / "sources" / "out.yml").symlink_to(catalogue.parent / "secret.yml")
    (catalogue / "glossary").symlink_to(catalogue.parent)
    assert told(catalogue) == [
        ("glossary", "a link, not a file"),
        ("sources/out.yml", "a link, not a file"),
    ]


def test_links_in_a_circle_end(catalogue):
    (catalogue / "fluids" / "all").symlink_to(catalogue)
    (catalogue / "sources" / "a.yml").symlink_to(catalogue / "sources" / "b.yml")
    (catalogue / "sources" / "b.yml").symlink_to(catalogue / "sources" / "a.yml")
    assert told(catalogue) == [
        ("fluids/all", "a link, not a file"),
        ("sources/a.yml", "a link, not a file"),
        ("sources/b.yml", "a link, not a file"),
    ]


def test_a_pipe_is_not_waited_for(catalogue):
    os.mkfifo(catalogue / "fluids" / "pipe.yml")
    assert told(catalogue) == [("fluids/pipe.yml", "no ordinary file")]


def test_an_empty_folder_with_the_name_of_an_entry_is_no_entry(catalogue):
    (catalogue / "fluids" / "folder.yml").mkdir()
    assert told(catalogue) == []
    (catalogue / "fluids" / "folder.yml" / "glucose-5.yml").write_text("id: x\n", encoding="utf-8")
    file = "fluids/folder.yml/glucose-5.yml"
    assert told(catalogue) == [(file, "no kind of entry has this place")]


@pytest.fixture
def deeper_than_python_calls_itself(catalogue):
    """Folders in one another; removed from the innermost, because nothing else can."""
    before = Path.cwd()
    os.chdir(catalogue / "fluids")
    for _ in range(LEVELS):
        Path("in").mkdir()
        os.chdir("in")
    yield
    for _ in range(LEVELS):
        os.chdir("..")
        Path("in").rmdir()
    os.chdir(before)


@pytest.mark.usefixtures("deeper_than_python_calls_itself")
def test_folders_in_folders_without_end_are_not_followed(catalogue):
    file = "/".join(["fluids", *["in"] * DEEPEST_FOLDER])
    assert told(catalogue) == [(file, "the folder cannot be looked into")]


@pytest.mark.parametrize("name", [".", "sources"])
def test_a_folder_without_the_right_to_read_it_is_not_taken_for_empty(catalogue, name, monkeypatch):
    closed = catalogue / name
    really = Path.iterdir

    def refuse(self):
        if self == closed:
            raise PermissionError(13, "Permission denied")
        return really(self)

    monkeypatch.setattr(Path, "iterdir", refuse)
    assert (name, "the folder cannot be looked into") in told(catalogue)


@pytest.mark.parametrize(
    "name",
    ["-rf.yml", "a b.yml", "a;b.yml", "$(x).yml", "%2e%2e.yml", "a\u202eb.yml", "é.yml",
     "glucоse.yml", "a\tb.yml", "GLUCOSE-5.YML", "con.yml", "x" * 250 + ".yml", "a.yml.yml"],
)  # fmt: skip
def test_an_odd_file_name_is_told_in_print(catalogue, name):
    text = (catalogue / SALINE).read_text(encoding="utf-8")
    (catalogue / "fluids" / name).write_text(text, encoding="utf-8")
    found = told(catalogue)
    assert len(found) == 1
    assert all(part.isprintable() for part in found[0])


def test_a_file_of_many_faults_tells_the_first_and_counts_the_rest(catalogue):
    lines = "".join(f"no-key-{number}: x\n" for number in range(5_000))
    with (catalogue / SALINE).open("a", encoding="utf-8") as opened:
        opened.write(lines)
    found = told(catalogue)
    assert len(found) == MOST_TOLD + 1
    assert found[-1] == (SALINE, "4900 more problems in this file from here on")
    assert open_handbook(catalogue).handbook is None
