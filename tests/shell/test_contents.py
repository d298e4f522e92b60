"""What the shell takes from the handbook: everything, or the problems."""

from types import SimpleNamespace

import pytest

from isofolio.entries.files import LastReading
from isofolio.entries.problems import Place, Problem
from isofolio.shell.contents import read_contents


def built(handbook):
    """Stands for `build_site`."""
    return ("a file",)


@pytest.fixture
def opened(monkeypatch):
    """A function that puts a result in the place of `open_handbook` and notes its arguments."""

    def put(handbook, problems=()):
        asked = []

        def open_handbook(catalogue, stock, last):
            asked.append((catalogue, stock, last))
            return SimpleNamespace(handbook=handbook, problems=problems, notices=())

        monkeypatch.setattr("isofolio.handbook.open_handbook", open_handbook)
        monkeypatch.setattr("isofolio.shell.contents.build_site", built)
        return asked

    return put


def handbook_of(*fluids, hospital=None):
    """As much of a handbook as the shell looks at."""
    stocked = hospital and SimpleNamespace(name=hospital)
    catalogue = SimpleNamespace(stocked=stocked)
    known = {"digest": "0123456789ab", "date": "2026-11-25", "catalogue": catalogue}
    return SimpleNamespace(fluids=fluids, **known)


def fluid(due):
    return SimpleNamespace(review=SimpleNamespace(due=due))


def test_a_sound_catalogue(opened, tmp_path):
    fluids, last = (fluid(None), fluid("2028-01-31"), fluid("2027-06-30")), LastReading()
    asked = opened(handbook_of(*fluids, hospital="Lindenmoor Hospital"))
    contents = read_contents(tmp_path, "lindenmoor", last)
    assert asked == [(tmp_path, "lindenmoor", last)]
    assert contents.files == ("a file",)
    assert (contents.digest, contents.date) == ("0123456789ab", "2026-11-25")
    assert contents.due == "2027-06-30"
    assert contents.hospital == "Lindenmoor Hospital"


def test_without_a_checked_entry_nothing_is_due(opened, tmp_path):
    opened(handbook_of(fluid(None)))
    contents = read_contents(tmp_path, None)
    assert contents.due == ""
    assert contents.hospital == ""


def test_problems_come_as_their_texts_and_without_files(opened, tmp_path):
    problem = Problem("fluids/a.yml", Place(1, 1), "no such role", "Write ready.")
    opened(None, (problem,))
    contents = read_contents(tmp_path, None)
    assert contents.problems == (problem.text(),)
    assert contents.files == ()
