"""Everything that is judged of a fluid from its figures and the limits."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from isofolio.entries.cautions import Caution
from isofolio.entries.reading import Catalogue
from isofolio.findings.blood import BloodStatement, blood_of
from isofolio.findings.body import BodyStatement, body_of, classes_of
from isofolio.findings.cautions import cautions_of, ordered, raises
from isofolio.findings.conditions import Subject
from isofolio.findings.vein import VeinStatement, vein_of
from isofolio.findings.when_asked import WhenAsked
from isofolio.measures.table import Table


@dataclass(frozen=True)
class Judgement:
    """cautions: most severe first; vein, blood, body: answers of the first screen; classes: hypo,
    iso or hyper by quantity, None where unknown."""

    cautions: tuple[Caution, ...]
    vein: VeinStatement
    blood: BloodStatement
    body: BodyStatement
    classes: Mapping[str, str | None]


def judge(catalogue: Catalogue, table: Table) -> Mapping[str, Judgement]:
    """The judgement of every fluid, by id."""
    subjects = {f.id: Subject(f, catalogue, table) for f in catalogue.fluids.values()}

    @cache
    def raised_by(identifier: str) -> int:
        caution = catalogue.cautions[identifier]
        return sum(raises(caution, subject) for subject in subjects.values())

    def judged(names: Sequence[str]) -> dict[str, Judgement]:
        return {name: _judged(subjects[name], raised_by) for name in names}

    return WhenAsked(subjects, judged, block=1)


def _judged(subject: Subject, raised_by: Callable[[str], int]) -> Judgement:
    cautions = ordered(cautions_of(subject), raised_by)
    return Judgement(
        cautions=cautions,
        vein=vein_of(subject),
        blood=blood_of(subject.fluid, cautions),
        body=body_of(subject),
        classes=classes_of(subject),
    )
