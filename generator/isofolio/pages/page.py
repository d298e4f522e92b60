"""A finished page, and the template environment that makes it."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import jinja2

from isofolio.wording.addresses import relative
from isofolio.wording.figures import typeset

# Near the top of every entry that nobody has checked.
DRAFT = "Draft: not yet checked by a pharmacist or doctor."

TEMPLATES = Path(__file__).parent / "templates"


@dataclass(frozen=True)
class Page:
    """path: from the root of the site; body: the inner HTML of <main>; crumbs: label, address."""

    path: str
    title: str
    description: str
    body: str
    crumbs: tuple[tuple[str, str], ...] = ()
    scripts: tuple[str, ...] = ()


@cache
def _environment() -> jinja2.Environment:
    """Autoescaped, strict about missing names; templates compute nothing."""
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
        finalize=_held_together,
    )
    environment.filters["typeset"] = typeset
    return environment


def _held_together(value: object) -> object:
    """No figure parts from its unit, whatever entry it comes from; finished HTML stays as it is."""
    if type(value) is not str or value.startswith("https:"):
        return value
    return typeset(value)


def rendered(template: str, here: str, context: Mapping[str, Any]) -> str:
    """Render a template for the page at `here`; `to(address)` in it makes a relative link."""

    def to(address: str) -> str:
        return relative(here, address)

    return _environment().get_template(template).render({**context, "to": to})
