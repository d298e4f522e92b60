"""A copy of the small sound catalogue, and quiet property tests."""

import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

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
