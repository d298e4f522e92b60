"""The bundle: the same bytes each time, and nothing in it of the machine that made it.

Published sources: CycloneDX 1.6 (ECMA-424), its JSON schema: what a bill and a component must and
may hold (read); licences and dependencies (from memory). The form of a package's address: ECMA-427,
purl (from memory). The published schema itself is no part of this repository.
"""

import getpass
import json
import os
import platform
import re
import shutil
import stat
import zipfile
from importlib.metadata import requires, version

import jsonschema
import pytest
from packaging.requirements import Requirement

from isofolio import __version__
from isofolio.publishing import bill
from isofolio.publishing.bill import bill_of_materials, installed_parts
from isofolio.publishing.bundle import BILL, PROVENANCE, BundleError, Revision, write_bundle
from isofolio.publishing.checksums import CHECKSUMS, digest_of, read_checksums, write_checksums

COMPONENT = {
    "type": "object",
    "required": ["type", "name"],
    "additionalProperties": False,
    "properties": {
        # Two of the thirteen kinds that the schema knows.
        "type": {"enum": ["application", "library"]},
        "bom-ref": {"type": "string", "minLength": 1},
        "name": {"type": "string"},
        "version": {"type": "string", "maxLength": 1024},
        "purl": {"type": "string", "pattern": r"^pkg:(pypi/[a-z0-9-]+|npm/[a-z.]+)@[^@/?#\s]+$"},
        "licenses": {
            "oneOf": [
                {
                    "type": "array",
                    "minItems": 1,
                    "maxItems": 1,
                    "items": {
                        "type": "object",
                        "required": ["expression"],
                        "additionalProperties": False,
                        "properties": {"expression": {"type": "string"}},
                    },
                },
                {
                    "type": "array",
                    "items": {
                        "type": "object",
                        "required": ["license"],
                        "additionalProperties": False,
                        "properties": {"license": {"type": "object", "required": ["name"]}},
                    },
                },
            ]
        },
    },
}
DEPENDENCY = {
    "type": "object",
    "required": ["ref"],
    "additionalProperties": False,
    "properties": {
        "ref": {"type": "string", "minLength": 1},
        "dependsOn": {"type": "array", "uniqueItems": True, "items": {"type": "string"}},
    },
}
CYCLONEDX = {
    "type": "object",
    "required": ["bomFormat", "specVersion"],
    "additionalProperties": False,
    "properties": {
        "bomFormat": {"enum": ["CycloneDX"]},
        "specVersion": {"const": "1.6"},
        "version": {"type": "integer", "minimum": 1},
        "metadata": {
            "type": "object",
            "additionalProperties": False,
            "properties": {"component": COMPONENT},
        },
        "components": {"type": "array", "uniqueItems": True, "items": COMPONENT},
        "dependencies": {"type": "array", "uniqueItems": True, "items": DEPENDENCY},
    },
}


def contents(bundle):
    with zipfile.ZipFile(bundle) as packed:
        return {name: packed.read(name) for name in packed.namelist()}


@pytest.fixture(scope="module")
def parts():
    return bill_of_materials(b"/**\n* plotly.js v4.1.1\n* Licensed under the MIT license\n*/")


@pytest.fixture
def bundle(make_site, tmp_path):
    return write_bundle(make_site("one"), tmp_path / "bundle.zip", Revision("a1b2c3", True))


def test_a_bundle_holds_the_site_and_three_files_more(make_site, bundle):
    found, site = contents(bundle), make_site("one")
    for name, digest in read_checksums((site / CHECKSUMS).read_bytes()).items():
        assert digest_of(found.pop(name)) == digest
    assert set(found) == {CHECKSUMS, PROVENANCE, BILL}


def test_its_list_of_checksums_covers_all_but_itself(bundle):
    found = contents(bundle)
    listed = read_checksums(found.pop(CHECKSUMS))
    assert listed == {name: digest_of(content) for name, content in found.items()}


def test_other_times_rights_folders_and_order_change_no_byte(make_site, bundle, tmp_path):
    other = tmp_path / "deeper" / "down"
    for path in sorted(make_site("one").rglob("*"), reverse=True):
        if path.is_file():
            copied = other / path.relative_to(make_site("one"))
            copied.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, copied)
            copied.chmod(stat.S_IRUSR)
            os.utime(copied, (1, 1))
    again = write_bundle(other, tmp_path / "again.zip", Revision("a1b2c3", True))
    assert again.read_bytes() == bundle.read_bytes()


def test_names_in_order_one_date_one_kind_of_right(bundle):
    with zipfile.ZipFile(bundle) as packed:
        entries = packed.infolist()
    assert [one.filename for one in entries] == sorted(one.filename for one in entries)
    assert {one.date_time for one in entries} == {(1980, 1, 1, 0, 0, 0)}
    assert {one.external_attr >> 16 for one in entries} == {stat.S_IFREG | 0o644}


