"""`mkdocs build` and `mkdocs serve` as an editor runs them, in a process of their own."""

import os
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

import pytest

SMALL_SITE = Path(__file__).with_name("small_site.py")
PATIENCE = 60


def test_plain_build_with_a_broken_entry(mkdocs, project, digest):
    assert mkdocs("build").returncode == 0
    before = digest(project / "site")
    (project / "catalogue" / "broken.txt").write_text("fluids/a.yml:1:1: no such role")
    done = mkdocs("build")
    assert done.returncode == 1
    printed = done.stdout + done.stderr
    assert "fluids/a.yml:1:1: no such role" in printed
    assert "one problem" in printed
    assert "Traceback" not in printed
    assert digest(project / "site") == before


@pytest.mark.parametrize("options", [("-s",), ("-q", "-s")])
def test_strict_build_with_one_dead_anchor(mkdocs, project, digest, options):
    assert mkdocs("build", *options).returncode == 0
    before = digest(project / "site")
    about = project / "site_src" / "about.md"
    about.write_text("# About\n\n[x](fluids/glucose-5.md#nowhere)\n", encoding="utf-8")
    done = mkdocs("build", *options)
    assert done.returncode == 1
    assert "nowhere" in done.stdout + done.stderr
    assert "Traceback" not in done.stdout + done.stderr
    assert digest(project / "site") == before
    assert [path.name for path in project.glob(".site*")] == []


@pytest.fixture
def server(project, tmp_path):
    """The address of a running `mkdocs serve`; what it prints goes to a file."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    (project / "catalogue" / "broken.txt").write_text("fluids/saline.yml:1:1: <no such role>")
    with (project / "printed.txt").open("w", encoding="utf-8") as printed:
        process = subprocess.Popen(
            [sys.executable, str(SMALL_SITE), "serve", "--dev-addr", f"127.0.0.1:{port}"],
            cwd=project,
            # MkDocs serves from a temporary folder, which the end of the process leaves behind.
            env=os.environ | {"NO_MKDOCS_2_WARNING": "1", "TMPDIR": str(tmp_path)},
            stdout=printed,
            stderr=printed,
        )
        try:
            yield f"http://127.0.0.1:{port}/"
        finally:
            process.terminate()
            process.wait(timeout=PATIENCE)


def page_with(address, wanted):
    """The page at an address as soon as it holds the wanted text; the last one seen otherwise."""
    seen, end = "", time.monotonic() + PATIENCE
    while wanted not in seen and time.monotonic() < end:
        try:
            with urllib.request.urlopen(address, timeout=PATIENCE) as answer:
                seen = answer.read().decode("utf-8")
        except (urllib.error.URLError, ConnectionError) as error:
            seen = str(error)
        time.sleep(0.1)
    return seen


def test_serve_shows_problems_everywhere_and_recovers(server, project):
    problem = "fluids/saline.yml:1:1: &lt;no such role&gt;"
    for path in ("", "fluids/saline.html", "about.html"):
        page = page_with(server + path, problem)
        assert problem in page
        assert "The catalogue has one problem" in page
        assert "livereload(" in page
        assert "Content-Security-Policy" not in page
    (project / "catalogue" / "broken.txt").unlink()
    page = page_with(server + "fluids/glucose-5.html", "This bag holds")
    assert "This bag holds" in page
    assert "Content-Security-Policy" not in page
    # The pages of the last good build show the next problem, whatever the catalogue's files say.
    (project / "catalogue" / "broken.txt").write_text("mixing/a.yml:2:1: another")
    assert "mixing/a.yml:2:1: another" in page_with(server + "fluids/glucose-5.html", "another")
    missing = (project / "printed.txt").read_text(encoding="utf-8")
    assert "Traceback" not in missing
    assert not (project / "site").exists()


def test_serve_shows_the_missing_page_with_addresses_from_the_root(server, project):
    (project / "catalogue" / "broken.txt").unlink()
    assert "This bag holds" in page_with(server + "fluids/glucose-5.html", "This bag holds")
    with pytest.raises(urllib.error.HTTPError) as answer:
        urllib.request.urlopen(server + "deep/down/nowhere.html", timeout=PATIENCE)
    page = answer.value.read().decode("utf-8")
    answer.value.close()
    assert "No page at this address" in page
    assert 'href="/styles/handbook.css"' in page
