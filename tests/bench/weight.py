"""What a page weighs and how soon it shows, beside a stock page of the same content in one run.

Then the longest task of the main thread while pages open, in a handbook of 5,000 fluids. Both are
read over file://, as from a file share. Part of `make bench`; milliseconds hold only for one
machine, and other work on it makes them longer: read the ratio, and the processor's own time.
"""

import json
import shutil
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

from stock import stock_page
from synthetic import enlarged

from isofolio.entries.reading import read_catalogue
from isofolio.finder.index import finder_data
from isofolio.findings.judgements import judge
from isofolio.handbook import Handbook, handbook_of
from isofolio.measures.table import table_of
from isofolio.pages.fluids import fluids_page

PROJECT = Path(__file__).parents[2]
FLUID = "fluids/potassium-chloride-0-3-glucose-5.html"
ALL_FLUIDS = "fluids.html"
SIZE = 5_000
ROUNDS = 7
KINDS = {".html": "HTML", ".css": "CSS", ".js": "JS"}
AIM_RATIO, AIM_TASK = 1.1, 50.0  # issue 4
PAINT = "() => performance.getEntriesByName('first-contentful-paint')[0].startTime"
STANDS_STILL = "() => !document.querySelector('#all-fluids[aria-busy]')"
Act = Callable[[Any], None]
TASKS = "ThreadControllerImpl::RunTask"


@contextmanager
def browsing() -> Iterator[Any]:
    """A headless Chromium that can look up no name."""
    from playwright.sync_api import sync_playwright

    arguments = ["--no-sandbox", "--host-resolver-rules=MAP * ~NOTFOUND"]
    with sync_playwright() as running:
        browser = running.chromium.launch(executable_path=shutil.which("chromium"), args=arguments)
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


def first_paints(browser: Any, paths: list[Path]) -> list[float]:
    """Median time to the first contentful paint of each page [ms]; the pages take turns."""
    times: list[list[float]] = [[] for _ in paths]
    for turn in range(ROUNDS + 1):
        for path, taken in zip(paths, times, strict=True):
            with opened(browser, path) as page:
                page.wait_for_timeout(200)
                time = page.evaluate(PAINT)
            if turn:  # the first of all warms the browser and the disk
                taken.append(time)
    return [statistics.median(taken) for taken in times]


def longest_task(
    browser: Any, path: Path, act: Callable[[Any], None] | None
) -> tuple[float, float]:
    """The longest task of the main thread [ms]: by the clock, and of the processor alone.

    While the page opens; with `act`, while that is done on the open page.
    """
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    if act is not None:
        page.goto(path.as_uri())
    browser.start_tracing(page=page, categories=["toplevel", "__metadata"])
    if act is None:
        page.goto(path.as_uri())
    else:
        act(page)
    page.wait_for_timeout(300)
    trace = json.loads(browser.stop_tracing())
    context.close()
    tasks = list(_main_thread(trace["traceEvents"]))
    wall = max(task["dur"] for task in tasks)
    return wall / 1000, max(task.get("tdur", 0) for task in tasks) / 1000


def _main_thread(events: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    """The finished tasks of the threads that run pages."""
    threads = {
        (event["pid"], event["tid"])
        for event in events
        if event["name"] == "thread_name" and event["args"]["name"] == "CrRendererMain"
    }
    for event in events:
        if (event["pid"], event["tid"]) in threads and event["name"] == TASKS and "dur" in event:
            yield event


def sort(page: Any) -> None:
    """Sort the table of all fluids by a figure."""
    page.click('#all-fluids th[data-key="sodium"] button')
    page.wait_for_function(STANDS_STILL)


def filter_rows(page: Any) -> None:
    """Filter the table of all fluids by an ion."""
    page.select_option("select[name=potassium]", "holds")
    page.wait_for_function(STANDS_STILL)


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
    (site / "scripts" / "finder-data.js").write_text(finder_data(handbook), encoding="utf-8")


def weigh(browser: Any, ours: Path, stock: Path) -> list[str]:
    """Our page beside the stock page, in lines."""
    mine, theirs = weights(browser, ours), weights(browser, stock)
    rows = [(f"{kind}, bytes", mine[kind], theirs[kind]) for kind in mine]
    rows.append(("all, bytes", sum(mine.values()), sum(theirs.values())))
    paints = first_paints(browser, [ours, stock])
    rows.append((f"first contentful paint, ms, median of {ROUNDS}", *paints))
    lines = [f"{'':46} {'ours':>9} {'stock':>9} {'ratio':>6}   aim: at most {AIM_RATIO}"]
    for name, one, other in rows:
        ratio = f"{one / other:6.2f}" if other else "     -"
        lines.append(f"{name:46} {one:9.0f} {other:9.0f} {ratio}")
    return lines


def tasks(browser: Any, site: Path) -> list[str]:
    """The longest tasks, in lines."""
    cases: list[tuple[str, str, Act | None]] = [
        ("open the home page", "index.html", None),
        ("open all fluids", ALL_FLUIDS, None),
        ("open the page of a fluid", FLUID, None),
        ("sort all fluids", ALL_FLUIDS, sort),
        ("filter all fluids", ALL_FLUIDS, filter_rows),
    ]
    lines = [f"longest task at {SIZE} fluids, ms, median of {ROUNDS}; aim: at most {AIM_TASK:.0f}"]
    lines.append(f"{'':46} {'clock':>9} {'processor':>9}")
    for name, address, act in cases:
        found = [longest_task(browser, site / address, act) for _ in range(ROUNDS)]
        wall, cpu = (statistics.median(times) for times in zip(*found, strict=True))
        lines.append(f"{name:46} {wall:9.0f} {cpu:9.0f}")
    return lines


def show(lines: list[str]) -> None:
    """Print lines, at once."""
    sys.stdout.write("\n".join(lines) + "\n\n")
    sys.stdout.flush()


def main() -> None:
    """Build, measure, print."""
    with tempfile.TemporaryDirectory() as name, browsing() as browser:
        site, stock = Path(name) / "site", Path(name) / "stock"
        build(site)
        html = (site / FLUID).read_text(encoding="utf-8")
        show(weigh(browser, site / FLUID, stock_page(html, stock)))
        enlarge(site)
        show(tasks(browser, site))


if __name__ == "__main__":
    main()
