"""Pydantic's errors, told in our words at their line and column."""

from difflib import SequenceMatcher
from typing import Any

from pydantic import BaseModel, ValidationError

from isofolio.entries.problems import Problem, did_you_mean, excerpt, quoted
from isofolio.entries.tree import KEY, Path, Tree


def translated(tree: Tree, kind: type[BaseModel], error: ValidationError) -> list[Problem]:
    """Pydantic's errors in our words; a missing key beside its misspelling is one problem."""
    details = error.errors(include_url=False, include_input=True)
    unknown = [d for d in details if d["type"] == "extra_forbidden"]
    missing = [d for d in details if d["type"] == "missing"]
    meant = _meant(unknown, missing)
    explained = [id(m) for m in meant.values()]
    found = []
    for detail in details:
        if id(detail) not in explained:
            instead = meant.get(id(detail))
            keys = [str(instead["loc"][-1])] if instead else []
            found.append(_one(tree, kind, detail, keys))
    return found


def _meant(unknown: Any, missing: Any) -> dict[int, Any]:
    """Which missing key each unknown key was meant for: the one most like it, each only once."""
    meant: dict[int, Any] = {}
    left = list(missing)
    for detail in unknown:
        here = [m for m in left if m["loc"][:-1] == detail["loc"][:-1]]
        best = max(here, key=lambda m: _likeness(detail, m), default=None)
        if best is not None and _likeness(detail, best) >= 0.6:
            meant[id(detail)] = best
            left.remove(best)
    return meant


def _likeness(unknown: Any, missing: Any) -> float:
    return SequenceMatcher(None, str(unknown["loc"][-1]), str(missing["loc"][-1])).ratio()


def _one(tree: Tree, kind: type[BaseModel], detail: Any, meant: list[str]) -> Problem:
    path = _known_path(tree, detail["loc"])
    if detail["type"] == "isofolio":
        return _own_fault(tree, path, detail["ctx"])
    if detail["type"] == "extra_forbidden":
        message = f"{quoted(str(path[-1]))} is not a key here"
        in_braces = "{" in excerpt(tree.source, tree.place((*path, KEY)))
        split = in_braces and detail["input"] == "" and not meant
        fix = SPLIT_TEXT if split else _fix_of_key(tree, kind, path, meant)
        return tree.problem((*path, KEY), message, fix)
    if detail["type"] == "missing":
        key = detail["loc"][-1]
        where = f" in {_spoken(path)}" if path else ""
        return tree.problem(path, f'the key "{key}" is missing{where}', f"Add  {key}: …")
    if detail["type"] in _EXPECTED:
        return _wrong_shape(tree, path, detail)
    fix = "Compare with the template in README.md."
    return tree.problem(path, _told(path, detail["msg"]), fix)


def _own_fault(tree: Tree, path: Path, context: Any) -> Problem:
    """A fault of our own: at a key of its mapping where it names one."""
    inside = (*path, context["at"]) if (*path, context["at"]) in tree.places else path
    message = _told(path[:-2] if path[-1:] == (KEY,) else path, context["message"])
    return tree.problem(inside, message, context["fix"])


def _told(path: Path, message: str) -> str:
    return f"{_spoken(path)}: {message}" if path else message


# A key without a value inside { } is mostly the rest of a text that holds a comma.
SPLIT_TEXT = (
    "Inside { } a comma begins a new key: put a text with a comma in quotes, "
    "and a space after each colon."
)
_EXPECTED = {
    "list_type": ("a list", "Write it as a list: [ … ], or one item a line after a hyphen."),
    "model_type": ("a mapping", "Write  key: value  pairs."),
    "dict_type": ("a mapping", "Write  key: value  pairs."),
}


def _wrong_shape(tree: Tree, path: Path, detail: Any) -> Problem:
    expected, fix = _EXPECTED[detail["type"]]
    value = detail["input"]
    if value == "":
        fix += " Or delete the key if it may be left out."
        return tree.problem(path, _told(path, "the value is empty"), fix)
    found = _kind_of(value)
    message = f"{found} stands where {expected} is expected"
    return tree.problem(path, _told(path, message), fix)


def _kind_of(value: object) -> str:
    if isinstance(value, dict):
        return "a mapping"
    return "a list" if isinstance(value, list) else "one value"


def _fix_of_key(tree: Tree, kind: type[BaseModel], path: Path, meant: list[str]) -> str:
    """The key that was meant, or the nearest that is not there yet, or else all that are known."""
    known = keys_at(kind, path[:-1])
    absent = [key for key in known if (*path[:-1], key) not in tree.places]
    guess = did_you_mean(str(path[-1]), meant or absent)
    return guess or f"Known keys: {', '.join(known)}."


def _spoken(path: Path) -> str:
    """A path as an editor counts: the first item of a list is item 1.

    >>> _spoken(("contents", 0, "amount"))
    'contents, item 1, amount'
    """
    return ", ".join(f"item {part + 1}" if isinstance(part, int) else part for part in path)


def _known_path(tree: Tree, location: Any) -> Path:
    """Cut what Pydantic adds to a location (union branches) and what the file does not have."""
    path: Path = ()
    for part in location:
        if (*path, part) in tree.places:
            path = (*path, part)
    return path


def keys_at(kind: type[BaseModel], location: Any) -> list[str]:
    """The keys of the mapping at `location` in records of `kind`."""
    current: Any = kind
    for part in location:
        if isinstance(part, int):
            continue
        fields = getattr(current, "model_fields", {})
        if part in fields:
            current = _model_in(fields[part].annotation)
    return list(getattr(current, "model_fields", {}))


def _model_in(annotation: Any) -> Any:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in getattr(annotation, "__args__", ()):
        found = _model_in(inner)
        if found is not None:
            return found
    return None
