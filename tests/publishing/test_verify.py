"""Whether `verify` finds what is wrong with a copy, in a site, a share and a bundle alike.

Published source of the digest: NIST's example for FIPS 180-4, SHA-256 of "abc" (from memory).
The form of the list is that of the command sha256sum (GNU coreutils, from memory).
"""

import shutil
import zipfile

import pytest

from isofolio.publishing.bundle import write_bundle
from isofolio.publishing.checksums import (
    CHECKSUMS,
    ChecksumsError,
    digest_of,
    read_checksums,
    write_checksums,
)
from isofolio.publishing.copies import CopyError
from isofolio.publishing.publish import publish
from isofolio.publishing.state import STATE, Publish, state_text
from isofolio.publishing.verify import faults_of_copy

PAGE = "fluids/glucose-5.html"


def test_the_digest_is_that_of_the_standard():
    published = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert digest_of(b"abc") == published


def test_the_list_is_one_line_a_file_in_order(make_site):
    lines = (make_site("one") / CHECKSUMS).read_text(encoding="utf-8").splitlines()
    assert [line[66:] for line in lines] == sorted(line[66:] for line in lines)
    assert all(line[64:66] == "  " for line in lines)
    assert CHECKSUMS not in {line[66:] for line in lines}


@pytest.mark.parametrize(
    "line", ["", "abc  a.html", "0" * 64 + " a.html", "0" * 64 + "  ../a", "0" * 64 + "  /etc/a"]
)
def test_a_line_that_is_none_is_told_with_its_number(line):
    text = f"{'0' * 64}  a.html\n{line}\n"
    with pytest.raises(ChecksumsError, match="line 2"):
        read_checksums(text.encode())


def test_a_file_that_is_listed_twice_is_no_list():
    with pytest.raises(ChecksumsError, match="line 2"):
        read_checksums(f"{'0' * 64}  a.html\n{'1' * 64}  a.html\n".encode())


def bill_of_no_parts(library):
    """Stands for the bill: reading what is installed takes longer than all else here."""
    return {}


@pytest.fixture(autouse=True)
def short_bill(monkeypatch):
    monkeypatch.setattr("isofolio.publishing.bundle.bill_of_materials", bill_of_no_parts)


# ---- The three kinds of copy, each taken apart in the same ways.


def site_of(site, tmp_path):
    return site


def share_of(site, tmp_path):
    publish(site, tmp_path / "share")
    return tmp_path / "share"


def bundle_of(site, tmp_path):
    """A bundle, unpacked so that it can be spoilt; `packed` packs it again."""
    with zipfile.ZipFile(write_bundle(site, tmp_path / "bundle.zip")) as bundle:
        bundle.extractall(tmp_path / "unpacked")
    return tmp_path / "unpacked"


def as_it_is(folder):
    return folder


def packed(folder):
    return shutil.make_archive(str(folder) + "-packed", "zip", folder)


@pytest.fixture(
    params=[(site_of, as_it_is), (share_of, as_it_is), (bundle_of, as_it_is), (bundle_of, packed)],
    ids=["site", "share", "unpacked bundle", "bundle"],
)
def copy(request, make_site, tmp_path):
    """A copy as a folder, and a function that says what is wrong with it."""
    make, close = request.param
    folder = make(make_site("one"), tmp_path)
    return folder, lambda: faults_of_copy(type(folder)(close(folder)))


def test_a_sound_copy_has_no_fault(copy):
    _, faults = copy
    assert faults() == []


def test_one_changed_byte_is_found_in_every_single_file(copy):
    folder, faults = copy
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_file() and name not in (CHECKSUMS, STATE):
            content = path.read_bytes()
            path.write_bytes(content[:-1] + bytes([content[-1] ^ 1]))
            assert faults() == [f"{name}: changed, it is not what was built."]
            path.write_bytes(content)


def test_every_single_missing_file_is_found(copy):
    folder, faults = copy
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_file() and name not in (CHECKSUMS, STATE):
            hidden = path.rename(folder.parent / "hidden")
            found = faults()
            assert f"{name}: missing." in found
            # What leads there is dead, and nothing else is wrong.
            assert all("leads nowhere" in fault for fault in found if fault != f"{name}: missing.")
            hidden.rename(path)


@pytest.mark.parametrize("name", ["extra.html", "fluids/.hidden", "scripts-000000000000/a.js"])
def test_an_extra_file_is_found(copy, name):
    folder, faults = copy
    (folder / name).parent.mkdir(exist_ok=True)
    (folder / name).write_text("more", encoding="utf-8")
    assert faults() == [f"{name}: extra, it is not part of the copy."]


