"""How a build grows: whole handbooks of 68, 1,000 and 5,000 fluids beside a stock site of the same
pages, each built in a process of its own. Part of `make bench`.

Times are the processor's, of that process alone, so that other work on the machine counts little;
still they hold only for one machine: read the ratios. The stock site is built twice: with its
defaults, and in its favour, its pages left out of a navigation whose cost grows with their square.
At more than 1,000 fluids only the latter is built: the former would take an hour.

    python tests/bench/builds.py [SIZE ...] [--no-stock]
"""

import os
import shutil
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

from stock import SETTINGS, markdown_of
from written import write_catalogue

PROJECT = Path(__file__).parents[2]
SIZES = (68, 1_000, 5_000)
AIM_RATIO, AIM_GROWTH, AIM_MEGABYTES = 0.35, 5.5, 400.0
AIM_VERSION, AIM_CHECK = 0.3, 1.0
MOST_IN_NAVIGATION = 1_000
OUT_OF_NAVIGATION = "nav:\n  - index.md\nnot_in_nav: |\n  *\n"


@dataclass(frozen=True)
class Run:
    """What one command took: seconds of the processor, and the most memory it held [MB]."""

    seconds: float
    megabytes: float


def run(*arguments: str, folder: Path) -> Run:
    """Run this Python with some arguments and weigh that process alone."""
    with Path(os.devnull).open("w") as nothing:
        actions = [(os.POSIX_SPAWN_DUP2, nothing.fileno(), 1)]
        command = [sys.executable, *arguments]
        before = Path.cwd()
        os.chdir(folder)
        child = os.posix_spawn(sys.executable, command, os.environ, file_actions=actions)
        os.chdir(before)
        _, status, used = os.wait4(child, 0)
    if status:
        raise SystemExit(f"{' '.join(arguments)} ended with an error in {folder}")
    return Run(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def project_of(size: int, folder: Path) -> Path:
    """A project folder whose catalogue holds so many fluids."""
    folder.mkdir()
    write_catalogue(PROJECT / "catalogue", folder / "catalogue", size)
    shutil.copytree(PROJECT / "site_src", folder / "site_src")
    shutil.copy(PROJECT / "mkdocs.yml", folder)
    return folder


def stock_project(site: Path, folder: Path) -> Path:
    """The pages of a built handbook as Markdown, for the stock theme with its defaults."""
    for page in site.rglob("*.html"):
        path = folder / "docs" / page.relative_to(site).with_suffix(".md")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(markdown_of(page.read_text(encoding="utf-8")), encoding="utf-8")
    return folder


def pages_of(site: Path) -> tuple[int, float]:
    """How many pages a site has, and how many bytes one has on average."""
    sizes = [page.stat().st_size for page in site.rglob("*.html")]
    return len(sizes), sum(sizes) / len(sizes)


def measured(size: int, folder: Path, with_stock: bool) -> Run:
    """Build one handbook, and the stock site of its pages; print both."""
    ours = project_of(size, folder / f"ours-{size}")
    mine = run("-m", "isofolio", "build", folder=ours)
    show(f"{size} fluids, this program", mine, ours / "site")
    if with_stock:
        theirs = stock_project(ours / "site", folder / f"stock-{size}")
        for kind, settings in (("no navigation", OUT_OF_NAVIGATION), ("defaults", "")):
            if settings or size <= MOST_IN_NAVIGATION:
                beside_stock(size, mine, theirs, kind, settings)
        shutil.rmtree(theirs)
    shutil.rmtree(ours)
    return mine


def beside_stock(size: int, mine: Run, theirs: Path, kind: str, settings: str) -> None:
    """Build the stock site with some settings; print it and the ratio."""
    (theirs / "mkdocs.yml").write_text(SETTINGS + settings, encoding="utf-8")
    other = run("-m", "mkdocs", "build", "--quiet", folder=theirs)
    show(f"{size} fluids, stock, {kind}", other, theirs / "site")
    ratio = mine.seconds / other.seconds
    say(f"{size} fluids: {ratio:.2f} of that stock build's time (aim at 1,000: {AIM_RATIO})")


def show(name: str, used: Run, site: Path) -> None:
    """One line of the table."""
    count, average = pages_of(site)
    page = f"{1000 * used.seconds / count:6.1f} ms a page"
    size = f"{count:6d} pages of {average / 1000:5.1f} kB"
    say(f"{name:36} {used.seconds:8.2f} s {used.megabytes:6.0f} MB {size} {page}")


def say(line: str) -> None:
    """Print a line at once."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def commands() -> None:
    """The commands that somebody waits for."""
    version = run("-m", "isofolio", "--version", folder=PROJECT)
    check = min(run("-m", "isofolio", "check", folder=PROJECT).seconds for _ in range(3))
    say(f"isofolio --version: {version.seconds:.2f} s (aim: {AIM_VERSION})")
    say(f"isofolio check: {check:.2f} s, the best of three (aim: {AIM_CHECK})")


def main(arguments: list[str]) -> None:
    """Measure every size, then the growth from the last but one to the last."""
    with_stock = "--no-stock" not in arguments
    sizes = [int(text) for text in arguments if text.isdigit()] or list(SIZES)
    commands()
    with tempfile.TemporaryDirectory() as name:
        runs = [measured(size, Path(name), with_stock) for size in sizes]
    if len(runs) > 1:
        growth = runs[-1].seconds / runs[-2].seconds
        say(f"from {sizes[-2]} to {sizes[-1]} fluids: {growth:.1f} times (aim: {AIM_GROWTH})")
        say(f"most memory: {runs[-1].megabytes:.0f} MB (aim: {AIM_MEGABYTES:.0f})")


if __name__ == "__main__":
    main(sys.argv[1:])
