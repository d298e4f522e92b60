"""Pages and files that exist nowhere on disk: MkDocs writes them, no Markdown is run on them.

Each is made when it is written and let go of then: a handbook of thousands is never held whole.
"""

from pathlib import Path
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import TableOfContents

from isofolio.folio import Planned, SiteFile


class VirtualPage(Page):
    """A page whose body is finished HTML."""

    def __init__(
        self, planned: SiteFile | Planned, file: File, config: MkDocsConfig, template: str
    ) -> None:
        super().__init__(planned.path, file, config)
        self.planned = planned
        self.template = template

    def read_source(self, config: MkDocsConfig) -> None:  # noqa: ARG002
        """Nothing to read: set what MkDocs expects to find after reading."""
        self.markdown = ""
        self.meta: dict[str, Any] = {"template": self.template}

    def render(self, config: MkDocsConfig, files: Files) -> None:  # noqa: ARG002
        """Nothing to render: links and anchors are checked when the page is made and written."""
        self.content = ""
        self.toc = TableOfContents([])
        self.links_to_anchors = {}

    def made(self) -> SiteFile:
        """The page, with its body as content."""
        site_file = self.planned.made()
        self.content = str(site_file.content)
        return site_file

    def let_go(self) -> None:
        """The page is written: forget its body."""
        self.content = ""


class VirtualFile(File):
    """A file that is written as it is made; text always as UTF-8 with the line ends it has."""

    def __init__(self, planned: SiteFile | Planned, config: MkDocsConfig) -> None:
        super().__init__(
            planned.path,
            src_dir=None,
            dest_dir=config.site_dir,
            use_directory_urls=config.use_directory_urls,
            inclusion=InclusionLevel.NOT_IN_NAV,
        )
        self.planned = planned

    def copy_file(self, dirty: bool = False) -> None:  # noqa: ARG002
        """Make the file where MkDocs would copy one."""
        path = Path(self.abs_dest_path)
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("wb") as opened:
            opened.writelines(self.planned.made().pieces())


def page_file(
    planned: SiteFile | Planned, config: MkDocsConfig, template: str = "main.html"
) -> File:
    """The file of a page of ours, kept out of the navigation (whose cost is quadratic).

    MkDocs takes it for a Markdown source beside the hand-written ones, so that they can link to
    it as `fluids/glucose-5.md`.
    """
    source = planned.path.removesuffix(".html") + ".md"
    file = File.generated(config, source, content="", inclusion=InclusionLevel.NOT_IN_NAV)
    file.dest_uri = planned.path
    file.page = VirtualPage(planned, file, config, template)
    return file
