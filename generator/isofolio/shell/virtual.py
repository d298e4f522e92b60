"""Pages and files that exist nowhere on disk: MkDocs writes them, no Markdown is run on them."""

import re
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import TableOfContents

from isofolio.folio import SiteFile

ANCHOR = re.compile(r'\sid="([^"]+)"')


class VirtualPage(Page):
    """A page whose body is finished HTML."""

    def __init__(
        self, site_file: SiteFile, file: File, config: MkDocsConfig, template: str
    ) -> None:
        super().__init__(site_file.title, file, config)
        self.site_file = site_file
        self.template = template

    def read_source(self, config: MkDocsConfig) -> None:  # noqa: ARG002
        """Nothing to read: set what MkDocs expects to find after reading."""
        self.markdown = ""
        self.meta: dict[str, Any] = {"template": self.template}

    def render(self, config: MkDocsConfig, files: Files) -> None:  # noqa: ARG002
        """Take the body as it is; links and anchors in it are checked when it is written."""
        self.content = str(self.site_file.content)
        self.toc = TableOfContents([])
        self.present_anchor_ids = set(ANCHOR.findall(self.content))
        self.links_to_anchors = {}


def page_file(site_file: SiteFile, config: MkDocsConfig, template: str = "main.html") -> File:
    """The file of a page of ours, kept out of the navigation (whose cost is quadratic).

    MkDocs takes it for a Markdown source beside the hand-written ones, so that they can link to
    it as `fluids/glucose-5.md`.
    """
    source = site_file.path.removesuffix(".html") + ".md"
    file = File.generated(config, source, content="", inclusion=InclusionLevel.NOT_IN_NAV)
    file.dest_uri = site_file.path
    file.page = VirtualPage(site_file, file, config, template)
    return file


def data_file(site_file: SiteFile, config: MkDocsConfig) -> File:
    """A file that is written as it is; text always as UTF-8 with the line ends it has."""
    content = site_file.content
    written = content.encode("utf-8") if isinstance(content, str) else content
    inclusion = InclusionLevel.NOT_IN_NAV
    return File.generated(config, site_file.path, content=written, inclusion=inclusion)
