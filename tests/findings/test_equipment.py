"""What a fluid needs of equipment: by its role, its figures and its containers."""

import pytest

from isofolio.findings.conditions import Subject
from isofolio.findings.equipment import needed, needs


@pytest.mark.parametrize(
    ("fluid", "pieces"),
    [
        (
            "sodium-chloride-3",
            ["central-access", "checks-before-hanging", "soft-bag"],
        ),
        (
            "potassium-chloride-15",
            ["ports-and-additives", "reading-a-label"],
        ),
    ],
)
def test_the_pieces_of_a_fluid(real, about, fluid, pieces):
    assert list(needed(real[0], about(fluid))) == pieces


def test_the_reason_stands_with_the_piece(real, about):
    found = needed(real[0], about("potassium-chloride-40-mmol-in-100-ml"))
    assert [need.why for need in found["central-access"]] == [
        "Its potassium lies above the most that a small vein is given."
    ]


def test_every_condition_of_a_need_must_hold(real, about):
    """A small-volume set is for what children are given ready, a filter for strong mannitol."""
    equipment = real[0].equipment
    assert needs(equipment["small-volume-set"], about("potassium-chloride-15")) == ()
    assert needs(equipment["in-line-filter"], about("mannitol-10")) == ()
    (need,) = needs(equipment["in-line-filter"], about("mannitol-20"))
    assert need.why == "At this strength its label asks for a set with a filter."


@pytest.mark.parametrize("status", ["retired", "not-for-use"])
def test_what_is_withdrawn_is_not_hung_and_needs_nothing(real, about, status):
    saline = about("sodium-chloride-0-9")
    assert needed(real[0], saline)
    gone = Subject(saline.fluid.model_copy(update={"status": status}), *real)
    assert needed(real[0], gone) == {}
