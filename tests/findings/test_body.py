"""What a fluid is in the body, asserted by id on the real cupboard and at each limit."""

import pytest

from isofolio.findings.body import WHILE_UNBURNT, body_of, classes_of


@pytest.mark.parametrize(
    ("fluid", "word"),
    [
        ("glucose-5", "Hypotonic: nearly water"),
        ("sodium-chloride-0-18-glucose-4", "Hypotonic: more than half water"),
        ("sodium-chloride-0-45", "Hypotonic: more than half water"),
        ("compound-sodium-lactate", "Slightly hypotonic"),
        ("multiple-electrolytes-type-1", "Isotonic"),
        ("sodium-chloride-0-9", "Isotonic"),
        ("sodium-bicarbonate-1-4", "Slightly hypertonic"),
        ("sodium-bicarbonate-8-4", "Hypertonic: 6.5 times plasma"),
        ("potassium-chloride-15", "Depends on what it is diluted in"),
        ("succinylated-gelatin-4", "Sodium 154\u00a0mmol/L, as 0.9\u202f% saline"),
        ("succinylated-gelatin-4-balanced", "Sodium 151\u00a0mmol/L"),
        ("albumin-20", "Read the label"),
    ],
)
def test_the_body(about, fluid, word):
    assert body_of(about(fluid)).word == word


def test_a_word_never_stands_without_its_numbers(real, about):
    for subject in map(about, real[0].fluids):
        statement = body_of(subject)
        if subject.number("tonicity_ratio") is not None:
            assert "beside plasma" in statement.because
            assert "310" in statement.because


def test_glucose_holds_only_once_it_is_burnt(about):
    assert body_of(about("glucose-5")).note == WHILE_UNBURNT
    assert body_of(about("sodium-chloride-0-9")).note == ""


@pytest.mark.parametrize(
    ("fluid", "in_bag", "in_body"),
    [
        ("glucose-5", "iso", "hypo"),
        ("sodium-chloride-0-45-glucose-5", "hyper", "hypo"),
        ("sodium-chloride-0-9", "iso", "iso"),
        ("sodium-chloride-3", "hyper", "hyper"),
        ("potassium-chloride-15", "hyper", None),
        ("succinylated-gelatin-4", "iso", None),
    ],
)
def test_classes(about, fluid, in_bag, in_body):
    found = classes_of(about(fluid))
    assert found == {"osmolarity_class": in_bag, "tonicity_class": in_body}


NAN = float("nan")


def plain(text):
    return text.replace("\xa0", " ").replace("\u202f", " ")


@pytest.mark.parametrize(
    ("ratio", "water", "word"),
    [
        (0.0, 1.0, "Hypotonic: nearly water"),
        (0.10, 0.85, "Hypotonic: nearly water"),
        (0.11, 0.84, "Hypotonic: more than half water"),
        (0.50, 0.495, "Hypotonic: more than half water"),
        (0.51, 0.494, "Hypotonic"),
        (0.794, 0.206, "Hypotonic"),
        (0.50, NAN, "Hypotonic"),
        (0.795, 0.205, "Slightly hypotonic"),
        (0.944, 0.056, "Slightly hypotonic"),
        (0.945, 0.055, "Isotonic"),
        (1.054, 0.0, "Isotonic"),
        (1.055, 0.0, "Slightly hypertonic"),
        (1.204, 0.0, "Slightly hypertonic"),
        (1.205, 0.0, "Hypertonic: 1.2 times plasma"),
        (6.458, 0.0, "Hypertonic: 6.5 times plasma"),
    ],
)
def test_the_word_changes_where_the_ratio_as_printed_does(made_subject, ratio, water, word):
    assert body_of(made_subject(tonicity_ratio=ratio, free_water=water)).word == word


@pytest.mark.parametrize(
    ("effective", "because"),
    [
        (0.0, "0 beside plasma’s 310 mOsm/L (0 %), effective particles."),
        (278.16, "278 beside plasma’s 310 mOsm/L (90 %), effective particles."),
        (154.85, "155 beside plasma’s 310 mOsm/L (50 %), effective particles."),
        (2000.4, "2000 beside plasma’s 310 mOsm/L (646 %), effective particles."),
    ],
)
def test_both_numbers_stand_beside_the_word(made_subject, effective, because):
    """By hand: the share is of 309.7, which prints as 310."""
    found = body_of(made_subject(effective_osmolarity=effective)).because
    assert plain(found) == because
    assert "310\xa0mOsm/L" in found
    assert "\u202f%" in found


@pytest.mark.parametrize(
    ("given", "word", "because"),
    [
        ({"role": "concentrate"}, "Depends on what it is diluted in", "Never given undiluted."),
        ({"role": "diluent"}, "Bursts red cells", "Water alone; never given alone."),
        ({"tonicity_ratio": NAN}, "Not known", "Not declared."),
        (
            {"colloid_mass": 40.0, "sodium": NAN},
            "Read the label",
            "Its sodium is not one figure. Ions only; the colloid is not counted.",
        ),
        (
            {"colloid_mass": NAN, "sodium": 140.0},
            "Sodium 140 mmol/L",
            "Ions only; the colloid is not counted.",
        ),
    ],
)
def test_without_a_ratio_another_word_stands_and_says_why(made_subject, given, word, because):
    found = body_of(made_subject(**given))
    assert (plain(found.word), found.because, found.note) == (word, because, "")


@pytest.mark.parametrize(
    ("sodium", "potassium", "word"),
    [
        (154.0, 0.0, "Sodium 154 mmol/L, as 0.9 % saline"),
        (153.5, 0.0, "Sodium 154 mmol/L, as 0.9 % saline"),
        (153.4, 0.0, "Sodium 153 mmol/L"),
        (154.6, 0.0, "Sodium 155 mmol/L"),
        (154.0, 4.0, "Sodium 154 mmol/L"),
        (154.0, NAN, "Sodium 154 mmol/L"),  # what is not known is not none
    ],
)
def test_a_colloid_is_as_saline_where_its_ions_print_alike(made_subject, sodium, potassium, word):
    given = {"colloid_mass": 40.0, "sodium": sodium, "potassium": potassium}
    assert plain(body_of(made_subject(**given)).word) == word


@pytest.mark.parametrize(
    ("fluid", "colloid"),
    [
        ("succinylated-gelatin-4", "gelatin"),
        ("albumin-20", "protein"),
        ("dextran-40-10", "dextran"),
        ("hydroxyethyl-starch-6", "starch"),
    ],
)
def test_the_colloid_that_is_not_counted_is_named(about, fluid, colloid):
    because = body_of(about(fluid)).because
    assert because.endswith(f"Ions only; the {colloid} is not counted.")


@pytest.mark.parametrize(
    ("osmolarity", "word"),
    [(249.4, "hypo"), (249.5, "iso"), (375.4, "iso"), (375.5, "hyper"), (NAN, None)],
)
def test_the_classes_change_at_their_limits_as_printed(made_subject, osmolarity, word):
    in_bag = classes_of(made_subject(osmolarity=osmolarity, tonicity_ratio=NAN))
    assert in_bag == {"osmolarity_class": word, "tonicity_class": None}
    in_body = classes_of(made_subject(effective_osmolarity=osmolarity, tonicity_ratio=1.0))
    assert in_body == {"osmolarity_class": "hypo", "tonicity_class": word}
