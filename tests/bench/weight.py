"""What a page weighs and how soon it shows, beside a stock page of the same content in one run.

Then, in a handbook of 5,000 fluids, how often opening a page holds the main thread for long, by the
browser's own count (W3C Long Tasks: over 50 ms) while nothing watches it; and how long the longest
task is under a tracer, which itself makes every task longer. All is read over file://, as from a
file share. Part of `make bench`; milliseconds hold only for one machine, and other work on it makes
them longer: read the ratio, the counts, and the processor's own time.
"""

import json
import runpy
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

from stock import stock_page
from synthetic import enlarged

from isofolio.entries.reading import read_catalogue
from isofolio.findings.judgements import judge
from isofolio.handbook import Handbook, handbook_of
from isofolio.measures.table import table_of
from isofolio.pages.fluids import fluids_page

PROJECT = Path(__file__).parents[2]
FINDER = PROJECT / "tests" / "finder" / "benchmark.py"  # makes an index of any size
FLUID = "fluids/potassium-chloride-0-3-glucose-5.html"
ALL_FLUIDS = "fluids.html"
SIZE = 5_000
ROUNDS = 15
PAINTS = 100  # a first paint varies by a third from one opening to the next
KINDS = {".html": "HTML", ".css": "CSS", ".js": "JS"}
AIM_RATIO, AIM_TASK = 1.1, 50.0  # issue 4
PAINTED = """() => new Promise(done => new PerformanceObserver(list => done([
  performance.getEntriesByName('first-contentful-paint')[0].startTime,
  list.getEntries()[0].renderTime,
])).observe({type: 'element', buffered: true}))"""
STANDS_STILL = "() => !document.querySelector('#all-fluids[aria-busy]')"

# What the browser noted by itself; the page below holds its thread, so that a count of none means
# something.
LONG_TASKS = """() => new Promise(done => {
  const found = [];
  new PerformanceObserver(list => found.push(...list.getEntries().map(entry => entry.duration)))
    .observe({type: 'longtask', buffered: true});
  setTimeout(() => done(found), 200);
})"""
BLOCKING = """<!doctype html><title>x</title>
<script>for (const end = Date.now() + 80; Date.now() < end;);</script>"""
ARGUMENTS = ("--no-sandbox", "--host-resolver-rules=MAP * ~NOTFOUND")

# A mark in the page tells its thread from those of the browser's own pages.
MARK = "performance.mark('isofolio'); setInterval(() => performance.mark('isofolio'), 100);"
MARKED, TASK = "isofolio", "ThreadControllerImpl::RunTask"
CATEGORIES = ["toplevel", "blink.user_timing"]

# What is timed: a page opening, or something done on it from within (Playwright's own clicks bring
# a large script into the page first).
SORT = "() => setTimeout(() => document.querySelector('th[data-key=sodium] button').click())"
FILTER = """() => setTimeout(() => {
  const list = document.querySelector('select[name=potassium]');
  list.value = 'holds';
  list.dispatchEvent(new Event('change', {bubbles: true}));
})"""
CASES = (
    ("open the home page", "index.html", ""),
    ("open all fluids", ALL_FLUIDS, ""),
    ("open the page of a fluid", FLUID, ""),
    ("sort all fluids", ALL_FLUIDS, SORT),
    ("filter all fluids", ALL_FLUIDS, FILTER),
)


@contextmanager
def browsing() -> Iterator[Any]:
    """A headless Chromium that can look up no name."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as running:
        browser = running.chromium.launch(
            executable_path=shutil.which("chromium"), args=list(ARGUMENTS)
        )
        yield browser
        browser.close()


@contextmanager
def opened(browser: Any, path: Path, asked: list[str] | None = None) -> Iterator[Any]:
    """A page in a window of its own, loaded; `asked` takes the address of each request."""
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    if asked is not None:
        page.on("request", lambda request: asked.append(request.url))
    page.goto(path.as_uri(), wait_until="load")
    yield page
    context.close()


def weights(browser: Any, path: Path) -> dict[str, int]:
    """Bytes of every file that opening a page reads, by kind."""
    asked: list[str] = []
    with opened(browser, path, asked) as page:
        page.wait_for_timeout(500)
    found = dict.fromkeys((*KINDS.values(), "other"), 0)
    for address in asked:
        file = Path(unquote(urlsplit(address).path))
        if address.startswith("file:") and file.is_file():
            found[KINDS.get(file.suffix, "other")] += file.stat().st_size
    return found


def with_timed_title(path: Path) -> Path:
    """A copy of the page beside it whose title's first paint the browser notes."""
    copy = path.with_stem(f"{path.stem}-timed")
    html = path.read_text(encoding="utf-8")
    copy.write_text(html.replace("<h1", '<h1 elementtiming="title"', 1), encoding="utf-8")
    return copy


