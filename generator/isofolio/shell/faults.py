"""The last look at a finished page: links, anchors, and what the policy would block.

The pages come checked by `folio`; this look takes in the shell and the hand-written pages too,
and it raises where MkDocs only warns (a warning is lost under `mkdocs build --quiet --strict`).
"""

import posixpath
import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from html import unescape
from sys import intern
from urllib.parse import unquote, urlsplit

from isofolio.shell.policy import PAGES_WITH_INLINE_STYLES, inline_scripts

TAG = re.compile(r"<([a-zA-Z][\w:-]*)(\s[^<>]*)>")
ATTRIBUTE = re.compile(r"""\s(href|src|id|style|on[a-z]+)\s*=\s*(?:"([^"]*)"|'([^']*)')""")


@dataclass(frozen=True)
class PageFacts:
    """What the check needs to know of one page, each link once.

    Pages share most of their links and anchors: one text serves them all.
    """

    links: tuple[str, ...]
    anchors: frozenset[str]
    faults: tuple[str, ...]


def page_facts(path: str, html: str, content: str) -> PageFacts:
    """Links, anchors and faults of the page `html` at `path`; `content` is its part from us.

    >>> facts = page_facts("a.html", '<a href="b.html#c" id="d">b</a>', "")
    >>> facts.links, sorted(facts.anchors), facts.faults
    (('b.html#c',), ['d'], ())
    """
    links: list[str] = []
    anchors: set[str] = set()
    faults: list[str] = [
        f"{path}: a script stands in the page ({script.strip()[:40]!r}): the policy blocks it. "
        "Move it to a file in site_src/scripts/."
        for script in inline_scripts(content)
    ]
    for tag, name, value in _attributes(html):
        if name == "id":
            anchors.add(intern(value))
        elif name in ("href", "src"):
            links.append(intern(value))
            faults += _faults_of_address(path, tag, value)
        elif name != "style" or path not in PAGES_WITH_INLINE_STYLES:
            faults.append(
                f"{path}: {name}={value!r} in <{tag}>: the policy blocks it. "
                "Use a class and a style sheet, or a script in site_src/scripts/."
            )
    return PageFacts(tuple(dict.fromkeys(links)), frozenset(anchors), tuple(faults))


def _attributes(html: str) -> Iterator[tuple[str, str, str]]:
    for tag, attributes in TAG.findall(html):
        for name, double, single in ATTRIBUTE.findall(attributes):
            yield tag.lower(), name, unescape(double or single)


def _faults_of_address(path: str, tag: str, address: str) -> list[str]:
    """Faults of one address as written: a script, or something loaded from elsewhere."""
    start = address.strip().lower()
    if start.startswith(("javascript:", "vbscript:")):
        return [f"{path}: the link {address!r} runs a script: the policy blocks it. Remove it."]
    if tag != "a" and start.startswith(("http:", "https:", "//")):
        return [f"{path}: <{tag}> loads {address!r}. Nothing may be loaded from outside."]
    return []


def dead_links(pages: Mapping[str, PageFacts], paths: Collection[str]) -> list[str]:
    """One sentence for each link of `pages` that leads to no file of `paths` or to no anchor."""
    return [
        f"{path}: the link {link!r} leads nowhere: {reason}"
        for path, facts in sorted(pages.items())
        for link in facts.links
        if (reason := _dead(path, link, pages, paths))
    ]


def _dead(path: str, link: str, pages: Mapping[str, PageFacts], paths: Collection[str]) -> str:
    """Why `link` on the page `path` is dead; empty when it is alive or leads outside."""
    parts = urlsplit(link)
    if parts.scheme or parts.netloc:
        return ""
    if parts.path.startswith("/"):
        # Only the page for a missing address may do so: it is shown at any depth.
        return "" if path == "404.html" else "it starts with /, which a file share does not know."
    target = _target(path, unquote(parts.path))
    if target not in paths:
        return f"there is no {target}."
    anchor = unquote(parts.fragment)
    if anchor and target in pages and anchor not in pages[target].anchors:
        return f"{target} has no anchor {anchor!r}."
    return ""


def _target(path: str, address: str) -> str:
    """The path within the site that the relative `address` on the page `path` means."""
    if not address:
        return path
    return posixpath.normpath(posixpath.join(posixpath.dirname(path), address))
