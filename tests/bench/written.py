"""A catalogue of any size on disk: the real files, and kin of the fluids in other strengths."""

import random
import shutil
from pathlib import Path
from typing import Any

import yaml

from isofolio.entries.scalars import parse_amount
from isofolio.entries.tree import Plain, read_tree

STRENGTHS = (0.25, 0.5, 0.75, 1.25, 1.5, 2.0)
# Declared values that do not grow with the strength.
STEADY = {"ph"}


class _Writer(yaml.CSafeDumper):
    """Writes what was unquoted without quotes, everything else in quotes, and no aliases."""

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002
        return True


def _scalar(writer: _Writer, text: str) -> Any:
    style = None if isinstance(text, Plain) else '"'
    return writer.represent_scalar("tag:yaml.org,2002:str", str(text), style=style)


_Writer.add_representer(Plain, _scalar)
_Writer.add_representer(str, _scalar)


def write_catalogue(source: Path, target: Path, size: int, seed: int = 1) -> None:
    """Copy the catalogue `source` to `target` and add kin until it holds `size` fluids."""
    shutil.copytree(source, target)
    files = sorted((source / "fluids").glob("*.yml"))
    roots = [read_tree(file.read_bytes(), file.name).root for file in files]
    chance = random.Random(seed)
    for number in range(len(roots), size):
        root = _kin(chance.choice(roots), number, chance.choice(STRENGTHS))
        text = yaml.dump(root, Dumper=_Writer, allow_unicode=True, sort_keys=False, width=10_000)
        (target / "fluids" / f"{root['id']}.yml").write_text(text, encoding="utf-8")


def _kin(root: dict[str, Any], number: int, strength: float) -> dict[str, Any]:
    """The entry with every amount of its recipe, and what is declared of it, at a strength."""
    made = {**root, "id": Plain(f"{root['id']}-{number}"), "name": f"{root['name']}, kin {number}"}
    made["also_known_as"] = [
        {**one, "name": f"{one['name']} {number}"} for one in root.get("also_known_as", ())
    ]
    made["contents"] = [
        {**one, "amount": _stronger(one["amount"], strength)} for one in root["contents"]
    ]
    if "declared" in root:
        made["declared"] = [
            {**group, "values": _declared(group["values"], strength)} for group in root["declared"]
        ]
    return made


def _declared(values: dict[str, str], strength: float) -> dict[str, str]:
    return {
        key: text if key in STEADY else _stronger(text, strength) for key, text in values.items()
    }


def _stronger(text: str, strength: float) -> str:
    amount = parse_amount(text)
    if amount.state != "exact" or amount.low is None or amount.unit == "%":
        return text
    number = str(amount.text).split(" ", 1)[0]
    figure = f"{amount.low * strength:.4f}".rstrip("0").rstrip(".")
    return Plain(text.replace(number, figure, 1))
