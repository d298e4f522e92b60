"""A new site takes the old one's place whole, or the old one stays as it is.

No published source: how the project's own publishing must behave. Both roads are taken on the same
cases: one call of the kernel, and two renames.
"""

import hashlib
import stat
import sys
from pathlib import Path

import pytest

from isofolio.publishing import swap
from isofolio.publishing.swap import MARK, SwapError, folder_beside, replace_site


def write_site(folder, text, mark=True):
    (folder / "fluids").mkdir(parents=True, exist_ok=True)
    for name in ("index.html", "404.html", "fluids/a.html"):
        (folder / name).write_text(text, encoding="utf-8")
    if mark:
        (folder / MARK).write_text(text, encoding="utf-8")
    return folder


def digest(folder):
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def cannot_exchange(*folders):
    """Stands for the call of a platform that knows no exchange."""
    return False


@pytest.fixture(params=["one step", "two steps"])
def road(request, monkeypatch):
    """Each test runs on the exchange of this platform and on the fallback."""
    if request.param == "two steps":
        monkeypatch.setattr(swap, "exchange_in_one_step", cannot_exchange)
    return request.param


@pytest.fixture
def live(tmp_path):
    return write_site(tmp_path / "site", "old")


@pytest.fixture
def new(live):
    return write_site(folder_beside(live), "new")


def test_the_new_site_takes_the_place_and_nothing_is_left_beside(road, live, new, tmp_path):
    wanted = digest(new)
    assert replace_site(new, live) is None
    assert digest(live) == wanted
    assert list(tmp_path.iterdir()) == [live]


def test_files_of_the_old_site_do_not_survive(road, live, new):
    (live / "retired.html").write_text("old", encoding="utf-8")
    replace_site(new, live)
    assert not (live / "retired.html").exists()


def test_a_missing_target_is_made_with_its_parents(road, tmp_path):
    live = tmp_path / "deep" / "down" / "site"
    new = write_site(folder_beside(live), "new")
    assert replace_site(new, live) is None
    assert (live / "index.html").read_text(encoding="utf-8") == "new"


def test_an_empty_target_is_replaced(road, tmp_path):
    live = tmp_path / "site"
    live.mkdir()
    assert replace_site(write_site(folder_beside(live), "new"), live) is None
    assert (live / "index.html").is_file()
    assert list(tmp_path.iterdir()) == [live]


def test_hidden_files_of_the_old_site_move_to_the_new(road, live, new):
    (live / ".git").mkdir()
    (live / ".git" / "HEAD").write_text("ref", encoding="utf-8")
    (live / ".nojekyll").write_text("", encoding="utf-8")
    assert replace_site(new, live) is None
    assert (live / ".git" / "HEAD").read_text(encoding="utf-8") == "ref"
    assert (live / ".nojekyll").is_file()


def test_a_folder_that_is_not_ours_is_kept_and_its_place_told(road, tmp_path):
    live = write_site(tmp_path / "site", "somebody's own", mark=False)
    before = digest(live)
    kept = replace_site(write_site(folder_beside(live), "new"), live)
    assert (live / "index.html").read_text(encoding="utf-8") == "new"
    assert digest(kept) == before


def test_a_link_to_the_folder_stays_a_link(road, tmp_path):
    real = write_site(tmp_path / "versions" / "current", "old")
    link = tmp_path / "site"
    link.symlink_to(real, target_is_directory=True)
    new = folder_beside(link)
    assert new.parent == real.parent
    replace_site(write_site(new, "new"), link)
    assert link.is_symlink()
    assert (link / "index.html").read_text(encoding="utf-8") == "new"


@pytest.mark.parametrize("name", ["index.html", "404.html", MARK])
def test_an_incomplete_site_is_refused(road, live, new, name):
    before = digest(live)
    (new / name).unlink()
    with pytest.raises(SwapError, match=f"{name} is missing"):
        replace_site(new, live)
    assert digest(live) == before


