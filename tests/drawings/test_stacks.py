"""Scale of a drawing: the rules of this project (156 for plasma, the fluid's own up to 300)."""

import pytest

from isofolio.drawings.ions import Column, Segment, Sugar, scale_for
from isofolio.drawings.stacks import common_scale, ions_height, present


def _salt(amount: float) -> Column:
    return Column(
        "salt",
        (Segment("sodium", "Na", amount, "sodium", f"Na {amount:g}"),),
        (Segment("chloride", "Cl", amount, "chloride", f"Cl {amount:g}"),),
    )


def _sugared(ions: float, sugar: float) -> Column:
    salt = _salt(ions)
    return Column("sweet", salt.cations, salt.anions, Sugar(sugar, "glucose"))


@pytest.mark.parametrize(
    ("column", "scale"),
    [
        (_salt(154.0), 156.0),
        (_salt(156.0), 156.0),
        (_salt(156.2), 157.0),
        (_salt(300.0), 300.0),
        (_salt(300.1), None),
        (_salt(1000.0), None),
        (_sugared(0.0, 277.5), 278.0),
        (_sugared(30.8, 222.0), 253.0),
        (_sugared(40.0, 277.5), 300.0),
        (_sugared(0.0, 2775.0), 300.0),
        (_sugared(10.0, 20.0), 156.0),
    ],
)
def test_scale(column: Column, scale: float | None) -> None:
    assert scale_for(column) == scale


def test_common_scale_is_the_tallest_and_names_the_fluid_that_is_too_tall() -> None:
    assert common_scale([_salt(40.0), _salt(170.0)]) == 170.0
    with pytest.raises(ValueError, match=r"^salt: 1000 mEq/L is too tall.*diluted"):
        common_scale([_salt(40.0), _salt(1000.0)])


def test_the_taller_side_carries_the_sugar(fluids: dict[str, Column], plasma: Column) -> None:
    assert ions_height(fluids["gelatin"]) == pytest.approx(154.0)
    uneven = Column("uneven", fluids["saline"].cations, ())
    assert ions_height(uneven) == 154.0
    assert ions_height(plasma) == pytest.approx(150.7)


def test_an_absent_ion_has_no_segment() -> None:
    assert present(_salt(0.0).cations) == ()


@pytest.mark.parametrize("amount", [-1.0, float("nan"), float("inf")])
def test_an_amount_that_is_no_amount_is_refused(amount: float) -> None:
    with pytest.raises(ValueError, match="salt: sodium is"):
        scale_for(_salt(amount))
    with pytest.raises(ValueError, match="sweet: sugar is"):
        scale_for(_sugared(1.0, amount))


def test_unknown_family_and_missing_words_are_refused() -> None:
    odd = Segment("lithium", "Li", 1.0, "lithium", "Li 1")
    with pytest.raises(ValueError, match="family 'lithium'; use one of sodium"):
        scale_for(Column("odd", (odd,), ()))
    mute = Segment("sodium", "Na", 1.0, "sodium", " ")
    with pytest.raises(ValueError, match="no words"):
        scale_for(Column("mute", (mute,), ()))
