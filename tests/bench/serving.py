"""How soon an edit shows while one serves 1,000 fluids. Part of `make bench`.

From the moment a file is written until the page answers anew, as a browser sees it: it waits at the
server's own address for news, then asks for its page. Clock seconds hold what the server sleeps
between two looks at the folder, up to half a second; processor seconds are the server's alone.

    python tests/bench/serving.py [SIZE]
"""

import os
import re
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from builds import project_of, say

SIZE, EDITS = 1_000, 5
AIM = 1.0
PATIENCE = 120.0
PAGE = "fluids/glucose-5.html"
# What is edited: a file, and the line that is given another figure or word each time.
FLUID = ("fluids/glucose-5.yml", r"(?m)^name: .*$", "name: Renamed fluid {number}")
SUBSTANCE = ("substances/glucose.yml", r"(?m)^name: .*$", "name: Glucose of form {number}")
LIMIT = ("limits.yml", r"(?m)^    value: 9\d\d mOsm/L", "    value: 90{number} mOsm/L")
KINDS = {"one fluid": FLUID, "a substance": SUBSTANCE, "a limit": LIMIT}


@dataclass(frozen=True)
class Served:
    """A running `serve`: its process, its address and the project it serves."""

    process: int
    address: str
    project: Path

    def page(self, path: str = PAGE) -> str:
        """What the server answers."""
        with urllib.request.urlopen(self.address + path, timeout=PATIENCE) as answer:
            return str(answer.read().decode("utf-8"))

    def processor(self) -> float:
        """Seconds of the processor that the server has used."""
        told = Path(f"/proc/{self.process}/stat").read_text(encoding="utf-8")
        fields = told.rpartition(") ")[2].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def edit(self, kind: str, number: int) -> tuple[float, float]:
        """Make one edit: seconds of the clock and of the processor until its page answers anew."""
        file, pattern, new = KINDS[kind]
        path = self.project / "catalogue" / file
        before = self.page()
        text, count = re.subn(pattern, new.format(number=number), path.read_text(encoding="utf-8"))
        assert count, f"{pattern} does not stand in {file}"
        news = re.findall(r"livereload\((\d+), ", before)[-1]
        processor, clock = self.processor(), time.perf_counter()
        path.write_text(text, encoding="utf-8")
        self.page(f"livereload/{news}/1")
        assert digest(self.page()) != digest(before)
        return time.perf_counter() - clock, self.processor() - processor


def digest(page: str) -> str:
    """Which copy of the catalogue a page says that it is of."""
    return re.findall(r"digest <code>([0-9a-f]+)</code>", page)[0]


@contextmanager
def serving(project: Path) -> Iterator[Served]:
    """Serve a project until the end of the block."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{free.getsockname()[1]}"
    command = [sys.executable, "-m", "isofolio", "serve", "--address", address]
    with subprocess.Popen(command, cwd=project, stderr=subprocess.DEVNULL) as child:
        served = Served(child.pid, f"http://{address}/", project)
        try:
            _answers(served)
            yield served
        finally:
            child.terminate()


def _answers(served: Served) -> None:
    """Wait until the server answers."""
    end = time.monotonic() + PATIENCE
    while True:
        try:
            served.page()
        except (urllib.error.URLError, ConnectionError):
            if time.monotonic() > end:
                raise
            time.sleep(0.2)
        else:
            return


def told(name: str, edits: list[tuple[float, float]]) -> None:
    """One line: the middle one of several edits, by the clock and by the processor."""
    clock, processor = (sorted(several) for several in zip(*edits, strict=True))
    seconds = f"{median(clock):.2f} s ({clock[0]:.2f} to {clock[-1]:.2f})"
    say(f"serve, edit of {name}: {seconds}, processor {median(processor):.2f} s")


def main(arguments: list[str]) -> None:
    """Measure each kind of edit."""
    size = int(arguments[0]) if arguments else SIZE
    with (
        tempfile.TemporaryDirectory() as name,
        serving(project_of(size, Path(name) / "project")) as served,
    ):
        for kind in KINDS:
            told(kind, [served.edit(kind, number) for number in range(1, EDITS + 1)])
    say(f"{size} fluids; aim: about {AIM:.0f} s")


if __name__ == "__main__":
    main(sys.argv[1:])
