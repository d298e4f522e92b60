"""`isofolio card`: chosen cards in one file, and what it says when it cannot write them."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from isofolio.cli import main

PROJECT = Path(__file__).parents[1]
# The unit in the head of each size of a card.
MILLILITRES = "mL</th>"


def run(*words):
    return CliRunner().invoke(main, ["--project", str(PROJECT), "card", *words])


def test_chosen_cards_stand_in_one_file_with_their_styles(tmp_path):
    done = run("glucose-5", "potassium-chloride-15", "glucose-5", "--out", str(tmp_path / "new"))
    assert done.exit_code == 0, done.output
    text = (tmp_path / "new" / "cards.html").read_text(encoding="utf-8")
    assert text.count('<article class="card"') == 2
    assert "--paper: #ffffff" in text
    assert "Uncontrolled when printed." in text
    assert "cards.html: open it and print." in done.output


def test_a_card_for_one_hospital_holds_the_sizes_that_are_kept(tmp_path):
    sizes = []
    for stock in ((), ("--stock", "lindenmoor")):
        assert run("glucose-20", "--out", str(tmp_path), *stock).exit_code == 0
        sizes.append((tmp_path / "cards.html").read_text(encoding="utf-8").count(MILLILITRES))
    assert sizes[1] < sizes[0]
    done = run("glucose-20", "--out", str(tmp_path), "--stock", "nowhere")
    assert done.exit_code == 1
    assert "there is no such stock" in done.output


def test_an_unknown_fluid_is_named_and_nothing_is_written(tmp_path):
    done = run("glucose-5", "glucose-6", "--out", str(tmp_path))
    assert done.exit_code == 2
    assert "No fluid has the id glucose-6." in done.output
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_made_is_a_sentence(tmp_path):
    (tmp_path / "file").write_text("here", encoding="utf-8")
    done = run("glucose-5", "--out", str(tmp_path / "file"))
    assert done.exit_code == 2
    assert "Nothing was written; name a folder with --out." in done.output
    assert "Traceback" not in done.output


@pytest.mark.parametrize("words", [(), ("--out", "there")])
def test_no_fluid_is_wrong_use(words):
    assert run(*words).exit_code == 2
