"""Publishing file by file: what stands there afterwards, and what is refused.

No published source: how the project's own publishing must behave on a share with pages open.
"""

import errno
import re
from pathlib import Path

import pytest

from isofolio.publishing import writing
from isofolio.publishing.lock import LOCK
from isofolio.publishing.publish import PublishError, in_order, publish
from isofolio.publishing.state import ASSET, STATE, read_state
from isofolio.publishing.verify import faults_of_copy
from isofolio.publishing.writing import HALF


@pytest.fixture
def share(tmp_path):
    return tmp_path / "share"


def assets(share):
    """The asset folders of a copy, with the edition in each."""
    found = {}
    for path in sorted(share.rglob("*")):
        name = path.relative_to(share).as_posix()
        if path.is_file() and ASSET.match(name):
            edition = re.search(r"edition (\w+)", path.read_text(encoding="utf-8")).group(1)
            found.setdefault(edition, []).append(name)
    return found


def test_a_copy_holds_what_was_planned_and_nothing_else(
    make_site, share, planned, tree, faults_for_readers
):
    site = make_site("one")
    done = publish(site, share)
    found = tree(share)
    assert found.pop(STATE)
    assert found == planned(site)
    assert (done.written, done.unchanged, done.deleted, done.left) == (len(found), 0, 0, ())
    assert faults_for_readers(share) == []
    assert faults_of_copy(share) == []


def test_publishing_the_same_again_writes_nothing(make_site, share, tree):
    site = make_site("one")
    publish(site, share)
    before = tree(share)
    assert publish(site, share).written == 0
    assert tree(share) == before


def test_assets_stay_until_the_next_publish_and_then_go(make_site, share):
    for edition in ("one", "two", "three"):
        publish(make_site(edition), share)
    assert sorted(assets(share)) == ["three", "two"]
    assert faults_of_copy(share) == []


def test_publishing_the_same_again_keeps_what_the_pages_before_load(make_site, share):
    for edition in ("one", "two", "two"):
        publish(make_site(edition), share)
    assert sorted(assets(share)) == ["one", "two"]


def test_going_back_to_the_edition_before_the_last(make_site, share, faults_for_readers):
    for edition in ("one", "two", "one"):
        publish(make_site(edition), share)
    assert sorted(assets(share)) == ["one", "two"]
    assert faults_for_readers(share) == []
    publish(make_site("three"), share)
    assert sorted(assets(share)) == ["one", "three"]


def test_a_page_that_is_no_longer_in_the_handbook_is_deleted_at_once(make_site, share):
    publish(make_site("one", fluids=("glucose-5", "withdrawn")), share)
    assert publish(make_site("two", fluids=("glucose-5",)), share).deleted == 1
    assert not (share / "fluids" / "withdrawn.html").exists()


def test_a_folder_that_becomes_empty_is_deleted(make_site, share):
    publish(make_site("one"), share)
    publish(make_site("two", fluids=()), share)
    assert not (share / "fluids").exists()


def test_a_file_that_was_changed_there_is_mended(make_site, share):
    publish(make_site("one"), share)
    (share / "fluids" / "glucose-5.html").write_text("by hand", encoding="utf-8")
    assert publish(make_site("one"), share).written == 1
    assert faults_of_copy(share) == []


def test_the_order_assets_data_new_pages_old_pages_home_seals(make_site, share, planned):
    publish(make_site("one", fluids=("b",)), share)
    order = in_order(planned(make_site("two", fluids=("a", "b", "c"))), share)
    assert all(ASSET.match(path) for path in order[:4])
    assert order[4:] == [
        "downloads/table.csv",
        "fluids/a.html",
        "fluids/c.html",
        "404.html",
        "fluids/b.html",
        "index.html",
        "SHA256SUMS",
        "built-from.txt",
    ]


# ---- What is not ours stays.


def test_a_folder_with_files_of_others_is_refused_and_untouched(make_site, share, tree):
    share.mkdir()
    (share / "thesis.doc").write_text("years of work", encoding="utf-8")
    before = tree(share)
    with pytest.raises(PublishError, match=r"holds thesis\.doc.*Name an empty folder"):
        publish(make_site("one"), share)
    assert tree(share) == before


