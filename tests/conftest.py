"""One real browser for every test that needs one: Playwright allows one a process."""

import shutil

import pytest

# Scripts that are run by hand: `make bench`, `make golden`, `make mutants`, `make screenshots`,
# `make torture`.
collect_ignore_glob = ["bench/*", "golden/*", "browser/screenshots.py", "finder/benchmark.py"]
collect_ignore_glob += ["mutation/*", "torture/run.py"]

MISSING = (
    "These tests need Chromium, and there is no command `chromium` here. "
    "Install it with `make browser`, or with the system's own packages."
)


@pytest.fixture(scope="session")
def chromium():
    """A headless Chromium that can look up no name: it reaches this machine and no other."""
    from playwright.sync_api import sync_playwright

    program = shutil.which("chromium")
    if program is None:
        pytest.fail(MISSING)
    arguments = ["--no-sandbox", "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"]
    with sync_playwright() as running:
        browser = running.chromium.launch(executable_path=program, args=arguments)
        yield browser
        browser.close()
