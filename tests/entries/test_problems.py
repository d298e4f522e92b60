"""How a problem is printed: the caret stands under the column, whatever the line looks like."""

from hypothesis import given
from hypothesis import strategies as st

from isofolio.entries.problems import (
    EXCERPT_LENGTH,
    QUOTED_LENGTH,
    Place,
    Problem,
    did_you_mean,
    excerpt,
    quoted,
)

LINE = st.text(st.characters(blacklist_characters="\n", blacklist_categories=["Cs"]), max_size=400)


def shown(character):
    if character == "\t":
        return " "
    return character if character.isprintable() else "·"


def caret_of(problem):
    """The line and the caret's position in it, of a problem as printed."""
    _, line, carets, *_ = problem.text().split("\n")
    prefix = line.index(" | ") + 3
    return line[prefix:], carets.index("^") - prefix


@given(st.lists(LINE, max_size=4), LINE, st.lists(LINE, max_size=4), st.data())
def test_caret_stands_under_the_named_column(before, line, after, data):
    line = f"x{line}"
    column = data.draw(st.integers(1, len(line)))
    source = "\n".join([*before, line, *after])
    place = Place(len(before) + 1, column)
    problem = Problem("a.yml", place, "message", "fix", excerpt(source, place))
    text, caret = caret_of(problem)
    assert text[caret] == shown(line[column - 1])
    assert len(text) <= EXCERPT_LENGTH


@given(LINE)
def test_short_lines_are_shown_whole(line):
    line = f"x{line[:100]}"
    assert excerpt(line, Place(1, 1)) == "".join(shown(c) for c in line)


def test_a_far_column_is_shown_with_what_surrounds_it():
    line = "".join(chr(ord("a") + n % 26) for n in range(1000))
    text = excerpt(line, Place(1, 500))
    assert text.startswith("…")
    assert text.endswith("…")
    assert line[490:510] in text


def test_a_line_that_is_not_there_has_no_excerpt():
    assert excerpt("a\nb", Place(3, 1)) == ""
    assert excerpt("a", Place(0, 1)) == ""


def test_a_problem_without_a_line_prints_place_and_fix():
    assert Problem("a.yml", Place(1, 1), "empty", "Fill it.").text() == (
        "a.yml:1:1: empty\n  Fill it."
    )


def test_problems_sort_by_file_line_and_column():
    late, early = (Problem("a.yml", Place(line, 1), "m") for line in (10, 9))
    assert sorted([late, early]) == [early, late]


@given(st.text(max_size=300))
def test_quoted_is_one_short_printable_line(text):
    said = quoted(text)
    assert len(said) <= QUOTED_LENGTH + 2
    assert said.isprintable()


def test_did_you_mean_says_nothing_where_nothing_is_near():
    assert did_you_mean("xenon", ["sodium", "chloride"]) == ""
