"""What the shell receives from the handbook: finished files, or the problems that prevent them."""

from dataclasses import dataclass
from pathlib import Path

from isofolio.entries.files import LastReading
from isofolio.folio import Planned, SiteFile, build_site
from isofolio.handbook import Handbook


@dataclass(frozen=True)
class Contents:
    """The files of the handbook and what the frame of every page prints.

    problems: the texts of the catalogue's problems; where there are any, there are no files.
    digest, date: which copy of the catalogue this is. due: the first day on which an entry that
    somebody has checked must be looked at again; empty while there is no such entry.
    hospital: whose stock is laid over the catalogue; empty in a copy for no hospital.
    handbook: what the figures in hand-written pages are looked up in.
    """

    files: tuple[SiteFile | Planned, ...] = ()
    problems: tuple[str, ...] = ()
    digest: str = ""
    date: str = ""
    due: str = ""
    hospital: str = ""
    handbook: Handbook | None = None


def read_contents(catalogue: Path, stock: str | None, last: LastReading | None = None) -> Contents:
    """The handbook of the folder `catalogue`, as the hospital `stock` keeps it; None: the whole.

    last: what `serve` remembers of the files.
    """
    from isofolio.handbook import open_handbook

    opened = open_handbook(catalogue, stock, last)
    if opened.handbook is None:
        return Contents(problems=tuple(problem.text() for problem in opened.problems))
    handbook = opened.handbook
    stamps = [fluid.review.due for fluid in handbook.fluids if fluid.review.due]
    return Contents(
        files=build_site(handbook),
        digest=handbook.digest,
        date=handbook.date,
        due=min(stamps, default=""),
        hospital=handbook.catalogue.stocked.name if handbook.catalogue.stocked else "",
        handbook=handbook,
    )
