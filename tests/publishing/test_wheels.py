"""An installation from a folder of wheels, by pip itself, with no index and every digest required.

Published source: the binary distribution format of the Python Packaging Authority (a wheel is a zip
file with METADATA, WHEEL and RECORD; from memory), and pip's own refusal of what does not match.
"""

import base64
import hashlib
import subprocess
import sys
import zipfile

import pytest

from isofolio.publishing.wheels import LIST, hashed_requirements, main

TAGS = "Wheel-Version: 1.0\nGenerator: a test\nRoot-Is-Purelib: true\nTag: py3-none-any\n"


def make_wheel(folder, name, version="1.0", needs="", tag="py3-none-any"):
    """A wheel of one module that holds its own version."""
    info = f"{name}-{version}.dist-info"
    needed = f"Requires-Dist: {needs}\n" if needs else ""
    files = {
        f"{name}.py": f'VERSION = "{version}"\n',
        f"{info}/METADATA": f"Metadata-Version: 2.1\nName: {name}\nVersion: {version}\n{needed}",
        f"{info}/WHEEL": TAGS,
    }
    lines = [f"{path},sha256={record(text)},{len(text)}" for path, text in files.items()]
    files[f"{info}/RECORD"] = "\n".join([*lines, f"{info}/RECORD,,", ""])
    wheel = folder / f"{name}-{version}-{tag}.whl"
    with zipfile.ZipFile(wheel, "w") as packed:
        for path, text in files.items():
            packed.writestr(path, text)
    return wheel


def record(text):
    return base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()).decode().rstrip("=")


@pytest.fixture
def wheels(tmp_path):
    """Two small packages, the first of which needs the second, and their list."""
    folder = tmp_path / "wheels"
    folder.mkdir()
    make_wheel(folder, "bag_of_fluid", needs="giving_set>=1")
    make_wheel(folder, "giving_set")
    main(folder)
    return folder


@pytest.fixture
def install(wheels, tmp_path):
    """A function that installs from the folder, as README.md says, into a folder of its own."""

    def run():
        command = [sys.executable, "-m", "pip", "--isolated", "--disable-pip-version-check"]
        command += ["install", "--no-cache-dir", "--no-index", "--find-links", str(wheels)]
        command += ["--require-hashes", "-r", str(wheels / LIST)]
        command += ["--target", str(tmp_path / "there")]
        return subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)

    return run


def test_both_packages_are_installed_without_an_index(install, tmp_path):
    done = install()
    assert done.returncode == 0, done.stderr
    for name in ("bag_of_fluid", "giving_set"):
        assert (tmp_path / "there" / f"{name}.py").read_text() == 'VERSION = "1.0"\n'


def test_a_wheel_that_was_changed_on_the_way_is_refused(install, wheels, tmp_path):
    make_wheel(wheels, "giving_set", needs="bag_of_fluid")
    done = install()
    assert done.returncode != 0
    assert "DO NOT MATCH THE HASHES" in done.stderr
    assert not (tmp_path / "there" / "giving_set.py").exists()


def test_a_package_that_is_not_on_the_list_is_refused(install, wheels):
    lines = (wheels / LIST).read_text(encoding="utf-8").splitlines()
    (wheels / LIST).write_text(f"{lines[0]}\n", encoding="utf-8")
    done = install()
    assert done.returncode != 0
    assert "giving_set" in done.stderr


def test_a_list_is_one_line_a_package_in_order_with_no_address(wheels):
    text = (wheels / LIST).read_text(encoding="utf-8")
    names = [line.partition(" ")[0] for line in text.splitlines()]
    assert names == ["bag-of-fluid==1.0", "giving-set==1.0"]
    digest = hashlib.sha256((wheels / "giving_set-1.0-py3-none-any.whl").read_bytes()).hexdigest()
    assert text.splitlines()[1] == f"giving-set==1.0 --hash=sha256:{digest}"
    assert "/" not in text


def test_wheels_of_two_systems_stand_on_one_line(wheels):
    make_wheel(wheels, "giving_set", tag="cp311-cp311-win_amd64").write_bytes(b"another")
    line = hashed_requirements(wheels).splitlines()[1]
    assert line.count("--hash=sha256:") == 2


def test_what_is_no_wheel_is_refused(wheels):
    (wheels / "giving-set-1.0.tar.gz").write_bytes(b"")
    with pytest.raises(ValueError, match=r"tar\.gz is no wheel"):
        hashed_requirements(wheels)


def test_an_empty_folder_is_told_in_a_sentence(tmp_path):
    with pytest.raises(SystemExit, match="There is no wheel"):
        main(tmp_path)
