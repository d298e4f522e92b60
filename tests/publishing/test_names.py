"""Names that Windows takes: pure paths, so that the test runs anywhere.

Published source: "Naming Files, Paths, and Namespaces" (Microsoft Learn), from memory. What
Python's own PureWindowsPath calls reserved is asked besides.
"""

import ntpath
from pathlib import Path, PureWindowsPath

import pytest

from isofolio.publishing.names import LONGEST, faults_of_names
from isofolio.publishing.writing import HALF, half_of

SHARE = PureWindowsPath(
    r"\\fileserver.hospital.example\departments\anaesthetics\handbook-of-fluids"
)


@pytest.mark.parametrize(
    "path",
    [
        "index.html",
        "fluids/glucose-5.html",
        "scripts-0f3a9c1b22d4/compare/a.js",
        "console.html",
        "fluids/com.html",
        "a.b.html",
    ],
)
def test_ordinary_names(path):
    assert faults_of_names([path]) == []


@pytest.mark.parametrize(
    "path",
    [
        "con.html",
        "fluids/NUL",
        "aux/a.html",
        "Lpt1.txt",
        "com0.css",
        "a:b.html",
        "a?.html",
        "a*",
        'a".html',
        "a|b",
        "a\\b.html",
        "a\tb",
        "fluids./a.html",
        "a ",
        "fluids/" + "a" * LONGEST,
    ],
)
def test_names_that_windows_refuses(path):
    assert len(faults_of_names([path])) == 1


def test_names_that_differ_in_case_alone():
    assert len(faults_of_names(["a/B.html", "a/b.html", "A/b.html"])) == 2


def is_reserved(name):
    """By the newer of Python's two functions: one came with 3.13, the other leaves with 3.15."""
    newer = getattr(ntpath, "isreserved", None)
    return newer(name) if newer else PureWindowsPath(name).is_reserved()


@pytest.mark.parametrize("name", ["con", "prn", "aux", "nul", "com1", "com9", "lpt1", "lpt9"])
def test_what_python_calls_reserved_is_refused(name):
    assert is_reserved(f"{name}.html")
    assert faults_of_names([f"fluids/{name}.html"])


def test_the_longest_name_and_its_half_fit_on_a_share_with_a_long_address():
    """260 characters with the closing NUL of the system's call: 259 of path."""
    path = SHARE / ("a" * LONGEST)
    assert len(str(path) + HALF) < 240


def test_a_half_stands_in_the_folder_of_the_whole():
    assert half_of(Path("a/b.html")).parent == Path("a")
