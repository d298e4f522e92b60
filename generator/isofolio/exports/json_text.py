"""The handbook as JSON."""

import json
from typing import Any

from isofolio.exports.document import document
from isofolio.exports.figures import exported
from isofolio.handbook import Handbook


def json_export(handbook: Handbook) -> str:
    """The document as JSON text: the same catalogue and program give the same bytes.

    Keys stand in the contract's order; numbers carry 12 significant digits. Raises ValueError
    where a number is not finite: JSON knows no NaN, and unknown is null with a reason.
    """
    return strict_json(_rounded(document(handbook)))


def strict_json(made: Any) -> str:
    """JSON text of plain dicts and lists, keys in their order, one to a line.

    Raises ValueError where a number is not finite.
    """
    return json.dumps(made, ensure_ascii=False, allow_nan=False, indent=1) + "\n"


def _rounded(node: Any) -> Any:
    if isinstance(node, float):
        return exported(node)
    if isinstance(node, dict):
        return {key: _rounded(item) for key, item in node.items()}
    if isinstance(node, list):
        return [_rounded(item) for item in node]
    return node
