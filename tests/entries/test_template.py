"""The entry that `new fluid` writes: whole, in order, and sound once its gaps are filled."""

import re

import pytest

from isofolio.entries.fluids import Fluid
from isofolio.entries.formatting import formatted
from isofolio.entries.reading import read_catalogue
from isofolio.entries.stock import Stock
from isofolio.entries.template import KINDS, NewEntryError, name_from, write_new

CITE = "{source: a-label, at: section 2, seen: read, on: 2026-11-25}"


def filled(text):
    """The template as an editor fills it in, the keys in comments opened too."""
    for key in ("diluent", "route", "with_blood", "complete"):
        text = re.sub(rf"^# ({key}:)", r"\1", text, flags=re.MULTILINE)
    text = re.sub(r"\{source: , at: , seen: , on: \}", CITE, text)
    text = text.replace("{substance: , amount: }", "{substance: glucose, amount: 75 g/L}")
    return text.replace("text: ,", "text: A sentence.,")


@pytest.mark.parametrize(("kind", "record"), [("fluid", Fluid), ("stock", Stock)])
def test_every_key_stands_in_it_in_the_order_of_the_record(kind, record):
    _, text_of = KINDS[kind]
    found = re.findall(r"^(?:# )?([a-z_]+):", text_of("an-id"), re.MULTILINE)
    assert [key for key in found if key in record.model_fields] == list(record.model_fields)


@pytest.mark.parametrize("kind", KINDS)
def test_it_is_written_in_order(kind):
    folder, text_of = KINDS[kind]
    text = text_of("an-id-0-9")
    assert formatted(text.encode(), f"{folder}/an-id-0-9.yml").decode() == text


@pytest.mark.parametrize(("kind", "gaps"), [("fluid", 6), ("stock", 1)])
def test_what_is_left_to_fill_in_is_told_and_nothing_else(catalogue, kind, gaps):
    path = write_new(catalogue, kind, "an-id")
    problems = read_catalogue(catalogue).problems
    assert {problem.file for problem in problems} == {f"{path.parent.name}/an-id.yml"}
    assert all("the value is empty" in problem.message for problem in problems)
    assert len(problems) == gaps


def test_a_fluid_filled_in_is_sound(catalogue):
    path = write_new(catalogue, "fluid", "glucose-7-5")
    path.write_text(filled(path.read_text(encoding="utf-8")), encoding="utf-8")
    reading = read_catalogue(catalogue)
    assert reading.problems == ()
    fluid = reading.catalogue.fluids["glucose-7-5"]
    assert fluid.name == "Glucose 7.5 %"
    assert fluid.review.state == "draft"
    assert fluid.complete is False
    assert fluid.route.vein == "large"


def test_a_stock_filled_in_is_sound(catalogue):
    path = write_new(catalogue, "stock", "hillcroft")
    text = path.read_text(encoding="utf-8").replace("{fluid: }", "{fluid: glucose-5}")
    path.write_text(text, encoding="utf-8")
    reading = read_catalogue(catalogue)
    assert reading.problems == ()
    assert reading.catalogue.stock["hillcroft"].name == "Hillcroft"


@pytest.mark.parametrize("identifier", ["Glucose", "a b", "../a", "", "a_b", "ä"])
def test_what_is_no_id_is_refused(catalogue, identifier):
    with pytest.raises(NewEntryError, match="use small letters a to z, digits, single hyphens"):
        write_new(catalogue, "fluid", identifier)


def test_an_id_of_another_entry_is_refused(catalogue):
    with pytest.raises(NewEntryError, match=r"exists already\. Edit it, or choose another id\."):
        write_new(catalogue, "fluid", "glucose-5")
    with pytest.raises(NewEntryError, match=r"situations/low-glucose\.yml has that id already"):
        write_new(catalogue, "fluid", "low-glucose")


@pytest.mark.parametrize(
    ("identifier", "name"),
    [
        ("glucose-7-5", "Glucose 7.5 %"),
        ("water-for-injections", "Water for injections"),
        ("sodium-chloride-0-45-glucose-2-5", "Sodium chloride 0.45 % glucose 2.5 %"),
    ],
)
def test_the_title_is_guessed_from_the_id(identifier, name):
    assert name_from(identifier) == name
