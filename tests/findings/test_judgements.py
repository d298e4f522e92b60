"""Everything that is judged of a fluid stands together, as each rule gives it."""

from collections import Counter

from isofolio.findings.blood import blood_of
from isofolio.findings.body import body_of, classes_of
from isofolio.findings.cautions import cautions_of, ordered
from isofolio.findings.judgements import Judgement, judge
from isofolio.findings.vein import vein_of


def test_every_fluid_is_judged_by_every_rule(real, about):
    unordered = {fluid: cautions_of(about(fluid)) for fluid in real[0].fluids}
    counts = Counter(caution.id for several in unordered.values() for caution in several)
    raised = {fluid: ordered(several, counts.__getitem__) for fluid, several in unordered.items()}
    assert judge(*real) == {
        fluid: Judgement(
            cautions=raised[fluid],
            vein=vein_of(about(fluid)),
            blood=blood_of(about(fluid).fluid, raised[fluid]),
            body=body_of(about(fluid)),
            classes=classes_of(about(fluid)),
        )
        for fluid in real[0].fluids
    }


def test_what_few_fluids_raise_is_told_before_what_many_do(real):
    """The rarest first needs all fluids: alone, each caution would count once."""
    found = judge(*real)
    counts = Counter(caution.id for judgement in found.values() for caution in judgement.cautions)
    for judgement in found.values():
        same = [c for c in judgement.cautions if c.signal == "warning"]
        assert [counts[c.id] for c in same] == sorted(counts[c.id] for c in same)
