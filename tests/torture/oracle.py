"""What must hold of every input, however hostile: a clear problem, or something sound.

Shared by the property tests beside it and by run.py, which looks for inputs that break it.
"""

from functools import cache
from pathlib import Path

from pydantic_core import PydanticCustomError

from isofolio.entries.files import FOLDERS, told_of
from isofolio.entries.problems import EXCERPT_LENGTH, bounded
from isofolio.entries.reading import read_catalogue, reading_of
from isofolio.entries.scalars import parse_amount
from isofolio.entries.tree import read_tree
from isofolio.findings import consistency
from isofolio.handbook import handbook_of
from isofolio.pages.fluid import fluid_page

BASE = Path(__file__).parents[1] / "bad" / "base"
# What one problem may print: its message may list every known key or unit, never the input.
LONGEST_PROBLEM = 3_000
STATES = {"exact", "range", "bound", "trace", "not declared"}


@cache
def base():
    """What each file of a small sound catalogue says."""
    return {file: told_of(tree) for file, tree in read_catalogue(BASE).trees.items()}


def is_clear(problem):
    """File, line and column first; then the line with a caret; then what to do; all printable."""
    lines = problem.text().split("\n")
    assert lines[0].startswith(f"{problem.file}:{problem.place.line}:{problem.place.column}: ")
    assert problem.place.line >= 1
    assert problem.place.column >= 1
    assert problem.message.strip()
    assert problem.fix.strip()
    assert all(line.isprintable() for line in lines), "a control character reaches the terminal"
    assert all(len(line) <= EXCERPT_LENGTH + 20 for line in lines[1:3] if " | " in line)
    assert len(problem.text()) <= LONGEST_PROBLEM
    problem.text().encode()


def judge_bytes(raw, file):
    """The tree of one file and its problems; none of both, or both, is impossible."""
    tree = read_tree(raw, file)
    assert (tree.root is None) == bool(tree.problems)
    lines = tree.source.count("\n") + 1
    for problem in tree.problems:
        is_clear(problem)
        assert problem.place.line <= lines
    return tree


def judge_entry(raw, file, to_the_page=True):
    """The whole way of one file laid over a sound catalogue: problems, or a handbook and a page.

    Returns "refused" or "sound". to_the_page: whether what is sound is computed and printed too.
    """
    tree = judge_bytes(raw, file)
    if tree.root is None:
        return "refused"
    if file in base() and tree.root == base()[file].tree.root:
        return "sound"  # another spelling of what was judged before
    told = told_of(tree)
    if told.record is None:
        assert told.problems
        for problem in bounded(told.problems):
            is_clear(problem)
        return "refused"
    reading = reading_of({**base(), file: told})
    problems = bounded([*reading.problems, *consistency.problems(reading)])
    for problem in problems:
        is_clear(problem)
    if problems:
        return "refused"
    if not to_the_page:
        return "sound"
    handbook = handbook_of(reading)
    for found in (handbook.judgements, handbook.mixing, handbook.look_alikes, handbook.audit):
        assert len(dict(found)) == len(handbook.fluids)
    folder, _, name = file.rpartition("/")
    if folder == "fluids":
        fluid = handbook.catalogue.fluids[name.removesuffix(".yml")]
        assert fluid_page(handbook, fluid).body
    return "sound"


def judge_amount(text):
    """An amount that keeps its text and whose figures are in order, or one clear sentence."""
    try:
        amount = parse_amount(text)
    except PydanticCustomError as error:
        said = error.context or {}
        assert said["message"].strip()
        assert said["message"].isprintable()
        assert said["fix"].strip()
        assert len(said["message"]) <= 200
        return "refused"
    assert amount.state in STATES
    assert amount.text == text.strip()
    assert 0 <= amount.decimals <= 12
    if amount.low is not None and amount.high is not None:
        assert amount.low <= amount.high
    if amount.state in {"trace", "not declared"}:
        assert amount.low is amount.high is None
    for figure in (amount.low, amount.high):
        assert figure is None or abs(figure) < 1e9
    assert amount.per_millilitres is None or 0 < amount.per_millilitres < 1e6
    return "sound"


def files():
    """The files whose kinds the tests attack: every file of the sound catalogue, all kinds new."""
    new = [f"{folder}/hostile.yml" for folder in FOLDERS]
    return [*base(), *new]
