"""A project folder with a small handbook, and ways to build it."""

import hashlib
import os
import runpy
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from isofolio.shell.frame import STYLES

PROJECT = Path(__file__).parents[2]
SMALL_SITE = Path(__file__).with_name("small_site.py")
ABOUT = """# About

Read [what glucose holds](fluids/glucose-5.md#holds).

| quantity | figure |
|---|--:|
| sodium | 154 |
"""


@pytest.fixture
def small_site(monkeypatch):
    """The small handbook, put in the real one's place for this test."""
    module = runpy.run_path(str(SMALL_SITE))
    monkeypatch.setattr("isofolio.shell.plugin.site_files", module["site_files"])
    return module


@pytest.fixture
def project(tmp_path):
    """A project folder with our own mkdocs.yml and one hand-written page."""
    folder = tmp_path / "project"
    (folder / "catalogue" / "fluids").mkdir(parents=True)
    (folder / "catalogue" / "fluids" / "saline.yml").write_text("id: saline\n", encoding="utf-8")
    for name in (*STYLES, "scripts/isofolio.js", "scripts/finder.js"):
        path = folder / "site_src" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f"/* {name} */\n", encoding="utf-8")
    (folder / "site_src" / "scripts" / "extra.js").write_text("\n", encoding="utf-8")
    (folder / "site_src" / "about.md").write_text(ABOUT, encoding="utf-8")
    shutil.copy(PROJECT / "mkdocs.yml", folder)
    return folder


@pytest.fixture
def build(project, small_site):
    """A function that builds the project in this process and returns the folder of the site."""

    def run(strict=False, site="site", **options):
        from mkdocs.commands.build import build
        from mkdocs.config import load_config

        plugins = [{"isofolio": {"catalogue": str(project / "catalogue"), **options}}]
        config = load_config(
            str(project / "mkdocs.yml"),
            strict=strict,
            site_dir=str(project / site),
            plugins=plugins,
        )
        config.plugins.on_startup(command="build", dirty=False)
        try:
            build(config)
        finally:
            config.plugins.on_shutdown()
        return Path(config.site_dir)

    return run


@pytest.fixture
def mkdocs(project):
    """A function that runs `mkdocs ARGUMENTS` on the project in another process."""

    def run(*arguments):
        return subprocess.run(
            [sys.executable, str(SMALL_SITE), *arguments],
            cwd=project,
            env=os.environ | {"NO_MKDOCS_2_WARNING": "1"},
            capture_output=True,
            text=True,
            timeout=120,
            check=False,
        )

    return run


@pytest.fixture
def digest():
    """A function that returns one digest of every name and byte below a folder."""

    def of(folder):
        sums = [
            f"{path.relative_to(folder).as_posix()} {hashlib.sha256(path.read_bytes()).hexdigest()}"
            for path in sorted(folder.rglob("*"))
            if path.is_file()
        ]
        return "\n".join(sums)

    return of
