"""Figures in hand-written pages: there when the page is built, and a fault stops the build.

No published source: this is how the project's own tools must behave.
"""

import re
from pathlib import Path

import pytest
from mkdocs.exceptions import Abort

from isofolio.handbook import open_handbook
from isofolio.pages.tutorials import TUTORIALS
from isofolio.shell.contents import Contents
from isofolio.shell.shortcodes import with_figures

BASE = Path(__file__).parents[1] / "bad" / "base"
HEAD = "---\ntitle: About\n---\n"


@pytest.fixture(scope="module")
def handbook():
    """The small sound catalogue of the tests of entries."""
    opened = open_handbook(BASE)
    assert opened.handbook is not None
    return opened.handbook


@pytest.fixture
def pages(build, small_site, handbook, monkeypatch, project):
    """A function that writes one hand-written page and builds, with figures to look up."""
    files = small_site["site_files"](project / "catalogue", None, None).files
    names = ("teaching.html", "glossary.html", "cautions.html")
    there = {file.path for file in files}
    extra = [type(files[0])(name, "<h1>A page</h1>", "A page") for name in names]
    whole = (*files, *(page for page in extra if page.path not in there))
    contents = Contents(files=whole, digest="0123456789ab", date="2026-11-25", handbook=handbook)
    monkeypatch.setattr("isofolio.shell.plugin.site_files", lambda *_: contents)
    (project / "site_src" / "scripts" / "teaching.js").write_text("\n", encoding="utf-8")

    def run(text, name="about.md"):
        path = project / "site_src" / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return build(strict=True)

    return run


def test_a_figure_stands_on_the_page(pages):
    site = pages(f"{HEAD}# About\n\nHas {{glucose-5 osmolarity}}: {{glucose-5}} at 0.9 %.\n")
    page = (site / "about.html").read_text(encoding="utf-8")
    # 50 g/L over 180.16 g/mol: arithmetic
    assert "Has 278\u00a0mOsm/L: Glucose\u00a05\u202f% at\u00a00.9\u202f%." in page


def test_a_share_of_a_container_and_plasma(pages):
    site = pages("# About\n\n{glucose-5 glucose_mass in 500 mL} and {plasma sodium}\n")
    page = (site / "about.html").read_text(encoding="utf-8")
    assert "25\u00a0g and 135–145\u00a0mmol/L" in page


@pytest.mark.parametrize(
    ("shortcode", "message"),
    [
        ("{glucose-55 osmolarity}", 'there is no "glucose-55" in fluids/'),
        ("{glucose-5 osmolarty}", '"osmolarty" is not a quantity'),
        ("{glucose-5 osmolarity in 500 mL}", "a container holds no share of osmolarity"),
        ("{glucose-5, osmolarity}", '"glucose-5, osmolarity" between braces names no figure'),
        ("{plasma effective_osmolarity}", "of plasma only the intervals of plasma.yml"),
        ("{glucose-5", '"{" between braces names no figure'),
    ],
)
def test_a_wrong_shortcode_stops_the_build_and_the_old_site_stays(
    pages, project, digest, shortcode, message
):
    pages("# About\n\nBefore.\n")
    before = digest(project / "site")
    with pytest.raises(Abort) as stopped:
        pages(f"{HEAD}# About\n\nGood {{glucose-5}}.\nNow {shortcode} there.\n")
    told = str(stopped.value)
    assert f"site_src/about.md:7:5: {message}" in told
    assert f"    7 | Now {shortcode} there.\n      |     ^" in told
    assert "The site was not replaced." in told
    assert stopped.value.code == 1
    assert digest(project / "site") == before
    assert [path.name for path in project.iterdir() if path.name.startswith(".site")] == []


def test_every_wrong_shortcode_is_told_in_one_run(pages):
    with pytest.raises(Abort) as stopped:
        pages("# About\n\n{glucose-6}\n\n{glucose-5 salt}\n")
    assert re.findall(r"about\.md:(\d+):(\d+)", str(stopped.value)) == [("3", "1"), ("5", "1")]


def test_an_unknown_figure_is_no_figure(handbook):
    text, problems = with_figures(handbook, "{gelatin-4 tonicity_ratio}", "a.md", "")
    assert text == "{gelatin-4 tonicity_ratio}"
    assert [problem.message.split(":")[0] for problem in problems] == [
        "gelatin-4 tonicity_ratio is no figure"
    ]


def test_a_tutorial_gets_its_head_and_its_script(pages):
    tutorial = TUTORIALS[0]
    answer = '<details markdown="1">\n<summary>Why?</summary>\n\n**{glucose-5}**\n\n</details>\n'
    site = pages(f"## One\n\n{answer}", f"tutorials/{tutorial.id}.md")
    page = (site / "tutorials" / f"{tutorial.id}.html").read_text(encoding="utf-8")
    assert f"<h1>{tutorial.title}</h1>" in page
    assert "<summary>Why?</summary>" in page
    assert "<strong>Glucose\u00a05\u202f%</strong>" in page
    assert 'src="../scripts/teaching.js"' in page
    assert '<a href="../teaching.html">Teaching</a>' in page


def test_a_tutorial_that_no_list_leads_to(pages):
    with pytest.raises(Abort, match=r"tutorials/more\.md:1:1: this tutorial is not in the list"):
        pages("## One\n", "tutorials/more.md")
