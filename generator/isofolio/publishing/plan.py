"""What a published copy of a site holds: assets under the digest of their content, pages that ask
for them there.

The folders of assets are renamed whole, `scripts` to `scripts-0f3a9c1b22d4`: the scripts read their
data from beside themselves, so that a page of an earlier publish finds scripts and data that fit.
"""

import html
import posixpath
import re
from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import quote, urlsplit

from isofolio.publishing.checksums import CHECKSUMS, checksums_text, digest_of
from isofolio.publishing.copies import Copy
from isofolio.publishing.links import ATTRIBUTE, TAG, Links, dead_links, links_of_file, target_of
from isofolio.publishing.names import faults_of_names
from isofolio.publishing.state import ASSET_FOLDERS
from isofolio.publishing.swap import REQUIRED

DIGITS = 12
SHOWN = 5


class PlanError(Exception):
    """The site cannot be published as it is; the message says why."""


@dataclass(frozen=True)
class Plan:
    """The copy to be. sources: path in the copy -> path in the site; digests: of the copy's files.

    folders: asset folder of the site -> its name in the copy.
    """

    site: Copy
    folders: Mapping[str, str]
    sources: Mapping[str, str]
    digests: Mapping[str, str]

    @property
    def files(self) -> dict[str, str]:
        """Path and digest of every file of the copy, the list of checksums among them."""
        return {**self.digests, CHECKSUMS: digest_of(checksums_text(self.digests))}

    def content(self, path: str) -> bytes:
        """The bytes of one file of the copy. Raises PlanError when the site changed."""
        if path == CHECKSUMS:
            return checksums_text(self.digests)
        content = _published(self.site, self.sources[path], self.folders)
        if content is None or digest_of(content) != self.digests[path]:
            raise PlanError(
                f"{self.sources[path]} in the site was changed or removed while it was published. "
                "Nobody may build into that folder meanwhile. Build, and publish again."
            )
        return content


def plan_of(site: Copy) -> Plan:
    """The copy of a site that is whole and whose pages find everything.

    Raises PlanError, and CopyError for what is no site at all.
    """
    listed = _sound(site)
    folders = _folders(listed)
    sources = {_renamed(path, folders): path for path in sorted(listed)}
    digests: dict[str, str] = {}
    links: dict[str, Links] = {}
    for path, source in sources.items():
        content = _published(site, source, folders)
        if content is None:
            raise PlanError(f"{source} in the site cannot be read any more.")
        digests[path] = digest_of(content)
        if found := links_of_file(path, content):
            links[path] = found
    _refuse(dead_links(links, digests) + faults_of_names(digests))
    return Plan(site, folders, sources, digests)


def _sound(site: Copy) -> dict[str, str]:
    """The files that a site lists, each as listed. Raises PlanError or CopyError."""
    listed = site.checksums()
    faults = [f"{name} is missing" for name in REQUIRED if name not in listed]
    for path, digest in listed.items():
        content = site.read(path)
        if content is None:
            faults.append(f"{path} is missing")
        elif digest_of(content) != digest:
            faults.append(f"{path} is not as it was built")
    _refuse(faults)
    return listed


def _refuse(faults: list[str]) -> None:
    if faults:
        more = [f"and {len(faults) - SHOWN} more"] if len(faults) > SHOWN else []
        raise PlanError(
            "\n".join((*faults[:SHOWN], *more, "The site is not sound: nothing was published."))
        )


def _folders(listed: Mapping[str, str]) -> dict[str, str]:
    """The name of each asset folder in the copy: with the digest of all that it holds."""
    named = {}
    for folder in ASSET_FOLDERS:
        within = {path: digest for path, digest in listed.items() if path.startswith(f"{folder}/")}
        named[folder] = f"{folder}-{digest_of(checksums_text(within))[:DIGITS]}"
    return named


def _renamed(path: str, folders: Mapping[str, str]) -> str:
    """The path in the copy of a path in the site.

    >>> _renamed("styles/handbook.css", {"styles": "styles-0f3a9c1b22d4"})
    'styles-0f3a9c1b22d4/handbook.css'
    """
    first, slash, rest = path.partition("/")
    return folders.get(first, first) + slash + rest if slash else path


def _published(site: Copy, source: str, folders: Mapping[str, str]) -> bytes | None:
    """The bytes in the copy of a file of the site; None where the site cannot give them."""
    content = site.read(source)
    if content is None or not source.endswith(".html"):
        return content
    return with_assets(source, content.decode("utf-8"), folders).encode("utf-8")


def with_assets(path: str, page: str, folders: Mapping[str, str]) -> str:
    """The page at `path`, asking for its assets where the copy holds them.

    >>> with_assets("fluids/a.html", '<img src="../drawings/a.svg">', {"drawings": "drawings-12"})
    '<img src="../drawings-12/a.svg">'
    """

    def asset(found: re.Match[str]) -> str:
        name, value = found.group(1), html.unescape(found.group(2) or found.group(3) or "")
        new = _address(path, value, folders) if name in ("href", "src") else value
        return found.group() if new == value else f' {name}="{html.escape(new)}"'

    def tag(found: re.Match[str]) -> str:
        text = found.group()
        return ATTRIBUTE.sub(asset, text) if any(f"{name}/" in text for name in folders) else text

    return TAG.sub(tag, page)


def _address(path: str, address: str, folders: Mapping[str, str]) -> str:
    """An address in the page at `path` as it is in the copy; unchanged unless it is an asset's."""
    parts = urlsplit(address)
    if parts.scheme or parts.netloc or not parts.path:
        return address
    if parts.path.startswith("/"):
        # The page for a missing address, whose links start at the root of a server.
        return "/".join(folders.get(name, name) for name in address.split("/"))
    target = target_of(path, parts.path)
    renamed = _renamed(target, folders)
    if renamed == target:
        return address
    new = posixpath.relpath(renamed, posixpath.dirname(path) or ".")
    return parts._replace(path=quote(new)).geturl()
