"""The whole handbook, built once a run, and windows of a real browser to read it in.

Everything is opened over file://, as from a file share, with the network cut. Tests marked
`both_ways` run once more over http from a server of this machine, as on an intranet.
"""

import os
import re
import subprocess
import sys
import threading
import time
from dataclasses import dataclass, field
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

PROJECT = Path(__file__).parents[2]
PATIENCE = 120
LEFT = "net::ERR_ABORTED"
WAYS = ("file", "http")


def pytest_generate_tests(metafunc):
    """A test marked `both_ways` runs over each."""
    if metafunc.definition.get_closest_marker("both_ways"):
        metafunc.parametrize("way", WAYS, indirect=True)


@pytest.fixture
def way(request):
    """How the handbook is opened: over file:// unless a test is marked `both_ways`."""
    return getattr(request, "param", "file")


@pytest.fixture(scope="session")
def site(tmp_path_factory):
    """The folder of the built handbook: the first worker builds it, the others wait for it."""
    folder = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        folder = folder.parent  # the one folder that all workers share
    live = folder / "handbook"
    try:
        (folder / "handbook-asked-for").mkdir()
    except FileExistsError:
        return _awaited(live)
    done = subprocess.run(
        [sys.executable, "-m", "isofolio", "build", "--site-dir", str(live)],
        cwd=PROJECT,
        capture_output=True,
        text=True,
        timeout=PATIENCE,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return live


def _awaited(live):
    """The folder as soon as it stands there: a build puts it in place whole."""
    end = time.monotonic() + PATIENCE
    while not live.is_dir() and time.monotonic() < end:
        time.sleep(0.1)
    assert live.is_dir(), "Another worker was to build the handbook and did not: see its error."
    return live


class Quiet(SimpleHTTPRequestHandler):
    """Serves files and tells nobody."""

    def log_message(self, *_):
        pass


@pytest.fixture(scope="session")
def roots(site):
    """Where the handbook begins, by the way it is opened; the server ends with the run."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=site))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield {"file": site.as_uri() + "/", "http": f"http://127.0.0.1:{server.server_port}/"}
    server.shutdown()
    server.server_close()


@dataclass
class Window:
    """A window of a browser on the handbook, and what went wrong in it."""

    root: str
    page: object
    trouble: list[str] = field(default_factory=list)

    def open(self, address):
        """Open a page of the handbook by its address within it."""
        self.page.goto(self.root + address)
        return self.page

    def watch(self, context):
        """Note every request that fails or leaves the folder, and every word of the console."""
        inside = (self.root, "data:")
        ours = "|".join(re.escape(start) for start in (*inside, "blob:", "about:"))
        context.route(re.compile(f"^(?!{ours})"), lambda route: route.abort())
        context.on("request", lambda r: self._note(not r.url.startswith(inside), "asked", r.url))
        # A page that is left while it still reads (the chart library is large) is no fault.
        context.on("requestfailed", lambda r: self._note(r.failure != LEFT, "no answer", r.url))
        context.on("console", lambda m: self._note(True, f"console {m.type}", m.text))
        context.on("weberror", lambda e: self._note(True, "script", str(e.error)))

    def _note(self, wrong, what, text):
        if wrong:
            self.trouble.append(f"{what}: {text}")


@pytest.fixture(scope="session")
def open_window(chromium, roots):
    """A function that opens a window of its own; the options are those of a Playwright context."""

    def opened(way="file", **options):
        context = chromium.new_context(**{"viewport": {"width": 1366, "height": 768}, **options})
        window = Window(roots[way], context.new_page())
        window.watch(context)
        return window

    return opened


@pytest.fixture
def window(open_window, way):
    """A window for one test."""
    opened = open_window(way)
    yield opened
    opened.page.context.close()


@pytest.fixture(scope="module")
def long_window(open_window):
    """A window for all the tests of a module that only look."""
    opened = open_window()
    yield opened
    opened.page.context.close()


@pytest.fixture(scope="session")
def addresses(site):
    """The address of every page of the handbook."""
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))


@pytest.fixture(scope="session")
def kinds(site, addresses):
    """A page of every kind: all of the top folder, and of each other the longest."""
    chosen = [address for address in addresses if "/" not in address]
    for folder in sorted({str(Path(address).parent) for address in addresses} - {"."}):
        longest = max((site / folder).glob("*.html"), key=lambda page: page.stat().st_size)
        chosen.append(f"{folder}/{longest.name}")
    return chosen
