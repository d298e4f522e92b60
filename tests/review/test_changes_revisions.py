"""BASE and HEAD as revisions of a real little repository, as folders, and as neither."""

import io
import shutil
import subprocess
import tarfile
from pathlib import Path

import pytest

from isofolio.review import revisions
from isofolio.review.revisions import RevisionError, located

SMALL = Path(__file__).parents[1] / "bad" / "base"
FILE = "fluids/sodium-chloride-0-9.yml"
NOBODY = ("-c", "user.name=Nobody", "-c", "user.email=nobody@localhost", "-c", "commit.gpgsign=no")


def git(folder, *arguments):
    command = ["git", "-C", str(folder), *NOBODY, *arguments]
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout.strip()


@pytest.fixture(scope="module")
def repository(tmp_path_factory):
    """Two commits: the small catalogue as it is, tagged `first`, and with another amount."""
    folder = tmp_path_factory.mktemp("repository") / "project"
    shutil.copytree(SMALL, folder / "catalogue")
    git(folder, "init", "--quiet", "--initial-branch=main")
    git(folder, "add", ".")
    git(folder, "commit", "--quiet", "-m", "The first catalogue")
    git(folder, "tag", "first")
    file = folder / "catalogue" / FILE
    file.write_text(file.read_text(encoding="utf-8").replace("0.9 % w/v", "1.8 % w/v"))
    git(folder, "commit", "--quiet", "--all", "-m", "Another amount")
    return folder


def amounts(named, catalogue):
    with located(named, catalogue) as side:
        text = (side.folder / FILE).read_text(encoding="utf-8")
        return side.label, "1.8 % w/v" in text


@pytest.mark.parametrize(
    ("revision", "newer"), [("first", False), ("main", True), ("HEAD~1", False)]
)
def test_a_revision_is_unpacked_as_it_was(repository, revision, newer):
    assert amounts(revision, repository / "catalogue") == (revision, newer)


def test_nothing_of_it_is_left_and_nothing_in_the_repository_moves(repository):
    before = git(repository, "status", "--porcelain"), git(repository, "rev-parse", "HEAD")
    with located("first", repository / "catalogue") as side:
        folder = side.folder
        assert folder.is_dir()
    assert not folder.exists()
    assert (
        git(repository, "status", "--porcelain"),
        git(repository, "rev-parse", "HEAD"),
    ) == before


def test_a_catalogue_deep_in_a_repository_is_found(repository, tmp_path):
    deep = tmp_path / "deep"
    shutil.copytree(SMALL, deep / "wards" / "north" / "catalogue")
    git(deep, "init", "--quiet", "--initial-branch=main")
    git(deep, "add", ".")
    git(deep, "commit", "--quiet", "-m", "Deep")
    assert amounts("main", deep / "wards" / "north" / "catalogue") == ("main", False)


@pytest.mark.parametrize("inside", ["", "catalogue"])
def test_a_folder_is_a_project_or_a_catalogue_and_is_called_by_its_name(repository, inside):
    folder = repository / inside
    with located(str(folder), SMALL) as side:
        assert (side.folder / FILE).is_file()
        assert side.label == folder.name


def refusal(named, catalogue):
    with pytest.raises(RevisionError) as caught, located(named, catalogue):
        pass
    return str(caught.value)


@pytest.mark.parametrize(
    "named", ["no-such", "HEAD~9", "--output=x", "main:catalogue", "first..main"]
)
def test_what_is_no_revision_is_told(repository, named):
    assert named in refusal(named, repository / "catalogue")


def test_a_revision_without_a_catalogue_is_told(repository, tmp_path):
    folder = tmp_path / "empty"
    folder.mkdir()
    git(folder, "init", "--quiet", "--initial-branch=main")
    git(folder, "commit", "--quiet", "--allow-empty", "-m", "Nothing yet")
    shutil.copytree(SMALL, folder / "catalogue")
    assert "The revision main holds no folder catalogue/." in refusal("main", folder / "catalogue")


def test_a_folder_outside_any_repository_is_told(tmp_path, monkeypatch):
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path))
    catalogue = shutil.copytree(SMALL, tmp_path / "catalogue")
    assert "stands in no Git repository" in refusal("main", catalogue)


def test_a_folder_without_entries_is_told(tmp_path):
    (tmp_path / "bare").mkdir()
    assert "holds no catalogue" in refusal(str(tmp_path / "bare"), SMALL)


def test_without_git_two_folders_still_do(tmp_path, monkeypatch):
    monkeypatch.setenv("PATH", str(tmp_path))
    assert "There is no command git here." in refusal("main", SMALL)
    assert amounts(str(SMALL), SMALL) == ("base", False)


def test_an_archive_cannot_write_outside_its_folder(repository, monkeypatch):
    """A link that leads out of the folder, as a hostile repository may hold."""
    made = io.BytesIO()
    with tarfile.open(fileobj=made, mode="w") as archive:
        link = tarfile.TarInfo("fluids")
        link.type, link.linkname = tarfile.SYMTYPE, "../../outside"
        archive.addfile(link)
    monkeypatch.setattr(revisions, "_archive", lambda *_: made.getvalue())
    assert "cannot be unpacked" in refusal("first", repository / "catalogue")
