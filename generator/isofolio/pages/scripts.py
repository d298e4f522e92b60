"""Data for scripts, as scripts: `fetch` is dead on a file share, a script tag is not."""

import json
from typing import Any

SHARED = "window.isofolio = window.isofolio || {};\n"


def data_script(name: str, value: Any) -> str:
    """A classic script that sets one property of the one global.

    >>> data_script("a", {"b": [1, "\\u202f%"]})
    'window.isofolio = window.isofolio || {};\\nisofolio.a = {"b":[1,"\\u202f%"]};\\n'
    """
    return f"{SHARED}isofolio.{name} = {as_json(value)};\n"


def entry_script(name: str, key: str, value: Any) -> str:
    """A classic script that adds one entry to a property of the one global; each has its file.

    >>> print(entry_script("a", "b", [1]), end="")
    window.isofolio = window.isofolio || {};
    (isofolio.a = isofolio.a || {})["b"] = [1];
    """
    place = f"(isofolio.{name} = isofolio.{name} || {{}})[{as_json(key)}]"
    return f"{SHARED}{place} = {as_json(value)};\n"


def as_json(value: Any) -> str:
    """JSON that any script may hold: no infinity, letters as they are, keys as given."""
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def short(figure: float | None) -> float | int | None:
    """A figure to six digits, whole numbers without a point.

    >>> short(277.536977), short(154.0), short(None)
    (277.537, 154, None)
    """
    if figure is None:
        return None
    rounded = float(f"{figure:.6g}")
    return int(rounded) if rounded.is_integer() else rounded
