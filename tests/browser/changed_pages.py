"""Pictures of the pages that a change touches: `changed_pages.py BASE FOLDER`, for a reviewer.

Builds the handbook of BASE, a Git revision, and of the working tree, compares what stands in their
pages, and writes a picture of each page that is new or says something else, at two widths. Pages
that the change removes are named in the list beside the pictures.
"""

import re
import shutil
import subprocess
import sys
import tarfile
import tempfile
from io import BytesIO
from pathlib import Path

PROJECT = Path(__file__).parents[2]
WIDTHS = (1366, 390)
# A change of one limit may touch every page; nobody looks at more pictures than these.
MOST = 60
# A list of every figure is longer than any picture is good for.
TALLEST = 4000
# What names the copy of the catalogue differs on every page, and says nothing.
COPY = re.compile(r'<p class="(?:stamp|this-copy)">.*?</p>|catalogue of [^<]*', re.DOTALL)
MAIN = re.compile(r"<main.*</main>", re.DOTALL)


def main(base: str, folder: Path) -> None:
    """Build both, compare, take the pictures."""
    with tempfile.TemporaryDirectory() as scratch:
        before, after = Path(scratch) / "before", Path(scratch) / "after"
        if not (_extracted(base, Path(scratch)) and _built(Path(scratch) / "catalogue", before)):
            sys.stdout.write(f"{base} makes no site with this program: nothing to compare with.\n")
            return
        if not _built(PROJECT / "catalogue", after):
            sys.exit("No pictures: mend what is named above first.")
        changed, gone = compared(before, after)
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "pages.txt").write_text(listing(changed, gone), encoding="utf-8", newline="\n")
        sys.stdout.write(listing(changed, gone))
        _take(after, changed[:MOST], folder)


def compared(before: Path, after: Path) -> tuple[list[str], list[str]]:
    """The pages that are new or say something else, fluids first, and those that are gone."""
    old, new = _pages(before), _pages(after)
    changed = [page for page in new if old.get(page) != new[page]]
    changed.sort(key=lambda page: not page.startswith("fluids/"))
    return changed, [page for page in old if page not in new]


def listing(changed: list[str], gone: list[str]) -> str:
    """What the reviewer reads first.

    >>> listing(["fluids/a.html"], [])
    '1 page new or changed:\\n  fluids/a.html\\n'
    """
    count = "1 page" if len(changed) == 1 else f"{len(changed)} pages"
    over = f" (pictures of the first {MOST})" if len(changed) > MOST else ""
    lines = [f"{count} new or changed{over}:" if changed else "No page changed."]
    lines += [f"  {page}" for page in changed]
    lines += [f"gone: {page}" for page in gone]
    return "\n".join(lines) + "\n"


def _pages(site: Path) -> dict[str, str]:
    """What stands in each page, by its address, without what names the copy."""
    texts = {p.relative_to(site).as_posix(): p.read_text("utf-8") for p in site.rglob("*.html")}
    found = {page: MAIN.search(text) for page, text in sorted(texts.items())}
    return {page: COPY.sub("", main[0] if main else texts[page]) for page, main in found.items()}


def _extracted(base: str, scratch: Path) -> bool:
    """Whether the catalogue of a Git revision now stands in `scratch`."""
    command = ["git", "archive", base, "catalogue"]
    done = subprocess.run(command, cwd=PROJECT, capture_output=True, check=False)
    if done.returncode == 0:
        with tarfile.open(fileobj=BytesIO(done.stdout)) as archive:
            archive.extractall(scratch, filter="data")
    return done.returncode == 0


def _built(catalogue: Path, site: Path) -> bool:
    command = [sys.executable, "-m", "isofolio", "--catalogue", str(catalogue), "build"]
    return (
        subprocess.run([*command, "--site-dir", str(site)], cwd=PROJECT, check=False).returncode
        == 0
    )


def _take(site: Path, pages: list[str], folder: Path) -> None:
    from playwright.sync_api import sync_playwright

    program = shutil.which("chromium")
    if program is None:
        sys.exit("Pictures need Chromium: run  make browser  first.")
    with sync_playwright() as running:
        browser = running.chromium.launch(executable_path=program, args=["--no-sandbox"])
        for width in WIDTHS:
            page = browser.new_page(viewport={"width": width, "height": 800})
            for address in pages:
                page.goto((site / address).as_uri())
                name = address.removesuffix(".html").replace("/", "-")
                height = page.evaluate("document.documentElement.scrollHeight")
                page.set_viewport_size({"width": width, "height": min(height, TALLEST)})
                page.screenshot(path=folder / f"{name}-{width}.png")
        browser.close()


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit("Write  changed_pages.py BASE FOLDER.")
    main(sys.argv[1], Path(sys.argv[2]))
