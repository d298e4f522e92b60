"""One YAML file to a tree: never an exception, every part at its place, plain YAML only."""

from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from isofolio.entries.problems import Place
from isofolio.entries.tree import DEEPEST, KEY, MOST_NODES, Plain, read_tree

BASE = Path(__file__).parents[1] / "bad" / "base"
YAML_SIGNS = st.text("-:{}[],\"'&*!|>%@`#?<=~\\ \t\n\rab10µ\u2028é", max_size=80)


def sound(tree):
    return tree.root is not None and not tree.problems


def check(tree):
    """Either a root or problems, each with a place and a way out."""
    assert (tree.root is None) == bool(tree.problems)
    for problem in tree.problems:
        assert problem.place >= Place(1, 1)
        assert problem.message
        assert problem.fix
        problem.text().encode()


@given(st.binary(max_size=300))
@example(b"\xef\xbb\xbf")
@example(b"a: !%ED%A0%80 x")  # a tag that the parser itself cannot decode
@example(b"%TAG !e! tag:%ED%A0%80\n---\na: !e!x b\n")
def test_no_bytes_raise(raw):
    check(read_tree(raw, "a.yml"))


@given(YAML_SIGNS)
@example("x: \ufffe")
@example("? a\n: b")
@example("- - - -\n  - a")
@example("'")
@example("{")
@example("a: {\n")
@example("%")
def test_no_signs_of_yaml_raise(text):
    check(read_tree(text.encode(), "a.yml"))


@given(st.sampled_from(sorted(BASE.rglob("*.yml"))), st.data())
def test_no_spoilt_entry_raises(path, data):
    raw = path.read_bytes()
    start = data.draw(st.integers(0, len(raw)))
    end = data.draw(st.integers(start, min(start + 20, len(raw))))
    new = data.draw(st.one_of(st.just(b""), st.binary(max_size=5), YAML_SIGNS.map(str.encode)))
    check(read_tree(raw[:start] + new + raw[end:], path.name))


def leaves(node, path=()):
    if isinstance(node, dict):
        for key, item in node.items():
            yield (*path, key, KEY), key
            yield from leaves(item, (*path, key))
    elif isinstance(node, list):
        for number, item in enumerate(node):
            yield from leaves(item, (*path, number))
    else:
        yield path, node


@pytest.mark.parametrize("path", sorted(BASE.rglob("*.yml")), ids=lambda path: path.name)
def test_every_key_and_value_stands_where_its_place_says(path):
    tree = read_tree(path.read_bytes(), path.name)
    assert sound(tree)
    lines = tree.source.split("\n")
    found = list(leaves(tree.root))
    assert len(found) > 4
    for where, text in found:
        place = tree.place(where)
        rest = lines[place.line - 1][place.column - 1 :]
        assert rest.lstrip("'\"").startswith(text)


def test_a_part_without_a_place_stands_at_its_nearest_parent():
    tree = read_tree(b"a:\n  b: 1\n", "a.yml")
    assert tree.place(("a", "c", 3, "d")) == tree.place(("a",)) == Place(2, 3)
    assert tree.place(("z",)) == Place(1, 1)


def test_scalars_stay_text_and_quotes_are_remembered():
    tree = read_tree(b"a: 1e3\nb: \"no\"\nc: 'x'\nd: |\n  long\n", "a.yml")
    assert tree.root == {"a": "1e3", "b": "no", "c": "x", "d": "long\n"}
    assert [isinstance(tree.root[key], Plain) for key in "abcd"] == [True, False, False, False]


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("a: &x b", 'the anchor "&x"'),
        ("a: *x", 'the alias "*x"'),
        ("a: !!int 1", 'the tag "!!int"'),
        ("a: !x 1", 'the tag "!x"'),
        ("a: ! 1", 'the tag "!"'),
        ("a: 1\n---\nb: 2", "a second document"),
        ("<<: {a: 1}", "the merge key <<"),
        ("[a]: b", "a list or a mapping stands where a key is expected"),
        ("a: 1\na: 2", 'the key "a" stands here again; it stood in line 1'),
    ],
)
def test_the_rest_of_yaml_is_refused(text, part):
    (problem,) = read_tree(text.encode(), "a.yml").problems
    assert problem.message.startswith(part)


def test_every_duplicate_key_is_told():
    problems = read_tree(b"a: 1\nb: 2\na: 3\nb: {c: 1, c: 2}\n", "a.yml").problems
    assert [p.place for p in problems] == [Place(3, 1), Place(4, 1), Place(4, 11)]


def test_deep_and_long_files_end_at_the_limit():
    nested = "".join(f"{' ' * level}a:\n" for level in range(DEEPEST))
    assert sound(read_tree(nested.encode(), "a.yml"))
    deeper = nested + " " * DEEPEST + "a: 1\n"
    assert read_tree(deeper.encode(), "a.yml").problems[0].message == "more than 20 levels"
    longer = "a:\n" + "- x\n" * MOST_NODES
    assert "more than 20000" in read_tree(longer.encode(), "a.yml").problems[0].message


def test_a_bomb_of_brackets_is_refused():
    assert read_tree(b"[" * 200_000, "a.yml").problems
    assert read_tree(b"- " * 100_000, "a.yml").problems
    assert read_tree(b"{a: " * 60_000, "a.yml").problems


@pytest.mark.parametrize("text", ["", "\n\n", "# nothing\n", "---\n", '""'])
def test_empty_files_are_called_empty(text):
    (problem,) = read_tree(text.encode(), "a.yml").problems
    assert problem.message == "the file is empty"


def test_line_ends_and_mark_do_not_move_a_column():
    plain = read_tree("a: µ\nb: {c: d}\n".encode(), "a.yml")
    other = read_tree("\ufeffa: µ\r\nb: {c: d}\r\n".encode(), "a.yml")
    assert other.root == plain.root
    assert other.places == plain.places
    assert other.place(("b", "c")) == Place(2, 8)
