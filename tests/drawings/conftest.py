"""Sample columns for the tests of drawings.

NaCl 0.9 %, multiple electrolytes type 1 and gelatin 4 % in saline: J Intensive Care Med
2018;34(5):364-373, Table 1 (read).  Compound sodium lactate with 5 K, 2 Ca, 111 Cl, 29 lactate: the
composition table of NICE CG174 (seen in copies only).  The gelatin's 34 mEq/L is what closes the
charge (arithmetic).  Plasma: made up for the tests from the middle of usual adult intervals; what
closes its charge is called proteins and unmeasured ions.
"""

import pytest

from isofolio.drawings.stacks import Column, Segment, Sugar

ANIONS = {"lactate": 29.0, "acetate": 27.0, "gluconate": 23.0}
GLUCOSE = Sugar(277.5, "glucose 278\u00a0mmol, no charge, gone once burnt")


def _ion(symbol: str, amount: float, family: str) -> Segment:
    return Segment(family, symbol, amount, family, f"{symbol}\u00a0{amount:g}")


def _organic(name: str) -> Segment:
    label = f"{name}\u207b"
    return Segment(name, label, ANIONS[name], "bicarbonate", f"{label}\u00a0{ANIONS[name]:g}")


@pytest.fixture
def plasma() -> Column:
    proteins = "proteins and unmeasured ions"
    cations = (
        _ion("Na\u207a", 140.0, "sodium"),
        _ion("K\u207a", 4.2, "potassium"),
        _ion("Ca\u00b2\u207a", 4.8, "calcium"),
        _ion("Mg\u00b2\u207a", 1.7, "magnesium"),
    )
    anions = (
        _ion("Cl\u207b", 102.0, "chloride"),
        _ion("HCO\u2083\u207b", 25.0, "bicarbonate"),
        Segment("rest", proteins, 23.7, "rest", f"{proteins}\u00a024"),
    )
    return Column("plasma", cations, anions)


@pytest.fixture
def fluids() -> dict[str, Column]:
    sodium, chloride = "Na\u207a", "Cl\u207b"
    potassium, gelatin = _ion("K\u207a", 5.0, "potassium"), "gelatin\u207b"
    saline = (_ion(sodium, 154.0, "sodium"),)
    return {
        "saline": Column("NaCl 0.9\u202f%", saline, (_ion(chloride, 154.0, "chloride"),)),
        "lactate": Column(
            "compound sodium lactate",
            (_ion(sodium, 131.0, "sodium"), potassium, _ion("Ca\u00b2\u207a", 4.0, "calcium")),
            (_ion(chloride, 111.0, "chloride"), _organic("lactate")),
        ),
        "electrolytes": Column(
            "multiple electrolytes type 1",
            (_ion(sodium, 140.0, "sodium"), potassium, _ion("Mg\u00b2\u207a", 3.0, "magnesium")),
            (_ion(chloride, 98.0, "chloride"), _organic("acetate"), _organic("gluconate")),
        ),
        "potassium": Column(
            "potassium chloride 0.3\u202f% in glucose 5\u202f%",
            (_ion("K\u207a", 40.0, "potassium"),),
            (_ion(chloride, 40.0, "chloride"),),
            GLUCOSE,
        ),
        "glucose": Column("glucose 5\u202f%", (), (), GLUCOSE),
        "gelatin": Column(
            "gelatin 4\u202f% in saline",
            saline,
            (
                _ion(chloride, 120.0, "chloride"),
                Segment("polyanion", gelatin, 34.0, "rest", f"{gelatin}\u00a034"),
            ),
        ),
    }
