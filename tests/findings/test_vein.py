"""What a vein may have to bear, asserted by id on the real cupboard and at each limit."""

import pytest

from isofolio.findings.vein import CENTRAL, DILUTE, LARGE, NOT_USED, SMALL, UNKNOWN, vein_of


@pytest.mark.parametrize(
    ("fluid", "word", "because"),
    [
        ("sodium-chloride-0-9", SMALL, "308"),
        ("compound-sodium-lactate", SMALL, "278"),
        ("sodium-chloride-0-9-glucose-5", SMALL, "586"),  # just under 600
        ("potassium-chloride-0-15-sodium-chloride-0-9-glucose-5", LARGE, "600"),  # 626
        ("sodium-chloride-1-8", LARGE, "600"),  # 616
        ("potassium-chloride-0-2-glucose-5", SMALL, "331"),
        ("potassium-chloride-0-3-glucose-5", LARGE, "40"),  # at the limit of 40
        ("potassium-chloride-40-mmol-in-100-ml", CENTRAL, "400"),
        ("glucose-10", SMALL, "555"),
        ("glucose-20", CENTRAL, ""),
        ("sodium-chloride-3", CENTRAL, "1027"),
        ("sodium-bicarbonate-8-4", CENTRAL, "2000"),
        ("mannitol-10", CENTRAL, "label"),  # the published route of the title, not its figures
        ("potassium-chloride-15", DILUTE, "diluted"),
        ("water-for-injections", DILUTE, "red cells"),
        ("albumin-20", UNKNOWN, "is not known here"),
        ("albumin-5", UNKNOWN, "is not known here"),
        ("albumin-4", UNKNOWN, "is not known here"),
        ("hydroxyethyl-starch-6", NOT_USED, "not to be hung"),
    ],
)
def test_the_vein(about, fluid, word, because):
    statement = vein_of(about(fluid))
    assert statement.word == word
    assert because in statement.because


def test_a_small_vein_is_named_only_where_its_figures_are_known(real, about):
    for subject in map(about, real[0].fluids):
        if vein_of(subject).word == SMALL:
            assert subject.number("osmolarity") is not None
            assert subject.number("potassium") is not None
            assert subject.fluid.status == "current"


def test_the_vein_is_never_called_safe(real, about):
    for statement in (vein_of(about(fluid)) for fluid in real[0].fluids):
        assert "safe" not in (statement.word + statement.because).lower()
