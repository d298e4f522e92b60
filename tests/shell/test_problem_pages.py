"""The addresses at which `serve` shows the problems of a catalogue."""

from isofolio.folio import FURTHER, NAVIGATION
from isofolio.shell.problem_pages import problem_pages


def test_every_address_that_a_file_name_implies(tmp_path):
    for name in ("fluids/a.yml", "mixing/b.yml", "fluids/notes.txt", "limits.yml"):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text("", encoding="utf-8")
    pages = {page.path: page for page in problem_pages(2, tmp_path, ["compare.html"])}
    shown = {address.partition("#")[0] for _, address in (*NAVIGATION, *FURTHER)}
    named = {"index.html", "404.html", "fluids/a.html", "mixing/b.html", "compare.html"}
    assert set(pages) == named | shown
    assert {page.title for page in pages.values()} == {"The catalogue has 2 problems"}
