"""`isofolio changes` as an editor and a workflow run it: sentences, exit codes, files."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from isofolio.cli import main

PROJECT = Path(__file__).parents[1]
BASE = PROJECT / "tests" / "bad" / "base"
SALINE = "catalogue/fluids/sodium-chloride-0-9.yml"


@pytest.fixture
def project(tmp_path):
    """A project folder with the small catalogue, and one to compare it with."""
    folder = tmp_path / "project"
    shutil.copytree(BASE, folder / "catalogue")
    shutil.copy(PROJECT / "mkdocs.yml", folder)
    return folder


def asked(folder, *arguments):
    result = CliRunner().invoke(main, ["--project", str(folder), "changes", *arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def edit(project, old, new, file=SALINE):
    path = project / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_nothing_changed_ends_well(project):
    result = asked(project, str(BASE))
    assert result.exit_code == 0
    assert result.output.startswith("No change between base and the working tree: ")


def test_a_change_that_nobody_double_checked_ends_with_three(project):
    edit(project, "0.9 % w/v", "9 % w/v")
    result = asked(project, str(BASE))
    assert result.exit_code == 3
    assert result.output.startswith("# Changes: base → the working tree\n")
    assert str(project) not in result.output


def test_problems_of_the_new_catalogue_end_with_one_and_the_report_is_there(project):
    edit(project, "role: ready", "role: readi")
    result = asked(project, str(BASE))
    assert result.exit_code == 1
    assert f"`{SALINE.removeprefix('catalogue/')}` does not load" in result.output


def test_two_sides_may_be_named(project):
    edit(project, "0.9 % w/v", "9 % w/v")
    result = asked(project, str(project), str(BASE))
    assert result.output.startswith("# Changes: project → base\n")


@pytest.mark.parametrize("form", ["markdown", "json"])
def test_the_report_goes_into_a_file(project, tmp_path, form):
    edit(project, "0.9 % w/v", "9 % w/v")
    out = tmp_path / "report"
    result = asked(project, str(BASE), "--form", form, "--out", str(out))
    assert (result.exit_code, result.output) == (3, f"Written to {out}.\n")
    text = out.read_text(encoding="utf-8")
    assert json.loads(text)["exit"] == 3 if form == "json" else text.startswith("# Changes")


def test_a_file_that_cannot_be_written_is_told(project, tmp_path):
    result = asked(project, str(BASE), "--out", str(tmp_path / "none" / "report"))
    assert result.exit_code == 2
    assert "cannot be written (No such file or directory). Name another file" in result.output


@pytest.mark.parametrize("sides", [["no-such"], [str(BASE), "no-such"]])
def test_a_side_that_is_not_there_is_told(project, sides, monkeypatch):
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(project.parent))
    result = asked(project, *sides)
    assert result.exit_code == 2
    assert "no-such is no folder, and catalogue/ stands in no Git repository." in result.output


CAUTION = """\
id: strong
name: A strong solution
signal: warning
imperative: Look twice.
text: It matters.
applies:
  - {when: above, quantity: osmolarity, limit: strong-solution}
cite: common practice
raised_by: potassium-chloride-15
not_by: glucose-5
review: {state: draft}
"""


def test_the_pages_of_both_sides_tell_which_addresses_come_and_go(project):
    """A caution that comes takes its places on the page of cautions and of its fluids along."""
    (project / "catalogue" / "cautions").mkdir()
    (project / "catalogue" / "cautions" / "strong.yml").write_text(CAUTION, encoding="utf-8")
    result = asked(project, str(BASE), "--form", "json")
    addresses = json.loads(result.output)["addresses"]
    assert addresses["gone"] == []
    assert {
        "cautions.html#strong",
        "fluids/potassium-chloride-15.html#caution-strong",
    } <= set(addresses["new"])
    gone = asked(project, str(project), str(BASE))
    assert "| gone | `cautions.html#strong` | – |" in gone.output
    # What is told already is not told again.
    assert "#caution-strong" not in gone.output
