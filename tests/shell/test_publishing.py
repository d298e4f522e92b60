"""From a project to a share and a bundle by the command line, on the small handbook.

No published source: what the commands promise, and that the same input gives the same bytes.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from isofolio.cli import main
from isofolio.publishing.copies import open_copy
from isofolio.publishing.verify import faults_of_copy

SMALL_SITE = Path(__file__).with_name("small_site.py")
# Two days, in seconds: what a file system remembers of when a file was written.
DAYS = (1764028800, 1780000000)
BUNDLE = """
import sys
from pathlib import Path
from isofolio.publishing.bundle import write_bundle
write_bundle(Path("site"), Path(sys.argv[1]))
"""


@pytest.fixture
def asked(project, small_site):
    """A function that runs a command in this process on the small project."""

    def run(*arguments):
        result = CliRunner().invoke(main, ["--project", str(project), *map(str, arguments)])
        assert result.exception is None or isinstance(result.exception, SystemExit)
        return result

    return run


def test_publish_builds_publishes_and_says_what_it_did(asked, project, tmp_path):
    share = tmp_path / "share"
    result = asked("publish", share)
    assert result.exit_code == 0
    assert f"Published to {share}: " in result.output
    assert (project / "site" / "index.html").is_file()
    assert faults_of_copy(share) == []
    again = asked("publish", share, "--site", project / "site")
    assert "0 files written" in again.output


def test_a_catalogue_with_problems_publishes_nothing(asked, project, tmp_path):
    (project / "catalogue" / "broken.txt").write_text("fluids/a.yml:1:1: no such role")
    result = asked("publish", tmp_path / "share")
    assert result.exit_code == 1
    assert "no such role" in result.output
    assert not (tmp_path / "share").exists()


def test_a_fault_of_the_place_is_a_sentence_and_exit_2(asked, project, tmp_path):
    asked("build")
    for command in (("publish", tmp_path / "no" / "share"), ("bundle", "--out", tmp_path / "no/b")):
        result = asked(*command, "--site", project / "site")
        assert result.exit_code == 2
        assert result.output.count("\n") <= 2


def test_site_and_stock_exclude_each_other(asked, project, tmp_path):
    for command in (("publish", tmp_path / "share"), ("bundle",)):
        result = asked(*command, "--site", project, "--stock", "lindenmoor")
        assert result.exit_code == 2
        assert "Give one of them" in result.output


def test_verify_says_so_and_ends_with_0_1_or_2(asked, project, tmp_path):
    asked("build")
    sound = asked("verify", project / "site")
    assert (sound.exit_code, "as it was built" in sound.output) == (0, True)
    (project / "site" / "about.html").write_text("x", encoding="utf-8")
    damaged = asked("verify", project / "site")
    assert damaged.exit_code == 1
    assert "about.html: changed" in damaged.output
    assert "is not what was built" in damaged.output
    nothing = asked("verify", tmp_path / "nothing")
    assert (nothing.exit_code, "Name a folder" in nothing.output) == (2, True)


def test_verify_needs_no_project(asked, project, tmp_path, monkeypatch):
    asked("build")
    monkeypatch.chdir(tmp_path)
    assert CliRunner().invoke(main, ["verify", str(project / "site")]).exit_code == 0


def test_a_bundle_of_a_repository_names_its_revision(asked, project, tmp_path):
    identity = ["-c", "user.name=Editor", "-c", "user.email=editor@hospital.example"]
    for step in (["init", "-q"], ["add", "-A"], [*identity, "commit", "-q", "-m", "First"]):
        subprocess.run(["git", "-C", str(project), *step], check=True, capture_output=True)
    assert asked("bundle", "--out", tmp_path / "bundle.zip").exit_code == 0
    head = subprocess.run(
        ["git", "-C", str(project), "rev-parse", "HEAD"], capture_output=True, check=True
    )
    assert f'"commit": "{head.stdout.decode().strip()}"' in provenance(tmp_path / "bundle.zip")


def test_a_bundle_outside_a_repository_names_none(asked, project, tmp_path, monkeypatch):
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(project.parent))
    assert asked("bundle", "--out", tmp_path / "bundle.zip").exit_code == 0
    assert '"source": null' in provenance(tmp_path / "bundle.zip")


def provenance(bundle):
    with open_copy(bundle) as copy:
        return copy.read("provenance.json").decode("utf-8")


def test_another_day_folder_and_hash_seed_give_the_same_bundle(project, tmp_path):
    """Two builds and two bundles, each in a process of its own."""
    elsewhere = tmp_path / "another" / "folder" / "of this disk"
    shutil.copytree(project, elsewhere)
    bundles = []
    for folder, day, seed in zip((project, elsewhere), DAYS, ("1", "4242"), strict=True):
        for path in folder.rglob("*"):
            os.utime(path, (day, day))
        settings = {**os.environ, "PYTHONHASHSEED": seed, "NO_MKDOCS_2_WARNING": "1"}
        settings.pop("SOURCE_DATE_EPOCH", None)
        for program in ([str(SMALL_SITE), "build"], ["-c", BUNDLE, str(folder / "bundle.zip")]):
            subprocess.run(
                [sys.executable, *program],
                cwd=folder,
                env=settings,
                check=True,
                capture_output=True,
                timeout=120,
            )
        bundles.append((folder / "bundle.zip").read_bytes())
    assert bundles[0] == bundles[1]
