"""What stands around the page: addresses as seen from that page, ready for the template."""

from dataclasses import dataclass

from isofolio.folio import FURTHER, NAVIGATION
from isofolio.wording.addresses import relative

HOME = "index.html"
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
    styles: tuple[str, ...]
    scripts: tuple[str, ...]
    navigation: tuple[Link, ...]
    further: tuple[Link, ...]
    crumbs: tuple[Link, ...]


def frame(
    path: str,
    stylesheet: str,
    scripts: tuple[str, ...] = (),
    crumbs: tuple[tuple[str, str], ...] = (),
    server_root: str = "",
) -> Frame:
    """The frame of the page at `path`.

    stylesheet: where the theme's style sheet stands in the site; ours come after it.
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
        styles=tuple(address(style) for style in (stylesheet, *STYLES)),
        scripts=tuple(address(script) for script in (*SCRIPTS, *scripts)),
        navigation=links(NAVIGATION),
        further=links(FURTHER),
        crumbs=links(crumbs),
    )
