"""The whole site as files in memory: every page, the finder's index, the exports. No MkDocs."""

from dataclasses import dataclass

from isofolio.exports.writers import export_bytes
from isofolio.finder.index import finder_data
from isofolio.handbook import Handbook
from isofolio.pages.audit import audit_page
from isofolio.pages.card import card_pages
from isofolio.pages.cautions import cautions_page
from isofolio.pages.changes import changes_page
from isofolio.pages.compare import compare_files, compare_page
from isofolio.pages.comparisons import comparison_page
from isofolio.pages.confusions import confusions_page
from isofolio.pages.downloads import downloads_page
from isofolio.pages.equipment import equipment_pages
from isofolio.pages.explore import explore_page
from isofolio.pages.fluid import fluid_page
from isofolio.pages.fluids import fluids_page
from isofolio.pages.gallery import gallery_files, gallery_page
from isofolio.pages.glossary import glossary_page
from isofolio.pages.home import home_page
from isofolio.pages.method import method_page
from isofolio.pages.mixing import mixing_pages
from isofolio.pages.page import Page
from isofolio.pages.plots import chart_library, explore_data
from isofolio.pages.practice_labels import practice_labels_page
from isofolio.pages.selftest import self_test_page
from isofolio.pages.shortage import shortage_page
from isofolio.pages.situations import situation_pages
from isofolio.pages.sources import sources_page
from isofolio.pages.stock import stock_pages
from isofolio.pages.substances import substance_pages
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
    DOWNLOADS,
    EQUIPMENT,
    EXPLORE,
    EXPLORE_DATA,
    GALLERY,
    METHOD,
    MIXING,
    PRACTICE_LABELS,
    SELF_TEST,
    SHORTAGE,
    SITUATIONS,
    SOURCES,
    SUBSTANCES,
    TEACHING,
    WORKSHEETS,
    download_address,
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
    ("Downloads", DOWNLOADS),
    ("About", ABOUT),
)


@dataclass(frozen=True)
class SiteFile:
    """One file of the site.

    path: from the root of the site. A file with a title is a page, and its content is the inner
    HTML of <main>; any other content is the file itself. scripts: further classic scripts of the
    page; crumbs: label and address of the way to it.
    """

    path: str
    content: str | bytes
    title: str = ""
    description: str = ""
    scripts: tuple[str, ...] = ()
    crumbs: tuple[tuple[str, str], ...] = ()


def build_site(handbook: Handbook) -> tuple[SiteFile, ...]:
    """Every file that is made from the catalogue, in a fixed order."""
    return tuple(_page_file(page) for page in pages_of(handbook)) + data_files(handbook)


def pages_of(handbook: Handbook) -> list[Page]:
    """The table of contents of the site: one line a kind of page."""
    return [
        home_page(handbook),
        fluids_page(handbook),
        *(fluid_page(handbook, fluid) for fluid in handbook.fluids),
        *card_pages(handbook),
        compare_page(handbook),
        *(comparison_page(handbook, one) for one in handbook.catalogue.comparisons.values()),
        explore_page(handbook),
        gallery_page(handbook),
        cautions_page(handbook),
        shortage_page(handbook),
        *stock_pages(handbook),
        *mixing_pages(handbook),
        *situation_pages(handbook),
        *equipment_pages(handbook),
        teaching_page(handbook),
        self_test_page(handbook),
        practice_labels_page(handbook),
        confusions_page(handbook),
        glossary_page(handbook),
        worksheets_page(handbook),
        audit_page(handbook),
        *substance_pages(handbook),
        sources_page(handbook),
        method_page(),
        changes_page(handbook),
        downloads_page(handbook),
    ]


def data_files(handbook: Handbook) -> tuple[SiteFile, ...]:
    """What is no page: data of scripts, drawings as files, the exports."""
    return (
        SiteFile("scripts/finder-data.js", finder_data(handbook)),
        SiteFile("scripts/worksheets-data.js", worksheets_data(handbook)),
        *(SiteFile(path, text) for path, text in compare_files(handbook)),
        SiteFile(EXPLORE_DATA, explore_data(handbook)),
        SiteFile(CHART_LIBRARY, chart_library()),
        *(SiteFile(path, text) for path, text in gallery_files(handbook)),
        *(
            SiteFile(download_address(form.file), export_bytes(handbook, form.word))
            for form in EXPORT_FORMS
        ),
    )


def _page_file(page: Page) -> SiteFile:
    title = typeset(page.title)
    return SiteFile(
        path=page.path,
        content=page.body,
        title=title,
        description=page.description,
        scripts=page.scripts,
        crumbs=(*page.crumbs, (title, page.path)) if page.crumbs else (),
    )
