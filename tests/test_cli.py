"""The command line as an editor uses it: exit codes, sentences, files, and never a traceback.

Most tests run on the small sound catalogue of tests/bad/base, in a project folder of their own;
those of a build, which needs the fluids that the hand-written pages name, on a copy of ours.
"""

import hashlib
import json
import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path, PureWindowsPath

import pytest
from click.testing import CliRunner

from isofolio import __version__
from isofolio.cli import main
from isofolio.commands.places import find_project
from isofolio.vocabulary.exports import EXPORT_WORDS

PROJECT = Path(__file__).parents[1]
BASE = PROJECT / "tests" / "bad" / "base"
FLUID = "catalogue/fluids/sodium-chloride-0-9.yml"
PATIENCE = 120
# 260 characters of a path are what Windows takes.
SHARE = PureWindowsPath(r"\\fileserver.hospital.example\departments\anaesthetics\handbook")


@pytest.fixture
def project(tmp_path):
    """A project folder with the small catalogue."""
    return project_at(tmp_path / "project", BASE)


@pytest.fixture(scope="module")
def built(tmp_path_factory):
    """A project folder with our own catalogue and a site built from it; not to be changed."""
    folder = project_at(tmp_path_factory.mktemp("built") / "project", PROJECT / "catalogue")
    done = run(folder, "build")
    assert done.returncode == 0, done.err
    assert f"The handbook stands in {folder / 'site'}: open index.html there." in done.out
    return folder


def project_at(folder, catalogue):
    shutil.copytree(catalogue, folder / "catalogue")
    shutil.copytree(PROJECT / "site_src", folder / "site_src")
    shutil.copy(PROJECT / "mkdocs.yml", folder)
    return folder


@pytest.fixture
def whole(project):
    """The same with the real catalogue, which the hand-written tutorials speak of."""
    shutil.rmtree(project / "catalogue")
    shutil.copytree(PROJECT / "catalogue", project / "catalogue")
    return project


def run(folder, *arguments, **settings):
    """Run `python -m isofolio` in a folder; no run ever ends in a traceback."""
    done = subprocess.run(
        [sys.executable, "-m", "isofolio", *arguments],
        cwd=folder,
        env={**os.environ, **settings},
        capture_output=True,
        timeout=PATIENCE,
        check=False,
    )
    done.out, done.err = done.stdout.decode(errors="replace"), done.stderr.decode(errors="replace")
    assert "Traceback" not in done.out + done.err
    return done