def test_a_file_that_somebody_puts_beside_ours_stays_and_is_told_by_verify(make_site, share):
    publish(make_site("one"), share)
    (share / "fluids" / "note.txt").write_text("mine", encoding="utf-8")
    for edition in ("two", "three"):
        publish(make_site(edition, fluids=()), share)
    assert (share / "fluids" / "note.txt").read_text(encoding="utf-8") == "mine"
    assert faults_of_copy(share) == ["fluids/note.txt: extra, it is not part of the copy."]


def test_a_file_of_others_where_a_page_belongs_is_refused(make_site, share):
    publish(make_site("one", fluids=()), share)
    (share / "fluids").mkdir()
    (share / "fluids" / "a.html").write_text("mine", encoding="utf-8")
    with pytest.raises(PublishError, match=r"a\.html was put there by others"):
        publish(make_site("two", fluids=("a",)), share)
    assert (share / "fluids" / "a.html").read_text(encoding="utf-8") == "mine"


def test_what_was_changed_by_others_is_not_deleted_and_told_each_time(make_site, share):
    publish(make_site("one"), share)
    (old,) = [path for path in assets(share)["one"] if path.endswith(".css")]
    publish(make_site("two"), share)
    (share / old).write_text("edition one, and more by hand", encoding="utf-8")
    assert publish(make_site("three"), share).left == (old,)
    assert publish(make_site("four"), share).left == (old,)
    assert (share / old).is_file()


@pytest.mark.parametrize(
    "path", ["../victim.txt", "/victim.txt", "C:/victim.txt", "fluids/../../victim.txt"]
)
def test_a_state_file_that_names_files_elsewhere_is_refused(make_site, share, tmp_path, path):
    victim = tmp_path / "victim.txt"
    victim.write_text("abc", encoding="utf-8")
    publish(make_site("one"), share)
    state = share / STATE
    text = state.read_text(encoding="utf-8").replace("downloads/table.csv", path)
    state.write_text(text, encoding="utf-8")
    with pytest.raises(PublishError, match="is no file of this folder"):
        publish(make_site("two"), share)
    assert victim.is_file()


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"schema": 2}', '{"schema": 1, "publishes": 3}'])
def test_a_damaged_state_file_is_told(make_site, share, text):
    publish(make_site("one"), share)
    (share / STATE).write_text(text, encoding="utf-8")
    with pytest.raises(PublishError, match="Publish to a new, empty folder"):
        publish(make_site("two"), share)


@pytest.mark.parametrize("place", [".", "inside", ".."])
def test_a_folder_in_the_site_or_round_it_is_refused(make_site, tree, place):
    site = make_site("one")
    before = tree(site)
    with pytest.raises(PublishError, match="one is in the other"):
        publish(site, site / place)
    assert tree(site) == before


# ---- A site that is not sound is not published.


def damaged_page(site):
    (site / "fluids" / "glucose-5.html").write_text("half a pa", encoding="utf-8")


def missing_drawing(site):
    (site / "drawings" / "bag.svg").unlink()


def no_list(site):
    (site / "SHA256SUMS").unlink()


@pytest.mark.parametrize(
    ("damage", "told"),
    [
        (damaged_page, r"glucose-5\.html is not as it was built"),
        (missing_drawing, r"drawings/bag\.svg is missing"),
        (no_list, "There is no SHA256SUMS"),
    ],
)
def test_a_damaged_site_is_not_published(make_site, share, tree, damage, told):
    publish(make_site("one"), share)
    before, site = tree(share), make_site("two")
    damage(site)
    with pytest.raises(PublishError, match=told):
        publish(site, share)
    assert tree(share) == before


def test_no_site_at_all_is_told(tmp_path, share):
    with pytest.raises(PublishError, match="There is nothing at"):
        publish(tmp_path / "nowhere", share)
    assert not share.exists()


def test_a_share_that_is_not_connected_is_not_made_anew(make_site, tmp_path):
    with pytest.raises(PublishError, match="look whether the share is connected"):
        publish(make_site("one"), tmp_path / "unplugged" / "handbook")
    assert not (tmp_path / "unplugged").exists()


