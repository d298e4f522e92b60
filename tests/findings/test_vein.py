"""What a vein may have to bear, asserted by id on the real cupboard and at each limit."""

from dataclasses import replace

import pytest

from isofolio.entries.fluids import Declared, Route
from isofolio.entries.scalars import parse_amount
from isofolio.findings.conditions import Subject
from isofolio.findings.vein import (
    CENTRAL,
    DILUTE,
    LARGE,
    NOT_USED,
    SMALL,
    UNKNOWN,
    VeinStatement,
    vein_of,
)

NAN = float("nan")


def plain(statement):
    """With plain spaces, as a sentence is typed."""
    return replace(statement, because=statement.because.replace("\xa0", " "))


@pytest.mark.parametrize(
    ("fluid", "word", "because"),
    [
        ("sodium-chloride-0-9", SMALL, "308"),
        ("compound-sodium-lactate", SMALL, "278"),
        ("sodium-chloride-0-9-glucose-5", SMALL, "586"),  # just under 600
        ("potassium-chloride-0-15-sodium-chloride-0-9-glucose-5", LARGE, "600"),  # 626
        ("sodium-chloride-1-8", LARGE, "600"),  # 616
        ("potassium-chloride-0-2-glucose-5", SMALL, "331"),
        ("potassium-chloride-0-3-glucose-5", LARGE, "40"),  # at the limit of 40
        ("potassium-chloride-40-mmol-in-100-ml", CENTRAL, "400"),
        ("glucose-10", SMALL, "555"),
        ("glucose-20", CENTRAL, ""),
        ("sodium-chloride-3", CENTRAL, "1027"),
        ("sodium-bicarbonate-8-4", CENTRAL, "2000"),
        ("mannitol-10", CENTRAL, "label"),  # the published route of the title, not its figures
        ("potassium-chloride-15", DILUTE, "diluted"),
        ("water-for-injections", DILUTE, "red cells"),
        ("albumin-20", UNKNOWN, "is not known here"),
        ("albumin-5", UNKNOWN, "is not known here"),
        ("albumin-4", UNKNOWN, "is not known here"),
        ("hydroxyethyl-starch-6", NOT_USED, "not to be hung"),
    ],
)
def test_the_vein(about, fluid, word, because):
    statement = vein_of(about(fluid))
    assert statement.word == word
    assert because in statement.because


def test_a_small_vein_is_named_only_where_its_figures_are_known(real, about):
    for subject in map(about, real[0].fluids):
        if vein_of(subject).word == SMALL:
            assert subject.number("osmolarity") is not None
            assert subject.number("potassium") is not None
            assert subject.fluid.status == "current"


def test_the_vein_is_never_called_safe(real, about):
    for statement in (vein_of(about(fluid)) for fluid in real[0].fluids):
        assert "safe" not in (statement.word + statement.because).lower()


@pytest.mark.parametrize(
    ("figures", "word", "because", "limit"),
    [
        ({"osmolarity": 600.4}, SMALL, "Osmolarity 600 mOsm/L, not above 600 mOsm/L.", ""),
        (
            {"osmolarity": 308.0, "potassium": 4.0},
            SMALL,
            "Osmolarity 308 mOsm/L, not above 600 mOsm/L; potassium 4 mmol/L.",
            "",
        ),
        (
            {"osmolarity": 600.5},
            LARGE,
            "Osmolarity in the bag 601 mOsm/L, above the limit of 600 mOsm/L.",
            "vein-watch-site",
        ),
        (
            {"osmolarity": 900.4},
            LARGE,
            "Osmolarity in the bag 900 mOsm/L, above the limit of 600 mOsm/L.",
            "vein-watch-site",
        ),
        (
            {"osmolarity": 900.5},
            CENTRAL,
            "Osmolarity in the bag 901 mOsm/L, above the limit of 900 mOsm/L.",
            "vein-central-preferred",
        ),
        (
            {"potassium": 39.4},
            SMALL,
            "Osmolarity 0 mOsm/L, not above 600 mOsm/L; potassium 39 mmol/L.",
            "",
        ),
        (
            {"potassium": 39.5},
            LARGE,
            "Potassium 40 mmol/L, at the limit for a small vein of 40 mmol/L.",
            "potassium-small-vein",
        ),
        (
            {"potassium": 40.4},
            LARGE,
            "Potassium 40 mmol/L, at the limit for a small vein of 40 mmol/L.",
            "potassium-small-vein",
        ),
        (
            {"potassium": 40.5},
            CENTRAL,
            "Potassium 41 mmol/L, above the limit of 40 mmol/L.",
            "potassium-small-vein",
        ),
        ({"glucose_mass": 100.4}, SMALL, "Osmolarity 0 mOsm/L, not above 600 mOsm/L.", ""),
        (
            {"glucose_mass": 100.5},
            CENTRAL,
            "Glucose, anhydrous 101 g/L, above the limit of 100 g/L.",
            "vein-glucose",
        ),
        # The worst counts, and of two that are as bad the first of the table.
        (
            {"osmolarity": 700.0, "potassium": 60.0},
            CENTRAL,
            "Potassium 60 mmol/L, above the limit of 40 mmol/L.",
            "potassium-small-vein",
        ),
        (
            {"osmolarity": 2000.0, "potassium": 60.0},
            CENTRAL,
            "Osmolarity in the bag 2000 mOsm/L, above the limit of 900 mOsm/L.",
            "vein-central-preferred",
        ),
        # What is not known is no figure below a limit, and hides none that is known.
        ({"osmolarity": NAN}, UNKNOWN, "Osmolarity in the bag is not known here.", ""),
        ({"potassium": NAN}, UNKNOWN, "Potassium is not known here.", ""),
        (
            {"osmolarity": NAN, "potassium": 40.0},
            LARGE,
            "Potassium 40 mmol/L, at the limit for a small vein of 40 mmol/L.",
            "potassium-small-vein",
        ),
    ],
)
def test_the_figure_that_decides_is_told_with_its_limit(
    made_subject, figures, word, because, limit
):
    found = vein_of(made_subject(**figures))
    assert plain(found) == VeinStatement(word, because, limit)


