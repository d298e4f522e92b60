"""Links and anchors of finished files, and which of them lead nowhere."""

import posixpath
import re
from bisect import bisect_left
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from html import unescape
from sys import intern
from urllib.parse import unquote, urlsplit

# The page for a missing address is shown at any depth: on a server its links start at the root.
NOT_FOUND = "404.html"

TAG = re.compile(r"<([a-zA-Z][\w:-]*)(\s[^<>]*)>")
ATTRIBUTE = re.compile(r"""\s(href|src|id|style|on[a-z]+)\s*=\s*(?:"([^"]*)"|'([^']*)')""")
LOADED_BY_STYLES = re.compile(r"""url\(\s*["']?([^"')]+)""")


@dataclass(frozen=True)
class Links:
    """Where one file leads to, and the places in it that others may lead to.

    Pages share most of their links and anchors: one text serves them all. anchors: in alphabetical
    order, since sets of all pages of a large handbook would take more memory than its entries.
    """

    links: tuple[str, ...]
    anchors: tuple[str, ...]

    def has(self, anchor: str) -> bool:
        """Whether others may lead to this place in the file."""
        place = bisect_left(self.anchors, anchor)
        return self.anchors[place : place + 1] == (anchor,)


def attributes_of(html: str) -> Iterator[tuple[str, str, str]]:
    """Tag, name and value of each attribute that links, names, styles or runs.

    >>> list(attributes_of('<A href="b.html?x=1&amp;y=2">b</A>'))
    [('a', 'href', 'b.html?x=1&y=2')]
    """
    for found in TAG.finditer(html):
        tag, attributes = found.groups()
        for name, double, single in ATTRIBUTE.findall(attributes):
            yield tag.lower(), name, unescape(double or single)


def links_of_page(html: str) -> Links:
    """Links and anchors of a page, or of a drawing.

    >>> page = links_of_page('<a href="b.html#c" id="d">b</a>')
    >>> page.links, page.anchors
    (('b.html#c',), ('d',))
    """
    return links_among(attributes_of(html))


def links_among(attributes: Iterable[tuple[str, str, str]]) -> Links:
    """Links and anchors among the attributes of a page."""
    links: dict[str, None] = {}
    anchors: set[str] = set()
    for _, name, value in attributes:
        if name in ("href", "src"):
            links[intern(value)] = None
        elif name == "id":
            anchors.add(intern(value))
    return Links(tuple(links), tuple(sorted(anchors)))


def links_of_styles(css: str) -> Links:
    """What a style sheet loads.

    >>> links_of_styles("a { background: url('../drawings/a.svg') }").links
    ('../drawings/a.svg',)
    """
    return Links(tuple(LOADED_BY_STYLES.findall(css)), ())


def links_of_file(path: str, content: bytes) -> Links | None:
    """Links and anchors of a file of the site; None for a kind of file that has none."""
    suffix = posixpath.splitext(path)[1]
    if suffix in (".html", ".svg"):
        return links_of_page(content.decode("utf-8"))
    if suffix == ".css":
        return links_of_styles(content.decode("utf-8"))
    return None


def dead_links(files: Mapping[str, Links], paths: Collection[str]) -> list[str]:
    """One sentence for each link of `files` that leads to no file of `paths` or to no anchor."""
    return [
        f"{path}: the link {link!r} leads nowhere: {reason}"
        for path, found in sorted(files.items())
        for link in found.links
        if (reason := _dead(path, link, files, paths))
    ]


def _dead(path: str, link: str, files: Mapping[str, Links], paths: Collection[str]) -> str:
    """Why `link` in the file `path` is dead; empty when it is alive or leads outside."""
    parts = urlsplit(link)
    if parts.scheme or parts.netloc:
        return ""
    if parts.path.startswith("/"):
        return "" if path == NOT_FOUND else "it starts with /, which a file share does not know."
    target = target_of(path, parts.path)
    if target not in paths:
        return f"there is no {target}."
    anchor = unquote(parts.fragment)
    if anchor and target in files and not files[target].has(anchor):
        return f"{target} has no anchor {anchor!r}."
    return ""


def target_of(path: str, address: str) -> str:
    """The path within the site that a relative address in the file `path` means.

    >>> target_of("fluids/a.html", "../styles/handbook.css")
    'styles/handbook.css'
    """
    if not address:
        return path
    return posixpath.normpath(posixpath.join(posixpath.dirname(path), unquote(address)))