def test_a_source_that_vanishes_meanwhile_is_told_and_a_rerun_finishes(
    make_site, share, monkeypatch, faults_for_readers
):
    publish(make_site("one"), share)
    site, hidden = make_site("two"), share.with_name("hidden")
    real, calls = writing.write_beside, []

    def write(target, content):
        calls.append(target)
        if len(calls) == 8:
            site.rename(hidden)
        real(target, content)

    monkeypatch.setattr("isofolio.publishing.publish.write_beside", write)
    with pytest.raises(PublishError, match="changed or removed while it was published"):
        publish(site, share)
    assert faults_for_readers(share) == []
    hidden.rename(site)
    publish(site, share)
    assert faults_of_copy(share) == []


# ---- Files that are held open.


@pytest.fixture
def held_open(monkeypatch):
    """A function that lets a file be replaced or deleted only at the n-th attempt."""
    monkeypatch.setattr(writing, "PAUSES", (0,) * 4)
    real = {name: getattr(Path, name) for name in ("replace", "unlink")}

    def hold(name, attempts):
        left = [attempts]

        def refuse(call):
            def act(path, *arguments, **options):
                touched = arguments[0] if call == "replace" else path
                if touched.name == name and left[0] > 1:
                    left[0] -= 1
                    raise PermissionError(errno.EACCES, "Access is denied", str(touched))
                return real[call](path, *arguments, **options)

            return act

        for call in real:
            monkeypatch.setattr(Path, call, refuse(call))

    return hold


def test_a_page_held_open_for_a_while_is_waited_for(make_site, share, held_open):
    publish(make_site("one"), share)
    held_open("glucose-5.html", attempts=5)
    publish(make_site("two"), share)
    assert faults_of_copy(share) == []


def test_a_page_held_open_for_long_is_named_and_a_rerun_finishes(
    make_site, share, held_open, faults_for_readers
):
    publish(make_site("one"), share)
    held_open("glucose-5.html", attempts=6)
    with pytest.raises(PublishError, match=r"glucose-5\.html .*holds it open.*publish again"):
        publish(make_site("two"), share)
    assert faults_for_readers(share) == []
    assert not list(share.rglob(f"*{HALF}"))
    assert not (share / LOCK).exists()
    publish(make_site("two"), share)
    assert faults_of_copy(share) == []


def test_a_file_to_delete_that_is_held_open_is_told_and_goes_next_time(make_site, share, held_open):
    publish(make_site("one", fluids=("withdrawn",)), share)
    held_open("withdrawn.html", attempts=6)
    assert publish(make_site("two"), share).left == ("fluids/withdrawn.html",)
    assert "fluids/withdrawn.html: extra, it is not part of the copy." in faults_of_copy(share)
    assert publish(make_site("two"), share).left == ()
    assert faults_of_copy(share) == []


# ---- One writer at a time.


def test_a_lock_of_others_is_told_with_its_holder_and_never_broken(make_site, share, tree):
    publish(make_site("one"), share)
    (share / LOCK).write_text("computer x, process 7, since yesterday", encoding="utf-8")
    before = tree(share)
    with pytest.raises(PublishError, match=r"computer x, process 7.*delete .* publish again"):
        publish(make_site("two"), share)
    assert tree(share) == before
    assert f"{LOCK}: somebody is publishing, or was cut short." in faults_of_copy(share)


def test_the_lock_says_who_holds_it(make_site, share, monkeypatch):
    seen = []

    def look(*arguments):
        seen.append((share / LOCK).read_text(encoding="utf-8"))

    publish(make_site("one"), share, look)
    assert re.fullmatch(r"computer .*, process \d+, since \d{4}-\d\d-\d\d .* UTC", seen[0])
    assert not (share / LOCK).exists()


def test_the_state_is_small_whatever_was_published_before(make_site, share):
    for edition in ("one", "two", "three", "four", "five"):
        publish(make_site(edition), share)
    assert len(read_state(share)) == 2
