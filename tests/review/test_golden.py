"""The golden tables are what the catalogue gives now."""

from pathlib import Path

import pytest

from isofolio.handbook import Handbook, open_handbook
from isofolio.review.golden import golden_tables

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def handbook() -> Handbook:
    opened = open_handbook(ROOT / "catalogue")
    assert opened.handbook is not None
    return opened.handbook


@pytest.mark.parametrize("name", ["quantities.tsv", "findings.tsv", "audit.tsv"])
def test_the_committed_table_is_not_stale(handbook: Handbook, name: str) -> None:
    committed = (ROOT / "tests" / "golden" / name).read_text(encoding="utf-8").splitlines()
    now = golden_tables(handbook)[name].splitlines()
    changed = sorted(set(committed) ^ set(now))[:10]
    assert committed == now, f"run `make golden` and read the diff; first changes: {changed}"


def test_every_fluid_and_every_quantity_is_there(handbook: Handbook) -> None:
    text = golden_tables(handbook)["quantities.tsv"]
    assert {line.split("\t")[0] for line in text.splitlines()[1:]} >= {
        fluid.id for fluid in handbook.fluids if fluid.contents
    }
    assert {line.split("\t")[1] for line in text.splitlines()[1:]} <= set(handbook.quantities)


def test_no_cell_breaks_the_table(handbook: Handbook) -> None:
    for name, text in golden_tables(handbook).items():
        widths = {line.count("\t") for line in text.splitlines()}
        assert len(widths) == 1, name
