# make handbook: set everything up, build the handbook, say what to open.
# make test: set everything up and test everything, a real browser included.

PYTHON ?= python3
VENV ?= .venv
BIN = $(VENV)/bin
export NO_MKDOCS_2_WARNING = 1

.PHONY: handbook test check lint format bench fork screenshots golden wheels torture mutants clean setup browser

handbook: setup
	$(BIN)/isofolio build

check: setup
	$(BIN)/isofolio check

setup: $(VENV)/.installed

$(VENV)/.installed: pyproject.toml constraints.txt
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --constraint constraints.txt --editable ".[dev]"
	@touch $@

test: setup browser lint
	$(BIN)/python -m pytest --numprocesses 2

lint: setup
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy

format: setup
	$(BIN)/ruff check --fix .
	$(BIN)/ruff format .
	$(BIN)/isofolio fmt
	$(BIN)/isofolio schema

# A real browser and the fonts the layout is measured with, from the system's own packages.
browser:
	@sh tests/browser/install.sh

# A picture of every kind of page at two widths, light and dark, and on paper: to look at.
screenshots: setup browser
	$(BIN)/python tests/browser/screenshots.py

# The golden tables of every quantity and finding, written anew; read the diff before you commit.
golden: setup
	$(BIN)/python tests/golden/renew.py

# How fast and how heavy, as ratios in one run.
bench: setup browser
	$(BIN)/python tests/bench/run.py
	$(BIN)/python tests/bench/weight.py
	$(BIN)/python tests/bench/builds.py
	$(BIN)/python tests/bench/serving.py

# Whether the maintained fork of MkDocs 1.x still builds the same bytes; it needs a network.
fork:
	PYTHON=$(PYTHON) sh tests/bench/fork.sh

# Everything that an installation without a network needs, as wheels, with a list of their digests.
wheels: setup
	rm -rf build/wheels
	$(BIN)/python -m pip wheel --quiet --disable-pip-version-check --constraint constraints.txt --wheel-dir build/wheels .
	$(BIN)/python -m isofolio.publishing.wheels build/wheels

# Look for an input that breaks the reading: 110 000 cases, some ten minutes; CASES=5000 for fewer.
torture: setup
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --constraint constraints.txt --editable ".[torture]"
	$(BIN)/python tests/torture/run.py $(CASES)

# Change the rooms that count and judge in small ways: the tests must notice. ROOMS=chemistry for one.
mutants: setup
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --constraint constraints.txt --editable ".[mutants]"
	nice -n 15 $(BIN)/python tests/mutation/run.py $(ROOMS)

clean:
	rm -rf $(VENV) site build screenshots .pytest_cache .mypy_cache .ruff_cache .hypothesis
