"""The whole site as files: every page, the finder's index, the exports. No MkDocs.

A file is made when it is written, so that no build holds them all.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import starmap
from typing import Any

from isofolio.exports.writers import WRITERS
from isofolio.finder.index import finder_pieces
from isofolio.handbook import Handbook
from isofolio.pages.audit import audit_pages
from isofolio.pages.card import card_page, with_cards
from isofolio.pages.cautions import cautions_page
from isofolio.pages.changes import changes_page
from isofolio.pages.compare import compare_files, compare_page
from isofolio.pages.comparisons import comparison_page
from isofolio.pages.confusions import confusions_page
from isofolio.pages.downloads import downloads_page
from isofolio.pages.equipment import equipment_page, piece_page
from isofolio.pages.explore import explore_page
from isofolio.pages.fluid import fluid_page
from isofolio.pages.fluids import fluids_page
from isofolio.pages.gallery import gallery_files, gallery_pages
from isofolio.pages.glossary import glossary_page
from isofolio.pages.home import home_page
from isofolio.pages.method import method_page
from isofolio.pages.mixing import mixing_page, pair_page, pairs
from isofolio.pages.page import Page
from isofolio.pages.plots import chart_library, explore_data
from isofolio.pages.practice_labels import practice_labels_pages
from isofolio.pages.reviews import reviews_page
from isofolio.pages.selftest import self_test_page
from isofolio.pages.shortage import shortage_page
from isofolio.pages.situations import situation_page, situations_page
from isofolio.pages.sources import sources_page
from isofolio.pages.stock import stock_page
from isofolio.pages.substances import substance_page, substances_page
from isofolio.pages.teaching import teaching_page
from isofolio.pages.worksheets import worksheets_page
from isofolio.teaching.worksheets_data import worksheets_data
from isofolio.vocabulary.exports import EXPORT_FORMS
from isofolio.wording.addresses import (
    ABOUT,
    ALL_FLUIDS,
    AUDIT,
    CAUTIONS,
    CHANGES,
    CHART_LIBRARY,
    COMPARE,
    CONFUSIONS,
    DOWNLOADS,
    EQUIPMENT,
    EXPLORE,
    EXPLORE_DATA,
    GALLERY,
    GLOSSARY,
    HOME,
    METHOD,
    MIXING,
    PRACTICE_LABELS,
    REVIEWS,
    SELF_TEST,
    SHORTAGE,
    SITUATIONS,
    SOURCES,
    STOCK,
    SUBSTANCES,
    TEACHING,
    WORKSHEETS,
    card_address,
    download_address,
    entry_address,
)
from isofolio.wording.figures import typeset

# The links of the header: few, so that it stays on one line ...
NAVIGATION = (
    ("All fluids", ALL_FLUIDS),
    ("Compare", COMPARE),
    ("Situations", SITUATIONS),
    ("Mixing", MIXING),
    ("Equipment", EQUIPMENT),
    ("Cautions", CAUTIONS),
    ("Shortage", SHORTAGE),
    ("Worksheets", WORKSHEETS),
    ("Teaching", TEACHING),
)
# ... and those of the footer.
FURTHER = (
    ("Explore", EXPLORE),
    ("Drawings", GALLERY),
    ("Self-test", SELF_TEST),
    ("Practice labels", PRACTICE_LABELS),
    ("Label audit", AUDIT),
    ("Substances", SUBSTANCES),
    ("Method", METHOD),
    ("Sources", SOURCES),
    ("What changed", CHANGES),
    ("Reviews", REVIEWS),
    ("Downloads", DOWNLOADS),
    ("About", ABOUT),
)


Content = str | bytes | Iterator[str]


@dataclass(frozen=True)
class SiteFile:
    """One file of the site.

    path: from the root of the site. A file with a title is a page, and its content is the inner
    HTML of <main>; any other content is the file itself, or texts to be written one after the
    other. scripts: further classic scripts of the
    page; crumbs: label and address of the way to it.
    """

    path: str
    content: Content
    title: str = ""
    description: str = ""
    scripts: tuple[str, ...] = ()
    crumbs: tuple[tuple[str, str], ...] = ()

    def made(self) -> "SiteFile":
        """Itself: it is made."""
        return self

    def pieces(self) -> Iterator[bytes]:
        """The content as bytes, one piece after the other; text is UTF-8."""
        if isinstance(self.content, bytes):
            yield self.content
            return
        texts = (self.content,) if isinstance(self.content, str) else self.content
        yield from (text.encode("utf-8") for text in texts)


@dataclass(frozen=True, slots=True)
class Planned:
    """A file of the site that is not made yet. path: from the root of the site."""

    path: str
    made: Callable[[], SiteFile]


def is_page(file: SiteFile | Planned) -> bool:
    """Whether a file is a page, which the shell puts into its frame."""
    return file.path.endswith(".html")


def build_site(handbook: Handbook) -> tuple[Planned, ...]:
    """Every file that is made from the catalogue, in a fixed order."""
    return (*pages_of(handbook), *data_files(handbook))


def pages_of(handbook: Handbook) -> tuple[Planned, ...]:
    """The table of contents of the site: one line a kind of page."""
    catalogue = handbook.catalogue
    return (
        _later(HOME, home_page, handbook),
        _later(ALL_FLUIDS, fluids_page, handbook),
        *_each("fluids", fluid_page, handbook, handbook.fluids),
        *(_later(card_address(f.id), card_page, handbook, f) for f in with_cards(handbook)),
        _later(COMPARE, compare_page, handbook),
        *_each("comparisons", comparison_page, handbook, catalogue.comparisons.values()),
        _later(EXPLORE, explore_page, handbook),
        *starmap(_later, gallery_pages(handbook)),
        _later(CAUTIONS, cautions_page, handbook),
        _later(SHORTAGE, shortage_page, handbook),
        *(_later(STOCK, stock_page, handbook, s) for s in (catalogue.stocked,) if s),
        _later(MIXING, mixing_page, handbook),
        *_each("mixing", pair_page, handbook, pairs(handbook)),
        _later(SITUATIONS, situations_page, handbook),
        *_each("situations", situation_page, handbook, catalogue.situations.values()),
        _later(EQUIPMENT, equipment_page, handbook),
        *_each("equipment", piece_page, handbook, catalogue.equipment.values()),
        _later(TEACHING, teaching_page, handbook),
        _later(SELF_TEST, self_test_page, handbook),
        *starmap(_later, practice_labels_pages(handbook)),
        _later(CONFUSIONS, confusions_page, handbook),
        _later(GLOSSARY, glossary_page, handbook),
        _later(WORKSHEETS, worksheets_page, handbook),
        *starmap(_later, audit_pages(handbook)),
        _later(SUBSTANCES, substances_page, handbook),
        *_each("substances", substance_page, handbook, catalogue.substances.values()),
        _later(SOURCES, sources_page, handbook),
        _later(REVIEWS, reviews_page, handbook),
        _later(METHOD, method_page),
        _later(CHANGES, changes_page, handbook),
        _later(DOWNLOADS, downloads_page, handbook),
    )


def data_files(handbook: Handbook) -> tuple[Planned, ...]:
    """What is no page: data of scripts, drawings as files, the exports."""
    return (
        _data("scripts/finder-data.js", finder_pieces, handbook),
        _data("scripts/worksheets-data.js", worksheets_data, handbook),
        *starmap(_data, compare_files(handbook)),
        _data(EXPLORE_DATA, explore_data, handbook),
        _data(CHART_LIBRARY, chart_library),
        *starmap(_data, gallery_files(handbook)),
        *(_data(download_address(f.file), WRITERS[f.word], handbook) for f in EXPORT_FORMS),
    )


def _later(path: str, make: Callable[..., Page], *given: Any) -> Planned:
    return Planned(path, partial(_page_file, make, given))


def _each(
    folder: str, make: Callable[[Handbook, Any], Page], handbook: Handbook, entries: Iterable[Any]
) -> Iterator[Planned]:
    """A page for each entry of a folder of the catalogue."""
    return (_later(entry_address(folder, one.id), make, handbook, one) for one in entries)


def _data(path: str, make: Callable[..., Content], *given: Any) -> Planned:
    return Planned(path, partial(_data_file, path, make, given))


def _data_file(path: str, make: Callable[..., Content], given: tuple[Any, ...]) -> SiteFile:
    return SiteFile(path, make(*given))


def _page_file(make: Callable[..., Page], given: tuple[Any, ...]) -> SiteFile:
    page = make(*given)
    title = typeset(page.title)
    return SiteFile(
        path=page.path,
        content=page.body,
        title=title,
        description=page.description,
        scripts=page.scripts,
        crumbs=(*page.crumbs, (title, page.path)) if page.crumbs else (),
    )
