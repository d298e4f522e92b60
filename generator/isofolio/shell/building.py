"""Build or serve the handbook through MkDocs as a library: no second way to build."""

import logging
from pathlib import Path

from isofolio.shell.theme_names import LOGGER


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
    from mkdocs.config import load_config
    from mkdocs.exceptions import Abort, ConfigurationError

    live = (site_dir or project / "site").resolve()
    logging.getLogger(LOGGER).setLevel(logging.ERROR)
    try:
        config = load_config(str(project / "mkdocs.yml"), site_dir=str(live))
        options = config.plugins["isofolio"].config
        options["catalogue"] = str(catalogue.resolve())
        options["stock"] = stock
        config.plugins.on_startup(command="build", dirty=False)
        try:
            build(config)
        finally:
            config.plugins.on_shutdown()
    except Abort as error:
        raise BuildError(str(error), getattr(error, "code", 2)) from None
    except (ConfigurationError, OSError) as error:
        raise BuildError(f"The site could not be built: {error}", 2) from None
    return live


def serve_handbook(project: Path, catalogue: Path, address: str) -> None:
    """Serve with live reload, as `mkdocs serve` does. Raises BuildError."""
    from mkdocs.commands.serve import serve
    from mkdocs.exceptions import Abort, ConfigurationError

    del catalogue  # mkdocs.yml names it; serving another folder needs another mkdocs.yml
    logging.basicConfig(format="%(message)s")
    logging.getLogger(LOGGER).setLevel(logging.INFO)
    try:
        serve(str(project / "mkdocs.yml"), dev_addr=address)
    except Abort as error:
        raise BuildError(str(error), getattr(error, "code", 2)) from None
    except (ConfigurationError, OSError) as error:
        raise BuildError(f"The handbook cannot be served: {error}", 2) from None
