"""Mutation testing of the rooms that count and judge: run by hand with `make mutants`.

Every function of a room is changed in one small way after another (a sign, a figure, a comparison),
and the room's own tests must notice. The tool maps modules only below `src/`, so it works on a copy
of the tree under build/mutation/<room>/. What survives is printed: kill it with an honest test, or
say in equal.md why no test can tell it from the original. A run that was stopped goes on where it
stopped, unless the room or its tests changed meanwhile.

    python tests/mutation/run.py                            all three rooms
    python tests/mutation/run.py chemistry findings.vein     one, and one module of another
"""

import os
import re
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path

PROJECT = Path(__file__).parents[2]
COPIES = PROJECT / "build" / "mutation"
EQUAL = Path(__file__).with_name("equal.md")

# Room -> what must notice a change in it: its own tests, and those against published figures.
TESTS = {
    "chemistry": ("tests/chemistry", "tests/published"),
    "physiology": ("tests/physiology", "tests/published"),
    "findings": ("tests/findings",),
}
COPIED = ("tests", "catalogue", "site_src")
SETTINGS = """[tool.pytest.ini_options]
addopts = "--import-mode=importlib -q"

[tool.mutmut]
source_paths = ["src/"]
only_mutate = ["src/isofolio/{room}/*"]
also_copy = ["catalogue", "site_src", "pyproject.toml"]
pytest_add_cli_args_test_selection = {tests}
"""
# What the tool calls a mutant that some test noticed.
NOTICED = ("killed", "timeout", "segfault", "caught by type check")


def copy_of_the_tree(room):
    """The folder of the copy; what the tool learnt in an earlier run of it is kept."""
    copy = COPIES / room
    ours = (PROJECT / "generator" / "isofolio", copy / "src" / "isofolio")
    for source, target in (ours, *((PROJECT / name, copy / name) for name in COPIED)):
        shutil.rmtree(target, ignore_errors=True)
        shutil.copytree(source, target, symlinks=True, ignore=shutil.ignore_patterns("__pycache__"))
    settings = SETTINGS.format(room=room, tests=list(TESTS[room]))
    (copy / "pyproject.toml").write_text(settings, encoding="utf-8")
    return copy


def tool(copy, *arguments, **options):
    """Run the tool in a copy, which must not find the program anywhere else."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    command = [sys.executable, "-m", "mutmut", *arguments]
    return subprocess.run(command, cwd=copy, env=environment, check=True, **options)


def outcomes(copy, wanted):
    """Each mutant's name and what became of it, for those of a room or a module."""
    told = tool(copy, "results", "--all", "true", capture_output=True, text=True).stdout
    found = re.findall(r"^\s+(\S+): (.+)$", told, re.MULTILINE)
    return {name: word for name, word in found if name.startswith(f"isofolio.{wanted}.")}


def equal_mutants():
    """The mutants that equal.md gives a reason for: the names in its headings."""
    text = EQUAL.read_text(encoding="utf-8") if EQUAL.exists() else ""
    return set(re.findall(r"^\* `([^`]+)`", text, re.MULTILINE))


def report(wanted, results):
    """Print what survived and the score; true where every survivor has its reason."""
    equal = equal_mutants()
    counts = Counter(results.values())
    noticed = sum(counts[word] for word in NOTICED)
    unnoticed = {name for name, word in results.items() if word not in NOTICED}
    left = sorted(unnoticed - equal)
    for name in left:
        sys.stdout.write(f"  {results[name]}: {name}\n")
    judged = noticed + len(left)
    score = 100.0 * noticed / judged if judged else 0.0
    sys.stdout.write(
        f"{wanted}: {len(results)} mutants, {noticed} noticed, {len(unnoticed & equal)} equal, "
        f"{len(left)} left; score {score:.1f} %  ({dict(counts)})\n"
    )
    sys.stdout.flush()
    return not left


def main(names):
    """Run rooms or modules one after the other, each alone, so that the machine stays usable."""
    whole = True
    for wanted in names or TESTS:
        copy = copy_of_the_tree(wanted.partition(".")[0])
        tool(copy, "run", "--max-children", "1", f"isofolio.{wanted}.*")
        whole &= report(wanted, outcomes(copy, wanted))
    return 0 if whole else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
