"""`fmt` and `schema` at the command line: what they write, what they refuse, how they end."""

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from isofolio.cli import main

PROJECT = Path(__file__).parents[1]
BASE = PROJECT / "tests" / "bad" / "base"
FLUID = "catalogue/fluids/glucose-5.yml"


@pytest.fixture
def project(tmp_path):
    """A project with the small catalogue, put in order."""
    shutil.copytree(BASE, tmp_path / "catalogue")
    shutil.copy(PROJECT / "mkdocs.yml", tmp_path)
    assert asked(tmp_path, "fmt").exit_code == 0
    return tmp_path


def asked(project, *arguments):
    result = CliRunner().invoke(main, ["--project", str(project), *arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def bytes_of(folder):
    return {path: path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def shuffle(project):
    path = project / FLUID
    first, second, *others = path.read_text(encoding="utf-8").splitlines(keepends=True)
    path.write_text("".join([first, *others, second]), encoding="utf-8")
    return path


def test_a_second_run_finds_nothing(project):
    done = asked(project, "fmt")
    assert done.exit_code == 0
    assert done.output == "22 files looked at, none out of order.\n"
    assert asked(project, "fmt", "--check").exit_code == 0


def test_check_tells_and_writes_nothing(project):
    before = (project / FLUID).read_bytes()
    spoilt = shuffle(project).read_bytes()
    done = asked(project, "fmt", "--check")
    assert done.exit_code == 1
    assert "out of order: fluids/glucose-5.yml\n" in done.output
    assert "1 file out of order: run  isofolio fmt\n" in done.output
    assert (project / FLUID).read_bytes() == spoilt
    assert asked(project, "fmt").exit_code == 0
    assert (project / FLUID).read_bytes() == before


def test_only_the_named_files_are_put_in_order(project):
    path = shuffle(project)
    other = project / "catalogue" / "sources" / "a-label.yml"
    other.write_text(f"{other.read_text(encoding='utf-8')}\n\n", encoding="utf-8")
    spoilt = other.read_bytes()
    done = asked(project, "fmt", str(path))
    assert "1 file looked at, 1 file put in order." in done.output
    assert other.read_bytes() == spoilt


def test_a_file_that_cannot_be_read_hinders_no_other(project):
    shuffle(project)
    broken = project / "catalogue" / "sources" / "a-label.yml"
    broken.write_text("id: [a\n", encoding="utf-8")
    done = asked(project, "fmt")
    assert done.exit_code == 1
    assert "sources/a-label.yml:1:5: this [ is never closed" in done.output
    assert "put in order: fluids/glucose-5.yml" in done.output
    assert broken.read_text(encoding="utf-8") == "id: [a\n"


@pytest.mark.parametrize(
    ("file", "said"),
    [("mkdocs.yml", "is no file of"), ("catalogue/fluids/none.yml", "There is no file")],
)
def test_a_file_that_is_none_of_the_catalogue_is_refused(project, file, said):
    before = bytes_of(project)
    done = asked(project, "fmt", str(project / file))
    assert done.exit_code == 2
    assert said in done.output
    assert "Nothing was written." in done.output
    assert bytes_of(project) == before


def test_a_folder_that_cannot_be_written_leaves_the_entry_whole(project, monkeypatch):
    spoilt = shuffle(project).read_bytes()

    def full(self, target):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    done = asked(project, "fmt")
    assert done.exit_code == 2
    assert "cannot be written (No space left on device). It is as it was." in done.output
    assert (project / FLUID).read_bytes() == spoilt
    assert list((project / "catalogue" / "fluids").glob(".*")) == []


def test_schemas_are_written_told_stale_and_mended(project):
    done = asked(project, "schema")
    assert done.exit_code == 0
    folder = project / "catalogue" / "schemas"
    ours = {path.name: path.read_bytes() for path in (PROJECT / "catalogue" / "schemas").iterdir()}
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == ours
    assert asked(project, "schema", "--check").exit_code == 0
    (folder / "fluids.json").write_text("{}", encoding="utf-8")
    (folder / "limits.json").unlink()
    (folder / "gone.json").write_text("{}", encoding="utf-8")
    stale = asked(project, "schema", "--check")
    assert stale.exit_code == 1
    for name in ("fluids", "limits", "gone"):
        assert f"stale: schemas/{name}.json\n" in stale.output
    assert "Run  isofolio schema  and commit what it writes." in stale.output
    assert "2 written, 1 removed." in asked(project, "schema").output
    assert asked(project, "check").exit_code == 0
