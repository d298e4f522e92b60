"""The order of an entry: always the same, and never another meaning."""

import random
import re
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as some

from isofolio.entries.files import FOLDERS, LISTS, record_type
from isofolio.entries.formatting import FormatError, formatted
from isofolio.entries.tree import read_tree

PROJECT = Path(__file__).parents[2]
CATALOGUE = PROJECT / "catalogue"
MODELINE = "# yaml-language-server: $schema=../schemas/fluids.json\n"
FLUID = "fluids/saline.yml"
SMALL = """\
# About the whole file.

id: saline
name: Saline 0.90 %
# Ready to hang,
# as it is.
role: ready  # not a concentrate
contents:
  - {substance: sodium-chloride, amount: 0.90 % w/v}
  # a trailing word on the contents
contents_cite: common practice
declared:
  - source: a-label
    at: |
      two lines,
        # and this is no comment

      of text
    seen: read
    on: 2026-11-25
    values:
      sodium: 154 mmol/L
      chloride: 154 mmol/L
review: {state: draft}
# The last word.
"""


def written(text, file=FLUID):
    return formatted(text.encode(), file).decode()


def tree(text, file=FLUID):
    read = read_tree(text.encode(), file)
    assert read.problems == []
    return read.root


def test_what_is_in_order_gains_only_its_modeline():
    assert written(SMALL) == MODELINE + SMALL
    assert written(MODELINE + SMALL) == MODELINE + SMALL


def test_keys_take_the_order_of_the_record_and_comments_go_with_them():
    shuffled = SMALL.replace(
        "# Ready to hang,\n# as it is.\nrole: ready  # not a concentrate\n", ""
    )
    shuffled = shuffled.replace(
        "review: {state: draft}\n",
        "review: {state: draft}\n# Ready to hang,\n# as it is.\nrole: ready  # not a concentrate\n",
    )
    assert shuffled != SMALL
    assert written(shuffled) == MODELINE + SMALL


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("id:   saline\nname:  'Saline'\n", 'id: saline\nname: "Saline"\n'),
        ("name: 'it''s'\nid: a\n", 'id: a\nname: "it\'s"\n'),
        ("name: 'say \"so\"'\nid: a\n", "id: a\nname: 'say \"so\"'\n"),
        ("id: a   \n\n\n\nname: b", "id: a\n\nname: b\n"),
        ("\n\nid: a\n\n\n", "id: a\n"),
        ("atc: { cite: {on: x,at: y ,  source: z}, code: c }\n", None),
        ("giving:\n  - cite: common practice\n    text: b\n", "giving:\n  - text: b\n    cite: common practice\n"),  # noqa: E501
        ("giving:\n  - cite: common practice\n    # why\n    text: b\n", "giving:\n  - cite: common practice\n    # why\n    text: b\n"),  # noqa: E501
        ("giving:\n  # first\n  - cite: c\n    text: b\n  # second\n  - text: d\n", "giving:\n  # first\n  - text: b\n    cite: c\n  # second\n  - text: d\n"),  # noqa: E501
        ("situations: [a,b ,c,]\n", "situations: [a, b, c]\n"),
        ("situations: [a,\n  b]\n", "situations: [a,\n  b]\n"),
        ("contents_cite: {seen: read,\n  at: b}\n", "contents_cite: {at: b,\n  seen: read}\n"),
        ("contents_cite: {seen: read, # why\n  at: b}\n", "contents_cite: {seen: read, # why\n  at: b}\n"),  # noqa: E501
        ("releases: {b: 1, a: 2}\n", "releases: {b: 1, a: 2}\n"),
        ("mystery: 1\nid: a\n", "id: a\nmystery: 1\n"),
        ("name: 'two\n\n  lines  '\nid: a\n", "id: a\nname: 'two\n\n  lines  '\n"),
        ("  name: b\n  id: a\n", "id: a\nname: b\n"),
        ("name: b\n\nid: a\n\n# The end.\n", "id: a\nname: b\n\n# The end.\n"),
        ("? name\n: b\n? id\n: a\n", "? id\n: a\n? name\n: b\n"),
        ("name: b\nid: |\n  a", "id: |\n  a\nname: b\n"),
        ("contents: []\r\nid: a\r\n", "id: a\ncontents: []\n"),
        ("\ufeffname: é µ\nid: a\n", "id: a\nname: é µ\n"),
        ("# yaml-language-server: $schema=elsewhere.json\nid: a\n", "id: a\n"),
        ("# a note\n# yaml-language-server: x\nid: a\n", "# a note\nid: a\n"),
    ],
)  # fmt: skip
def test_spaces_quotes_and_ends(before, after):
    after = after or "atc: {code: c, cite: {source: z, at: y, on: x}}\n"
    assert written(before) == MODELINE + after
    assert written(after) == MODELINE + after


