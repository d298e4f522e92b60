"""An editor's day, from the clone to the green check, with the very commands she types.

A repository of the small catalogue stands in for the one of the house; nothing uses a network.
"""

import shutil
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner

from isofolio.cli import main

PROJECT = Path(__file__).parents[1]
ENTRY = "catalogue/fluids/sodium-chloride-1-8.yml"
NOBODY = ("-c", "user.name=Nobody", "-c", "user.email=nobody@localhost", "-c", "commit.gpgsign=no")


def git(folder, *arguments):
    command = ["git", "-C", str(folder), *NOBODY, *arguments]
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


@pytest.fixture
def clone(tmp_path):
    """A clone of the house's repository, on a branch of the editor's own."""
    house, clone = tmp_path / "house", tmp_path / "clone"
    shutil.copytree(PROJECT / "tests" / "bad" / "base", house / "catalogue")
    shutil.copy(PROJECT / "mkdocs.yml", house)
    git(house, "init", "--quiet", "--initial-branch=main")
    git(house, "add", ".")
    git(house, "commit", "--quiet", "-m", "The catalogue of the house")
    git(tmp_path, "clone", "--quiet", str(house), str(clone))
    git(clone, "switch", "--quiet", "--create", "stronger-saline")
    return clone


@pytest.fixture
def isofolio(clone, monkeypatch):
    """The command in the clone: its exit code and what it says."""
    monkeypatch.chdir(clone)

    def run(*arguments):
        result = CliRunner().invoke(main, list(arguments))
        assert result.exception is None or isinstance(result.exception, SystemExit)
        return result.exit_code, result.output

    return run


def replace(file, *pairs):
    text = file.read_text(encoding="utf-8")
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    file.write_text(text, encoding="utf-8")


def place(file, text):
    """Where a text stands in a file, as a problem names it."""
    before = file.read_text(encoding="utf-8").partition(text)[0]
    column = len(before) - before.rfind("\n")
    return f"fluids/{file.name}:{before.count(chr(10)) + 1}:{column}: "


def plain(text):
    return text.replace("\u00a0", " ").replace("\u202f", " ")


MISTAKES = (
    ("role: ready ", "role: redy "),
    ("\n  - {substance: , amount: }", "\n  - {substance: sodium-chloride, amount: 18 gr/L}"),
    (
        "contents_cite: {source: , at: , seen: , on: }",
        "contents_cite: {source: a-labell, at: section 2, seen: read, on: 2026-11-25}",
    ),
)


def test_from_the_clone_to_the_green_check(isofolio, clone):
    # The day begins on a sound catalogue.
    assert isofolio("check")[0] == 0
    assert isofolio("changes", "origin/main")[0] == 0

    # A new entry, commented, for her to fill in; she makes three mistakes.
    code, said = isofolio("new", "fluid", "sodium-chloride-1-8")
    assert (code, (clone / ENTRY).is_file()) == (0, True)
    assert "run  isofolio check" in said
    replace(clone / ENTRY, *MISTAKES)

    # Three clear errors, each with its line, its column and its remedy.
    code, said = isofolio("check")
    assert code == 1
    assert place(clone / ENTRY, "redy") + 'role: "redy" is not in the list' in said
    assert 'Did you mean "ready"?' in said
    assert place(clone / ENTRY, "18 gr/L") in said
    assert 'the unit "gr/L" is not in the list' in said
    code, said_of_changes = isofolio("changes", "origin/main")
    assert code == 1
    assert "`fluids/sodium-chloride-1-8.yml` does not load" in said_of_changes

    # She mends them; the third, a source that is not there, shows once the entry loads.
    replace(clone / ENTRY, ("redy", "ready"), ("18 gr/L", "18 g/L"))
    code, said = isofolio("check")
    assert code == 1
    assert place(clone / ENTRY, "a-labell") + 'there is no "a-labell" in sources/' in said
    assert 'Did you mean "a-label"?' in said
    replace(clone / ENTRY, ("a-labell", "a-label"))
    assert isofolio("check")[0] == 0

    # A new entry flips nothing.
    git(clone, "add", ".")
    git(clone, "commit", "--quiet", "-m", "Sodium chloride 1.8 %")
    code, said = isofolio("changes", "origin/main", "HEAD")
    assert code == 0
    assert "| added | Sodium chloride 1.8 %, `fluids/sodium-chloride-1-8.yml` |" in said.replace(
        "\u00a0", " "
    ).replace("\u202f", " ")

    # An edit of another entry does: the report names it, and nobody has double-checked it.
    replace(clone / "catalogue/fluids/sodium-chloride-0-9.yml", ("0.9 % w/v", "9 % w/v"))
    code, said = isofolio("changes", "origin/main")
    assert code == 3
    assert "Sodium chloride 0.9 %" in plain(said).splitlines()[4]

    # Had she meant it, two people would look, and their stamp would let it pass.
    people = ("--state", "double-checked", "--by", "ward pharmacist", "--second", "anaesthetist")
    days = ("--on", "2026-11-25", "--due", "2027-11-25")
    assert isofolio("review", "sodium-chloride-0-9", *people, *days)[0] == 0
    assert isofolio("changes", "origin/main")[0] == 0

    # It was a slip. She takes it back; what is left is green, and goes to review.
    git(clone, "restore", "catalogue/fluids/sodium-chloride-0-9.yml")
    assert isofolio("changes", "origin/main")[0] == 0
    assert isofolio("check")[0] == 0
    assert git(clone, "status", "--porcelain") == ""
