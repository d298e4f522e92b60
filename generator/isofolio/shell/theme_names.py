"""Every name of MkDocs and of its theme that this program touches, in one place.

Both are near their end of life. Whoever moves to another shell reads this list, `plugin.py`,
`virtual.py` and `overrides/`; nothing else knows them. One test looks every name up in the
installed packages, so that an upgrade that renames one fails by name; another looks that none is
missing here.
"""

from collections.abc import Mapping
from types import MappingProxyType

THEME = "material"

# The one file of the theme that is used: what our pages can match of it is joined with our style
# sheets into one. The theme puts a digest into its name.
STYLESHEET = "assets/stylesheets/main.*.min.css"

# The classes of that stylesheet that our templates use: the centred column, and a page that
# grows to the window so that the footer stands at its foot.
CLASSES = ("md-grid", "md-container", "md-main")

# How the theme begins its classes and its attributes.
PREFIX = "md-"

# Templates that MkDocs would render without page events, hence without our policy.
STATIC_TEMPLATES = ("404.html", "sitemap.xml")

# The logger whose warnings `--strict` counts.
LOGGER = "mkdocs"

# What is read, set, called or replaced of MkDocs' own classes.
TOUCHED: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "mkdocs.config.defaults.MkDocsConfig": (
            "docs_dir",
            "plugins",
            "site_dir",
            "site_name",
            "site_url",
            "theme",
            "use_directory_urls",
        ),
        "mkdocs.livereload.LiveReloadServer": (
            "mount_path",
            "serve_request",
            "set_app",
            "watch",
        ),
        "mkdocs.structure.files.File": (
            "abs_dest_path",
            "content_string",
            "copy_file",
            "dest_uri",
            "generated",
            "page",
            "src_dir",
            "src_uri",
        ),
        "mkdocs.structure.files.Files": (
            "append",
            "documentation_pages",
            "get_file_from_path",
            "remove",
        ),
        "mkdocs.structure.pages.Page": (
            "content",
            "file",
            "links_to_anchors",
            "markdown",
            "meta",
            "present_anchor_ids",
            "read_source",
            "render",
            "title",
            "toc",
        ),
        "mkdocs.theme.Theme": ("custom_dir", "dirs", "static_templates"),
    }
)
