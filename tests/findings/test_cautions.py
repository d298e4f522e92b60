"""The cautions of the real cupboard: each raised by one fluid and not by its near neighbour."""

from collections import Counter
from pathlib import Path

import pytest

from isofolio.entries.cautions import Caution, Condition
from isofolio.entries.reading import read_catalogue
from isofolio.findings.cautions import cautions_of, ordered, raises, severity
from isofolio.handbook import Handbook, open_handbook
from isofolio.pages.answers import ROOM, boxes
from isofolio.vocabulary.terms import SIGNAL_WORDS

CATALOGUE = Path(__file__).parents[2] / "catalogue"
IDS = sorted(read_catalogue(CATALOGUE).catalogue.cautions)


@pytest.fixture(scope="module")
def handbook() -> Handbook:
    opened = open_handbook(CATALOGUE)
    assert opened.handbook is not None
    return opened.handbook


@pytest.mark.parametrize("identifier", IDS)
def test_each_caution_has_a_fluid_that_raises_it_and_a_neighbour_that_does_not(
    real, about, identifier
):
    caution = real[0].cautions[identifier]
    assert caution in cautions_of(about(caution.raised_by))
    assert caution not in cautions_of(about(caution.not_by))


def test_danger_comes_first_then_by_id(about):
    found = [(one.signal, one.id) for one in cautions_of(about("potassium-chloride-15"))]
    signals = list(dict.fromkeys(signal for signal, _ in found))
    assert signals == ["danger", "warning", "notice"]
    assert found == sorted(found, key=lambda one: (signals.index(one[0]), one[1]))


def test_severity_rises_from_danger_to_notice(real):
    found = {caution.signal: severity(caution) for caution in real[0].cautions.values()}
    assert found == {"danger": 0, "warning": 1, "caution": 2, "notice": 3}


def made(identifier, signal="caution", applies=("ready",), unless=()):
    """A caution of made-up conditions, each of which asks for one role."""
    return Caution.model_construct(
        id=identifier,
        signal=signal,
        applies=[Condition(when="role", roles=[role]) for role in applies],
        unless=[Condition(when="role", roles=[role]) for role in unless],
    )


@pytest.mark.parametrize(
    ("applies", "unless", "holds"),
    [
        (["ready"], [], True),
        (["ready", "concentrate"], [], False),
        (["concentrate"], [], False),
        (["ready"], ["concentrate"], True),
        (["ready"], ["concentrate", "ready"], False),
    ],
)
def test_every_condition_must_hold_and_no_exception(made_subject, applies, unless, holds):
    assert raises(made("one", applies=applies, unless=unless), made_subject()) is holds


def test_within_a_signal_word_what_fewest_fluids_raise_comes_first():
    """By severity, then how many fluids raise it, then id: "b" and "d" once, "a" twice, "c" 3."""
    a, b, c, d = (made(name) for name in "abcd")
    danger = made("z", signal="danger")
    raised_by = {"a": 2, "b": 1, "c": 3, "d": 1, "z": 2}.__getitem__
    assert [one.id for one in ordered((a, b, c, d), raised_by)] == ["b", "d", "a", "c"]
    assert [one.id for one in ordered((a, c, danger), raised_by)] == ["z", "a", "c"]
    assert [one.id for one in ordered((c, danger), raised_by)] == ["z", "c"]


@pytest.fixture(scope="module")
def counts(handbook: Handbook) -> Counter[str]:
    """How many fluids raise each caution."""
    return Counter(c.id for one in handbook.judgements.values() for c in one.cautions)


def test_most_severe_first_and_within_a_word_the_rarest(
    handbook: Handbook, counts: Counter[str]
) -> None:
    for judgement in handbook.judgements.values():
        ranks = [(severity(c), counts[c.id], c.id) for c in judgement.cautions]
        assert ranks == sorted(ranks)


def test_ordering_does_not_depend_on_the_order_that_was(
    handbook: Handbook, counts: Counter[str]
) -> None:
    for judgement in handbook.judgements.values():
        backwards = reversed(judgement.cautions)
        assert ordered(backwards, counts.__getitem__) == judgement.cautions


def test_no_first_screen_shows_more_than_three_and_danger_is_never_left_out(
    handbook: Handbook,
) -> None:
    for fluid in handbook.fluids:
        for rows in (0, 5, 6, 7, 12):
            shown = boxes(handbook, fluid, rows)
            lines = [line["id"] for box in shown for line in box["lines"]]
            assert len(lines) <= 3
            dangers = [
                c.id
                for c in handbook.judgements[fluid.id].cautions
                if c.signal == "danger" and c.said_by is None
            ]
            assert set(dangers[: min(most for _, most in ROOM)]) <= set(lines)
            order = [SIGNAL_WORDS.index(box["signal"]) for box in shown]
            assert order == sorted(order)


@pytest.mark.parametrize(
    "fluid", ["sodium-chloride-0-9", "compound-sodium-lactate", "glucose-5", "sodium-chloride-0-45"]
)
def test_an_everyday_fluid_shows_one_box_or_none(handbook: Handbook, fluid: str) -> None:
    assert len(boxes(handbook, handbook.catalogue.fluids[fluid], 5)) <= 1


def test_a_notice_never_takes_room_on_the_first_screen(handbook: Handbook) -> None:
    for fluid in handbook.fluids:
        assert all(box["signal"] != "notice" for box in boxes(handbook, fluid, 3))


def test_every_imperative_stands_on_one_line(handbook: Handbook) -> None:
    for caution in handbook.catalogue.cautions.values():
        assert len(caution.imperative) <= 90
        assert "!" not in caution.imperative + caution.text


def test_what_the_body_row_stands_for_is_named_in_it(handbook: Handbook) -> None:
    unnamed = [
        caution.id
        for caution in handbook.catalogue.cautions.values()
        if caution.said_by == "body" and not caution.short
    ]
    # That a fluid is hypotonic in the body is the row's own word.
    assert unnamed == ["iso-osmotic-but-hypotonic"]
