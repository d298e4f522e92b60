"""Two sides to compare: a catalogue as it is, and a copy that a test edits."""

import shutil
from pathlib import Path

import pytest

from isofolio.review.comparison import compare
from isofolio.review.sides import side_of

ROOT = Path(__file__).parents[2]
SMALL = ROOT / "tests" / "bad" / "base"


class Draft:
    """A copy of a catalogue, and what an editor does to it."""

    def __init__(self, folder):
        self.folder = folder

    def replace(self, file, old, new):
        """Replace a piece of a file, which must stand there once."""
        text = self.read(file)
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
        return self.write(file, text.replace(old, new))

    def read(self, file):
        return (self.folder / file).read_text(encoding="utf-8")

    def write(self, file, text):
        (self.folder / file).parent.mkdir(exist_ok=True)
        (self.folder / file).write_text(text, encoding="utf-8", newline="\n")
        return self

    def remove(self, file):
        (self.folder / file).unlink()
        return self

    def rename(self, folder, old, new):
        """Give an entry another id, and mend every place that names it."""
        (self.folder / folder / f"{old}.yml").rename(self.folder / folder / f"{new}.yml")
        for path in self.folder.rglob("*.yml"):
            text = path.read_text(encoding="utf-8")
            if old in text:
                path.write_text(text.replace(old, new), encoding="utf-8", newline="\n")
        return self


@pytest.fixture(scope="session")
def drafted():
    """A function that copies a catalogue to a folder and lets a test edit it."""
    return lambda catalogue, folder: Draft(Path(shutil.copytree(catalogue, folder)))


@pytest.fixture
def draft(drafted, tmp_path):
    """A copy of the small catalogue."""
    return drafted(SMALL, tmp_path / "after")


@pytest.fixture
def compared(draft):
    """What the edits of the small catalogue do; `before`: another folder to start from."""

    def run(before=SMALL):
        return compare(side_of(before, "before"), side_of(draft.folder, "after"))

    return run
