"""The whole site in one step: what stands there is the old copy or the new one, nothing between.

No published source: how the project's own publishing must behave where folders can be exchanged.
"""

import errno
import os
import signal
import subprocess
import sys

import pytest

from isofolio.publishing import one_step
from isofolio.publishing.lock import LOCK
from isofolio.publishing.publish import PublishError, publish
from isofolio.publishing.verify import faults_of_copy

# Stops after the n-th file, so that it can be killed there.
PROGRAM = """
import sys, time
from pathlib import Path
from isofolio.publishing.publish import publish

def stop(done, of):
    if done == int(sys.argv[3]):
        print("here", flush=True)
        time.sleep(60)

publish(Path(sys.argv[1]), Path(sys.argv[2]), stop, exchange=True)
"""


@pytest.fixture
def share(tmp_path):
    """A copy in a folder that holds nothing else."""
    (tmp_path / "place").mkdir()
    return tmp_path / "place" / "share"


def cannot_exchange(new, live):
    """Stands for the call of a system that knows no exchange."""
    return False


def test_the_new_copy_stands_there_with_what_earlier_pages_load(
    make_site, share, planned, tree, faults_for_readers
):
    publish(make_site("one"), share)
    publish(make_site("two"), share, exchange=True)
    assert planned(make_site("two")).items() <= tree(share).items()
    assert len(list(share.glob("scripts-*"))) == 2
    assert faults_of_copy(share) == []
    assert faults_for_readers(share) == []
    assert list(share.parent.iterdir()) == [share]


def test_both_roads_lead_to_the_same_copy_and_may_take_turns(make_site, share, tree, tmp_path):
    for number, edition in enumerate(("one", "two", "three", "two")):
        publish(make_site(edition), share, exchange=number % 2 == 0)
        publish(make_site(edition), tmp_path / "by-file")
    assert tree(share) == tree(tmp_path / "by-file")


def test_failing_at_every_write_in_turn_the_old_copy_is_whole(make_site, share, tree, monkeypatch):
    publish(make_site("one"), share)
    before, site, real, left = tree(share), make_site("two"), os.fsync, [0]

    def fail(number):
        left[0] -= 1
        if left[0] < 0:
            raise OSError(errno.ENOSPC, "No space left on device", "share")
        real(number)

    monkeypatch.setattr(os, "fsync", fail)
    for allowed in range(len(before)):
        left[0] = allowed
        with pytest.raises(PublishError, match="The disk is full"):
            publish(site, share, exchange=True)
        assert tree(share) == before
        assert list(share.parent.iterdir()) == [share]


@pytest.mark.parametrize("files", [1, 7, 12])
def test_killed_while_it_writes_the_old_copy_is_whole(make_site, share, tree, files):
    publish(make_site("one"), share)
    before = tree(share)
    command = [sys.executable, "-c", PROGRAM, str(make_site("two")), str(share), str(files)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout.readline() == "here\n"
        os.kill(process.pid, signal.SIGKILL)
    (share / LOCK).unlink()
    assert tree(share) == before
    publish(make_site("two"), share, exchange=True)
    assert faults_of_copy(share) == []


def test_where_folders_cannot_be_exchanged_nothing_is_changed(make_site, share, tree, monkeypatch):
    publish(make_site("one"), share)
    before = tree(share)
    monkeypatch.setattr(one_step, "exchange_in_one_step", cannot_exchange)
    with pytest.raises(PublishError, match="Publish without --exchange"):
        publish(make_site("two"), share, exchange=True)
    assert tree(share) == before
    assert list(share.parent.iterdir()) == [share]


def test_files_of_others_would_go_with_the_old_folder_and_are_refused(make_site, share, tree):
    publish(make_site("one"), share)
    (share / "note.txt").write_text("mine", encoding="utf-8")
    before = tree(share)
    with pytest.raises(PublishError, match=r"holds note\.txt"):
        publish(make_site("two"), share, exchange=True)
    assert tree(share) == before


def test_a_second_writer_is_refused_until_the_first_is_done(make_site, share):
    publish(make_site("one"), share)
    told = []

    def rival(done, of):
        if done == of:
            with pytest.raises(PublishError) as error:
                publish(make_site("three"), share, exchange=True)
            told.append(str(error.value))

    publish(make_site("two"), share, rival, exchange=True)
    assert "Somebody is publishing" in told[0]
    assert faults_of_copy(share) == []
