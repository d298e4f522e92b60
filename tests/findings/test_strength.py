"""Which ready fluids are strong: common practice, no source; the limits are in limits.yml."""

import pytest

from isofolio.findings.strength import is_strong


@pytest.mark.parametrize(
    ("fluid", "strong"),
    [
        ("sodium-chloride-0-9", False),
        ("glucose-5", False),
        ("compound-sodium-lactate", False),
        ("potassium-chloride-0-3-sodium-chloride-0-9", False),  # 40 mmol/L is at the limit
        ("potassium-chloride-40-mmol-in-100-ml", True),  # 400 mmol/L
        ("sodium-chloride-3", True),  # 1027 mOsm/L
        ("glucose-20", True),  # 1110 mOsm/L
        ("mannitol-20", True),  # 1098 mOsm/L
        ("potassium-chloride-15", False),  # strong, yet a concentrate: it has its own word
    ],
)
def test_a_ready_fluid_above_a_limit_is_strong(real, fluid, strong):
    catalogue, table = real
    assert is_strong(catalogue.fluids[fluid], catalogue, table) is strong
