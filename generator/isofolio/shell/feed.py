"""The Atom feed of a site that knows at which address it stands (site_url in mkdocs.yml)."""

from isofolio.exports.feed import atom_feed
from isofolio.folio import SiteFile
from isofolio.shell.contents import Contents
from isofolio.wording.addresses import FEED


def feed_address(contents: Contents, site_url: str | None) -> str:
    """Where the feed stands in the site; empty where there is none."""
    handbook = contents.handbook
    return FEED if site_url and handbook is not None and handbook.changes else ""


def feed_files(contents: Contents, site_url: str | None, site_name: str) -> list[SiteFile]:
    """The feed as a file of the site, or nothing."""
    if not site_url or contents.handbook is None or not feed_address(contents, site_url):
        return []
    return [SiteFile(path=FEED, content=atom_feed(contents.handbook, site_url, site_name))]
