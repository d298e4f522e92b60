"""Glossary and confusions: one name leads to one place, and a truth shows a figure of ours."""

import pytest

from isofolio.findings.consistency_teaching import confusions_show_a_number, terms_are_single

NAME_TAKEN = "Leave it to one of the two terms."
NO_FIGURE = "the truth of a confusion has no figure of the handbook"
NAME_ONE = "Name one between braces, as in {glucose-5 osmolarity}."


def term(name, others=""):
    return f"name: {name}\nalso_known_as: [{others}]\ntext: A text."


def confusion(truth):
    return f'name: A confusion\nsaid: It is said.\ntruth: "{truth}"\nwhy: It kills.'


@pytest.fixture
def judged(catalogue, told):
    """What both checks say of entries that are named a, b ... in one folder."""

    def say(folder, *entries):
        (catalogue / folder).mkdir(exist_ok=True)
        for name, text in zip("abc", entries, strict=False):
            whole = f"id: {name}\n{text}\ncite: common practice\nreview: {{state: draft}}\n"
            (catalogue / folder / f"{name}.yml").write_text(whole, encoding="utf-8")
        return told(catalogue, terms_are_single, confusions_show_a_number)

    return say


def test_terms_with_names_of_their_own(judged):
    assert judged("glossary", term("Anion", "negative ion"), term("Cation", "positive ion")) == []


def test_a_term_may_be_told_its_own_name_again(judged):
    assert judged("glossary", term("Anion", "anion, ANION")) == []


def test_two_terms_that_share_a_name(judged):
    """However it is written, and whether it is the first name of either or another one."""
    found = judged(
        "glossary",
        term("Anion", "negative ion, base"),
        term("ANION", "something"),
        term("Acid", "sour, Negative Ion, Something"),
    )
    assert found == [
        f'glossary/b.yml:2:7: the name "ANION" belongs to a already | {NAME_TAKEN}',
        f'glossary/c.yml:3:23: the name "Negative Ion" belongs to a already | {NAME_TAKEN}',
        f'glossary/c.yml:3:37: the name "Something" belongs to b already | {NAME_TAKEN}',
    ]


@pytest.mark.parametrize(
    "truth",
    [
        "It holds {glucose-5 osmolarity}.",
        "{glucose-5} has {glucose-5 glucose in 500 mL}.",
        "Plasma has {plasma sodium}; see {glucose-5}.",
    ],
)
def test_a_truth_with_a_figure(judged, truth):
    assert judged("confusions", confusion(truth)) == []


@pytest.mark.parametrize("truth", ["It is so.", "See {glucose-5}.", "It holds 278 {mOsm of it}."])
def test_a_truth_without_a_figure(judged, truth):
    """A name alone is no figure, and neither is what nobody can read as one."""
    sound = confusion("It holds {glucose-5 osmolarity}.")
    assert judged("confusions", sound, confusion(truth), confusion("So.")) == [
        f"confusions/{name}.yml:4:8: {NO_FIGURE} | {NAME_ONE}" for name in "bc"
    ]
