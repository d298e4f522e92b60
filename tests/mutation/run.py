"""Mutation testing of the rooms that count and judge: run by hand with `make mutants`.

Every function of a room is changed in one small way after another (a sign, a figure, a comparison),
and the room's own tests must notice. The tool maps modules only below `src/`, so it works on a copy
of the tree under build/mutation/<room or module>/. What survives is printed: kill it with an honest
test, or say in equal.md why no test can tell it from the original.

The tool asks only those tests that call the function while they run: what a fixture of a whole
module has computed before counts for the first test alone. A test therefore asks the judgement it
looks at itself. Most of a run is folders that tests write and pytest clears away: with TMPDIR in
memory it is several times as quick.

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

AUDIT = "tests/findings/test_audit.py"
WORDS = "tests/findings/test_audit_sentences.py"
# Room, or one module of it -> the tests that must notice a change there: its own, and those against
# published figures. A room with tests named for a module is judged module by module.
TESTS = {
    "chemistry": ("tests/chemistry", "tests/published"),
    "physiology": ("tests/physiology", "tests/published"),
    "findings": ("tests/findings",),
    "findings.alternatives": ("tests/findings/test_alternatives.py",),
    "findings.audit": (AUDIT, WORDS),
    "findings.audit_figures": ("tests/findings/test_audit_figures.py",),
    "findings.audit_lines": ("tests/findings/test_audit_lines.py",),
    "findings.audit_options": ("tests/findings/test_audit_options.py",),
    "findings.audit_reasons": ("tests/findings/test_audit_reasons.py", WORDS),
    "findings.audit_recipes": ("tests/findings/test_audit_recipes.py",),
    "findings.audit_slips": ("tests/findings/test_audit_slips.py", WORDS),
    "findings.blood": ("tests/findings/test_blood.py",),
    "findings.body": ("tests/findings/test_body.py",),
    "findings.cautions": ("tests/findings/test_cautions.py",),
    "findings.conditions": ("tests/findings/test_conditions.py",),
    "findings.consistency": ("tests/findings/test_consistency.py",),
    "findings.consistency_catalogue": ("tests/findings/test_consistency_catalogue.py",),
    "findings.consistency_comparisons": ("tests/findings/test_consistency_comparisons.py",),
    "findings.consistency_doses": ("tests/findings/test_consistency_doses.py",),
    "findings.consistency_fluids": ("tests/findings/test_consistency_fluids.py",),
    "findings.consistency_limits": ("tests/findings/test_consistency_limits.py",),
    "findings.consistency_stock": ("tests/findings/test_consistency_stock.py",),
    "findings.consistency_substances": ("tests/findings/test_consistency_substances.py",),
    "findings.consistency_teaching": ("tests/findings/test_consistency_teaching.py",),
    "findings.differences": ("tests/findings/test_differences.py",),
    "findings.equipment": ("tests/findings/test_equipment.py",),
    "findings.families": ("tests/findings/test_families.py",),
    "findings.judgements": ("tests/findings/test_judgements.py",),
    "findings.limits": ("tests/findings/test_limits.py",),
    "findings.mixing": ("tests/findings/test_mixing.py",),
    "findings.not_instead": ("tests/findings/test_not_instead.py",),
    "findings.side_by_side": ("tests/findings/test_side_by_side.py",),
    "findings.stops": ("tests/findings/test_stops.py",),
    "findings.strength": ("tests/findings/test_strength.py",),
    "findings.vein": ("tests/findings/test_vein.py",),
    "findings.when_asked": ("tests/findings/test_when_asked.py",),
}
ROOMS = ("chemistry", "physiology", "findings")
COPIED = ("tests", "catalogue", "site_src")
# Without what pytest collects at the end of each session: that takes longer than most mutants.
SETTINGS = """[tool.pytest.ini_options]
addopts = "--import-mode=importlib -q -p no:unraisableexception -p no:cacheprovider"

[tool.mutmut]
source_paths = ["src/"]
only_mutate = ["src/isofolio/{changed}"]
also_copy = ["catalogue", "site_src", "pyproject.toml"]
pytest_add_cli_args_test_selection = {tests}
"""
# What the tool calls a mutant that some test noticed.
NOTICED = ("killed", "timeout", "segfault", "caught by type check")


def judged_alone(name):
    """A room or a module; of a room with tests named for a module, its modules one by one."""
    if not any(key.startswith(f"{name}.") for key in TESTS):
        return [name]
    folder = PROJECT / "generator" / "isofolio" / name
    return [f"{name}.{file.stem}" for file in sorted(folder.glob("[!_]*.py"))]


def copy_of_the_tree(wanted):
    """The folder of a fresh copy: of a function that changed its name the tool knows no test."""
    copy = COPIES / wanted
    shutil.rmtree(copy, ignore_errors=True)
    room, _, module = wanted.partition(".")
    ours = (PROJECT / "generator" / "isofolio", copy / "src" / "isofolio")
    for source, target in (ours, *((PROJECT / name, copy / name) for name in COPIED)):
        shutil.copytree(source, target, symlinks=True, ignore=shutil.ignore_patterns("__pycache__"))
    changed = f"{room}/{module}.py" if module else f"{room}/*"
    tests = list(TESTS.get(wanted, TESTS[room]))
    settings = SETTINGS.format(changed=changed, tests=tests)
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


def judged(wanted):
    """Run a room or a module on its copy: what became of each mutant, by name."""
    copy = copy_of_the_tree(wanted)
    tool(copy, "run", "--max-children", "1", f"isofolio.{wanted}.*")
    return outcomes(copy, wanted)


def main(names):
    """Run rooms or modules one after the other, each alone, so that the machine stays usable."""
    whole = True
    for name in names or ROOMS:
        found = {}
        for wanted in judged_alone(name):
            results = judged(wanted)
            if wanted != name:
                report(wanted, results)
            found |= results
        whole &= report(name, found)
    return 0 if whole else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
