"""The MkDocs plugin: the handbook's pages in our own frame, built beside the live site.

One build: read the catalogue once, hand the finished files to MkDocs, look at every page that
it writes, and exchange the new site with the live one only if nothing was wrong. `mkdocs build`
and `isofolio build` take the same road; `mkdocs serve` shows problems as a page.
"""

import gc
import shutil
from pathlib import Path
from typing import Any, Literal, cast
from urllib.parse import urlsplit

from jinja2 import Environment
from markupsafe import Markup
from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from isofolio import __version__
from isofolio.entries.files import LastReading
from isofolio.entries.problems import Problem
from isofolio.folio import Planned, SiteFile, is_page
from isofolio.pages.term_links import with_terms_linked
from isofolio.pages.tutorials import TUTORIAL_BY_ID, tutorial_page
from isofolio.publishing.checksums import files_below, write_checksums
from isofolio.publishing.links import NOT_FOUND, Links, attributes_of, dead_links, links_among
from isofolio.publishing.swap import MARK, SwapError, folder_beside, replace_site
from isofolio.shell.contents import Contents, read_contents
from isofolio.shell.ending import abort, problem_text, strict_will_abort
from isofolio.shell.faults import page_faults
from isofolio.shell.feed import feed_address, feed_files
from isofolio.shell.frame import frame
from isofolio.shell.handwritten import described, tutorial_of, unlisted
from isofolio.shell.on_request import Waiting
from isofolio.shell.policy import PLACEHOLDER, with_policy
from isofolio.shell.problem_pages import problem_pages
from isofolio.shell.shortcodes import with_figures
from isofolio.shell.theme_files import join_sheets
from isofolio.shell.theme_names import STATIC_TEMPLATES
from isofolio.shell.virtual import VirtualFile, VirtualPage, page_file
from isofolio.vocabulary.exits import CATALOGUE_FAULT, ENVIRONMENT_FAULT

log = get_plugin_logger(__name__)

OVERRIDES = Path(__file__).parent / "overrides"


def site_files(catalogue: Path, stock: str | None, last: LastReading | None) -> Contents:
    """What the handbook has to show. Tests put a small one in this function's place."""
    return read_contents(catalogue, stock, last)


class IsofolioConfig(Config):  # type: ignore[no-untyped-call]
    """The plugin's options in mkdocs.yml."""

    catalogue = config_options.Dir(default="catalogue")
    stock = config_options.Optional(config_options.Type(str))
    build_beside = config_options.Type(bool, default=True)