def test_nothing_of_this_machine_is_in_what_is_added(bundle, tmp_path):
    found = contents(bundle)
    text = (found[PROVENANCE] + found[BILL] + found[CHECKSUMS]).decode("utf-8")
    assert not re.search(r"https?:|file:|\d\d:\d\d:\d\d", text)
    for trace in (str(tmp_path), platform.node(), os.sep + "home", f"/{getpass.getuser()}/"):
        assert trace not in text


def test_provenance_says_catalogue_program_source_and_tools(make_site, bundle):
    provenance = json.loads(contents(bundle)[PROVENANCE])
    assert provenance["built_from"] == {"digest": "0123456789ab", "edition": "one"}
    assert provenance["source"] == {"commit": "a1b2c3", "modified": True}
    assert provenance["bundled_by"]["isofolio"] == __version__
    listed = (make_site("one") / CHECKSUMS).read_bytes()
    assert provenance["site_checksums"] == digest_of(listed)


def test_an_unknown_revision_is_null(make_site, tmp_path):
    found = contents(write_bundle(make_site("one"), tmp_path / "bundle.zip"))
    assert json.loads(found[PROVENANCE])["source"] is None


def test_without_a_name_it_is_named_after_the_catalogue(make_site, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert write_bundle(make_site("one"), None).name == "isofolio-0123456789ab.zip"


def test_a_bundle_of_an_unpacked_bundle_is_the_same_bytes(bundle, tmp_path):
    with zipfile.ZipFile(bundle) as packed:
        packed.extractall(tmp_path / "unpacked")
    again = write_bundle(tmp_path / "unpacked", tmp_path / "again.zip", Revision("a1b2c3", True))
    assert again.read_bytes() == bundle.read_bytes()


@pytest.mark.parametrize("name", ["fluids/glucose-5.html", "drawings/bag.svg"])
@pytest.mark.parametrize("damage", ["missing", "changed"])
def test_a_damaged_site_is_not_bundled_and_an_old_bundle_stays(make_site, bundle, name, damage):
    before, site = bundle.read_bytes(), make_site("one")
    if damage == "missing":
        (site / name).unlink()
    else:
        (site / name).write_text("changed", encoding="utf-8")
    with pytest.raises(BundleError, match=f"{name} in the site is missing or was changed"):
        write_bundle(site, bundle)
    assert bundle.read_bytes() == before
    assert not list(bundle.parent.glob("*half"))


def test_an_incomplete_site_is_not_bundled(make_site, tmp_path):
    site = make_site("one")
    (site / "404.html").unlink()
    (site / CHECKSUMS).unlink()
    write_checksums(site)
    with pytest.raises(BundleError, match=r"404\.html: missing"):
        write_bundle(site, tmp_path / "bundle.zip")


def test_a_place_that_cannot_be_written_is_told(make_site, tmp_path):
    with pytest.raises(BundleError, match="Name a file in a folder that exists"):
        write_bundle(make_site("one"), tmp_path / "nowhere" / "bundle.zip")


# ---- The bill of materials.


def test_the_bill_is_what_the_published_schema_asks_for(parts):
    jsonschema.validate(parts, CYCLONEDX)


def test_every_reference_is_there_once(parts):
    components = [parts["metadata"]["component"], *parts["components"]]
    references = [one["bom-ref"] for one in components]
    assert len(set(references)) == len(references)
    for dependency in parts["dependencies"]:
        assert {dependency["ref"], *dependency["dependsOn"]} <= set(references)


def test_every_package_that_we_ask_for_is_on_it_with_the_installed_version(parts):
    found = {one["name"]: one["version"] for one in parts["components"]}
    wanted = [Requirement(text) for text in requires("isofolio")]
    ours = [one.name for one in wanted if one.marker is None]
    assert len(ours) >= 10
    for name in ours:
        assert found[name.lower()] == version(name)


def test_what_those_need_is_on_it_and_what_only_tests_need_is_not(parts):
    names = {one["name"] for one in parts["components"]}
    # MkDocs needs Watchdog, pandas needs dateutil: neither is asked for by us.
    assert {"watchdog", "python-dateutil"} <= names
    assert names.isdisjoint({"pytest", "ruff", "mypy", "playwright"})


def test_licences_are_there_wherever_a_package_gives_one(parts):
    without = [one["name"] for one in parts["components"] if "licenses" not in one]
    assert without == ["plotly.js"]


def test_the_one_script_of_others_is_on_it_with_its_own_version(parts):
    (library,) = [one for one in parts["components"] if one["name"] == "plotly.js"]
    assert (library["version"], library["purl"]) == ("4.1.1", "pkg:npm/plotly.js@4.1.1")


def test_a_script_that_does_not_say_its_version_is_on_it_without(make_site):
    (library,) = bill_of_materials(b"no version")["components"][-1:]
    assert library == {"type": "library", "name": "plotly.js"}


def test_a_program_that_is_not_installed_is_told():
    with pytest.raises(bill.BillError, match="Install the program with pip"):
        installed_parts("isofolio-that-is-not-installed")