def first_paints(browser: Any, paths: list[Path]) -> list[tuple[float, float]]:
    """Median time to the first paint of anything and of the title, of each page [ms].

    The pages take turns, so that other work hinders them alike.
    """
    pages = [with_timed_title(path) for path in paths]
    times: list[list[list[float]]] = [[] for _ in pages]
    for turn in range(PAINTS + 1):
        for path, taken in zip(pages, times, strict=True):
            with opened(browser, path) as page:
                found = page.evaluate(PAINTED)
            if turn:  # the first of all warms the browser and the disk
                taken.append(found)
    for path in pages:
        path.unlink()
    return [tuple(map(statistics.median, zip(*taken, strict=True))) for taken in times]


def longest_task(browser: Any, path: Path, act: str) -> tuple[float, float]:
    """The longest task of the page's own thread [ms]: by the clock, and of the processor alone.

    While the page opens; with `act`, a script, while that is done on the open page.
    """
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.add_init_script(MARK)
    if act:
        page.goto(path.as_uri())
        page.wait_for_function(STANDS_STILL)
    browser.start_tracing(page=page, categories=CATEGORIES)
    if act:
        page.evaluate(act)
        page.wait_for_function(STANDS_STILL)
    else:
        page.goto(path.as_uri())
    page.wait_for_timeout(1000)
    events = json.loads(browser.stop_tracing())["traceEvents"]
    context.close()
    threads = {(event["pid"], event["tid"]) for event in events if event["name"] == MARKED}
    found = [e for e in events if (e["pid"], e["tid"]) in threads and e["name"] == TASK]
    return tuple(max(e.get(length, 0) for e in found) / 1000 for length in ("dur", "tdur"))


@contextmanager
def browsing_unwatched(folder: Path) -> Iterator[str]:
    """A Chromium to which nothing is attached; the address at which it takes orders."""
    command = ["chromium", "--headless", *ARGUMENTS, "--window-size=1366,768"]
    command += ["--remote-debugging-port=0", f"--user-data-dir={folder}", "about:blank"]
    running = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    port = folder / "DevToolsActivePort"
    try:
        while not (port.exists() and port.read_text(encoding="utf-8").count("\n")):
            if running.poll() is not None:
                raise SystemExit(
                    "Chromium did not start: install it, see tests/browser/install.sh."
                )
            time.sleep(0.1)
        yield "http://127.0.0.1:" + port.read_text(encoding="utf-8").splitlines()[0]
    finally:
        running.terminate()
        with suppress(subprocess.TimeoutExpired):
            running.wait(timeout=10)


def long_tasks(playwright: Any, orders: str, path: Path) -> list[float]:
    """Lengths of the tasks over 50 ms while a page opened in a tab of its own [ms]."""
    address = path.as_uri()
    asked = urllib.request.Request(f"{orders}/json/new?{address}", method="PUT")
    urllib.request.urlopen(asked, timeout=60).close()
    time.sleep(1.5)  # the page opens and is read; only then is it asked
    browser = playwright.chromium.connect_over_cdp(orders)
    pages = [page for context in browser.contexts for page in context.pages]
    (page,) = (page for page in pages if page.url == address)
    found: list[float] = page.evaluate(LONG_TASKS)
    page.close()
    browser.close()
    return found


def unwatched(site: Path, stock: Path, folder: Path) -> list[str]:
    """How many of the loads held the thread for long, in lines; the pages take turns."""
    from playwright.sync_api import sync_playwright

    blocking = folder / "blocking.html"
    blocking.write_text(BLOCKING, encoding="utf-8")
    cases = [(name, site / address) for name, address, act in CASES if not act]
    cases += [("open the stock page, for comparison", stock), ("open a page that blocks", blocking)]
    loads: list[list[list[float]]] = [[] for _ in cases]
    with sync_playwright() as playwright, browsing_unwatched(folder / "profile") as orders:
        for turn in range(ROUNDS + 1):
            for (_, path), found in zip(cases, loads, strict=True):
                tasks_found = long_tasks(playwright, orders, path)
                if turn:
                    found.append(tasks_found)
    lines = [f"loads of {ROUNDS} with a task over {AIM_TASK:.0f} ms at {SIZE} fluids; aim: none"]
    lines.append(f"{'':46} {'loads':>9} {'longest':>9}")
    for (name, _), found in zip(cases, loads, strict=True):
        longest = max((length for load in found for length in load), default=0.0)
        lines.append(f"{name:46} {sum(map(bool, found)):9d} {longest:9.0f}")
    return lines


