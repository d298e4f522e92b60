"""The real catalogue, fluids made of figures, and a copy of the small sound catalogue."""

import shutil
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, settings

from isofolio.chemistry.composition import Composition
from isofolio.entries.files import told_of
from isofolio.entries.fluids import Fluid
from isofolio.entries.folder import files_in
from isofolio.entries.reading import Catalogue, read_catalogue, reading_of
from isofolio.entries.tree import read_tree
from isofolio.findings.audit import audit_fluid
from isofolio.findings.audit_figures import thresholds
from isofolio.findings.audit_lines import bench_of, lines_of
from isofolio.findings.conditions import Subject
from isofolio.measures.solutions import Solution
from isofolio.measures.table import Table, table_of
from isofolio.vocabulary.quantities import QUANTITIES, QUANTITY_BY_ID

CATALOGUE = Path(__file__).parents[2] / "catalogue"
PLASMA = 309.7  # mOsm/L, what tonicity_ratio is measured by
BASE = Path(__file__).parents[1] / "bad" / "base"

# No deadline (the machine is shared), nothing left behind, and fixtures are only read.
settings.register_profile(
    "isofolio",
    deadline=None,
    database=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
settings.load_profile("isofolio")


@cache
def read_once():
    """The real catalogue and its figures, once a process; no finding is in them."""
    catalogue = read_catalogue(CATALOGUE).catalogue
    return catalogue, table_of(catalogue)


@cache
def read_chemistry():
    """The substances, particles and limits of the real catalogue: all a made-up fluid needs."""
    lists = ("particles.yml", "limits.yml")
    return reading_of(
        {
            file: told_of(read_tree(path.read_bytes(), file))
            for file, path in files_in(CATALOGUE)
            if file in lists or file.startswith("substances/")
        }
    ).catalogue


@pytest.fixture
def chemistry():
    """A catalogue of substances, particles and limits, and of nothing else."""
    return read_chemistry()


@pytest.fixture
def real():
    """The real catalogue and its figures: what every judgement is asked with."""
    return read_once()


@pytest.fixture
def about(real):
    """A function from the id of a real fluid to what is asked about it."""
    catalogue, table = real
    return lambda fluid: Subject(catalogue.fluids[fluid], catalogue, table)


@pytest.fixture
def limits(real):
    """The limits of the real catalogue."""
    return real[0].limits


@pytest.fixture(scope="session")
def make():
    """A function that makes a catalogue and its table of fluids, each given by what matters:

    figures by quantity (absent is 0, NaN unknown) and fields of the entry.
    """
    whole = read_once()[0]

    def made(*fluids, limits=whole.limits):
        given = {f"fluid-{number:04}": figures for number, figures in enumerate(fluids)}
        records = {name: made_fluid(name, figures) for name, figures in given.items()}
        rows = [{"effective_osmolarity": 300.0, **figures} for figures in given.values()]
        for row in rows:
            row.setdefault("tonicity_ratio", row["effective_osmolarity"] / PLASMA)
        numbers = {q.id: np.array([row.get(q.id, 0.0) for row in rows]) for q in QUANTITIES}
        reasons = {
            (name, q.id): "not declared"
            for name, row in zip(given, rows, strict=True)
            for q in QUANTITIES
            if np.isnan(row.get(q.id, 0.0))
        }
        solutions = {
            name: Solution(Composition(), {}, colloid=row.get("colloid_mass", 0.0) != 0)
            for name, row in zip(given, rows, strict=True)
        }
        table = Table(
            tuple(given), solutions, numbers, reasons, {n: i for i, n in enumerate(given)}
        )
        return Catalogue(fluids=records, limits=limits, particles=whole.particles), table

    return made


def made_fluid(name, given):
    """A ready fluid in use, but for the fields that are given."""
    fields = {"name": name, "role": "ready", "status": "current", "contents": []}
    fields |= {key: value for key, value in given.items() if key not in QUANTITY_BY_ID}
    return Fluid.model_construct(id=name, **fields)


@pytest.fixture
def made_subject(make):
    """A function from what matters of one fluid to what is asked about it."""

    def subject(**given):
        catalogue, table = make(given)
        return Subject(catalogue.fluids["fluid-0000"], catalogue, table)

    return subject


@pytest.fixture
def catalogue(tmp_path):
    """The folder of a sound catalogue that a test may spoil."""
    return Path(shutil.copytree(BASE, tmp_path / "catalogue"))


@pytest.fixture
def spoil(catalogue):
    """A function that replaces a piece of one file, which must stand there once."""

    def replace(file, old, new):
        text = (catalogue / file).read_text(encoding="utf-8")
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
        (catalogue / file).write_text(text.replace(old, new), encoding="utf-8")
        return catalogue

    return replace


@cache
def parsed(file, content):
    """The tree of a file; of those that no test spoils there is one for all tests."""
    return read_tree(content, file)


def sound_reading(folder):
    """What a folder holds whose shapes and references are sound."""
    trees = {file: parsed(file, path.read_bytes()) for file, path in files_in(folder)}
    reading = reading_of({file: told_of(tree) for file, tree in trees.items()})
    assert reading.problems == ()
    return reading


def printed(problems):
    """Each problem in one line: where it stands, what is wrong, and what to do."""
    return [f"{p.file}:{p.place.line}:{p.place.column}: {p.message} | {p.fix}" for p in problems]


@pytest.fixture
def told():
    """What checks of the whole catalogue, or those of each fluid, say of a sound reading."""

    def say(folder, *checks, of_fluids=()):
        reading = sound_reading(folder)
        problems = [problem for check in checks for problem in check(reading)]
        fluids = tuple(reading.catalogue.fluids.values())
        problems += [problem for check in of_fluids for problem in check(reading, fluids)]
        return printed(problems)

    return say


SEEN = {"source": "a-label", "at": "table 1", "seen": "read", "on": "2026-11-25"}
IONS = {"sodium", "potassium", "calcium", "magnesium", "chloride", "lactate", "octanoate"}


def content(name, amount, **more):
    """A content of an ion, or of what is weighed."""
    return {"particle" if name in IONS else "substance": name, "amount": amount, **more}


@pytest.fixture(scope="session")
def invented():
    """A function that makes a fluid of its contents and of the values that each source prints."""

    def made(contents, *groups, **fields):
        told = {"id": "test-fluid", "name": "Test fluid", "role": "ready", "status": "current"}
        told |= {"contents_cite": "common practice", "review": {"state": "draft"}}
        told |= {"contents": [content(*c) for c in contents], **fields}
        told["declared"] = [{**SEEN, "values": values} for values in groups]
        return Fluid.model_validate(told)

    return made


@pytest.fixture(scope="session")
def lines(invented):
    """The audit of an invented fluid: contents, then the values that one source prints."""

    def audited(contents, *groups, limits=None, **fields):
        fluid = invented(contents, *groups, **fields)
        one = replace(read_chemistry(), fluids={fluid.id: fluid})
        one = one if limits is None else replace(one, limits=limits)
        return audit_fluid(fluid, one, table_of(one))

    return audited


@pytest.fixture
def bench(chemistry, invented):
    """The bench of invented fluids, each given by contents and printed values, and their lines."""

    def made(**fluids):
        known = {
            name: invented(*told).model_copy(update={"id": name}) for name, told in fluids.items()
        }
        catalogue = replace(chemistry, fluids=known)
        table, limits = table_of(catalogue), thresholds(catalogue)
        groups = {
            name: [lines_of(fluid, group, catalogue, table, limits) for group in fluid.declared]
            for name, fluid in known.items()
        }
        return bench_of(groups, catalogue, table, limits), groups

    return made