def asked(folder, *arguments):
    """The same inside this process, for what touches no exit of the interpreter."""
    result = CliRunner().invoke(main, ["--project", str(folder), *arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def spoil(project, old="role: ready", new="role: readi", file=FLUID):
    text = (project / file).read_text(encoding="utf-8")
    assert old in text
    (project / file).write_text(text.replace(old, new, 1), encoding="utf-8")


def bytes_of(folder):
    """One digest of every name and byte below a folder."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


# check


def test_the_real_catalogue_has_no_problem():
    result = asked(PROJECT, "check")
    assert result.exit_code == 0
    assert result.output.splitlines()[-1].endswith(" files, 68 fluids, 0 problems.")


def test_every_problem_is_told_with_its_line_and_remedy(project):
    spoil(project)
    spoil(project, "formula: NaCl", "formula: NaXl", "catalogue/substances/sodium-chloride.yml")
    result = asked(project, "check")
    assert result.exit_code == 1
    assert "fluids/sodium-chloride-0-9.yml:3:7" in result.output
    assert "readi" in result.output
    assert "substances/sodium-chloride.yml" in result.output
    assert result.output.splitlines()[-1].endswith("2 problems.")


def test_one_problem_is_one_problem(project):
    spoil(project)
    assert asked(project, "check").output.splitlines()[-1].endswith(", 1 problem.")


def test_a_notice_is_told_and_does_not_fail(project):
    source = project / "catalogue" / "sources" / "a-label.yml"
    text = source.read_text(encoding="utf-8").replace("id: a-label", "id: unused")
    (source.parent / "unused.yml").write_text(text, encoding="utf-8")
    result = asked(project, "check")
    assert result.exit_code == 0
    assert "notice: sources/unused.yml: " in result.output


@pytest.mark.parametrize("date", ["tomorrow", "2026-13-01", "20261125", "25.11.2026", ""])
def test_a_date_that_is_none_is_refused(project, date):
    result = asked(project, "check", "--as-of", date)
    assert result.exit_code == 2
    assert f'"{date}" is not a date. Write it as in 2026-11-25.' in result.output


def test_a_stamp_that_is_due_is_named(project):
    stamp = (
        "review: {state: checked, by: a pharmacist, on: 2026-01-01, due: 2026-06-30, "
        'covers: "0123456789ab"}'
    )
    spoil(project, "review: {state: draft}", stamp)
    due = "due: fluids/sodium-chloride-0-9.yml was to be reviewed by 2026-06-30"
    assert due in asked(project, "check", "--as-of", "2026-06-30").output
    assert due not in asked(project, "check", "--as-of", "2026-06-29").output
    assert due not in asked(project, "check").output


# build


def test_a_build_leaves_a_whole_site_and_nothing_else(built):
    assert (built / "site" / "fluids" / "glucose-5.html").is_file()
    assert [path.name for path in built.glob(".*")] == []


def test_the_whole_handbook_is_published_bundled_and_verified(built, tmp_path):
    site, share, packed = built / "site", tmp_path / "share", tmp_path / "bundle.zip"
    assert asked(built, "publish", str(share), "--site", str(site)).exit_code == 0
    assert asked(built, "bundle", "--out", str(packed), "--site", str(site)).exit_code == 0
    for copy in (site, share, packed):
        assert asked(built, "verify", str(copy)).exit_code == 0
    names = [path.relative_to(share) for path in share.rglob("*")]
    assert max(len(str(SHARE / name)) for name in names) < 240


def test_a_broken_entry_leaves_the_old_site_byte_for_byte(built):
    before = bytes_of(built / "site")
    sound = (built / FLUID).read_bytes()
    spoil(built)
    done = run(built, "build")
    (built / FLUID).write_bytes(sound)
    assert done.returncode == 1
    assert "fluids/sodium-chloride-0-9.yml:4:7" in done.err
    assert "one problem: no site was built from it." in done.err
    assert bytes_of(built / "site") == before
    assert [path.name for path in built.glob(".*")] == []


def test_a_place_that_cannot_be_written_is_a_fault_of_the_machine(built, tmp_path):
    (tmp_path / "file").write_text("no folder", encoding="utf-8")
    done = run(built, "build", "--site-dir", str(tmp_path / "file" / "below"))
    assert done.returncode == 2
    assert str(tmp_path / "file" / "below") in done.err
    assert "--site-dir" in done.err
    assert (tmp_path / "file").read_text(encoding="utf-8") == "no folder"


def test_settings_that_do_not_name_the_program_are_refused(project):
    settings = "site_name: x\ndocs_dir: site_src\ntheme: {name: material}\nplugins: []\n"
    (project / "mkdocs.yml").write_text(settings, encoding="utf-8")
    done = run(project, "build")
    assert done.returncode == 2
    assert "mkdocs.yml does not name this program" in done.err


@pytest.mark.parametrize("settings", ["site_name: [x\n", "site_name: x\ndocs_dir: nowhere\n"])
def test_settings_that_cannot_be_read_are_no_fault_of_the_catalogue(project, settings):
    (project / "mkdocs.yml").write_text(settings, encoding="utf-8")
    done = run(project, "build")
    assert done.returncode == 2
    assert "mkdocs.yml" in done.err


def test_a_stock_that_is_not_there_is_told(project):
    done = run(project, "build", "--stock", "lindenmoor")
    assert done.returncode == 1
    assert "stock/lindenmoor.yml" in done.err
    assert not (project / "site").exists()


def test_each_hospital_builds_into_a_folder_of_its_own(built):
    before = bytes_of(built / "site")
    done = run(built, "build", "--stock", "lindenmoor", "--site-dir", "site-lindenmoor")
    assert done.returncode == 0, done.err
    page = (built / "site-lindenmoor" / "fluids" / "glucose-10.html").read_text(encoding="utf-8")
    assert "Lindenmoor Hospital keeps it" in page
    assert bytes_of(built / "site") == before
    shutil.rmtree(built / "site-lindenmoor")


# export


def test_json_goes_to_the_terminal_and_nothing_else(project):
    done = run(project, "export", "json")
    assert done.returncode == 0
    assert done.err == ""
    data = json.loads(done.stdout)
    assert data["schema"] == 1
    assert "sodium-chloride-0-9" in [fluid["id"] for fluid in data["fluids"]]


def test_a_file_holds_the_same_bytes_as_the_terminal(project, tmp_path):
    for form in ("json", "csv"):
        out = tmp_path / f"figures.{form}"
        done = run(project, "export", form, "--out", str(out))
        assert done.returncode == 0
        assert f"Written to {out}." in done.out
        assert out.read_bytes() == run(project, "export", form).stdout


@pytest.mark.parametrize("form", EXPORT_WORDS)
def test_every_form_is_written_to_a_file_or_to_the_terminal(project, tmp_path, form):
    out = tmp_path / "figures"
    assert asked(project, "export", form, "--out", str(out)).exit_code == 0
    shown = asked(project, "export", form)
    assert shown.exit_code == 0
    assert shown.stdout_bytes == out.read_bytes() != b""


def test_an_export_for_a_hospital_without_a_stock_file_is_refused(project):
    result = asked(project, "export", "csv", "--stock", "nowhere")
    assert result.exit_code == 1
    assert "stock/nowhere.yml" in result.output


def test_the_addresses_of_linked_data_stand_in_the_built_site(built):
    folder = built / "site" / "downloads"
    graph = json.loads((folder / "isofolio.jsonld").read_text(encoding="utf-8"))["@graph"]
    for node in graph:
        path, _, anchor = node["@id"].partition("#")
        page = (folder / path).resolve()
        assert page.is_file(), node["@id"]
        assert not anchor or f'id="{anchor}"' in page.read_text(encoding="utf-8")
    assert len(graph) > 100


def test_csv_has_a_head_and_lines_of_every_fluid(project):
    head, *lines = run(project, "export", "csv").out.splitlines()
    assert head.startswith("id,name,quantity,unit,value,reason,")
    named = {line.partition(",")[0] for line in lines}
    assert named == {path.stem for path in (BASE / "fluids").glob("*.yml")}


@pytest.mark.parametrize("place", [".", "no-such-folder/figures.json"])
def test_a_file_that_cannot_be_written_is_told(project, place):
    result = asked(project, "export", "json", "--out", str(project / place))
    assert result.exit_code == 2
    assert "cannot be written" in result.output
    assert "--out" in result.output


def test_nothing_is_exported_from_a_catalogue_with_problems(project, tmp_path):
    spoil(project)
    out = tmp_path / "figures.json"
    done = run(project, "export", "json", "--out", str(out))
    assert done.returncode == 1
    assert "fluids/sodium-chloride-0-9.yml:3:7" in done.err
    assert "Nothing was exported" in done.err
    assert not out.exists()


def test_another_form_is_refused_with_the_list_of_forms(project):
    result = asked(project, "export", "pdf")
    assert result.exit_code == 2
    assert all(form in result.output for form in EXPORT_WORDS)


# new


def test_a_new_fluid_is_written_and_waits_to_be_filled_in(project):
    result = asked(project, "new", "fluid", "glucose-7-5")
    assert result.exit_code == 0
    path = project / "catalogue" / "fluids" / "glucose-7-5.yml"
    assert f"Written to {path}. Fill it in" in result.output
    text = path.read_text(encoding="utf-8")
    assert text.startswith(
        "# yaml-language-server: $schema=../schemas/fluids.json\nid: glucose-7-5\n"
    )
    assert "name: Glucose 7.5 %\n" in text
    checked = asked(project, "check")
    assert checked.exit_code == 1
    assert "fluids/glucose-7-5.yml" in checked.output
    assert "fluids/sodium" not in checked.output


def test_an_entry_is_never_written_over(project):
    before = (project / FLUID).read_bytes()
    result = asked(project, "new", "fluid", "sodium-chloride-0-9")
    assert result.exit_code == 2
    assert "exists already. Edit it, or choose another id." in result.output
    assert (project / FLUID).read_bytes() == before


@pytest.mark.parametrize("identifier", ["Glucose", "a b", "../a", "a--b", "glucose-", "a.yml", ""])
def test_what_is_no_id_is_refused(project, identifier):
    before = bytes_of(project)
    result = asked(project, "new", "fluid", identifier)
    assert result.exit_code == 2
    assert "is not an id: use small letters" in result.output
    assert bytes_of(project) == before


def test_an_id_too_long_for_a_file_is_told(project):
    result = asked(project, "new", "fluid", "a" * 300)
    assert result.exit_code == 2
    assert "cannot be written" in result.output


# where it works


def test_outside_a_project_a_sentence_says_what_a_project_is(tmp_path):
    for command in (["check"], ["build"], ["export", "json"], ["new", "fluid", "a"], ["serve"]):
        done = run(tmp_path, *command)
        assert done.returncode == 2
        assert "a project folder holds mkdocs.yml and catalogue/" in done.err
        assert done.out == ""


@pytest.mark.parametrize("command", ["check", "build", "serve", "export", "new"])
def test_help_needs_no_project(command, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    result = CliRunner().invoke(main, [command, "--help"])
    assert result.exit_code == 0
    assert result.output.startswith("Usage:")


def test_a_project_is_found_upward(project, tmp_path):
    deep = project / "site_src" / "styles"
    assert find_project(deep) == project
    assert find_project(tmp_path) is None
    assert run(deep, "check").returncode == 0


def test_a_named_folder_that_is_no_project_is_told(tmp_path):
    done = run(tmp_path, "--project", str(tmp_path), "check")
    assert done.returncode == 2
    assert f"No project in {tmp_path}: " in done.err


def test_another_catalogue_takes_the_place_of_the_project_s_own(project, tmp_path):
    other = shutil.copytree(BASE, tmp_path / "other")
    spoil(project)
    assert asked(project, "check").exit_code == 1
    assert asked(project, "--catalogue", str(other), "check").exit_code == 0
    missing = asked(project, "--catalogue", str(tmp_path / "none"), "check")
    assert missing.exit_code == 2
    assert f"There is no catalogue folder at {tmp_path / 'none'}" in missing.output


@pytest.mark.parametrize("command", [["check"], ["build"], ["export", "json"], ["serve"]])
def test_a_folder_without_entries_is_no_catalogue(project, tmp_path, command):
    (tmp_path / "empty").mkdir()
    result = asked(project, "--catalogue", str(tmp_path / "empty"), *command)
    assert result.exit_code == 2
    assert f"{tmp_path / 'empty'} holds no entry" in result.output


def test_a_first_entry_may_be_written_to_an_empty_catalogue(project, tmp_path):
    (tmp_path / "empty").mkdir()
    result = asked(project, "--catalogue", str(tmp_path / "empty"), "new", "fluid", "first")
    assert result.exit_code == 0
    assert (tmp_path / "empty" / "fluids" / "first.yml").is_file()


def test_a_project_without_a_catalogue_is_told(project):
    shutil.rmtree(project / "catalogue")
    result = asked(project, "check")
    assert result.exit_code == 2
    assert "There is no catalogue folder" in result.output


# serve


def test_serve_shows_the_problems_of_the_catalogue_it_is_given(project, tmp_path):
    """Not those of the project's own, which is sound."""
    other = shutil.copytree(BASE, tmp_path / "other")
    spoiled = other / "fluids" / "sodium-chloride-0-9.yml"
    spoiled.write_text(spoiled.read_text(encoding="utf-8").replace("role: ready", "role: readi"))
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{probe.getsockname()[1]}"
    server = subprocess.Popen(
        [sys.executable, "-m", "isofolio", "--catalogue", other, "serve", "--address", address],
        cwd=project,
        # What MkDocs serves from stands in a temporary folder that the end leaves behind.
        env={**os.environ, "TMPDIR": str(tmp_path)},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
    )
    try:
        page = first_page(f"http://{address}/")
    finally:
        server.terminate()
        told = server.stderr.read().decode()
        server.stderr.close()
        server.wait(timeout=PATIENCE)
    assert "fluids/sodium-chloride-0-9.yml:3:7" in page
    assert "Traceback" not in told


def first_page(address):
    """What a server answers as soon as it answers."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        try:
            with urllib.request.urlopen(address, timeout=PATIENCE) as answer:
                return answer.read().decode("utf-8")
        except OSError:
            time.sleep(0.1)
    return ""


# the program itself


def test_its_version():
    result = CliRunner().invoke(main, ["--version"])
    assert result.exit_code == 0
    assert result.output == f"isofolio, version {__version__}\n"


def test_the_installed_command_and_the_module_are_the_same(project):
    command = Path(sys.executable).with_name("isofolio")
    done = subprocess.run(
        [command, "check"],
        cwd=project,
        capture_output=True,
        text=True,
        timeout=PATIENCE,
        check=False,
    )
    assert (done.returncode, done.stdout) == (0, run(project, "check").out)


def test_a_terminal_without_a_character_shows_its_code(project):
    spoil(project, "role: ready", "role: ready\u202e\u2212")
    done = run(project, "check", PYTHONIOENCODING="latin-1")
    assert done.returncode == 1
    assert "ready" in done.out
    assert "\\u2212" in done.out


def test_a_reader_who_stops_reading_is_no_fault(project):
    """As in `isofolio export json | head -1`."""
    writer = subprocess.Popen(
        [sys.executable, "-m", "isofolio", "export", "json"],
        cwd=project,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    writer.stdout.close()
    told = writer.stderr.read().decode()
    writer.stderr.close()
    writer.wait(timeout=PATIENCE)
    assert "Traceback" not in told
