"""Build or serve the handbook through MkDocs as a library: no second way to build."""

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from isofolio.shell.theme_names import LOGGER
from isofolio.vocabulary.exits import ENVIRONMENT_FAULT

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

PLUGIN = "isofolio"
NO_PLUGIN = (
    "does not name this program. Write there  plugins:  and below it  - isofolio:  with "
    "catalogue: catalogue."
)


class BuildError(Exception):
    """The build ended without a new site; the message is for the reader; code is the exit code."""

    def __init__(self, message: str, code: int) -> None:
        super().__init__(message)
        self.code = code


def build_handbook(
    project: Path, catalogue: Path, site_dir: Path | None, stock: str | None
) -> Path:
    """Load mkdocs.yml, set site_dir and the plugin's options, run. Returns where the site stands.

    Raises BuildError; the previous site is then untouched.
    """
    from mkdocs.commands.build import build
    from mkdocs.exceptions import Abort, ConfigurationError

    live = (site_dir or project / "site").resolve()
    try:
        with _heard(logging.ERROR):
            config = _settings(project / "mkdocs.yml", live)
            options = config.plugins[PLUGIN].config
            options["catalogue"] = str(catalogue.resolve())
            options["stock"] = stock
            config.plugins.on_startup(command="build", dirty=False)
            try:
                build(config)
            finally:
                config.plugins.on_shutdown()
    except Abort as error:
        raise BuildError(str(error), getattr(error, "code", ENVIRONMENT_FAULT)) from None
    except (ConfigurationError, OSError) as error:
        raise BuildError(f"The site could not be built: {error}", ENVIRONMENT_FAULT) from None
    return live


def _settings(file: Path, live: Path) -> "MkDocsConfig":
    """What mkdocs.yml says, for a site at `live`. Raises BuildError: no catalogue is to blame."""
    from mkdocs.config import load_config
    from mkdocs.exceptions import Abort

    try:
        config = load_config(str(file), site_dir=str(live))
    except Abort as error:
        raise BuildError(f"{file} cannot be used: {error}", ENVIRONMENT_FAULT) from None
    if PLUGIN not in config.plugins:
        raise BuildError(f"{file} {NO_PLUGIN}", ENVIRONMENT_FAULT)
    return config


def serve_handbook(project: Path, catalogue: Path, address: str) -> None:
    """Serve with live reload, as `mkdocs serve` does. Raises BuildError."""
    from mkdocs.commands.serve import serve
    from mkdocs.exceptions import Abort, ConfigurationError

    options: dict[str, Any] = {"dev_addr": address}
    if catalogue.resolve() != (project / "catalogue").resolve():
        options["plugins"] = [{PLUGIN: {"catalogue": str(catalogue.resolve())}}]
    logging.basicConfig(format="%(message)s")
    try:
        with _heard(logging.INFO):
            serve(str(project / "mkdocs.yml"), **options)
    except Abort as error:
        raise BuildError(str(error), getattr(error, "code", ENVIRONMENT_FAULT)) from None
    except (ConfigurationError, OSError) as error:
        raise BuildError(f"The handbook cannot be served: {error}", ENVIRONMENT_FAULT) from None


@contextmanager
def _heard(level: int) -> Iterator[None]:
    """How much of what MkDocs says is heard, for as long as it runs."""
    logger = logging.getLogger(LOGGER)
    before = logger.level
    logger.setLevel(level)
    try:
        yield
    finally:
        logger.setLevel(before)