def test_each_kind_of_file_names_its_own_schema():
    assert written("id: a\n", "sources/a.yml").startswith("# yaml-language-server: $schema=../sch")
    assert written("limits: []\n", "limits.yml").startswith(
        "# yaml-language-server: $schema=schemas/limits.json\n"
    )


@pytest.mark.parametrize(
    ("raw", "file", "said"),
    [
        (b"id: [a\n", FLUID, "fluids/saline.yml:1:5: this [ is never closed"),
        (b"id: a\nid: b\n", FLUID, "stands here again"),
        (b"\xff\xfeid", FLUID, "UTF-16"),
        (b"", FLUID, "the file is empty"),
        (b"id: a\n", "elsewhere/a.yml", "no kind of entry has this place"),
        (b"name: b\nid: a\n...\n", FLUID, "cannot be put in order"),
    ],
)
def test_what_cannot_be_read_is_told_and_left(raw, file, said):
    with pytest.raises(FormatError) as told:
        formatted(raw, file)
    assert said in str(told.value)


def test_the_catalogue_as_committed_is_in_order():
    out_of_order = [
        path.relative_to(CATALOGUE).as_posix()
        for path in sorted(CATALOGUE.rglob("*.yml"))
        if formatted(path.read_bytes(), path.relative_to(CATALOGUE).as_posix()) != path.read_bytes()
    ]
    assert out_of_order == [], "run  isofolio fmt"


def shuffled(node, kind, chance):
    """A tree written as YAML by the public library, its keys in another order at every level."""
    if isinstance(node, dict):
        items = list(node.items())
        chance.shuffle(items)
        return {key: shuffled(value, kind, chance) for key, value in items}
    return [shuffled(item, kind, chance) for item in node] if isinstance(node, list) else str(node)


@pytest.mark.parametrize("folder", FOLDERS)
def test_however_an_entry_is_shuffled_the_record_and_the_order_are_the_same(folder):
    """Half in blocks, half in braces: the library chooses how to quote, and the width of lines."""
    chance = random.Random(folder)
    for path in sorted((CATALOGUE / folder).glob("*.yml"))[:6]:
        file = f"{folder}/{path.name}"
        root = read_tree(path.read_bytes(), file).root
        kind = record_type(file)
        for flow in (None, False):
            text = yaml.safe_dump(
                shuffled(root, kind, chance),
                default_flow_style=flow,
                sort_keys=False,
                allow_unicode=True,
                width=chance.choice([40, 100, 10_000]),
            )
            after = written(text, file)
            assert tree(after, file) == tree(text, file)
            assert written(after, file) == after
            top = [line.partition(":")[0] for line in after.splitlines() if line[:1].isalpha()]
            if top:
                assert top == [name for name in kind.model_fields if name in top]


PIECES = some.sampled_from(
    [
        "id: a\n", "name: b\n", "role: ready  # inline\n", "# a comment\n", "\n", "  # deeper\n",
        "contents:\n  - {amount: 1 g/L, substance: s}\n  - substance: t\n    amount: '2'\n",
        "status_note:\n  cite: common practice\n  text: >\n    folded # no comment\n\n    text\n",
        'giving: [{cite: x, text: "y"},\n  {text: z}]\n', "review: {state: draft}\n",
        "declared:\n- values: {ph: 5, energy: 1}\n  # why\n  source: é\n", "with_blood: 'µ'\n",
        "name_: |+\n  kept\n\n\n", "complete: no\n", "   \n", "situations:\n\n  - a\n\n  - b\n",
    ]
)  # fmt: skip


@given(some.lists(PIECES, max_size=9, unique=True))
def test_nothing_that_is_read_changes_and_a_second_run_changes_nothing(pieces):
    text = "".join(pieces)
    if read_tree(text.encode(), FLUID).problems:
        return
    try:
        after = written(text)
    except FormatError:
        assert "|+" in text, "only a text that keeps its last blank lines may be refused"
        return
    assert tree(after) == tree(text)
    assert written(after) == after
    assert sorted(re.findall(r"\w+", after)) == sorted(re.findall(r"\w+", MODELINE + text))


def test_lists_of_the_catalogue_have_their_record():
    assert all(record_type(file) for file in LISTS)
