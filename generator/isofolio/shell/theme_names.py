"""Every name of MkDocs and of its theme that is spelled as text in this program, in one place.

Both are near their end of life. Whoever moves to another shell reads this list, `plugin.py`,
`virtual.py` and `overrides/`; nothing else knows them. A test looks every name up in the installed
packages, so that an upgrade that renames one fails by name.
"""

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
