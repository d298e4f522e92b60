"""What stands around the page: addresses as seen from that page, ready for the template."""

from dataclasses import dataclass

from isofolio.folio import FURTHER, NAVIGATION
from isofolio.wording.addresses import relative

HOME = "index.html"
# The one style sheet of the site: the theme's, then ours in this order. A page paints only when all
# of its sheets are read, and eight of them cost a third of the time to the first paint.
SHEET = "styles/handbook.css"
STYLES = (
    "styles/isofolio.css",
    "styles/drawings.css",
    "styles/finder.css",
    "styles/compare.css",
    "styles/teaching.css",
    "styles/practice.css",
    "styles/equipment.css",
)
# The data of the finder and of the charts is loaded by these scripts when it is first needed.
SCRIPTS = ("scripts/isofolio.js", "scripts/finder.js")


@dataclass(frozen=True)
class Link:
    """A link of the frame."""

    label: str
    address: str
    current: bool


@dataclass(frozen=True)
class Frame:
    """The addresses of the frame, relative to one page."""

    root: str
    home: str
    sheet: str
    scripts: tuple[str, ...]
    navigation: tuple[Link, ...]
    further: tuple[Link, ...]
    crumbs: tuple[Link, ...]


def frame(
    path: str,
    scripts: tuple[str, ...] = (),
    crumbs: tuple[tuple[str, str], ...] = (),
    server_root: str = "",
) -> Frame:
    """The frame of the page at `path`.

    scripts: further classic scripts of this page. crumbs: label and address within the site.
    server_root: where the site begins on its server, for the one page that is shown at any
    depth (a missing address); empty for all others, whose addresses are relative.
    """
    root = server_root or "../" * path.count("/")

    def address(target: str) -> str:
        return server_root + target if server_root else relative(path, target)

    def links(pairs: tuple[tuple[str, str], ...]) -> tuple[Link, ...]:
        return tuple(Link(label, address(target), target == path) for label, target in pairs)

    return Frame(
        root=root,
        home=address(HOME),
        sheet=address(SHEET),
        scripts=tuple(address(script) for script in (*SCRIPTS, *scripts)),
        navigation=links(NAVIGATION),
        further=links(FURTHER),
        crumbs=links(crumbs),
    )
