"""Names that every file system takes: the main road is a Windows file share.

Source: "Naming Files, Paths, and Namespaces" (Microsoft Learn), from memory: reserved characters
and device names, no full stop or space at the end, 260 characters for a whole path.
"""

import re
from collections.abc import Iterable

RESERVED_CHARACTERS = re.compile(r'[<>:"/\\|?*\x00-\x1f]')
RESERVED_NAMES = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9])(\.|$)", re.IGNORECASE)
# Of the 260, a hundred are left for the share's own address, and some for a file half written.
LONGEST = 140


def faults_of_names(paths: Iterable[str]) -> list[str]:
    """What keeps a file from standing on a Windows share, one sentence each.

    >>> faults_of_names(["fluids/con.html", "a.html", "A.html"])[0]
    'fluids/con.html: the name con.html is reserved on Windows.'
    """
    faults: list[str] = []
    seen: dict[str, str] = {}
    for path in paths:
        faults += [f"{path}: {fault}" for part in path.split("/") if (fault := _fault(part))]
        if len(path) > LONGEST:
            faults.append(f"{path}: longer than {LONGEST} characters.")
        other = seen.setdefault(path.lower(), path)
        if other != path:
            faults.append(f"{path}: Windows takes it for {other}.")
    return faults


def _fault(name: str) -> str:
    """What is wrong with one name within a path; empty when nothing is."""
    if found := RESERVED_CHARACTERS.search(name):
        return f"the name {name} holds {found.group()!r}, which Windows does not allow."
    if RESERVED_NAMES.match(name):
        return f"the name {name} is reserved on Windows."
    if name.endswith((".", " ")):
        return f"the name {name} ends with a full stop or a space, which Windows drops."
    return ""
