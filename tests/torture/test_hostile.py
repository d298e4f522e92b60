"""No bytes, record or amount brings a traceback, a hang or a silent oddity: a clear problem, or
something sound. The same examples at every run; run.py looks for others.

Sources: YAML 1.2.2; Unicode 15, chapter 23 and UAX #9 (bidirectional controls), UTS #39
(confusables); the alias bomb is the well-known "billion laughs". All from memory.
"""

import runpy
import tracemalloc
from pathlib import Path
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from isofolio.entries.characters import LARGEST_FILE
from isofolio.vocabulary.units import UNITS

HERE = Path(__file__).parent
oracle = SimpleNamespace(**runpy.run_path(str(HERE / "oracle.py")))
inputs = SimpleNamespace(**runpy.run_path(str(HERE / "inputs.py")))

MOST_MEMORY = 30_000_000
FILES = st.sampled_from(oracle.files())
REAL = sorted((HERE.parents[1] / "catalogue").glob("*/*.yml"))[::25]
ENTRIES = [(file, told.tree.source.encode()) for file, told in oracle.base().items()]
ENTRIES += [(f"{path.parent.name}/{path.name}", path.read_bytes()) for path in REAL]
PIECES = st.sampled_from(inputs.ALL)
EDITS = st.lists(st.tuples(st.floats(0, 1), st.integers(0, 9), PIECES), min_size=1, max_size=4)
VALUES = st.lists(st.tuples(st.integers(0, 200), PIECES), min_size=1, max_size=3)
SOUPS = st.lists(st.sampled_from(inputs.PIECES) | st.text(max_size=3), max_size=12).map("".join)


@given(FILES, st.binary(max_size=200))
def test_no_bytes_raise(file, raw):
    oracle.judge_entry(raw, file)


@given(FILES, SOUPS, st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "utf-16-be", "utf-32"]))
def test_no_soup_of_hostile_pieces_raises(file, text, encoding):
    oracle.judge_entry(text.encode(encoding, "replace"), file)


@given(st.sampled_from(ENTRIES), EDITS)
def test_no_spoiled_entry_raises(entry, edits):
    file, raw = entry
    oracle.judge_entry(inputs.spoiled(raw, edits), file)


@given(st.sampled_from(ENTRIES), VALUES)
def test_no_record_with_other_values_raises(entry, edits):
    file, raw = entry
    oracle.judge_entry(inputs.values_replaced(raw, edits), file)


@given(SOUPS | st.text(max_size=30))
def test_no_text_makes_an_amount_raise(text):
    oracle.judge_amount(text)


@given(st.sampled_from(inputs.NUMBERS), st.sampled_from(["", " ", " to 2 ", " per "]), st.data())
def test_no_figure_and_unit_raise(figure, between, data):
    oracle.judge_amount(f"{figure}{between}{data.draw(st.sampled_from(UNITS))}")


# Not valid for the rule that is tried here, and large: none may take long or much.
DEEP = "".join(f"{' ' * level}a:\n" for level in range(300))
BOMB = "a0: &a0 [x, x]\n" + "".join(
    f"a{level}: &a{level} [*a{level - 1}, *a{level - 1}]\n" for level in range(1, 40)
)
LARGE = {
    "an alias bomb": BOMB,
    "a self-reference": "&a [*a]\n",
    "ten megabytes in one value": "name: " + "x" * 10_000_000,
    "the largest value": "name: " + "x" * (LARGEST_FILE - 7),
    "the largest key": "? " + "status_note " * 20_000 + "\n: x\n",
    "many brackets": "contents: " + "[" * 200_000,
    "many levels": DEEP,
    "many unknown keys": "{" + ", ".join(f"status{i}: x" for i in range(9_000)) + "}",
    "one key many times": "{" + "a: x, " * 9_000 + "}",
    "many items": "contents: [" + "x, " * 9_000 + "]",
    "many lines": "\n" * (LARGEST_FILE - 1),
    "many quotes": "name: " + "'" * 100_001,
    "many digits": "id: " + "9" * 200_000,
    "many hyphens": "id: " + "a-" * 100_000,
}


@pytest.mark.parametrize("kind", LARGE)
def test_nothing_large_gets_through_or_says_too_much(kind):
    assert oracle.judge_entry(LARGE[kind].encode(), "fluids/glucose-5.yml") == "refused"


@pytest.mark.parametrize("kind", ["an alias bomb", "ten megabytes in one value", "many lines"])
def test_a_bomb_takes_little_memory(kind):
    """What is kept beside the bytes themselves, at most [bytes]."""
    raw = LARGE[kind].encode()
    tracemalloc.start()
    oracle.judge_entry(raw, "fluids/glucose-5.yml")
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < MOST_MEMORY


def test_what_is_repeated_without_end_is_told_once():
    """Twenty thousand times one word in a list of different words."""
    comparison = next((HERE.parents[1] / "catalogue" / "comparisons").glob("*.yml"))
    kept = [line for line in comparison.read_text().split("\n") if not line.startswith(" ")]
    kept = [line for line in kept if not line.startswith("quantities")]
    text = "\n".join(kept) + "\nquantities: [" + "sodium, " * 19_000 + "]\n"
    assert oracle.judge_entry(text.encode(), f"comparisons/{comparison.name}") == "refused"


@pytest.mark.parametrize("sign", ["x", "1:0", "水", "e\u0301"])
def test_a_name_has_an_end(sign):
    """Names stand in titles, drawings and the finder of every page."""
    before = dict(ENTRIES)["fluids/glucose-5.yml"].decode()
    long, short = (f"name: Glucose {sign * times}" for times in (50_000, 50))
    for name, judged in ((long, "refused"), (short, "sound")):
        text = before.replace("name: Glucose 5 %", name)
        assert oracle.judge_entry(text.encode(), "fluids/glucose-5.yml") == judged


@pytest.mark.parametrize("name", ["../glucose-5", "/etc/passwd", "a/b", "..", "C:\\a", "glucоse-5"])
def test_no_id_and_no_reference_is_a_path_or_a_lookalike(name):
    for old in ("id: glucose-5", "situations: [low-glucose]"):
        before = dict(ENTRIES)["fluids/glucose-5.yml"].decode()
        key = old.partition(":")[0]
        text = before.replace(old, f"{key}: '{name}'" if key == "id" else f"{key}: ['{name}']")
        assert text != before
        assert oracle.judge_entry(text.encode(), "fluids/glucose-5.yml") == "refused"
