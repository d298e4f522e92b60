"""Pictures of a page of every kind, to look at: `make screenshots` writes them to screenshots/.

Two widths, light and dark, and on paper; the first screen of every fluid besides, in one width.
"""

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

PROJECT = Path(__file__).parents[2]
PICTURES = PROJECT / "screenshots"
SITE = "site"
SIZES = ((1366, 768), (390, 844))
SCHEMES = ("light", "dark")
CHOSEN = (
    "fluids/sodium-chloride-0-9.html",
    "fluids/potassium-chloride-0-3-sodium-chloride-0-18-glucose-4.html",
    "fluids/potassium-chloride-15.html",
    "fluids/succinylated-gelatin-4-balanced.html",
    "fluids/hydroxyethyl-starch-6.html",
    "fluids/water-for-injections.html",
    "substances/glucose-monohydrate.html",
    "cards/potassium-chloride-0-3-glucose-5.html",
    "comparisons/potassium-in-three-strengths.html",
    "equipment/transfusion-set.html",
    "situations/low-glucose.html",
    "tutorials/potassium.html",
)
TALLEST = 6000  # of a picture of a whole page [px]: what follows looks no different
NARROW = (1093, 614)  # the first screen of a 1366 px desk at 125 %


def main() -> None:
    """Build the handbook, then take every picture."""
    from playwright.sync_api import sync_playwright

    program = shutil.which("chromium")
    if program is None:
        sys.exit("Pictures need Chromium: run  make browser  first.")
    shutil.rmtree(PICTURES, ignore_errors=True)
    PICTURES.mkdir()
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as running:
        site = built(Path(folder) / SITE)
        browser = running.chromium.launch(executable_path=program, args=["--no-sandbox"])
        mixing = min(site.glob("mixing/*.html"))
        kinds = [*sorted(site.glob("*.html")), *(site / address for address in CHOSEN), mixing]
        for size in SIZES:
            for scheme in SCHEMES:
                take(browser, kinds, size, scheme, whole=scheme == "light")
        take(browser, sorted(site.glob("fluids/*.html")), NARROW, "light", whole=False)
        print_all(browser, kinds)
        browser.close()
    count = len(list(PICTURES.iterdir()))
    sys.stdout.write(f"{count} pictures and prints stand in {PICTURES}.\n")


def built(site: Path) -> Path:
    """The folder of a freshly built handbook; ends the run where it cannot be built."""
    command = [sys.executable, "-m", "isofolio", "build", "--site-dir", str(site)]
    if subprocess.run(command, cwd=PROJECT, check=False).returncode:
        sys.exit("No pictures: mend what is named above first.")
    return site


def named(path: Path) -> str:
    """The name of a picture: the folder before the name, since a card is named as its fluid."""
    return path.stem if path.parent.name == SITE else f"{path.parent.name}-{path.stem}"


def take(browser, pages, size, scheme, whole) -> None:  # type: ignore[no-untyped-def]
    """A picture of the first screen of each page, and where it is asked for, of the whole page."""
    viewport = {"width": size[0], "height": size[1]}
    context = browser.new_context(viewport=viewport, color_scheme=scheme)
    page = context.new_page()
    for path in pages:
        page.goto(path.as_uri())
        page.screenshot(path=PICTURES / f"{named(path)}-{size[0]}-{scheme}.png")
        if whole:
            height = min(page.evaluate("() => document.documentElement.scrollHeight"), TALLEST)
            page.screenshot(
                path=PICTURES / f"{named(path)}-{size[0]}-{scheme}-whole.png",
                full_page=True,
                clip={"x": 0, "y": 0, "width": size[0], "height": height},
            )
    context.close()


def print_all(browser, pages) -> None:  # type: ignore[no-untyped-def]
    """Each page as it leaves the printer of a reader whose screen is dark."""
    page = browser.new_context(color_scheme="dark").new_page()
    for path in pages:
        page.goto(path.as_uri())
        page.pdf(path=PICTURES / f"{named(path)}.pdf", prefer_css_page_size=True)


if __name__ == "__main__":
    main()
