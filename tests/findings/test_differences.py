"""How far two fluids are apart, and how it is told."""

import numpy as np
import pytest

from isofolio.findings.differences import LARGE, MODERATE, SMALL, scale_of, score, word_for
from isofolio.findings.stops import side_of


def test_every_fluid_is_at_no_distance_from_itself(real, limits):
    catalogue, table = real
    fluids = [f for f in catalogue.fluids.values() if table.value(f.id, "tonicity_ratio").number]
    side = side_of(fluids, catalogue, table)
    assert np.all(score(side, side, scale_of(limits)) == 0.0)


@pytest.mark.parametrize(
    ("points", "word"),
    [(0.0, SMALL), (4.9, SMALL), (5.0, MODERATE), (12.0, MODERATE), (12.1, LARGE), (32.5, LARGE)],
)
def test_the_words_change_at_the_limits(limits, points, word):
    assert word_for(points, scale_of(limits)) == word
