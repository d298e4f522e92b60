"""What of the theme's files goes into the site: its style sheet, joined with ours."""

from fnmatch import fnmatch

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files

from isofolio.folio import SiteFile
from isofolio.shell.ending import abort
from isofolio.shell.frame import SHEET, STYLES
from isofolio.shell.style_sheet import style_sheet
from isofolio.shell.theme_names import STYLESHEET, THEME
from isofolio.shell.virtual import VirtualFile
from isofolio.vocabulary.exits import ENVIRONMENT_FAULT


def join_sheets(files: Files, config: MkDocsConfig) -> None:
    """Put the theme's style sheet and ours into one file; drop every other file of the theme."""
    folders = set(config.theme.dirs) - {config.theme.custom_dir}
    theirs = [file for file in files if file.src_dir in folders]
    ours = [file for name in STYLES if (file := files.get_file_from_path(name))]
    first = [file for file in theirs if fnmatch(file.src_uri, STYLESHEET)]
    if len(first) != 1 or len(ours) != len(STYLES):
        abort(
            f"A style sheet is missing: {STYLESHEET} of the theme (mkdocs.yml must say `theme: "
            f"{{name: {THEME}}}`, and the version that pyproject.toml names be installed), or one "
            f"of ours in site_src: {', '.join(STYLES)}.",
            ENVIRONMENT_FAULT,
        )
    text = style_sheet(first[0].content_string, (file.content_string for file in ours))
    for file in (*theirs, *ours):
        files.remove(file)
    files.append(VirtualFile(SiteFile(path=SHEET, content=text), config))
