"""In `serve` a page is made when somebody asks for it, and kept until the next edit.

Every page prints the digest of the catalogue, so no rendered page outlives an edit; but of the
thousands that a large handbook has, an editor looks at few. `build` makes them all.
"""

from collections.abc import Callable, Iterable, Mapping
from threading import Condition
from typing import Any
from urllib.parse import unquote

from mkdocs.structure.files import File

Application = Callable[[dict[str, Any], Any], Iterable[bytes]]
PATIENCE = 60.0
"""Seconds that a request waits for a build to end."""


class Waiting:
    """The files of the last build that nobody has asked for yet; `write` makes one of them.

    Requests come in threads of their own, while the next build may be under way.
    """

    def __init__(self, write: Callable[[File], None]) -> None:
        self._write = write
        self._files: dict[str, File] = {}
        self._building = False
        self._change = Condition()

    def close(self) -> None:
        """A build begins: whatever waited is out of date."""
        with self._change:
            self._files, self._building = {}, True

    def open(self, files: Mapping[str, File]) -> None:
        """The build has ended; these files, by path, wait to be asked for."""
        with self._change:
            self._files, self._building = dict(files), False
            self._change.notify_all()

    def make(self, path: str) -> None:
        """Make the file at a path of the site, if it waits there."""
        with self._change:
            self._change.wait_for(lambda: not self._building, timeout=PATIENCE)
            file = self._files.pop(path, None)
            if file is not None:
                self._write(file)

    def made_first(self, application: Application, root: str) -> Application:
        """A server's application, before which the file that is asked for is made.

        root: where the site begins on the server, with a slash at both ends.
        """

        def answer(environ: dict[str, Any], start_response: Any) -> Iterable[bytes]:
            path = unquote(environ["PATH_INFO"]).removeprefix(root)
            self.make(f"{path}index.html" if path.endswith("/") or not path else path)
            return application(environ, start_response)

        return answer