def test_figure_and_unit_never_part_at_the_end_of_a_line(made_subject):
    strong = vein_of(made_subject(osmolarity=700.0)).because
    assert strong == "Osmolarity in the bag 700\xa0mOsm/L, above the limit of 600\xa0mOsm/L."
    small = vein_of(made_subject(osmolarity=278.0, potassium=5.4)).because
    assert small == ("Osmolarity 278\xa0mOsm/L, not above 600\xa0mOsm/L; potassium 5.4\xa0mmol/L.")


@pytest.mark.parametrize(
    ("declared", "word", "because"),
    [
        (["8.0 to 9.4"], SMALL, "Osmolarity 0 mOsm/L, not above 600 mOsm/L."),
        (["8.0 to 9.5"], LARGE, "pH 9.5, above the limit of 9."),
        (["9.8", "7.0 to 9.0"], LARGE, "pH 9.8, above the limit of 9."),
        (["not declared", "9.8"], LARGE, "pH 9.8, above the limit of 9."),
        (["not declared"], SMALL, "Osmolarity 0 mOsm/L, not above 600 mOsm/L."),
    ],
)
def test_of_ph_the_highest_that_any_label_declares(made_subject, declared, word, because):
    labels = [Declared.model_construct(values={"ph": parse_amount(text)}) for text in declared]
    silent = Declared.model_construct(values={"sodium": parse_amount("154 mmol/L")})
    found = vein_of(made_subject(declared=[silent, *labels]))
    assert (found.word, plain(found).because) == (word, because)


@pytest.mark.parametrize(("vein", "word"), [("large", LARGE), ("central", CENTRAL)])
def test_what_the_product_text_says_of_the_vein_stands_as_it_is(made_subject, vein, word):
    route = Route.model_construct(vein=vein, text="A label wants it so.")
    assert vein_of(made_subject(route=route)) == VeinStatement(word, "A label wants it so.")
    strong = vein_of(made_subject(route=route, osmolarity=2000.0))
    assert strong.word == CENTRAL


@pytest.mark.parametrize(
    ("fields", "word", "because"),
    [
        (
            {"status": "not-for-use"},
            NOT_USED,
            "No vein is named for a fluid that is not to be hung.",
        ),
        ({"role": "concentrate"}, DILUTE, "A concentrate: it is diluted before use."),
        (
            {"role": "diluent"},
            DILUTE,
            "Alone it bursts red cells: it only dissolves and dilutes.",
        ),
    ],
)
def test_what_is_not_hung_as_it_is_has_no_vein(made_subject, fields, word, because):
    found = vein_of(made_subject(osmolarity=2000.0, **fields))
    assert found == VeinStatement(word, because)


def test_a_limit_that_a_catalogue_does_not_hold_is_passed_over(make, limits):
    """The limits after it are still looked at, and a sentence names none that is not there."""
    few = {"potassium-small-vein": limits["potassium-small-vein"]}
    catalogue, table = make({"potassium": 41.0}, {"osmolarity": 2000.0}, limits=few)
    told = [vein_of(Subject(fluid, catalogue, table)) for fluid in catalogue.fluids.values()]
    assert told[0].limit == "potassium-small-vein"
    assert plain(told[1]) == VeinStatement(SMALL, "Osmolarity 2000 mOsm/L.")
