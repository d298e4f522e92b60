"""The workflows of two Git hosts: their very commands, run on a clone; their templates, alike.

What installs is too dear to run here: it is held against the README and the Makefile instead.
"""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from isofolio.cli import main

PROJECT = Path(__file__).parents[1]
GITHUB = PROJECT / ".github" / "workflows" / "check.yml"
GITLAB = PROJECT / ".gitlab-ci.yml"
# What installs, what needs a browser, and the whole test suite.
DEAR = re.compile(r"make (setup|browser|test)|.*changed_pages\.py .*")
CLONED = ("catalogue", "site_src", "mkdocs.yml", "Makefile", "README.md", ".gitignore")
PATIENCE = 120


def github():
    return yaml.safe_load(GITHUB.read_text(encoding="utf-8"))


def gitlab():
    jobs = yaml.safe_load(GITLAB.read_text(encoding="utf-8"))
    return {name: job for name, job in jobs.items() if "script" in job}


def commands_of_github():
    steps = [step for job in github()["jobs"].values() for step in job["steps"]]
    return [step["run"] for step in steps if "run" in step]


def commands_of_gitlab():
    return [command for job in gitlab().values() for command in job["script"]]


def cheap(commands):
    """The commands that are really run, each once."""
    return list(dict.fromkeys(c for c in commands if not DEAR.fullmatch(c)))


@pytest.fixture(scope="module")
def clone(tmp_path_factory):
    """A clone of a repository in which one commit added a ward word to a fluid; with its base."""
    folder = tmp_path_factory.mktemp("workflows")
    origin = folder / "origin"
    for name in CLONED:
        copy = shutil.copytree if (PROJECT / name).is_dir() else shutil.copy
        origin.mkdir(exist_ok=True)
        copy(PROJECT / name, origin / name)
    git(origin, "init", "--quiet", "--initial-branch=main")
    base = committed(origin)
    fluid = origin / "catalogue" / "fluids" / "glucose-5.yml"
    text = fluid.read_text(encoding="utf-8")
    word = "  - {name: sweet bag, kind: ward word}\n"
    assert text.count("also_known_as:\n") == 1
    text = text.replace("also_known_as:\n", f"also_known_as:\n{word}")
    fluid.write_text(text, encoding="utf-8", newline="\n")
    committed(origin)
    git(folder, "clone", "--quiet", str(origin), "clone")
    program(folder / "clone")
    return folder / "clone", base


