"""What the parser says in words of its own is told in ours."""

import pytest

from isofolio.entries.problems import Place
from isofolio.entries.tree import read_tree

# Everything that libyaml was seen to say of a malformed file, with the place an editor looks for.
MALFORMED = (
    ("at: Table 2: rows", Place(1, 12), "a second"),
    ("name: Glucose:", Place(1, 14), "a second"),
    ("id: a\n name: b", Place(2, 6), "does not stand under the key above"),
    ("id: a\nx: 'b\ny: c", Place(2, 4), "never closed"),
    ('id: a\nx: "b\ny: "c"', Place(3, 5), "text goes on after"),
    ("id: a\nx:\n\ty: b", Place(3, 1), "a tab"),
    ("x:\n  - a\n\t- b", Place(3, 1), "a tab"),
    ("x:\n    a: 1\n  b: 2", Place(3, 3), "does not stand under the line above"),
    ("x:\n  - a\n - b", Place(3, 2), "does not stand under the line above"),
    ("x:\n  - a\n  b: 2", Place(3, 3), "does not stand under the lines of the list"),
    ("  id: a\nname: b", Place(2, 1), "too far to the left"),
    ("id: a\nname Glucose\nrole: b", Place(2, 1), "neither a key"),
    ("id: a\nname:Glucose\nrole: b", Place(2, 1), "neither a key"),
    ("x: {a: 1, b: 2\ny: 3", Place(1, 4), "this { is never closed"),
    ("x: [a, b\ny: 3", Place(1, 4), "this [ is never closed"),
    ("x: {a: [1, 2}", Place(1, 8), "this [ is never closed"),
    ("x: {a: 1 b: 2}", Place(1, 11), "a comma or } is missing"),
    ("x: {a: 1}}", Place(1, 10), "text goes on after"),
    ("x: %w/v", Place(1, 4), "a value that starts with %"),
    ("x: @a", Place(1, 4), "a value that starts with @"),
    ("x: `a", Place(1, 4), "a value that starts with `"),
    ("x: & a", Place(1, 4), "a value that starts with &"),
    ("x: * a", Place(1, 4), "a value that starts with *"),
    ("x: ? a", Place(1, 4), "a value that starts with ?"),
    ("x: - a", Place(1, 4), "a list that starts beside its key"),
    ("x: > 5", Place(1, 4), "a value that starts with > or |"),
    ('x: "a\\q"', Place(1, 6), "a backslash inside double quotes"),
    ('x: "\\ud800"', Place(1, 7), "a backslash code"),
    ("%YAML 2.0\n---\na: 1", Place(1, 1), "a line that starts with %"),
    ("a: 1\n%foo bar", Place(2, 1), "a line that starts with %"),
    ("%TAG ! tag:x\n%TAG ! tag:x\n---\na: 1", Place(2, 1), "a line that starts with %"),
    ("x: !<y", Place(1, 4), "a value that starts with !"),
    ("x: !y!z a", Place(1, 4), "a value that starts with !"),
    ("x: >0\n  a", Place(1, 4), "a value that starts with > or |"),
    ('x: "\\xzz"', Place(1, 7), "a backslash code"),
    ('x: "a\n---\nb"', Place(1, 4), "never closed"),
    ("x: [a, , b]", Place(1, 8), "a value is missing"),
    ("...", Place(1, 1), "a value is missing"),
    ("a: " + "[" * 2000, Place(1, 1003), "brackets in brackets"),
)


@pytest.mark.parametrize(("text", "place", "part"), MALFORMED)
def test_malformed_files_are_told_in_our_words(text, place, part):
    (problem,) = read_tree(text.encode(), "a.yml").problems
    assert part in problem.message
    assert problem.place == place
    assert problem.fix
    assert "not YAML" not in problem.message
