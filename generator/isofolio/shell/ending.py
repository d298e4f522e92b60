"""How a build ends without a new site: with a message and an exit code, never with a traceback."""

import logging
from typing import NoReturn

from mkdocs.exceptions import Abort
from mkdocs.utils import CountHandler

from isofolio.shell.theme_names import LOGGER


def abort(message: str, code: int) -> NoReturn:
    """End the build with a message and no traceback; `code` is for `isofolio` (MkDocs exits 1)."""
    ending = Abort(message)
    ending.code = code
    raise ending from None


def strict_will_abort() -> bool:
    """Whether `--strict` has counted a warning: MkDocs looks only after the last event."""
    handlers = logging.getLogger(LOGGER).handlers
    return any(handler.get_counts() for handler in handlers if isinstance(handler, CountHandler))


def problem_text(problems: tuple[str, ...]) -> str:
    """All problems of a catalogue, and how many they are."""
    count = "one problem" if len(problems) == 1 else f"{len(problems)} problems"
    return "\n\n".join((*problems, f"The catalogue has {count}: no site was built from it."))
