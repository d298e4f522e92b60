"""Small sites in editions that differ in every file, and a look at what a reader finds."""

import re

import pytest

from isofolio.publishing.checksums import digest_of, write_checksums
from isofolio.publishing.copies import open_copy
from isofolio.publishing.links import attributes_of, target_of
from isofolio.publishing.plan import plan_of
from isofolio.publishing.state import ASSET
from isofolio.publishing.writing import HALF

FLUIDS = ("glucose-5", "glucose-10", "sodium-chloride-0-9", "ringer-lactate")
PAGE = """<!doctype html>
<html lang="en" data-edition="{edition}"><head>
<link rel="stylesheet" href="{up}styles/handbook.css">
<script src="{up}scripts/finder.js" defer></script></head>
<body><h1 id="top">{name}, edition {edition}</h1>
<p><a href="{up}index.html#top">Home</a> <img alt="" src="{up}drawings/bag.svg"></p>{filling}
</body></html>
"""
EDITION = re.compile(r"edition[ =\"]+(\w+)")


def write_site(folder, edition, fluids=FLUIDS):
    """A site as a build leaves it; every file names its edition."""
    pages = {"index.html": "", "404.html": "", **{f"fluids/{name}.html": "../" for name in fluids}}
    texts = {
        path: PAGE.format(edition=edition, up=up, name=path, filling="<p>word</p>" * 200)
        for path, up in pages.items()
    }
    texts["styles/handbook.css"] = f"/* edition {edition} */"
    texts["scripts/finder.js"] = f"// edition {edition}"
    texts["scripts/finder-data.js"] = f"// edition {edition}, the data"
    texts["drawings/bag.svg"] = f"<svg><!-- edition {edition} --></svg>"
    texts["downloads/table.csv"] = f"edition {edition}\r\n"
    texts["built-from.txt"] = f"Isofolio handbook\ndigest 0123456789ab\nedition {edition}\n"
    for path, text in texts.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(text.encode("utf-8"))
    write_checksums(folder)
    return folder


@pytest.fixture
def make_site(tmp_path):
    """A function that writes one edition of the small site and returns its folder."""
    return lambda edition, **more: write_site(tmp_path / f"site-{edition}", edition, **more)


def look(copy, path):
    """What a reader finds who opens one page of a copy: page and assets of one edition, whole.

    Returns what is wrong, a text each. The scripts' data, which no page names, is beside them.
    """
    page = (copy / path).read_text(encoding="utf-8")
    if not page.endswith("</html>\n"):
        return [f"{path} is not whole"]
    edition = EDITION.search(page).group(1)
    named = [
        target_of(path, value) for _, name, value in attributes_of(page) if name in ("href", "src")
    ]
    assets = [name for name in named if ASSET.match(name)]
    assets += [name.replace("finder.js", "finder-data.js") for name in assets if "scripts" in name]
    if len(assets) != 4:
        return [f"{path} names the assets {assets}"]
    faults = [
        f"{path}: {asset} of another edition"
        for asset in assets
        if _edition(copy / asset) != edition
    ]
    return faults + _folders_misnamed(copy, assets)


def _edition(path):
    return EDITION.search(path.read_text(encoding="utf-8")).group(1)


def _folders_misnamed(copy, assets):
    """Folders whose name does not hold the digest of what is in them."""
    faults = []
    for folder in {asset.partition("/")[0] for asset in assets}:
        kind, _, digits = folder.partition("-")
        digests = {
            f"{kind}/{path.name}": digest_of(path.read_bytes())
            for path in (copy / folder).iterdir()
            if not path.name.endswith(HALF)
        }
        lines = [f"{digest}  {name}\n" for name, digest in sorted(digests.items())]
        if digest_of("".join(lines).encode())[:12] != digits:
            faults.append(f"{folder} does not hold what its name says")
    return faults


@pytest.fixture
def faults_for_readers():
    """A function that opens every page of a copy and says what a reader would miss."""

    def faults(copy):
        pages = [path.relative_to(copy).as_posix() for path in sorted(copy.rglob("*.html"))]
        return [fault for page in pages for fault in look(copy, page)]

    return faults


@pytest.fixture
def look_at():
    """The function `look`, for tests that read one page at a time."""
    return look


@pytest.fixture
def planned():
    """A function that says which files, with which digests, a site has when it is published."""

    def files(site):
        with open_copy(site) as source:
            return plan_of(source).files

    return files


@pytest.fixture
def tree():
    """A function that maps every file below a folder to its digest."""

    def digests(folder):
        return {
            path.relative_to(folder).as_posix(): digest_of(path.read_bytes())
            for path in sorted(folder.rglob("*"))
            if path.is_file()
        }

    return digests
