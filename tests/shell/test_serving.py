"""What `serve` shows after edits is what a clean build of the same catalogue writes, byte for byte.

No published source: this is how the project's own tools must behave.
"""

import random
import re
import runpy
import shutil
from pathlib import Path
from types import SimpleNamespace

import pytest
from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config

from isofolio.shell.contents import read_contents
from isofolio.shell.plugin import IsofolioPlugin

edited = SimpleNamespace(**runpy.run_path(str(Path(__file__).with_name("random_edits.py"))))
CATALOGUE = Path(__file__).parents[2] / "catalogue"
FLUIDS = (
    "compound-sodium-lactate",
    "glucose-5",
    "glucose-10",
    "potassium-chloride-0-3-glucose-5",
    "sodium-chloride-0-45",
    "sodium-chloride-0-9",
)
WHOLE = ("substances", "particles.yml", "plasma.yml", "limits.yml")
EDITS, WHOLE_AFTER = 40, 18
ASKED = 4  # pages that the editor looks at after an edit


@pytest.fixture
def small_catalogue(project):
    """Six real fluids and what they need, in the place of the project's catalogue."""
    folder = project / "catalogue"
    shutil.rmtree(folder)
    folder.mkdir()
    for name in WHOLE:
        copy = shutil.copytree if (CATALOGUE / name).is_dir() else shutil.copy
        copy(CATALOGUE / name, folder / name)
    for name in ("fluids", "cautions", "sources"):
        (folder / name).mkdir()
    for name in FLUIDS:
        text = (CATALOGUE / "fluids" / f"{name}.yml").read_text(encoding="utf-8")
        text = re.sub(r"^situations: .*\n", "", text, flags=re.MULTILINE)
        (folder / "fluids" / f"{name}.yml").write_text(text, encoding="utf-8")
    for path in (CATALOGUE / "cautions").glob("*.yml"):
        text = path.read_text(encoding="utf-8")
        named = re.findall(r"^(?:raised_by|not_by): (.*)$", text, flags=re.MULTILINE)
        if set(named) <= set(FLUIDS) and "situation" not in text:
            shutil.copy(path, folder / "cautions")
    texts = "".join(path.read_text(encoding="utf-8") for path in folder.rglob("*.yml"))
    for name in set(re.findall(r"source: ([a-z0-9-]+)", texts)):
        shutil.copy(CATALOGUE / "sources" / f"{name}.yml", folder / "sources")
    return folder


class Preview:
    """A running `serve`, without its socket: it rebuilds, and hands out what is asked for."""

    def __init__(self, project, site):
        self.site, self.file = site, str(project / "mkdocs.yml")
        self.catalogue = str(project / "catalogue")
        self.plugin = None

    def rebuild(self):
        plugins = [{"isofolio": {"catalogue": self.catalogue}}]
        config = load_config(self.file, site_dir=str(self.site), plugins=plugins)
        self.plugin = config.plugins["isofolio"]
        config.plugins.on_startup(command="serve", dirty=False)
        config.site_url = "http://127.0.0.1:8000/"
        mkdocs_build(config, serve_url=config.site_url)

    def waiting(self):
        return sorted(self.plugin.on_request)

    def ask(self, path):
        """What the server answers."""
        seen = []
        application = self.plugin.waiting.made_first(lambda *_: seen, "/")
        assert application({"PATH_INFO": f"/{path}"}, None) is seen
        return (self.site / path).read_bytes()


def tree(folder):
    """Every file of a site."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def read_anew(catalogue, stock, _):
    """What the handbook has to show when nothing is remembered."""
    return read_contents(catalogue, stock)


def clean_tree(project, site, monkeypatch):
    """What MkDocs writes into an empty folder when every file is read and nothing put off."""
    with monkeypatch.context() as patched:
        patched.setattr("isofolio.shell.plugin.site_files", read_anew)
        patched.setattr(IsofolioPlugin, "_put_off", lambda *_: None)
        Preview(project, site).rebuild()
    return tree(site)


def test_serve_shows_what_a_clean_build_shows(small_catalogue, project, tmp_path, monkeypatch):
    made = edited.edits(small_catalogue, chance := random.Random(7))
    preview, kinds, whole, problems = Preview(project, tmp_path / "preview"), [], 0, 0
    for number in range(1, EDITS + 1):
        kinds.append(next(made))
        preview.rebuild()
        contents = read_anew(small_catalogue, None, None)
        assert preview.plugin.contents.problems == contents.problems
        if contents.problems:
            problems += 1
            assert "The catalogue has" in (preview.site / "index.html").read_text(encoding="utf-8")
            continue
        assert preview.plugin.contents.handbook.catalogue == contents.handbook.catalogue
        planned = {file.path: file for file in contents.files if file.path.endswith(".html")}
        for path in chance.sample(sorted(planned), ASKED):
            page = preview.ask(path).decode("utf-8")
            assert planned[path].made().content in page
            assert f"digest <code>{contents.digest}</code>" in page
        if number - whole >= WHOLE_AFTER:
            whole = number
            for path in preview.waiting():
                preview.ask(path)
            assert tree(preview.site) == clean_tree(project, tmp_path / "clean", monkeypatch)
    assert whole
    assert set(kinds) == set(edited.KINDS)
    assert problems