def large_handbook() -> Handbook:
    """A handbook of so many fluids; what only their own pages show is left out."""
    reading = read_catalogue(PROJECT / "catalogue")
    catalogue = enlarged(reading.catalogue, SIZE)
    table = table_of(catalogue)
    found = {"catalogue": catalogue, "measures": table, "judgements": judge(catalogue, table)}
    return replace(handbook_of(reading), **found)


def build(folder: Path) -> None:
    """The handbook as `isofolio build` writes it."""
    command = [sys.executable, "-m", "isofolio", "build", "--site-dir", str(folder)]
    subprocess.run(command, cwd=PROJECT, check=True, capture_output=True)


def enlarge(site: Path) -> None:
    """Put the table and the finder's index of so many fluids into a built site."""
    handbook = large_handbook()
    page = site / ALL_FLUIDS
    html = page.read_text(encoding="utf-8")
    start, end = html.index('<article class="listing'), html.index("</article>")
    body = fluids_page(handbook).body.strip().removesuffix("</article>")
    page.write_text(html[:start] + body + html[end:], encoding="utf-8")
    index = runpy.run_path(str(FINDER))["index"](SIZE)
    (site / "scripts" / "finder-data.js").write_text(index, encoding="utf-8")


def weigh(browser: Any, ours: Path, stock: Path) -> list[str]:
    """Our page beside the stock page, in lines."""
    mine, theirs = weights(browser, ours), weights(browser, stock)
    rows = [(f"{kind}, bytes", mine[kind], theirs[kind]) for kind in mine]
    rows.append(("all, bytes", sum(mine.values()), sum(theirs.values())))
    paints = first_paints(browser, [ours, stock])
    for name, times in zip(("anything", "the title"), zip(*paints, strict=True), strict=True):
        rows.append((f"first paint of {name}, ms, median of {PAINTS}", *times))
    lines = [f"{'':46} {'ours':>9} {'stock':>9} {'ratio':>6}   aim: at most {AIM_RATIO}"]
    for name, one, other in rows:
        ratio = f"{one / other:6.2f}" if other else "     -"
        lines.append(f"{name:46} {one:9.0f} {other:9.0f} {ratio}")
    return lines


def tasks(browser: Any, site: Path, stock: Path) -> list[str]:
    """The longest tasks, in lines; the cases take turns, so that other work hinders all alike."""
    cases = [(name, site / address, act) for name, address, act in CASES]
    cases.append(("open the stock page, for comparison", stock, ""))
    found: list[list[tuple[float, float]]] = [[] for _ in cases]
    for _ in range(ROUNDS):
        for (_, path, act), times in zip(cases, found, strict=True):
            times.append(longest_task(browser, path, act))
    lines = [f"longest task at {SIZE} fluids, ms, median of {ROUNDS}, under a tracer"]
    lines.append(f"{'':46} {'clock':>9} {'processor':>9} {'least':>9}")
    for (name, _, _), times in zip(cases, found, strict=True):
        clock, processor = zip(*times, strict=True)
        medians = f"{statistics.median(clock):9.0f} {statistics.median(processor):9.0f}"
        lines.append(f"{name:46} {medians} {min(clock):9.0f}")
    return lines


def show(lines: list[str]) -> None:
    """Print lines, at once."""
    sys.stdout.write("\n".join(lines) + "\n\n")
    sys.stdout.flush()


def main() -> None:
    """Build, measure, print."""
    with tempfile.TemporaryDirectory() as name:
        site, stock = Path(name) / "site", Path(name) / "stock"
        build(site)
        html = (site / FLUID).read_text(encoding="utf-8")
        plain = stock_page(html, stock)
        with browsing() as browser:
            show(weigh(browser, site / FLUID, plain))
            enlarge(site)
            show(tasks(browser, site, plain))
        show(unwatched(site, plain, Path(name)))


if __name__ == "__main__":
    main()