class IsofolioPlugin(BasePlugin[IsofolioConfig]):  # type: ignore[no-untyped-call]
    """The handbook as an MkDocs site."""

    def __init__(self) -> None:
        self.serving = False
        self.live: Path | None = None
        self.beside: Path | None = None
        self.contents = Contents()
        self.last_reading = LastReading()
        self.links: dict[str, Links] = {}
        self.faults: list[str] = []
        self.prose_problems: list[Problem] = []
        self.known_pages: frozenset[str] = frozenset()
        self.on_request: dict[str, File] = {}
        self.waiting = Waiting(self._write)

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:  # noqa: ARG002
        """Note whether this is a preview; `serve --clean` calls itself a build and is one."""
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Put our templates first and let MkDocs write beside the live site."""
        catalogue = Path(self.config.catalogue)
        if not catalogue.is_dir():
            abort(
                f"There is no catalogue folder at {catalogue}. Give its place in mkdocs.yml "
                "(plugins: isofolio: catalogue) or start in the project's folder.",
                ENVIRONMENT_FAULT,
            )
        config.use_directory_urls = False
        config.theme.dirs.insert(0, str(OVERRIDES))
        config.theme.static_templates -= set(STATIC_TEMPLATES)
        self.links = {}
        self.faults = []
        self.config_of_site = config
        self.on_request = {}
        self.prose_problems = []
        if self.serving:
            self.waiting.close()
        if self.config.build_beside and not self.serving:
            self._build_beside(config)
        return config

    def _build_beside(self, config: MkDocsConfig) -> None:
        self.live = Path(config.site_dir)
        try:
            self.beside = folder_beside(self.live)
        except OSError as error:
            abort(
                f"No folder can be made beside {self.live} ({error.strerror}). Build to a folder "
                "whose parent you may write, with --site-dir.",
                ENVIRONMENT_FAULT,
            )
        config.site_dir = str(self.beside)

    def on_serve(
        self,
        server: LiveReloadServer,
        *,
        config: MkDocsConfig,  # noqa: ARG002
        builder: object,  # noqa: ARG002
    ) -> LiveReloadServer:
        """Watch the catalogue, wherever the option says it is; make what is asked for.

        What was read until now is kept while the server runs. Python would look through all of it
        for rubbish after every other edit, which takes longer than the edit.
        """
        gc.collect()
        gc.freeze()
        server.watch(self.config.catalogue)
        server.set_app(self.waiting.made_first(server.serve_request, server.mount_path))
        return server

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the handbook's files; of the theme's, take the style sheet into ours."""
        last = self.last_reading if self.serving else None
        self.contents = site_files(Path(self.config.catalogue), self.config.stock, last)
        join_sheets(files, config)
        if not self.contents.problems:
            self._add_handbook(files, config)
        elif self.serving:
            self._add_problem_pages(files, config)
        else:
            abort(problem_text(self.contents.problems), CATALOGUE_FAULT)
        return files

    def _add_handbook(self, files: Files, config: MkDocsConfig) -> None:
        taken = {file.dest_uri: file for file in files}
        mark = SiteFile(path=MARK, content=_mark(self.contents))
        missing = SiteFile(path=NOT_FOUND, content="", title="Not found")
        feed = feed_files(self.contents, self._site_url(config), config.site_name)
        ours = [*self.contents.files, missing, mark, *feed]
        for site_file in ours:
            if site_file.path in taken:
                abort(
                    f"Two files want the address {site_file.path}: one of the handbook's and "
                    f"{taken[site_file.path].src_uri} in site_src. Rename the latter.",
                    CATALOGUE_FAULT,
                )
            files.append(_file(site_file, config))
        self.known_pages = frozenset(file.path for file in ours if is_page(file))

    def _site_url(self, config: MkDocsConfig) -> str | None:
        """Where the site stands; a preview stands nowhere, whatever address MkDocs gives it."""
        return None if self.serving else config.site_url

    def _add_problem_pages(self, files: Files, config: MkDocsConfig) -> None:
        log.warning(problem_text(self.contents.problems))
        handwritten = files.documentation_pages()
        for file in handwritten:
            files.remove(file)
        known = self.known_pages | {file.dest_uri for file in handwritten}
        count = len(self.contents.problems)
        for page in problem_pages(count, Path(self.config.catalogue), known):
            files.append(page_file(page, config, "problems.html"))

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:  # noqa: ARG002
        """Escape everything that a template prints; in `serve`, put off what is not asked for.

        Links of hand-written pages into the handbook have been followed by now.
        """
        self.env = env
        if self.serving and not self.contents.problems:
            self._put_off(files)
        env.autoescape = True
        env.trim_blocks = True
        env.lstrip_blocks = True
        return env

    def _put_off(self, files: Files) -> None:
        """Take our files out of MkDocs' hands; the page for a missing address is always there."""
        ours = [f for f in files if isinstance(f, VirtualFile) or isinstance(f.page, VirtualPage)]
        for file in ours:
            if file.dest_uri != NOT_FOUND:
                files.remove(file)
                self.on_request[file.dest_uri] = file

    def _write(self, file: File) -> None:
        """Make and write one file, as a build does."""
        if not isinstance(file.page, VirtualPage):
            file.copy_file()
            return
        config = self.config_of_site
        context = {"config": config, **self._printed(file.page, config)}
        output = self.env.get_template(file.page.template).render(context)
        told = len(self.faults)
        output = self.on_post_page(output, page=file.page, config=config)
        path = Path(file.abs_dest_path)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(output, encoding="utf-8", newline="")
        paths = {*files_below(Path(config.site_dir)), *self.on_request}
        dead = dead_links({file.dest_uri: self.links[file.dest_uri]}, paths)
        for fault in (*self.faults[told:], *dead):
            log.warning(fault)

    def on_page_markdown(
        self,
        markdown: str,
        *,
        page: Page,
        config: MkDocsConfig,
        files: Files,  # noqa: ARG002
    ) -> str:
        """Put the handbook's figures into a hand-written page; note what names none."""
        if isinstance(page, VirtualPage) or self.contents.handbook is None:
            return markdown
        file = f"{Path(config.docs_dir).name}/{page.file.src_uri}"
        source = page.file.content_string
        text, problems = with_figures(self.contents.handbook, markdown, file, source)
        self.prose_problems += [*problems, *unlisted(page, file)]
        return text

    def on_page_content(
        self,
        html: str,
        *,
        page: Page,
        config: MkDocsConfig,  # noqa: ARG002
        files: Files,  # noqa: ARG002
    ) -> str:
        """Set what stands round a tutorial, and link the terms that it uses first."""
        handbook, identifier = self.contents.handbook, tutorial_of(page)
        if handbook is None or identifier not in TUTORIAL_BY_ID:
            return html
        terms = handbook.catalogue.glossary.values()
        linked = with_terms_linked(html, page.file.dest_uri, terms)
        return tutorial_page(handbook, identifier, linked)

    def on_page_context(
        self,
        context: TemplateContext,
        *,
        page: Page,
        config: MkDocsConfig,
        nav: Navigation,  # noqa: ARG002
    ) -> TemplateContext:
        """What the template prints."""
        context.update(self._printed(page, config))  # type: ignore[typeddict-item]
        return context

    def _printed(self, page: Page, config: MkDocsConfig) -> dict[str, Any]:
        path = page.file.dest_uri
        ours = page.made() if isinstance(page, VirtualPage) else described(page)
        server_root = urlsplit(config.site_url or "").path if path == NOT_FOUND else ""
        return {
            "path": path,
            "title": ours.title,
            "description": ours.description,
            "policy": "" if self.serving else PLACEHOLDER,
            "handwritten": not isinstance(page, VirtualPage),
            "body": Markup(page.content),
            "copy": self.contents,
            "feed": feed_address(self.contents, self._site_url(config)),
            "frame": frame(path, ours.scripts, ours.crumbs, server_root),
        }

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:  # noqa: ARG002
        """Set the policy of the finished page and note its links, anchors and faults."""
        path = page.file.dest_uri
        content = page.content or ""
        attributes = dict.fromkeys(attributes_of(output))  # a link that stands twice is one
        self.links[path] = links_among(attributes)
        self.faults += page_faults(path, attributes, content)
        # MkDocs only asks what is in it; a set for each of thousands of pages would be held long.
        page.present_anchor_ids = cast("set[str]", self.links[path].anchors)
        if isinstance(page, VirtualPage):
            page.let_go()
        return output if self.serving else with_policy(output, content, path)

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Last of all plugins: exchange the sites, if nothing at all was wrong."""
        faults = [problem.text() for problem in self.prose_problems]
        faults += self.faults
        faults += dead_links(self.links, {*files_below(Path(config.site_dir)), *self.on_request})
        if faults and not self.serving:
            abort("\n".join((*faults, "The site was not replaced.")), CATALOGUE_FAULT)
        for fault in faults:
            log.warning(fault)
        self.waiting.open(self.on_request)
        if self.live is None or self.beside is None or strict_will_abort():
            self._discard()
            return
        try:
            write_checksums(self.beside)
            left = replace_site(self.beside, self.live)
        except (SwapError, OSError) as error:
            abort(str(error), ENVIRONMENT_FAULT)
        config.site_dir = str(self.live)
        self.beside = None
        log.info(f"The handbook stands in {self.live}: open index.html there.")
        if left:
            log.info(f"What stood there before was not removed; it is in {left}.")

    def on_build_error(self, *, error: Exception) -> None:  # noqa: ARG002
        """Remove the unfinished site; the live one was not touched."""
        self.waiting.open({})
        self._discard()

    def on_shutdown(self) -> None:
        """The same after an interruption from the keyboard."""
        self._discard()

    def _discard(self) -> None:
        if self.beside is not None:
            shutil.rmtree(self.beside, ignore_errors=True)
            self.beside = None


def _mark(contents: Contents) -> str:
    lines = (
        "Isofolio handbook",
        f"catalogue of {contents.date}",
        f"digest {contents.digest}",
        f"program {__version__}",
    )
    return "".join(f"{line}\n" for line in lines)


def _file(file: SiteFile | Planned, config: MkDocsConfig) -> File:
    if not is_page(file):
        return VirtualFile(file, config)
    return page_file(file, config, NOT_FOUND if file.path == NOT_FOUND else "main.html")
