"""Every kind of fault is told at its place, with its line, a caret and a fix: tests/bad, as data.

A folder of tests/bad holds the changed files of one fault, laid over the sound catalogue in
tests/bad/base, and `expected.txt`, the whole of what `isofolio check` says. To write new
expectations: ISOFOLIO_RENEW=1 pytest tests/entries/test_every_fault.py. Read each one: it must
tell an editor who asks nobody what is wrong, where, and what to do.
"""

import os
import shutil
from pathlib import Path

import pytest

from isofolio.entries.problems import EXCERPT_LENGTH
from isofolio.handbook import open_handbook

BAD = Path(__file__).parents[1] / "bad"
BYTE_ORDER_MARK = b"\xef\xbb\xbf"
SALINE = "fluids/sodium-chloride-0-9.yml"

# Faults of one file that come in more than one problem, because they are more than one fault.
MORE_THAN_ONE = {"duplicate-keys": 2, "two-misspelt-keys": 2, "misspelt-beside-missing": 2}


def larger_than_allowed(folder):
    (folder / SALINE).write_text("# " + "x" * 256_000, encoding="utf-8")


def scalar_bomb(folder):
    (folder / SALINE).write_text("name: " + "x" * 10_000_000, encoding="utf-8")


def long_scalar(folder):
    text = (folder / SALINE).read_text(encoding="utf-8")
    text = text.replace("role: ready", f"role: {'x' * 200_000}")
    (folder / SALINE).write_text(text, encoding="utf-8")


def many_levels(folder):
    (folder / SALINE).write_text("contents: " + "[" * 100_000, encoding="utf-8")


def many_levels_in_lines(folder):
    lines = [f"{' ' * level}a:\n" for level in range(30)]
    (folder / SALINE).write_text("".join(lines), encoding="utf-8")


def many_values(folder):
    (folder / SALINE).write_text("contents: [" + "x, " * 30_000 + "]", encoding="utf-8")


def symbolic_link(folder):
    (folder / SALINE).rename(folder.parent / "elsewhere.yml")
    (folder / SALINE).symlink_to(folder.parent / "elsewhere.yml")


def link_to_a_folder(folder):
    (folder / "fluids").rename(folder.parent / "elsewhere")
    (folder / "fluids").symlink_to(folder.parent / "elsewhere")


def link_to_nothing(folder):
    (folder / SALINE).unlink()
    (folder / SALINE).symlink_to(folder / "gone.yml")


def name_that_is_no_text(folder):
    glucose = folder / "substances" / "glucose.yml"
    glucose.rename(folder / "substances" / os.fsdecode(b"glucose\xff.yml"))


def name_with_a_line_end(folder):
    (folder / "sources" / "a-label.yml").rename(folder / "sources" / "a-\nlabel.yml")


def no_particles(folder):
    (folder / "particles.yml").unlink()


def no_limits(folder):
    (folder / "limits.yml").unlink()


def renamed_substance(folder):
    (folder / "substances" / "glucose.yml").rename(folder / "substances" / "dextrose.yml")


def moved_substance(folder):
    (folder / "salts").mkdir()
    (folder / "substances" / "sodium-chloride.yml").rename(folder / "salts" / "sodium-chloride.yml")


def other_ending(folder):
    glucose = folder / "substances" / "glucose.yml"
    glucose.rename(glucose.with_suffix(".yaml"))


GENERATED = {
    "too-large": larger_than_allowed,
    "scalar-bomb": scalar_bomb,
    "long-scalar": long_scalar,
    "too-deep": many_levels,
    "too-deep-in-lines": many_levels_in_lines,
    "too-many-values": many_values,
    "symbolic-link": symbolic_link,
    "symbolic-link-to-a-folder": link_to_a_folder,
    "symbolic-link-to-nothing": link_to_nothing,
    "file-name-not-text": name_that_is_no_text,
    "file-name-of-two-lines": name_with_a_line_end,
    "no-particles": no_particles,
    "no-limits": no_limits,
    "substance-renamed": renamed_substance,
    "substance-in-another-folder": moved_substance,
    "substance-with-another-ending": other_ending,
}
STORED = sorted(f.name for f in BAD.iterdir() if f.is_dir() and f.name not in {"base", *GENERATED})


