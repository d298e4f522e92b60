"""What no script of the finder may hold: figures of its own, a way out, a way in for markup."""

import re
from pathlib import Path

import pytest

SCRIPTS = Path(__file__).parents[2] / "site_src" / "scripts"
FILES = sorted(SCRIPTS.glob("finder*.js"))
ALLOWED = {"0", "1", "2"}

# Comments, texts and regular expressions hold no figure that is reckoned with.
NO_CODE = re.compile(
    r"""/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\])*"|(?<=[(,=:!&|?{};\s])/(?![*/])(?:\\.|\[[^\]]*\]|[^/\\\n])+/[a-z]*""",
    re.DOTALL,
)


def code(path):
    return NO_CODE.sub('""', path.read_text(encoding="utf-8"))


def test_there_are_scripts():
    assert "finder.js" in {path.name for path in FILES}


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