def git(folder, *arguments):
    settings = ("-c", "user.name=A tester", "-c", "user.email=tester@example.org")
    done = subprocess.run(
        ["git", *settings, *arguments], cwd=folder, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


def committed(folder):
    git(folder, "add", "--all")
    git(folder, "commit", "--quiet", "--message", "A change")
    return git(folder, "rev-parse", "HEAD")


def program(folder):
    """What `make setup` leaves: the program and its Python, under .venv/bin."""
    places = folder / ".venv" / "bin"
    places.mkdir(parents=True)
    (places / "isofolio").write_text(f'#!/bin/sh\nexec "{sys.executable}" -m isofolio "$@"\n')
    (places / "isofolio").chmod(0o755)


def run(command, folder, base):
    """One command, as the host runs it: the shell stops at the first failure, in a pipe too."""
    summary = folder.parent / "summary.md"
    return subprocess.run(
        ["bash", "--noprofile", "--norc", "-eo", "pipefail", "-c", command],
        cwd=folder,
        env={
            **os.environ,
            "BASE": base,
            "GITHUB_STEP_SUMMARY": str(summary),
            "PYTHONPATH": str(PROJECT / "generator"),
        },
        capture_output=True,
        text=True,
        timeout=PATIENCE,
        check=False,
    )


def test_every_command_ends_well_on_a_clone_and_leaves_what_the_host_shows(clone):
    folder, base = clone
    for command in cheap(commands_of_github()):
        done = run(command, folder, base)
        assert done.returncode == 0, done.stdout + done.stderr
        assert "Traceback" not in done.stderr
    assert "sweet bag" in (folder.parent / "summary.md").read_text(encoding="utf-8")
    steps = github()["jobs"]["catalogue"]["steps"]
    taken = [step["with"]["path"] for step in steps if "path" in step.get("with", {})]
    assert taken == ["site", "changed-pages"]
    page = (folder / "site" / "fluids" / "glucose-5.html").read_text(encoding="utf-8")
    assert "sweet bag" in page


def test_a_pipe_does_not_hide_a_failure(clone):
    folder, _ = clone
    assert github()["defaults"]["run"]["shell"] == "bash"
    assert run('.venv/bin/isofolio changes "$BASE" | tee out.md', folder, "no-such").returncode == 2


def test_both_hosts_run_the_same_commands():
    def plain(commands):
        return {re.sub(r" \| tee .*", "", command) for command in commands}

    assert plain(commands_of_github()) == plain(commands_of_gitlab())


@pytest.mark.parametrize("command", sorted({*commands_of_github(), *commands_of_gitlab()}))
def test_every_command_is_known_to_the_program_or_the_makefile(command):
    first, second, *_ = command.split()
    if first == "make":
        makefile = (PROJECT / "Makefile").read_text(encoding="utf-8")
        assert re.search(rf"^{second}:", makefile, re.MULTILINE)
    elif first == ".venv/bin/isofolio":
        assert second in main.commands
    else:
        assert first == ".venv/bin/python"
        assert (PROJECT / second).is_file()


def test_what_installs_is_what_the_readme_says():
    readme = (PROJECT / "README.md").read_text(encoding="utf-8")
    makefile = (PROJECT / "Makefile").read_text(encoding="utf-8")
    assert "make test " in readme
    assert "make test" in commands_of_github()
    assert re.search(r"^handbook: setup$", makefile, re.MULTILINE)
    assert re.search(r"^test: setup browser lint$", makefile, re.MULTILINE)
    assert all(job["script"][0] in {"make setup", "make test"} for job in gitlab().values())


def test_actions_are_those_of_the_host_at_a_major_version():
    steps = [step for job in github()["jobs"].values() for step in job["steps"]]
    used = {step["uses"] for step in steps if "uses" in step}
    assert used == {"actions/checkout@v4", "actions/setup-python@v5", "actions/upload-artifact@v4"}


def test_no_workflow_names_an_address_or_a_secret():
    for path in (GITHUB, GITLAB):
        text = path.read_text(encoding="utf-8")
        assert "://" not in text
        assert "secrets" not in text
        assert "token" not in text.casefold()


def body(path):
    """What an author sees of a template, without the head that one host wants."""
    return re.sub(r"\A---\n.*?\n---\n\n", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)


def test_both_hosts_ask_the_same_questions():
    ours = sorted((PROJECT / ".github" / "ISSUE_TEMPLATE").glob("*.md"))
    theirs = sorted((PROJECT / ".gitlab" / "issue_templates").glob("*.md"))
    assert [path.stem for path in ours] == ["missing-fluid", "stock-change", "wrong-figure"]
    assert {path.name: body(path) for path in ours} == {path.name: body(path) for path in theirs}
    for path in ours:
        head = yaml.safe_load(path.read_text(encoding="utf-8").split("---\n")[1])
        assert set(head) == {"name", "about", "labels"}
    merge = PROJECT / ".gitlab" / "merge_request_templates" / "Default.md"
    assert body(PROJECT / ".github" / "pull_request_template.md") == body(merge)


def test_commands_in_the_templates_are_commands():
    text = body(PROJECT / ".github" / "pull_request_template.md")
    named = re.findall(r"`isofolio (\w+)", text)
    assert named
    assert set(named) <= set(main.commands)


def test_the_owners_own_what_is_there():
    """By the rule of both hosts a path that starts with / counts from the root."""
    lines = (PROJECT / "CODEOWNERS.example").read_text(encoding="utf-8").splitlines()
    rules = [line.split() for line in lines if line and not line.startswith("#")]
    for pattern, *owners in rules:
        assert pattern == "*" or (PROJECT / pattern.lstrip("/")).exists(), pattern
        assert owners
        assert all(re.fullmatch(r"@handbook/[a-z-]+", owner) for owner in owners)
    owned = {pattern for pattern, *_ in rules}
    stocks = {f"/catalogue/stock/{p.name}" for p in (PROJECT / "catalogue" / "stock").glob("*.yml")}
    assert stocks <= owned