@pytest.mark.parametrize(
    ("link", "told"),
    [
        ("gone.html", "there is no fluids/gone.html."),
        ("../index.html#gone", "index.html has no anchor 'gone'."),
        ("../drawings/gone.svg", "there is no drawings/gone.svg."),
    ],
)
def test_a_dead_link_or_anchor_is_found_in_a_copy_whose_list_is_right(make_site, link, told):
    site = make_site("one")
    page = site / PAGE
    text = page.read_text(encoding="utf-8").replace("</body>", f'<a href="{link}">x</a></body>')
    page.write_text(text, encoding="utf-8")
    (site / CHECKSUMS).unlink()
    write_checksums(site)
    assert faults_of_copy(site) == [f"{PAGE}: the link {link!r} leads nowhere: {told}"]


# ---- What is particular to a share.


@pytest.fixture
def share(make_site, tmp_path):
    for edition in ("one", "two"):
        publish(make_site(edition), tmp_path / "share")
    return tmp_path / "share"


def kept(share):
    """A file that only pages of the publish before the last load."""
    return next(path for path in share.glob("styles-*/*") if "edition one" in path.read_text())


def test_what_earlier_pages_load_belongs_to_the_copy(share):
    assert kept(share).is_file()
    assert faults_of_copy(share) == []


def test_what_earlier_pages_load_is_checked_too(share):
    changed = kept(share)
    changed.write_text("changed", encoding="utf-8")
    name = changed.relative_to(share).as_posix()
    assert faults_of_copy(share) == [f"{name}: changed, it is not what was built."]


def test_a_publish_that_was_cut_short_is_told(share):
    (share / STATE).write_bytes(state_text([Publish({}, finished=False)]))
    assert f"{STATE}: the last publish was cut short. Publish again." in faults_of_copy(share)


def test_a_damaged_state_file_is_told(share):
    (share / STATE).write_text("no JSON", encoding="utf-8")
    assert any(fault.startswith(f"{STATE}: damaged") for fault in faults_of_copy(share))


# ---- What is no copy at all, and what only a zip file can do.


def test_nothing_there(tmp_path):
    with pytest.raises(CopyError, match="Name a folder or a zip file"):
        faults_of_copy(tmp_path / "nothing")


def test_a_folder_without_a_list_is_no_copy(tmp_path):
    with pytest.raises(CopyError, match=f"no {CHECKSUMS}"):
        faults_of_copy(tmp_path)


def test_a_file_that_is_no_zip_file(tmp_path):
    (tmp_path / "text.zip").write_text("text", encoding="utf-8")
    with pytest.raises(CopyError, match="cannot be read as a zip file"):
        faults_of_copy(tmp_path / "text.zip")


def test_a_damaged_list_is_told(make_site):
    site = make_site("one")
    (site / CHECKSUMS).write_text("no list", encoding="utf-8")
    with pytest.raises(CopyError, match="The list itself is damaged"):
        faults_of_copy(site)


def found_in(bundle):
    """The faults of a bundle; where its list is damaged, that alone."""
    try:
        return faults_of_copy(bundle)
    except CopyError as error:
        return [str(error)]


def test_damage_within_a_zip_file_is_found_wherever_it_is(make_site, tmp_path):
    """Every 97th byte of the packed files turned, one at a time."""
    whole = write_bundle(make_site("one"), tmp_path / "bundle.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "bundle.zip") as bundle:
        packed_end = bundle.start_dir
        names = bundle.infolist()
    starts = [(one.header_offset + 30 + len(one.filename), one.compress_size) for one in names]
    spoilt = tmp_path / "spoilt.zip"
    inside = [
        place
        for place in range(0, packed_end, 97)
        if any(start <= place < start + size for start, size in starts)
    ]
    assert len(inside) > 20
    for place in inside:
        spoilt.write_bytes(whole[:place] + bytes([whole[place] ^ 255]) + whole[place + 1 :])
        assert found_in(spoilt), place


def test_a_name_that_a_zip_file_holds_twice_is_extra(make_site, tmp_path):
    bundle = write_bundle(make_site("one"), tmp_path / "bundle.zip")
    with zipfile.ZipFile(bundle) as packed:
        page = packed.read(PAGE)
    with zipfile.ZipFile(bundle, "a") as packed, pytest.warns(UserWarning, match="Duplicate name"):
        packed.writestr(PAGE, page)
    assert faults_of_copy(bundle) == [f"{PAGE}: extra, it is not part of the copy."]
