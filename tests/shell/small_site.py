"""A handbook of four pages for the tests of the shell, in place of the real one.

Imported by the tests; run as a program it is `mkdocs` with that handbook.
"""

from isofolio.folio import SiteFile
from isofolio.shell import plugin
from isofolio.shell.contents import Contents

BROKEN = "broken.txt"
HOME_CRUMB = ("Home", "index.html")
GLUCOSE = """<h1>Glucose 5&#8239;%</h1>
<h2 id="holds">This bag holds</h2>
<pre>  two spaces
kept</pre>
<p><a href="../about.html">About</a> *no Markdown here* <a href="#holds">holds</a></p>
<script type="application/json" id="data">{"amount": 50}</script>"""


def pages():
    """The pages of the small handbook, those of the header's links among them."""
    from isofolio.folio import FURTHER, NAVIGATION

    named = dict.fromkeys(address.partition("#")[0] for _, address in (*NAVIGATION, *FURTHER))
    named.pop("about.html", None)
    return {
        **{path: SiteFile(path, "<h1>A page</h1>", "A page") for path in named},
        "index.html": SiteFile("index.html", "<h1>Isofolio</h1>", "Isofolio"),
        "explore.html": SiteFile("explore.html", '<p style="color: red">x</p>', "Explore"),
        "fluids/glucose-5.html": SiteFile(
            "fluids/glucose-5.html",
            GLUCOSE,
            'Glucose 5 % & "more" <b>',
            description="A bag",
            scripts=("scripts/extra.js",),
            crumbs=(HOME_CRUMB, ("Glucose", "fluids/glucose-5.html")),
        ),
    }


def site_files(catalogue, stock, last):
    """The small handbook, or the lines of `broken.txt` as problems."""
    broken = catalogue / BROKEN
    if broken.exists():
        return Contents(problems=tuple(broken.read_text(encoding="utf-8").splitlines()))
    data = (
        SiteFile("scripts/finder-data.js", "window.data = [];\n"),
        SiteFile("downloads/table.csv", b"id,sodium\r\n"),
    )
    files = (*pages().values(), *data)
    return Contents(files=files, digest="0123456789ab", date="2026-11-25", due="2027-11-25")


def main():
    """Run MkDocs on the arguments of the command line."""
    from mkdocs.__main__ import cli

    plugin.site_files = site_files
    cli()


if __name__ == "__main__":
    main()
