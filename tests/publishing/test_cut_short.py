"""A publish that is killed, runs out of disk, is refused, or has readers and rivals meanwhile.

No published source: how the project's own publishing must behave. Kill moments come from a seeded
generator; a kill is counted when it cut a publish short.
"""

import errno
import os
import random
import signal
import subprocess
import sys
import threading
import time
from itertools import cycle
from pathlib import Path

import pytest

from isofolio.publishing.lock import LOCK
from isofolio.publishing.publish import PublishError, publish
from isofolio.publishing.verify import faults_of_copy
from isofolio.publishing.writing import HALF

KILLS = 50
READ_DURING = 15
ROUNDS_OF_RIVALS = 5
# Only the rooms that publish: no command line, no tables, no MkDocs.
PROGRAM = """
import sys
from pathlib import Path
from isofolio.publishing.publish import PublishError, publish
print("ready", flush=True)
sys.stdin.readline()
try:
    publish(Path(sys.argv[1]), Path(sys.argv[2]), lambda done, of: print(done, flush=True))
except PublishError as error:
    sys.exit(str(error))
"""


@pytest.fixture
def share(tmp_path):
    return tmp_path / "share"


@pytest.fixture
def start():
    """A function that starts a publish in a process of its own, which waits for `go`."""
    started = []

    def run(site, share):
        process = subprocess.Popen(
            [sys.executable, "-c", PROGRAM, str(site), str(share)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        started.append(process)
        assert process.stdout.readline() == "ready\n"
        return process

    yield run
    for process in started:
        process.kill()
        process.communicate()


def go(process):
    process.stdin.write("go\n")
    process.stdin.flush()


def unlock(share):
    """What the message tells a person to do after a publish was cut short; whether there was."""
    there = (share / LOCK).exists()
    (share / LOCK).unlink(missing_ok=True)
    return there


def test_killed_at_fifty_random_moments_readers_miss_nothing_and_a_rerun_finishes(
    make_site, share, start, planned, faults_for_readers
):
    sites = [make_site(edition) for edition in ("one", "two", "three")]
    publish(sites[0], share)
    files, choose, cut_short = len(planned(sites[0])), random.Random(7), 0
    for attempt, site in zip(range(4 * KILLS), cycle((*sites[1:], sites[0])), strict=False):
        process = start(site, share)
        go(process)
        # As many files into it, and a little further: before the first and after the last, too.
        for _ in range(choose.randint(0, files)):
            process.stdout.readline()
        time.sleep(choose.uniform(0, 0.01))
        os.kill(process.pid, signal.SIGKILL)
        process.wait()
        assert faults_for_readers(share) == [], attempt
        # One that came too early or too late has cut nothing short, and does not count.
        cut_short += unlock(share)
        # Not after every kill: the next edition often meets what several left behind.
        if choose.random() < 0.5:
            publish(site, share)
            assert faults_of_copy(share) == [], attempt
            assert not list(share.rglob(f"*{HALF}"))
        if cut_short == KILLS:
            break
    assert cut_short == KILLS
    publish(sites[0], share)
    assert faults_of_copy(share) == []


def told_by_publishing(site, share):
    """Publish; what was told when it could not be finished, empty when it was."""
    try:
        publish(site, share)
    except PublishError as error:
        return str(error)
    return ""


class Failing:
    """A call of the system that fails from its n-th use on, as a full disk does."""

    def __init__(self, monkeypatch, owner, name, number):
        self.real, self.left, self.number = getattr(owner, name), None, number
        failing = self

        def call(*arguments, **options):
            if failing.left is not None:
                failing.left -= 1
                if failing.left < 0:
                    raise OSError(failing.number, os.strerror(failing.number), "share")
            return failing.real(*arguments, **options)

        monkeypatch.setattr(owner, name, call)


@pytest.mark.parametrize(
    ("owner", "name", "number", "told"),
    [
        (os, "fsync", errno.ENOSPC, "The disk is full: make room"),
        (os, "fsync", errno.EDQUOT, "quota"),
        (Path, "replace", errno.EROFS, "may only be read"),
        (Path, "mkdir", errno.EACCES, "You may not write there"),
    ],
)
def test_failing_at_every_write_in_turn_readers_miss_nothing_and_a_rerun_finishes(
    make_site, share, monkeypatch, faults_for_readers, tree, owner, name, number, told
):
    sites = {edition: make_site(edition) for edition in ("one", "two")}
    publish(sites["one"], share)
    before = tree(share)
    failing = Failing(monkeypatch, owner, name, number)
    for allowed, edition in zip(range(100), cycle(("two", "one")), strict=False):
        failing.left = allowed
        said = told_by_publishing(sites[edition], share)
        failing.left = None
        assert not said or (told in said and "publish again" in said)
        if allowed == 0:
            assert tree(share) == before
        assert faults_for_readers(share) == []
        assert not (share / LOCK).exists()
        assert not list(share.rglob(f"*{HALF}"))
        publish(sites[edition], share)
        assert faults_of_copy(share) == []
        if not said:
            break
    assert not said
    assert allowed > 5


def test_a_disk_that_is_really_full(make_site, share, faults_for_readers):
    """/dev/full answers every write with ENOSPC (Linux, full(4))."""
    publish(make_site("one"), share)
    (share / "fluids" / f"glucose-5.html{HALF}").symlink_to("/dev/full")
    with pytest.raises(PublishError, match="The disk is full"):
        publish(make_site("two"), share)
    assert faults_for_readers(share) == []
    publish(make_site("two"), share)
    assert faults_of_copy(share) == []


def test_a_folder_that_may_only_be_read_leaves_the_copy_as_it_was(
    make_site, share, monkeypatch, tree
):
    publish(make_site("one"), share)
    before, site, real = tree(share), make_site("two"), Path.open

    def refuse(path, mode="r", *arguments, **options):
        if mode not in ("r", "rb"):
            raise PermissionError(errno.EACCES, "Permission denied", str(path))
        return real(path, mode, *arguments, **options)

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(PublishError, match=r"share.*Permission denied.*You may not write there"):
        publish(site, share)
    assert tree(share) == before


def test_a_reader_finds_every_page_whole_while_others_publish(make_site, share, look_at):
    """A page may lose its assets to the publish after the next; those looks are not counted."""
    sites = [make_site(str(number)) for number in range(3)]
    publish(sites[0], share)
    begun, over, trouble = [0], threading.Event(), []

    def publish_often():
        try:
            for number in range(1, READ_DURING + 1):
                begun[0] = number
                publish(sites[number % 3], share)
        except PublishError as error:
            trouble.append(str(error))
        over.set()

    writer = threading.Thread(target=publish_often)
    writer.start()
    pages = [path.relative_to(share).as_posix() for path in sorted(share.rglob("*.html"))]
    looks, overtaken, choose = 0, 0, random.Random(3)
    while not over.is_set():
        during = begun[0]
        try:
            faults = look_at(share, choose.choice(pages))
        except FileNotFoundError as error:
            faults = [str(error)]
        if faults and begun[0] != during:
            overtaken += 1
        else:
            assert faults == [], during
            looks += 1
    writer.join()
    assert trouble == []
    assert looks > READ_DURING
    assert overtaken < looks


def test_of_two_writers_one_waits_or_is_told_and_the_copy_is_whole(
    make_site, share, start, planned, tree, faults_for_readers
):
    sites = [make_site(edition) for edition in ("one", "two", "three")]
    publish(sites[0], share)
    for number in range(ROUNDS_OF_RIVALS):
        rivals = [sites[number % 3], sites[(number + 1) % 3]]
        running = [start(site, share) for site in rivals]
        for process in running:
            go(process)
        told = [process.communicate(timeout=60)[1] for process in running]
        winners = [
            site for site, process in zip(rivals, running, strict=True) if process.returncode == 0
        ]
        assert winners
        assert all("Somebody is publishing" in text for text in told if text)
        assert faults_of_copy(share) == []
        assert faults_for_readers(share) == []
        found = tree(share)
        assert any(planned(site).items() <= found.items() for site in winners)
