"""The one read-only thing: a catalogue without problems, its figures and its containers."""

import dataclasses
import math
import shutil
from pathlib import Path

import pytest

from isofolio.entries.fluids import Container
from isofolio.entries.lists import Interval
from isofolio.handbook import (
    UNDATED,
    check_catalogue,
    handbook_of,
    interval_of,
    millilitres,
    open_handbook,
)

CATALOGUE = Path(__file__).parents[1] / "catalogue"


@pytest.fixture(scope="module")
def handbook():
    opened = open_handbook(CATALOGUE)
    assert opened.problems == ()
    assert opened.handbook is not None
    return opened.handbook


@pytest.fixture
def broken(tmp_path):
    """A copy of the catalogue, to break."""
    copy = tmp_path / "catalogue"
    shutil.copytree(CATALOGUE, copy)
    return copy


def edit(folder, file, old, new):
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert old in text, f"{file} does not hold {old!r}"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_the_real_catalogue_opens_with_68_fluids(handbook):
    files = [f"{fluid.id}.yml" for fluid in handbook.fluids]
    assert len(files) == 68
    assert files == sorted(files)


def test_a_problem_keeps_it_shut(broken):
    edit(broken, "fluids/glucose-5.yml", "amount: 50.0 g/L", "amount: 50.0 grams")
    opened = open_handbook(broken)
    assert opened.handbook is None
    assert [problem.file for problem in opened.problems] == ["fluids/glucose-5.yml"]


def test_a_charge_that_does_not_close_keeps_it_shut(broken):
    edit(broken, "fluids/ringer-acetate.yml", "amount: 112 mmol/L", "amount: 121 mmol/L")
    opened = open_handbook(broken)
    assert opened.handbook is None
    assert any("charge does not close" in problem.message for problem in opened.problems)


def test_a_folder_that_is_not_there_is_a_problem(tmp_path):
    opened = open_handbook(tmp_path / "nothing")
    assert opened.handbook is None
    assert len(opened.problems) == 1


def test_the_digest_follows_the_catalogue(handbook, broken):
    reading, problems = check_catalogue(broken)
    assert problems == ()
    assert reading.digest == handbook.digest
    edit(broken, "fluids/glucose-5.yml", "amount: 50.0 g/L", "amount: 50.00 g/L")
    again, _ = check_catalogue(broken)
    assert again.digest != handbook.digest
    assert len(again.digest) == 12


def test_the_date_is_that_of_the_newest_change(handbook):
    assert handbook.date == max(change.on for change in handbook.catalogue.changes)


def test_without_changes_there_is_no_date(handbook, broken):
    (broken / "changes.yml").unlink()
    reading, _ = check_catalogue(broken)
    assert handbook_of(reading).date == UNDATED


def test_a_figure_or_its_reason(handbook):
    assert handbook.value("sodium-chloride-0-9", "sodium").number == pytest.approx(154.0, abs=0.01)
    albumin = handbook.value("albumin-20", "sodium")
    assert albumin.number is None
    assert albumin.reason == "declared as a range"


@pytest.mark.parametrize(("fluid", "quantity"), [("nonsense", "sodium"), ("glucose-5", "nonsense")])
def test_an_id_that_does_not_exist_is_a_key_error(handbook, fluid, quantity):
    with pytest.raises(KeyError):
        handbook.value(fluid, quantity)


def test_a_container_holds_its_share(handbook):
    half = handbook.in_container("potassium-chloride-0-3-glucose-5", "potassium", 500.0)
    whole = handbook.value("potassium-chloride-0-3-glucose-5", "potassium")
    assert half.number == pytest.approx(whole.number / 2)


def test_a_container_of_the_unknown_is_unknown_for_the_same_reason(handbook):
    assert handbook.in_container("albumin-20", "sodium", 100.0) == handbook.value(
        "albumin-20", "sodium"
    )


@pytest.mark.parametrize("quantity", ["osmolarity", "osmolality", "charge_gap"])
def test_what_does_not_scale_is_refused(handbook, quantity):
    with pytest.raises(ValueError, match=f"{quantity} does not scale with a volume"):
        handbook.in_container("glucose-5", quantity, 500.0)


def test_free_water_of_a_container_is_in_its_unit(handbook):
    # 500 mL of glucose 5 % hold 500 mL of electrolyte-free water; the quantity says "mL".
    assert handbook.in_container("glucose-5", "free_water", 500.0).number == pytest.approx(500.0)


def test_the_frame_has_every_figure_and_no_invented_one(handbook):
    frame = handbook.table()
    assert list(frame.index) == [fluid.id for fluid in handbook.fluids]
    assert set(frame.columns) == set(handbook.quantities)
    for fluid in handbook.fluids:
        for quantity in handbook.quantities:
            number = handbook.value(fluid.id, quantity).number
            cell = frame.loc[fluid.id, quantity]
            assert math.isnan(cell) if number is None else cell == number


def test_every_quantity_is_finite_or_has_a_reason(handbook):
    for fluid in handbook.fluids:
        for quantity in handbook.quantities:
            value = handbook.value(fluid.id, quantity)
            assert (value.number is None) == bool(value.reason)
            assert value.number is None or math.isfinite(value.number)


def test_the_intervals_beside_are_one_a_quantity(handbook):
    assert {"sodium", "potassium", "chloride", "bicarbonate", "glucose"} <= set(handbook.beside)
    assert all(interval.beside for interval in handbook.beside.values())


def test_nothing_in_it_can_be_changed(handbook):
    with pytest.raises(dataclasses.FrozenInstanceError):
        handbook.date = "tomorrow"
    with pytest.raises(TypeError):
        handbook.catalogue.fluids["glucose-5"] = None
    with pytest.raises(TypeError):
        handbook.measures.reasons["glucose-5", "sodium"] = "because"


@pytest.mark.parametrize(("volume", "millilitre"), [("500 mL", 500.0), ("1 L", 1000.0)])
def test_volume_of_a_container(volume, millilitre):
    assert millilitres(Container(volume=volume, kind="bag")) == millilitre


def test_a_volume_that_is_not_one_is_refused():
    with pytest.raises(ValueError, match='"not declared" is not a volume'):
        millilitres(Container(volume="not declared", kind="bag"))


def interval(text):
    cite = {"source": "some-source", "at": "a table", "seen": "read", "on": "2026-11-25"}
    return Interval(quantity="sodium", interval=text, population="adults", cite=cite)


def test_interval_as_declared():
    assert interval_of(interval("135 to 145 mmol/L")) == (135.0, 145.0)


@pytest.mark.parametrize("text", ["at most 145 mmol/L", "not declared"])
def test_an_interval_with_one_end_is_refused(text):
    with pytest.raises(ValueError, match="is not an interval"):
        interval_of(interval(text))


def test_an_absurd_strength_ends_in_no_traceback(broken):
    # A slip of the pen: 50.0 becomes 50000.0. It is a problem, or a null with a reason.
    edit(broken, "fluids/glucose-5.yml", "amount: 50.0 g/L", "amount: 50000.0 g/L")
    opened = open_handbook(broken)
    assert opened.problems or opened.handbook is not None
