"""What the scripts of these pages may not hold: figures of their own, a way out, drawing."""

import re
from pathlib import Path

import pytest

SCRIPTS = Path(__file__).parents[2] / "site_src" / "scripts"
FILES = [SCRIPTS / name for name in ("compare.js", "explore.js", "gallery.js", "joining.js")]
ALLOWED = {"0", "1", "2"}
# Comments and texts hold no figure that is reckoned with.
NO_CODE = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\])*"', re.DOTALL)


def code(path):
    return NO_CODE.sub('""', path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_no_figure_but_places_in_lists(path):
    numbers = re.findall(r"(?<![\w.$])\d[\d_.]*(?:e\d+)?", code(path))
    assert set(numbers) <= ALLOWED


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_no_way_out_and_no_markup_from_text(path):
    words = r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|eval|Function\(|fetch|XMLHttp"
    words += r"|^import|^export|import\(|localStorage|https?:|\.style\b|setTimeout"
    assert re.findall(words, code(path), re.MULTILINE) == []


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_nothing_newer_than_the_oldest_browsers_we_promise(path):
    """Chromium 109 and Firefox 115 (from memory of their release notes): no later method."""
    newer = r"\.(toSorted|toReversed|toSpliced|with|groupBy|union|intersection|isWellFormed)\("
    assert re.findall(newer, code(path)) == []


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_one_global_only(path):
    assert set(re.findall(r"window\.(\w+) =", code(path))) <= {"isofolio"}


def test_the_comparing_script_draws_nothing():
    """design.md, section 6: it chooses ready-made columns and sets the viewBox."""
    text = (SCRIPTS / "compare.js").read_text(encoding="utf-8")
    made = set(re.findall(r'drawn\("(\w+)"', text))
    assert made == {"svg", "g", "use"}
    assert not re.findall(r'"(?:rect|path|line|polygon|circle|text)"', text)


@pytest.mark.parametrize("path", sorted(SCRIPTS.glob("*.js")), ids=lambda path: path.name)
def test_a_script_names_no_folder_of_assets(path):
    """A published copy names these folders anew: what a script reads stands beside it."""
    assert not re.findall(r"\b(?:scripts|styles|drawings)/", path.read_text(encoding="utf-8"))
