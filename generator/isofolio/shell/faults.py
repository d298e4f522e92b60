"""The last look at a finished page: what the policy would block, and what comes from outside.

The pages come checked by `folio`; this look takes in the shell and the hand-written pages too,
and it raises where MkDocs only warns (a warning is lost under `mkdocs build --quiet --strict`).
"""

from collections.abc import Iterable

from isofolio.shell.policy import PAGES_WITH_INLINE_STYLES, inline_scripts


def page_faults(path: str, attributes: Iterable[tuple[str, str, str]], content: str) -> list[str]:
    """Faults of the page at `path`, a sentence each.

    attributes: tag, name and value of each that links, names, styles or runs; content: the part
    of the page that stands in the frame.
    """
    faults = [
        f"{path}: a script stands in the page ({script.strip()[:40]!r}): the policy blocks it. "
        "Move it to a file in site_src/scripts/."
        for script in inline_scripts(content)
    ]
    for tag, name, value in attributes:
        if name in ("href", "src"):
            faults += _faults_of_address(path, tag, value)
        elif name != "id" and (name != "style" or path not in PAGES_WITH_INLINE_STYLES):
            faults.append(
                f"{path}: {name}={value!r} in <{tag}>: the policy blocks it. "
                "Use a class and a style sheet, or a script in site_src/scripts/."
            )
    return faults


def _faults_of_address(path: str, tag: str, address: str) -> list[str]:
    """Faults of one address as written: a script, or something loaded from elsewhere."""
    start = address.strip().lower()
    if start.startswith(("javascript:", "vbscript:")):
        return [f"{path}: the link {address!r} runs a script: the policy blocks it. Remove it."]
    if tag != "a" and start.startswith(("http:", "https:", "//")):
        return [f"{path}: <{tag}> loads {address!r}. Nothing may be loaded from outside."]
    return []