def lay_over(folder, name):
    shutil.copytree(
        BAD / name,
        folder,
        dirs_exist_ok=True,
        ignore=shutil.ignore_patterns("expected.txt"),
    )


def told(folder):
    problems = open_handbook(folder).problems
    return problems, "".join(f"{problem.text()}\n" for problem in problems)


def compare(name, text):
    expected = BAD / name / "expected.txt"
    if os.environ.get("ISOFOLIO_RENEW") == "1":
        expected.parent.mkdir(exist_ok=True)
        expected.write_text(text, encoding="utf-8")
    assert text == expected.read_text(encoding="utf-8")


def is_helpful(problem, folder):
    """File, line and column first; the line with the caret under the column; then what to do."""
    lines = problem.text().split("\n")
    place = f"{problem.file}:{problem.place.line}:{problem.place.column}: "
    assert lines[0].startswith(place)
    assert len(lines[0]) > len(place)
    assert lines[-1].startswith("  ")
    assert lines[-1].strip().endswith((".", "…", "?"))
    assert all(len(line) <= EXCERPT_LENGTH + 20 for line in lines[1:-1])
    assert "Traceback" not in problem.text()
    assert str(folder.parent) not in problem.text()


def test_the_sound_catalogue_is_sound(catalogue):
    opened = open_handbook(catalogue)
    assert opened.problems == ()
    assert opened.notices == ()
    assert len(opened.handbook.fluids) == 6


def test_there_are_many_kinds_of_fault():
    assert len(STORED) + len(GENERATED) >= 40


@pytest.mark.parametrize("name", STORED)
def test_stored_fault_is_told_as_expected(name, catalogue):
    lay_over(catalogue, name)
    problems, text = told(catalogue)
    compare(name, text)
    assert len(problems) == MORE_THAN_ONE.get(name, 1)
    for problem in problems:
        is_helpful(problem, catalogue)


@pytest.mark.parametrize("name", GENERATED)
def test_generated_fault_is_told_as_expected(name, catalogue):
    GENERATED[name](catalogue)
    problems, text = told(catalogue)
    compare(name, text)
    assert len(problems) == 1
    is_helpful(problems[0], catalogue)


@pytest.mark.parametrize("name", [name for name in STORED if not name.startswith("utf-16")])
def test_line_ends_of_another_system_and_a_mark_change_nothing(name, catalogue):
    lay_over(catalogue, name)
    for path in catalogue.rglob("*.y*ml"):
        path.write_bytes(BYTE_ORDER_MARK + path.read_bytes().replace(b"\n", b"\r\n"))
    _, text = told(catalogue)
    assert text == (BAD / name / "expected.txt").read_text(encoding="utf-8")


def test_no_handbook_is_made_of_a_faulty_catalogue(catalogue):
    lay_over(catalogue, "charge-not-closing-declared")
    assert open_handbook(catalogue).handbook is None


def test_an_unreadable_file_is_a_problem(catalogue, monkeypatch):
    def refuse(self, *arguments, **options):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    problems, _ = told(catalogue)
    assert problems
    assert {p.message for p in problems} == {"the file cannot be read: Permission denied"}


def test_a_folder_that_does_not_exist_is_a_problem(tmp_path):
    problems, text = told(tmp_path / "catalog")
    assert len(problems) == 1
    assert text == (
        "catalog:1:1: there is no folder catalog/ here\n  Name it with --catalogue DIR.\n"
    )


def test_a_folder_without_entries_is_an_empty_catalogue(tmp_path):
    assert told(tmp_path)[0] == ()


def test_hidden_files_schemas_and_texts_are_no_entries(catalogue):
    for name in (".editor/settings.json", "schemas/fluid.json", "fluids/README.md", ".x.yml"):
        (catalogue / name).parent.mkdir(exist_ok=True)
        (catalogue / name).write_text("{", encoding="utf-8")
    assert told(catalogue)[0] == ()
