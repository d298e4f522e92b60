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
