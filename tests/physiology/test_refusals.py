"""What cannot be is refused, and the sentence names the thing that is wrong.

No published source: how the program speaks.
"""

import pytest

from isofolio.physiology import acid_base, compartments, dilution, rates, sodium

BLOOD = dilution.blood()
REFUSED = (
    (rates.drops_per_minute, (-1.0, 60.0, 20.0), "volume is -1.0,"),
    (rates.drops_per_minute, (500.0, 0.0, 20.0), "time is 0.0,"),
    (rates.drops_per_minute, (500.0, 60.0, 0.0), "drops per mL is 0.0,"),
    (rates.pump_rate, (-1.0, 4.0), "volume is -1.0,"),
    (rates.pump_rate, (500.0, 0.0), "time is 0.0,"),
    (rates.running_time, (-1.0, 125.0), "volume is -1.0,"),
    (rates.running_time, (500.0, 0.0), "rate is 0.0,"),
    (rates.glucose_rate, (-1.0, 100.0, 3.0), "glucose is -1.0,"),
    (rates.glucose_rate, (100.0, -1.0, 3.0), "rate is -1.0,"),
    (rates.glucose_rate, (100.0, 100.0, 0.0), "weight is 0.0,"),
    (rates.maintenance_per_day, (0.0,), "weight is 0.0,"),
    (rates.maintenance_per_hour, (0.0,), "weight is 0.0,"),
    (rates.maintenance_ions, (-1.0,), "volume is -1.0,"),
    (compartments.equilibrate, (-1.0,), "effective osmolarity is -1.0,"),
    (compartments.equilibrate, (308.0, -1.0), "volume is -1.0,"),
    (compartments.teaching_split, (-1.0,), "free water is -1.0,"),
    (compartments.teaching_split, (0.5, -1.0), "volume is -1.0,"),
    (sodium.total_body_water, (0.0, 0.6), "weight is 0.0,"),
    (sodium.total_body_water, (70.0, 0.0), "body water factor is 0.0,"),
    (sodium.sodium_change, (154.0, 0.0, 110.0, 35.0, -1.0), "volume is -1.0,"),
    (sodium.sodium_change, (154.0, 0.0, 110.0, 0.0), "body water is 0.0,"),
    (sodium.sodium_change_linear, (154.0, 0.0, 110.0, 35.0, -1.0), "volume is -1.0,"),
    (acid_base.ph_from_bicarbonate, (0.0, 40.0), "bicarbonate is 0.0,"),
    (acid_base.ph_from_bicarbonate, (24.0, 0.0), "carbon dioxide pressure is 0.0,"),
    (dilution.acid_base, (dilution.Blood(38.0, 40.0, -1.0, 1.0),), "albumin is -1.0,"),
    (dilution.acid_base, (dilution.Blood(38.0, 40.0, 42.0, -1.0),), "phosphate is -1.0,"),
    (dilution.infuse, (BLOOD, 0.0, -1.0), "volume is -1.0,"),
)


@pytest.mark.parametrize(("function", "arguments", "named"), REFUSED)
def test_the_sentence_names_what_is_wrong(function, arguments, named):
    with pytest.raises(ValueError, match="write it as") as caught:
        function(*arguments)
    assert str(caught.value).startswith(named)


@pytest.mark.parametrize(
    ("volumes", "named"),
    [
        ({"volume_before": 0.0}, "extracellular volume is 0.0,"),
        ({"volume_after": 0.0}, "extracellular volume after the infusion is 0.0,"),
    ],
)
def test_an_infusion_names_the_impossible_volume(volumes, named):
    with pytest.raises(ValueError, match="write it as") as caught:
        dilution.infuse(BLOOD, 0.0, **volumes)
    assert str(caught.value).startswith(named)


def test_a_litre_is_meant_where_no_volume_is_told():
    """One litre is the volume of every figure that a page prints without another."""
    change = sodium.sodium_change_linear(513.0, 0.0, 110.0, 35.0)
    assert change == sodium.sodium_change_linear(513.0, 0.0, 110.0, 35.0, 1.0)
    assert change != sodium.sodium_change_linear(513.0, 0.0, 110.0, 35.0, 2.0)
    assert dilution.infuse(BLOOD, 0.0) == dilution.infuse(BLOOD, 0.0, 1.0)
    assert dilution.infuse(BLOOD, 0.0) != dilution.infuse(BLOOD, 0.0, 2.0)
    assert sodium.sodium_change(513.0, 0.0, 110.0, 35.0) != sodium.sodium_change(
        513.0, 0.0, 110.0, 35.0, 2.0
    )


def test_each_ion_counts_by_its_charge_in_the_apparent_difference():
    """Two equivalents a mole of calcium and of magnesium, by definition of the equivalent."""
    told = {
        "sodium": 140.0,
        "potassium": 4.0,
        "ionised_calcium": 1.2,
        "magnesium": 0.8,
        "chloride": 104.0,
        "lactate": 1.0,
    }
    at_rest = acid_base.sid_apparent(**told)
    assert at_rest == pytest.approx(43.0)
    worth = {"sodium": 1, "potassium": 1, "ionised_calcium": 2, "magnesium": 2, "chloride": -1}
    for ion, charge in {**worth, "lactate": -1}.items():
        more = acid_base.sid_apparent(**{**told, ion: told[ion] + 3.0})
        assert more - at_rest == pytest.approx(3.0 * charge)
