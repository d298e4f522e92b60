"""The closed lists of words: no word twice, and no list that another contradicts."""

import re
from pathlib import Path

import pytest

from isofolio.vocabulary import terms

PACKAGE = Path(__file__).parents[2] / "generator" / "isofolio"
README = Path(__file__).parents[2] / "catalogue" / "README.md"
LISTS = [name for name in dir(terms) if isinstance(getattr(terms, name), tuple)]


@pytest.mark.parametrize("name", LISTS)
def test_no_word_stands_twice(name):
    words = getattr(terms, name)
    assert words
    assert len(set(words)) == len(words)
    assert all(isinstance(word, str) and word.strip() == word for word in words)


def test_every_limit_that_the_program_looks_up_by_name_is_listed():
    """A limit that a rule cannot do without is one whose absence `check` tells."""
    sources = [path.read_text(encoding="utf-8") for path in PACKAGE.rglob("*.py")]
    read = {name for text in sources for name in re.findall(r'limits\["([a-z0-9-]+)"\]', text)}
    assert len(read) >= 8
    assert read <= set(terms.LIMITS_READ)


def test_the_limits_of_a_scale_are_read_as_limits_of_its_quantity():
    for quantity, limits in terms.LIMITS_ASCENDING.items():
        assert {terms.LIMITS_READ[limit] for limit in limits} == {quantity}


@pytest.mark.parametrize(
    "name", ["NAME_KINDS", "CONTAINER_KINDS", "HYDRATES", "COLLOIDS", "SOURCE_KINDS", "FATES"]
)
def test_the_readme_of_editors_lists_the_same_words(name):
    text = README.read_text(encoding="utf-8")
    missing = [word for word in getattr(terms, name) if word not in text]
    assert not missing