def test_an_empty_page_is_refused(road, live, new):
    before = digest(live)
    (new / "fluids" / "a.html").write_text("", encoding="utf-8")
    with pytest.raises(SwapError, match=r"fluids/a\.html is empty"):
        replace_site(new, live)
    assert digest(live) == before


def test_a_target_that_is_a_file_is_refused(road, tmp_path):
    live = tmp_path / "site"
    live.write_text("a file", encoding="utf-8")
    with pytest.raises(SwapError, match="is a file"):
        replace_site(write_site(folder_beside(live), "new"), live)
    assert live.read_text(encoding="utf-8") == "a file"


def failing_rename(monkeypatch, fails):
    """Let the renames whose numbers (from 1) are in `fails` fail."""
    real, calls = Path.rename, []

    def rename(self, target):
        calls.append(self)
        if len(calls) in fails:
            raise PermissionError(13, "Permission denied")
        return real(self, target)

    monkeypatch.setattr(Path, "rename", rename)


@pytest.mark.parametrize("failing", [1, 2])
def test_a_failure_between_the_two_renames_is_undone(live, new, monkeypatch, failing, tmp_path):
    monkeypatch.setattr(swap, "exchange_in_one_step", cannot_exchange)
    before, wanted = digest(live), digest(new)
    failing_rename(monkeypatch, {failing})
    with pytest.raises(SwapError, match=r"Permission denied.*unchanged"):
        replace_site(new, live)
    assert digest(live) == before
    assert digest(new) == wanted
    assert sorted(tmp_path.iterdir()) == sorted([live, new])


def test_when_the_undoing_fails_too_the_message_says_where_the_old_site_is(
    live, new, monkeypatch, tmp_path
):
    monkeypatch.setattr(swap, "exchange_in_one_step", cannot_exchange)
    before = digest(live)
    failing_rename(monkeypatch, {2, 3})
    with pytest.raises(SwapError, match="It is whole, in") as error:
        replace_site(new, live)
    aside = next(path for path in tmp_path.iterdir() if path.name.endswith("-old"))
    assert str(aside) in str(error.value)
    assert digest(aside) == before


def test_a_failure_of_the_one_step_leaves_both(live, new, monkeypatch):
    def fail(new, live):
        raise OSError(16, "Device or resource busy")

    monkeypatch.setattr(swap, "exchange_in_one_step", fail)
    before = digest(live)
    with pytest.raises(SwapError, match="resource busy"):
        replace_site(new, live)
    assert digest(live) == before


@pytest.mark.skipif(sys.platform != "linux", reason="renameat2 is a call of Linux")
def test_theexchange_in_one_step_exchanges(tmp_path):
    first, second = tmp_path / "first", tmp_path / "second"
    write_site(first, "1")
    write_site(second, "2")
    numbers = first.stat().st_ino, second.stat().st_ino
    if not swap.exchange_in_one_step(first, second):
        pytest.skip("this file system cannot exchange two folders")
    assert (second.stat().st_ino, first.stat().st_ino) == numbers
    assert (second / "index.html").read_text(encoding="utf-8") == "1"


@pytest.mark.skipif(sys.platform != "linux", reason="renameat2 is a call of Linux")
def test_theexchange_in_one_step_raises_when_a_folder_is_missing(tmp_path):
    (tmp_path / "first").mkdir()
    with pytest.raises(FileNotFoundError):
        swap.exchange_in_one_step(tmp_path / "first", tmp_path / "second")


def test_a_folder_beside_is_new_empty_and_as_open_as_any_other(tmp_path):
    live = tmp_path / "site"
    first, second = folder_beside(live), folder_beside(live)
    assert first != second
    assert first.parent == second.parent == tmp_path
    assert list(first.iterdir()) == []
    plain = tmp_path / "plain"
    plain.mkdir()
    assert stat.S_IMODE(first.stat().st_mode) == stat.S_IMODE(plain.stat().st_mode)
